/** A prepared design on one setup: solved on the rough mesh at once, on the fine one when it is asked for. */
import type { PullIn } from './column-pull.js';
import type { SolveOptions } from './conjugate-gradients.js';
import type { Goods } from './goods.js';
import { WrinkleLaw } from './plate-wrinkle.js';
import type { PreparedDesign } from './prepared-design.js';
import { type Puckering, puckering, pullsOf } from './puckering.js';
import { Released, type Treatment } from './release.js';
import type { Settings } from './settings.js';
import { type Sewn, sew } from './sewing.js';

/** Differences, not heights, are told from the rough mesh. */
export const ROUGH_OPTIONS: SolveOptions = { tolerance: 5e-3, maxIterations: 300 };
/** Below this the ratio of two heights says nothing, mm. */
const LEAST_MM = 0.02;

export class SolvedSetup {
  readonly sewn: Sewn;
  readonly released: Released;
  /** Strains at the cells of the rough view. */
  readonly strains: Float64Array;
  readonly law: WrinkleLaw;
  /** Heights at those cells, and what is seen of them: the whole design. */
  readonly heights: Float64Array;
  readonly roughMm: number;
  private solved: Puckering | null = null;

  /** @param like the same design on a setup much like this: solving goes on from there */
  constructor(
    readonly design: PreparedDesign,
    readonly goods: Goods,
    readonly settings: Settings,
    readonly treatment: Treatment,
    like?: SolvedSetup,
  ) {
    const { rough } = design;
    const same = like?.design === design && (like.goods.backing === null) === (goods.backing === null);
    // What a laundering dissolves was there in sewing, and the other way round: each is sewn for itself.
    this.sewn =
      same && like.goods === goods && like.settings === settings
        ? like.sewn
        : sew(rough.design, goods, settings, ROUGH_OPTIONS, same ? like.sewn : undefined);
    this.released = new Released(
      rough.design,
      goods,
      settings,
      this.sewn,
      treatment,
      ROUGH_OPTIONS,
      same ? like.released : undefined,
    );
    this.strains = rough.strains(this.released.strain);
    this.law = new WrinkleLaw(goods.fabric);
    this.heights = rough.heights(this.strains, this.law, settings.longestSpan);
    this.roughMm = rough.seenWhole(this.heights);
  }

  /** On the fine mesh. */
  get fine(): Puckering {
    const { design, goods, settings, treatment, released } = this;
    this.solved ??= puckering(
      design.fine.design,
      goods,
      settings,
      treatment,
      undefined,
      released.taut,
      design.fine,
    );
    return this.solved;
  }

  /** The same setup but for what is a little different, on the rough mesh; threads stay as taut as they are. */
  changed(goods: Goods, settings: Settings, pull?: Float64Array): Changed {
    const { design, released, sewn, treatment } = this;
    const meshed = pull ? { ...design.rough.design, pull } : design.rough.design;
    const sewnThen = sew(meshed, goods, settings, ROUGH_OPTIONS, sewn);
    const then = new Released(meshed, goods, settings, sewnThen, treatment, ROUGH_OPTIONS, {
      taut: released.taut,
      solution: released.solution,
      frozen: released,
    });
    return { strains: design.rough.strains(then.strain), pulls: pullsOf(meshed, sewnThen) };
  }
}

/** What a change of a setup is looked at for: strains at the cells of the rough view, and pull-in. */
export interface Changed {
  readonly strains: Float64Array;
  readonly pulls: readonly PullIn[];
}

/** By what a height of the rough mesh is to be taken times to be one of the fine mesh. */
export const levelOf = (fineMm: number, roughMm: number): number =>
  (fineMm + LEAST_MM) / (roughMm + LEAST_MM);
