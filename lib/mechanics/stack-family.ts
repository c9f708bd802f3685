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
import {
  mapsLater,
  mapsOf,
  type RangedRisk,
  type Risk,
  type RiskMaps,
  ranged,
  risksOfSetup,
} from './risk.js';
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

/** What is known of a stack that was worked out on the fine mesh: the setup itself fills much more memory. */
interface FineStack {
  readonly objects: NowAndWashed<readonly Risk[]>;
  /** Fine over rough. */
  readonly level: StackHeights;
  /** Made when they are asked for. */
  readonly maps: NowAndWashed<() => RiskMaps>;
}

/** A setup that was worked out on the fine mesh, with what its ranges are drawn from. */
interface Undrawn extends Solved {
  readonly risk: Risk;
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
  private readonly rough = new Map<string, StackHeights>();
  private readonly fine = new Map<string, FineStack>();
  /** Until their ranges are asked for. */
  private readonly undrawn = new Map<string, NowAndWashed<Undrawn>>();
  private readonly drawn = new Map<string, NowAndWashed<RangedRisk>>();
  private latest: { readonly key: string; readonly solved: NowAndWashed<Solved> } | undefined;

  constructor(
    private readonly design: PreparedDesign,
    private readonly conditions: FamilyConditions,
    private readonly catalogue: Catalogue,
    private readonly parameters: MechanicsParameters,
    private readonly level: FineLevel,
  ) {}

  /** On the rough mesh; of one stack at a time, as a setup fills much memory. */
  private solve(stack: readonly StackedSheet[]): NowAndWashed<Solved> {
    const key = stackText(stack);
    if (this.latest?.key === key) return this.latest.solved;
    this.latest = undefined;
    const now = this.setup(stack, 0);
    const { washes } = this.conditions;
    this.latest = { key, solved: { now, washed: washes > 0 ? this.setup(stack, washes, now) : now } };
    return this.latest.solved;
  }

  /**
   * @param sewn the same stack as sewn: what laundering leaves as it is has been sewn already
   * @param exact whatever else is looked at, it comes out to the last digit as it does where it is the only one
   */
  private setup(stack: readonly StackedSheet[], washes: number, sewn?: Solved, exact = false): Solved {
    const { design, conditions, catalogue, parameters } = this;
    const at = caseOf({ ...conditions, stack, washes }, { catalogue, parameters });
    const alike = sewn?.at.key === at.key ? sewn.setup : undefined;
    const { layup, settings } = alike ?? at;
    const like = exact ? alike : sewn?.setup;
    return { at, setup: new SolvedSetup(design, layup, settings, at.treatment, like, exact) };
  }

  heights(stack: readonly StackedSheet[]): StackHeights {
    this.level.at ??= this.onFine(stack).level;
    const { nowMm, washedMm } = this.level.at;
    const rough = this.roughHeights(stack);
    return { nowMm: nowMm * rough.nowMm, washedMm: washedMm * rough.washedMm };
  }

  private roughHeights(stack: readonly StackedSheet[]): StackHeights {
    const key = stackText(stack);
    const known = this.rough.get(key);
    if (known) return known;
    const { now, washed } = this.solve(stack);
    const heights = { nowMm: now.setup.roughMm, washedMm: washed.setup.roughMm };
    this.rough.set(key, heights);
    return heights;
  }

  detail(stack: readonly StackedSheet[]): NowAndWashed<RangedRisk> {
    const key = stackText(stack);
    const known = this.drawn.get(key);
    if (known) return known;
    this.onFine(stack);
    const { now, washed } = this.undrawn.get(key)!;
    const asSewn = this.rangedOf(now);
    const drawn = { now: asSewn, washed: washed === now ? asSewn : this.rangedOf(washed) };
    this.undrawn.delete(key);
    this.drawn.set(key, drawn);
    return drawn;
  }

  private rangedOf({ at, setup, risk }: Undrawn): RangedRisk {
    const { parameters } = this;
    return ranged(risk, new Draws(at, setup, parameters).wholeHeights(), parameters);
  }

  private onFine(stack: readonly StackedSheet[]): FineStack {
    const key = stackText(stack);
    const known = this.fine.get(key);
    if (known) return known;
    this.latest = undefined;
    const now = this.setup(stack, 0, undefined, true);
    const asSewn = this.toldOf(now);
    const { washes } = this.conditions;
    const washed = washes > 0 ? this.setup(stack, washes, now, true) : now;
    const laundered = washed === now ? asSewn : this.toldOf(washed);
    const fine = {
      objects: { now: asSewn.objects, washed: laundered.objects },
      level: { nowMm: asSewn.level, washedMm: laundered.level },
      maps: { now: asSewn.maps, washed: laundered.maps },
    };
    const undrawn = { ...now, risk: asSewn.risk };
    this.undrawn.set(key, {
      now: undrawn,
      washed: washed === now ? undrawn : { ...washed, risk: laundered.risk },
    });
    // What it comes to on the rough mesh is known as well.
    this.rough.set(key, { nowMm: asSewn.roughMm, washedMm: laundered.roughMm });
    this.fine.set(key, fine);
    return fine;
  }

  private toldOf({ setup }: Solved) {
    const { objects, ...risk } = risksOfSetup(setup, this.parameters);
    // All that may follow is solved on the rough mesh.
    setup.forgetFine();
    const { roughMm } = setup;
    return {
      risk,
      objects,
      level: levelOf(setup.fine.heightMm, roughMm),
      roughMm,
      maps: mapsLater(setup),
    };
  }

  objectRisks(stack: readonly StackedSheet[]): NowAndWashed<Risk>[] {
    const { now, washed } = this.fine.get(stackText(stack))?.objects ?? this.solvedObjects(stack);
    return now.map((risk, k) => ({ now: risk, washed: washed[k] }));
  }

  private solvedObjects(stack: readonly StackedSheet[]): NowAndWashed<readonly Risk[]> {
    const { now, washed } = this.solve(stack);
    const of = ({ setup }: Solved) => risksOfSetup(setup, this.parameters).objects;
    return { now: of(now), washed: of(washed) };
  }

  maps(stack: readonly StackedSheet[]): NowAndWashed<RiskMaps> {
    const known = this.fine.get(stackText(stack))?.maps;
    if (known) return { now: known.now(), washed: known.washed() };
    const { now, washed } = this.solve(stack);
    return { now: mapsOf(now.setup), washed: mapsOf(washed.setup) };
  }
}
