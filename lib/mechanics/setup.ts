/** A prepared design on one setup: solved on the rough mesh at once, on the fine one when it is asked for. */
import { carried } from './between-meshes.js';
import type { PullIn } from './column-pull.js';
import { SOLVE_OPTIONS, type Solution, type SolveOptions } from './conjugate-gradients.js';
import type { Layup } from './layup.js';
import { freeNodes } from './mesh.js';
import type { MeshedDesign } from './meshed-design.js';
import { WrinkleLaw } from './plate-wrinkle.js';
import type { PreparedDesign } from './prepared-design.js';
import { type Puckering, puckering, pullsOf } from './puckering.js';
import { type FabricTreatment, Released } from './release.js';
import type { ParameterValues } from './settings.js';
import { type HeldLayers, type SewnLayers, type StepsLike, sew } from './sewing.js';
import { SolveRoom } from './solve-room.js';

/** Differences, not heights, are told from the rough mesh. */
export const ROUGH_OPTIONS: SolveOptions = { ...SOLVE_OPTIONS, tolerance: 2e-3 };
/** Below this the ratio of two heights says nothing, mm. */
const LEAST_MM = 0.02;

export class SolvedSetup {
  readonly sewn: SewnLayers;
  readonly released: Released;
  /** Strains at the cells of the rough view. */
  readonly strains: Float64Array;
  readonly law: WrinkleLaw;
  /** Heights at those cells, and what is seen of them: the whole design. */
  readonly heights: Float64Array;
  readonly roughMm: number;
  private solved: Puckering | null = null;
  /** The same layup, sewn once for both. */
  private readonly sewnAlike: SolvedSetup | null;
  private readonly sewnChanged = new Map<string, SewnChanged>();

  /**
   * @param like the same design on a setup much like this: solving goes on from there
   * @param exact only what was sewn of the same layup is shared with it, so that all comes out to the last digit as without it
   */
  constructor(
    readonly design: PreparedDesign,
    readonly layup: Layup,
    readonly settings: ParameterValues,
    readonly treatment: FabricTreatment,
    like?: SolvedSetup,
    private readonly exact = false,
  ) {
    const { rough } = design;
    const options = { ...ROUGH_OPTIONS, room: new SolveRoom() };
    // Movements of one tell where the other begins, but not with a layer and without.
    const near = like && (like.layup.backing === null) === (layup.backing === null) ? like : undefined;
    // What a laundering dissolves was there in sewing, and the other way round: each is sewn for itself.
    this.sewnAlike = near?.layup === layup && near.settings === settings ? near : null;
    this.sewn =
      this.sewnAlike?.sewn ??
      sew(rough.design, layup, settings, options, exact ? undefined : near && stepsOf(near.sewn));
    this.released = new Released(
      rough.design,
      layup,
      settings,
      this.sewn,
      treatment,
      options,
      exact ? undefined : near?.released.like,
    );
    this.strains = rough.strains(this.released.strain);
    this.law = new WrinkleLaw(layup.fabric);
    this.heights = rough.heights(this.strains, this.law, settings.longestSpan);
    this.roughMm = rough.seenWhole(this.heights);
  }

  /** On the fine mesh. Solving begins there at what the rough one says. */
  get fine(): Puckering {
    const { design, layup, settings, treatment, sewn, released, sewnAlike, exact } = this;
    this.solved ??= puckering(
      design.fine.design,
      layup,
      settings,
      treatment,
      undefined,
      {
        sewn: sewnAlike?.fine ?? ((block) => this.onFine(sewn.steps[block], true)),
        released: {
          taut: released.taut,
          solution: this.onFine(released.solution, false),
          before: exact ? undefined : sewnAlike?.fine.released,
        },
      },
      design.fine,
    );
    return this.solved;
  }

  private onFine(solution: Solution, inHoop: boolean): Solution {
    const { fine, rough } = this.design;
    const { mesh, hoop } = fine.design;
    return carried(solution, rough.design.mesh, mesh, freeNodes(mesh, inHoop ? hoop : null));
  }

  /** Gives back most of the memory, where no more is to be solved on the fine mesh. */
  forgetFine(): void {
    this.solved?.released.forget();
  }

  /** The same setup but for what is a little different, on the rough mesh; threads stay as taut as they are. */
  changed(layup: Layup, settings: ParameterValues): Changed {
    const { sewnAlike, design } = this;
    return this.letGo(design.rough.design, layup, settings, (sewnAlike ?? this).sewnOn(layup, settings));
  }

  /** The same with every stitch pulling with a part of its tension. */
  pulled(pull: Float64Array): Changed {
    const { layup, settings, design } = this;
    const meshed = { ...design.rough.design, pull };
    return this.letGo(meshed, layup, settings, this.sewnLike(meshed, layup, settings));
  }

  /** Laundering comes after sewing: a changed setup is sewn once for all that is done with it then. */
  private sewnOn(layup: Layup, settings: ParameterValues): SewnChanged {
    const key = JSON.stringify([layup, settings]);
    const known = this.sewnChanged.get(key) ?? this.sewnLike(this.design.rough.design, layup, settings);
    this.sewnChanged.set(key, known);
    return known;
  }

  private sewnLike(meshed: MeshedDesign, layup: Layup, settings: ParameterValues): SewnChanged {
    const options = { ...ROUGH_OPTIONS, room: new SolveRoom() };
    const sewn = sew(meshed, layup, settings, options, stepsOf(this.sewn));
    const { movement, layerForces } = sewn;
    return { sewn: { movement, layerForces }, pulls: pullsOf(meshed, sewn) };
  }

  private letGo(
    meshed: MeshedDesign,
    layup: Layup,
    settings: ParameterValues,
    { sewn, pulls }: SewnChanged,
  ): Changed {
    const { design, released, treatment } = this;
    const then = new Released(meshed, layup, settings, sewn, treatment, ROUGH_OPTIONS, {
      taut: released.taut,
      solution: released.solution,
      frozen: released,
    });
    return { strains: design.rough.strains(then.strain), pulls };
  }
}

const stepsOf =
  ({ steps }: SewnLayers): StepsLike =>
  (block) =>
    steps[block];

/** A changed setup in the hoop, no more of it than is looked at once the hoop lets go. */
interface SewnChanged {
  readonly sewn: HeldLayers;
  readonly pulls: readonly PullIn[];
}

/** What a change of a setup is looked at for: strains at the cells of the rough view, and pull-in. */
export interface Changed {
  readonly strains: Float64Array;
  readonly pulls: readonly PullIn[];
}

/** By what a height of the rough mesh is to be taken times to be one of the fine mesh. */
export const levelOf = (fineMm: number, roughMm: number): number =>
  (fineMm + LEAST_MM) / (roughMm + LEAST_MM);
