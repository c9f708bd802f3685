/** A prepared design on one setup: solved on the rough mesh at once, on the fine one when it is asked for. */
import { carried, movedBy } from './between-meshes.js';
import type { PullIn } from './column-pull.js';
import type { Solution, SolveOptions } from './conjugate-gradients.js';
import type { Goods } from './goods.js';
import { freeNodes } from './mesh.js';
import { WrinkleLaw } from './plate-wrinkle.js';
import type { PreparedDesign } from './prepared-design.js';
import { type Puckering, type PuckeringLike, puckering, pullsOf } from './puckering.js';
import { Released, type ReleaseLike, type Treatment } from './release.js';
import type { Settings } from './settings.js';
import { type Sewn, sew } from './sewing.js';

/** Differences, not heights, are told from the rough mesh. */
export const ROUGH_OPTIONS: SolveOptions = {
  tolerance: 5e-3,
  maxIterations: 1000,
};
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
    private readonly step?: Step,
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
        ? {
            ...like.released.like,
            ...(step && this.reached(step, like, ({ released }) => released)),
          }
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

  /** @param like the same design on a setup much like this, if there is one that is worked out on the fine mesh */
  solveFine(like?: SolvedSetup): Puckering {
    const { design, goods, settings, treatment } = this;
    this.solved ??= puckering(
      design.fine.design,
      goods,
      settings,
      treatment,
      undefined,
      this.beginning(like?.solved && comparable(this, like) ? like : null),
      design.fine,
    );
    return this.solved;
  }

  /** Where solving on the fine mesh begins: at what the rough one says, and by what that was wrong of a setup much like this. */
  private beginning(like: SolvedSetup | null): PuckeringLike {
    const { design, sewn, released, step } = this;
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
        solution: onFine(everywhere, (one) => one.released.solution),
        ...(like && { before: like.fine.released }),
        ...(like && step && this.reached(step, like, ({ fine }) => fine.released)),
      },
    };
  }

  /** Where a step led to from a setup much like this: there this one begins. */
  private reached(
    { from, to }: Step,
    like: SolvedSetup,
    released: (setup: SolvedSetup) => Released,
  ): Pick<ReleaseLike, 'solution'> {
    return comparable(this, from) && comparable(this, to)
      ? {
          solution: movedBy(released(to).solution, released(like).solution, released(from).solution),
        }
      : {};
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
