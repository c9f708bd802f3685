/** A prepared design on one setup: solved on the rough mesh at once, on the fine one when it is asked for. */
import { carried, movedBy } from './between-meshes.js';
import type { PullIn } from './column-pull.js';
import { SOLVE_OPTIONS, type Solution, type SolveOptions } from './conjugate-gradients.js';
import type { Goods } from './goods.js';
import { freeNodes } from './mesh.js';
import { WrinkleLaw } from './plate-wrinkle.js';
import type { PreparedDesign } from './prepared-design.js';
import { type Puckering, type PuckeringLike, puckering, pullsOf } from './puckering.js';
import { Released, type ReleaseLike, type Treatment } from './release.js';
import type { Settings } from './settings.js';
import { type Sewn, sew } from './sewing.js';

/** Differences, not heights, are told from the rough mesh. */
export const ROUGH_OPTIONS: SolveOptions = { ...SOLVE_OPTIONS, tolerance: 5e-3 };
/** Below this the ratio of two heights says nothing, mm. */
const LEAST_MM = 0.02;

/** What something, say laundering, did to a setup much like the one at hand. */
export interface Step {
  readonly from: SolvedSetup;
  readonly to: SolvedSetup;
}

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

  /**
   * @param like the same design on a setup much like this: solving goes on from there
   * @param step what nearly leads from there to here
   */
  constructor(
    readonly design: PreparedDesign,
    readonly goods: Goods,
    readonly settings: Settings,
    readonly treatment: Treatment,
    like?: SolvedSetup,
    step?: Step,
  ) {
    const { rough } = design;
    const same = like !== undefined && comparable(this, like);
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
      same
        ? { ...like.released.like, ...this.reached(step, ({ released }) => released.solution, like) }
        : undefined,
    );
    this.strains = rough.strains(this.released.strain);
    this.law = new WrinkleLaw(goods.fabric);
    this.heights = rough.heights(this.strains, this.law, settings.longestSpan);
    this.roughMm = rough.seenWhole(this.heights);
  }

  /** On the fine mesh. */
  get fine(): Puckering {
    return this.solveFine();
  }

  /** @param like and `step` as in making it, of those that are worked out on the fine mesh */
  solveFine(like?: SolvedSetup, step?: Step): Puckering {
    const { design, goods, settings, treatment } = this;
    this.solved ??= puckering(
      design.fine.design,
      goods,
      settings,
      treatment,
      undefined,
      this.beginning(like && comparable(this, like) ? like : null, step),
      design.fine,
    );
    return this.solved;
  }

  /** Where solving on the fine mesh begins: at what the rough one says, and by what that was wrong of a setup much like this. */
  private beginning(like: SolvedSetup | null, step?: Step): PuckeringLike {
    const { design, sewn, released } = this;
    const { mesh, hoop } = design.fine.design;
    const from = design.rough.design.mesh;
    const onFine = (free: Uint8Array, of: (puckering: Solved) => Solution): Solution => {
      const now = carried(of(this), from, mesh, free);
      return like ? movedBy(of(like.fine), now, carried(of(like), from, mesh, free)) : now;
    };
    const inHoop = freeNodes(mesh, hoop);
    const everywhere = freeNodes(mesh, null);
    return {
      sewn:
        like?.sewn === sewn
          ? like.fine.sewn
          : {
              steps: sewn.steps.map((_, k) => onFine(inHoop, (one) => one.sewn.steps[k])),
            },
      released: {
        taut: released.taut,
        ...(like && { before: like.fine.released }),
        ...(this.reached(step, ({ fine }) => fine.released.solution, like) ?? {
          solution: onFine(everywhere, (one) => one.released.solution),
        }),
      },
    };
  }

  /** Where a step leads to from a setup much like this; null where nothing of that is known. */
  private reached(
    step: Step | undefined,
    of: (setup: SolvedSetup) => Solution,
    like: SolvedSetup | null,
  ): Required<Pick<ReleaseLike, 'solution'>> | null {
    if (!step || !like || !comparable(this, step.from) || !comparable(this, step.to)) return null;
    return { solution: movedBy(of(step.to), of(like), of(step.from)) };
  }

  /** Gives back most of the memory; what is asked of it after that takes longer. */
  forget(): void {
    this.released.forget();
    this.solved?.released.forget();
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
    return {
      strains: design.rough.strains(then.strain),
      pulls: pullsOf(meshed, sewnThen),
    };
  }
}

/** Sewn and let go, on some mesh. */
type Solved = Pick<SolvedSetup, 'sewn' | 'released'>;

/** Whether movements of one tell where the other begins. */
const comparable = (
  a: Pick<SolvedSetup, 'design' | 'goods'>,
  b: Pick<SolvedSetup, 'design' | 'goods'>,
): boolean => a.design === b.design && (a.goods.backing === null) === (b.goods.backing === null);

/** What a change of a setup is looked at for: strains at the cells of the rough view, and pull-in. */
export interface Changed {
  readonly strains: Float64Array;
  readonly pulls: readonly PullIn[];
}

/** By what a height of the rough mesh is to be taken times to be one of the fine mesh. */
export const levelOf = (fineMm: number, roughMm: number): number =>
  (fineMm + LEAST_MM) / (roughMm + LEAST_MM);
