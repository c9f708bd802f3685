/**
 * Many stacks of backing under one design on one fabric, over one or more underlays, as sewn and after laundering. All are worked out on the rough
 * mesh and put on the fine mesh's level by one of them; those that are to be relied on are worked out on
 * the fine mesh.
 */
import type { Catalogue } from '../materials/catalogue.js';
import { Draws } from './band.js';
import { type Case, caseOf } from './case.js';
import type { StackedSheet } from './layup.js';
import type { MechanicsParameters } from './parameters.js';
import type { PreparedDesign } from './prepared-design.js';
import { mapsOf, type RangedRisk, type Risk, type RiskMaps, ranged, risksOfSetup } from './risk.js';
import { levelOf, SolvedSetup } from './setup.js';
import { stackText } from './stack-notation.js';

/** All but the stack and the underlay. */
export interface FamilyConditions {
  /** Fabric id. */
  readonly fabric: string;
  readonly grainDeg: number;
  readonly hoopStretchPercent: number;
  /** Launderings that `washed` figures stand for; 0 for fabric that is not washed. */
  readonly washes: number;
}

/** Wrinkle height of the whole design, as `assess` gives it without launderings and with them, mm. */
export interface StackHeights {
  readonly nowMm: number;
  readonly washedMm: number;
}

/** Something as sewn, and after the launderings. */
export interface NowAndWashed<T> {
  readonly now: T;
  readonly washed: T;
}

/** One underlay of a design under any stack. */
export interface StackFamily {
  /**
   * Cheap, for ranking: from the rough mesh.
   * @throws LieflatError `unknown-id`, `bad-argument`.
   */
  heights(stack: readonly StackedSheet[]): StackHeights;
  /**
   * Full figures of the whole design, with pull-in and bands.
   * @throws LieflatError `unknown-id`, `bad-argument`.
   */
  detail(stack: readonly StackedSheet[]): NowAndWashed<RangedRisk>;
  /**
   * Risks of every object, in the design's order.
   * @throws LieflatError `unknown-id`, `bad-argument`.
   */
  objectRisks(stack: readonly StackedSheet[]): NowAndWashed<Risk>[];
  /**
   * How the fabric wrinkles, cell by cell.
   * @throws LieflatError `unknown-id`, `bad-argument`.
   */
  maps(stack: readonly StackedSheet[]): NowAndWashed<RiskMaps>;
}

interface Solved {
  readonly at: Case;
  readonly setup: SolvedSetup;
}

interface DetailedStack {
  readonly risks: NowAndWashed<RangedRisk>;
  readonly solved: NowAndWashed<Solved>;
}

/**
 * One family an underlay.
 * @param designs the same top stitching over other underlays
 */
export const stackFamilies = (
  designs: readonly PreparedDesign[],
  conditions: FamilyConditions,
  catalogue: Catalogue,
  parameters: MechanicsParameters,
): StackFamily[] => {
  const level: FineLevel = { at: null };
  return designs.map((design) => new Family(design, conditions, catalogue, parameters, level));
};

/** Fine over rough, as sewn and washed, of the first stack looked at over the first underlay. */
interface FineLevel {
  at: StackHeights | null;
}

class Family implements StackFamily {
  private readonly solved = new Map<string, NowAndWashed<Solved>>();
  private latest: NowAndWashed<Solved> | undefined;
  private readonly details = new Map<string, DetailedStack>();

  constructor(
    private readonly design: PreparedDesign,
    private readonly conditions: FamilyConditions,
    private readonly catalogue: Catalogue,
    private readonly parameters: MechanicsParameters,
    private readonly level: FineLevel,
  ) {}

  private solve(stack: readonly StackedSheet[]): NowAndWashed<Solved> {
    const key = stackText(stack);
    const known = this.solved.get(key);
    if (known) return known;
    const { design, conditions, catalogue, parameters, latest } = this;
    const one = (washes: number, sewn?: Solved): Solved => {
      const at = caseOf({ ...conditions, stack, washes }, { catalogue, parameters });
      // Fabric that laundering leaves as they are have been sewn already.
      const { layup, settings } = sewn && sewn.at.key === at.key ? sewn.setup : at;
      return { at, setup: new SolvedSetup(design, layup, settings, at.treatment, sewn?.setup) };
    };
    latest?.now.setup.forget();
    latest?.washed.setup.forget();
    const now = one(0);
    this.latest = { now, washed: conditions.washes > 0 ? one(conditions.washes, now) : now };
    this.solved.set(key, this.latest);
    return this.latest;
  }

  heights(stack: readonly StackedSheet[]): StackHeights {
    if (this.level.at === null) {
      const { now, washed } = this.detailed(stack).solved;
      const fineOverRough = ({ fine, roughMm }: SolvedSetup) => levelOf(fine.heightMm, roughMm);
      this.level.at = { nowMm: fineOverRough(now.setup), washedMm: fineOverRough(washed.setup) };
    }
    const { now, washed } = this.solve(stack);
    return {
      nowMm: this.level.at.nowMm * now.setup.roughMm,
      washedMm: this.level.at.washedMm * washed.setup.roughMm,
    };
  }

  detail(stack: readonly StackedSheet[]): NowAndWashed<RangedRisk> {
    return this.detailed(stack).risks;
  }

  /** Solved by itself: whatever else is looked at, it comes out to the last digit as it does where it is the only one. */
  private detailed(stack: readonly StackedSheet[]): DetailedStack {
    const key = stackText(stack);
    const known = this.details.get(key);
    if (known) return known;
    const { design, conditions, catalogue, parameters, latest } = this;
    latest?.now.setup.forget();
    latest?.washed.setup.forget();
    const alone = (washes: number, sewn?: Solved): Solved => {
      const at = caseOf({ ...conditions, stack, washes }, { catalogue, parameters });
      const like = sewn?.at.key === at.key ? sewn.setup : undefined;
      const { layup, settings } = like ?? at;
      return { at, setup: new SolvedSetup(design, layup, settings, at.treatment, like, true) };
    };
    const one = ({ at, setup }: Solved): RangedRisk => {
      const { objects: _, ...risk } = risksOfSetup(setup, parameters);
      return ranged(risk, new Draws(at, setup, parameters).wholeHeights(), parameters);
    };
    const now = alone(0);
    const asSewn = one(now);
    const washed = conditions.washes > 0 ? alone(conditions.washes, now) : now;
    const risks = { now: asSewn, washed: washed === now ? asSewn : one(washed) };
    now.setup.forget();
    washed.setup.forget();
    const solved = { now, washed };
    this.solved.set(key, solved);
    this.details.set(key, { risks, solved });
    return { risks, solved };
  }

  objectRisks(stack: readonly StackedSheet[]): NowAndWashed<Risk>[] {
    const { now, washed } = this.solve(stack);
    const [a, b] = [now, washed].map(({ setup }) => risksOfSetup(setup, this.parameters).objects);
    return a.map((risk, k) => ({ now: risk, washed: b[k] }));
  }

  maps(stack: readonly StackedSheet[]): NowAndWashed<RiskMaps> {
    const { now, washed } = this.solve(stack);
    return { now: mapsOf(now.setup), washed: mapsOf(washed.setup) };
  }
}
