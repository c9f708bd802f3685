/**
 * Many stacks of backing under one design on one fabric, over one or more underlays, as sewn and after laundering: a few full solves, then a
 * small dense system a stack (see `reduced-basis.ts`). Wrinkles are worked out on the cells alone that can belong to the worst patch.
 */
import type { Catalogue } from '../materials/catalogue.js';
import type { Case } from './drivers.js';
import { type Goods, goodsOf, type StackedSheet, sameSheets } from './goods.js';
import type { MechanicsParameters } from './parameters.js';
import type { PreparedDesign } from './prepared-design.js';
import { Movement, pullIn } from './pull-in.js';
import { ReducedBasis } from './reduced-basis.js';
import { type ReducedResponse, ReducedUnderlay } from './reduced-underlay.js';
import { caseOf, type Risk, riskOf, viewOf } from './risk.js';
import { scoreOf } from './score.js';
import { confirmSnapshot, takeSnapshots } from './snapshots.js';
import { spreadOut } from './spread.js';
import { rangeOf, variationsOf } from './uncertainty.js';

/** All but the stack and the underlay. */
export interface FamilyConditions {
  /** Fabric id. */
  readonly fabric: string;
  readonly grainDeg: number;
  readonly hoopStretchPercent: number;
  /** Launderings that `washed` figures stand for; 0 for goods that are not washed. */
  readonly washes: number;
}

/** Wrinkle height of the whole design, as `assess` gives it without launderings and with them, mm. */
export interface StackHeights {
  readonly nowMm: number;
  readonly washedMm: number;
}

/** A risk and its first-order range over materials and parameters. */
export interface RangedRisk extends Risk {
  readonly range: {
    readonly score: [low: number, high: number];
    readonly wrinkleMm: [low: number, high: number];
  };
}

/** Something as sewn, and after the launderings. */
export interface NowAndWashed<T> {
  readonly now: T;
  readonly washed: T;
}

/** One underlay of a design under any stack. */
export interface StackFamily {
  /**
   * Cheap. Within 2 % or 0.005 mm of `assess` wherever it was compared on a design as sewn, within twice that on other underlays: measured,
   * not bounded. A stack that the family was not made for may be farther off.
   * @throws LieflatError `unknown-id`, `bad-argument`.
   */
  heights(stack: readonly StackedSheet[]): StackHeights;
  /**
   * The same from a solve of its own for this very stack, with every cell looked at: for one that is to be relied on.
   * @throws LieflatError `unknown-id`, `bad-argument`.
   */
  confirmed(stack: readonly StackedSheet[]): StackHeights;
  /**
   * Full figures of the whole design, with pull-in and ranges. How the tacking parameters change a height is worked out with a part of the cells.
   * @param heights by which the stack was judged: those of the risks are these
   * @throws LieflatError `unknown-id`, `bad-argument`.
   */
  detail(stack: readonly StackedSheet[], heights?: StackHeights): NowAndWashed<RangedRisk>;
  /**
   * Risks of every object, in the design's order.
   * @throws LieflatError `unknown-id`, `bad-argument`.
   */
  objectRisks(stack: readonly StackedSheet[]): NowAndWashed<Risk>[];
}

/**
 * One family an underlay.
 *
 * @param designs the first as sewn; the others differ from it in the underlay alone and share its grid ({@link prepareRelaid})
 * @param stacks all that will be asked for: the full solves are chosen so that they serve these
 * @throws LieflatError `unknown-id`, `bad-argument`.
 */
export function stackFamilies(
  designs: readonly PreparedDesign[],
  stacks: readonly (readonly StackedSheet[])[],
  conditions: FamilyConditions,
  catalogue: Catalogue,
  parameters: MechanicsParameters,
): StackFamily[] {
  if (designs.length === 0) return [];
  const [{ grid }] = designs;
  const basis = new ReducedBasis(grid);
  const looked = stacks.length > 0 ? stacks : [[]];
  const at = (design: PreparedDesign, stack: readonly StackedSheet[], washes: number): Case =>
    caseOf(design, { ...conditions, stack, washes }, catalogue, parameters);
  const pairs = looked.map((stack) => ({
    now: at(designs[0], stack, 0),
    washed: at(designs[0], stack, conditions.washes),
  }));
  const spread = spreadOut(pairs.map(({ now }) => now.goods)).map((k) => pairs[k]);
  const underlays = designs.map((design) => new ReducedUnderlay(design, basis, spread));
  takeSnapshots(underlays, pairs, spread);
  return underlays.map((underlay) => new Family(underlay, catalogue, parameters, conditions.washes, at));
}

class Family implements StackFamily {
  constructor(
    private readonly underlay: ReducedUnderlay,
    private readonly catalogue: Catalogue,
    private readonly parameters: MechanicsParameters,
    private readonly washes: number,
    private readonly at: (design: PreparedDesign, stack: readonly StackedSheet[], washes: number) => Case,
  ) {}

  private cases(stack: readonly StackedSheet[]): Case[] {
    const { washes, underlay } = this;
    return (washes > 0 ? [0, washes] : [0]).map((n) => this.at(underlay.design, stack, n));
  }

  heights(stack: readonly StackedSheet[]): StackHeights {
    const [nowMm, washedMm = nowMm] = this.underlay.heights(this.cases(stack));
    return { nowMm, washedMm };
  }

  confirmed(stack: readonly StackedSheet[]): StackHeights {
    const cases = this.cases(stack);
    const [now, washed = now] = cases;
    confirmSnapshot(this.underlay, { now, washed });
    const [nowMm, washedMm = nowMm] = this.underlay.heightsOnAll(cases);
    return { nowMm, washedMm };
  }

  detail(stack: readonly StackedSheet[], heights = this.heights(stack)): NowAndWashed<RangedRisk> {
    const { parameters } = this;
    const given = [heights.nowMm, heights.washedMm];
    const scoreAt = (mm: number) => scoreOf(mm, parameters.scoreHalf.value);
    const [now, washed = now] = this.answered(stack).map(({ at, response, pulls }, k): RangedRisk => {
      const most = pulls.reduce((max, mm) => Math.max(max, mm), 0);
      const range = this.range(at, given[k], response);
      return {
        ...riskOf(parameters)(given[k], most),
        range: { wrinkleMm: range, score: [scoreAt(range[0]), scoreAt(range[1])] },
      };
    });
    return { now, washed };
  }

  objectRisks(stack: readonly StackedSheet[]): NowAndWashed<Risk>[] {
    const { underlay } = this;
    const risk = riskOf(this.parameters);
    const [now, washed = now] = this.answered(stack).map(({ at, response, pulls }) => {
      const [, ...ofObjects] = viewOf(underlay.design)(underlay.everywhere(at, response));
      return ofObjects.map((mm, k) => risk(mm, pulls[k]));
    });
    return now.map((risk, k) => ({ now: risk, washed: washed[k] }));
  }

  /** How the goods answer, and how far the edges of every object move in, mm. */
  private answered(
    stack: readonly StackedSheet[],
  ): { at: Case; response: ReducedResponse; pulls: number[] }[] {
    let sewn: { goods: Goods; pulls: number[] } | null = null;
    return this.cases(stack).map((at) => {
      const response = this.underlay.respond(at);
      // Laundering moves no edge by itself.
      if (!sewn || !sameSheets(sewn.goods, at.goods))
        sewn = { goods: at.goods, pulls: this.pulls(at, response) };
      return { at, response, pulls: sewn.pulls };
    });
  }

  private pulls({ goods, settings }: Case, response: ReducedResponse): number[] {
    const { design } = this.underlay;
    const steps = this.underlay.steps(goods, settings, response);
    const movement = new Movement(
      design.grid,
      steps.map((potential) => design.solver.displacement({ potential })),
      settings.tension,
    );
    return design.objects.map((object) => pullIn(movement, design.stitches, object).alongStitchMm);
  }

  private range(at: Case, wrinkleMm: number, response: ReducedResponse): [low: number, high: number] {
    const { underlay, catalogue } = this;
    const exact = underlay.height(at, response);
    let rough: number | null = null;
    const sensitivities = variationsOf(at, this.parameters).map(({ source, low, high, reach }) => {
      const tacking = reach === 'tacking';
      if (tacking) rough ??= underlay.tackedOtherwise(at, at.settings);
      const start = tacking ? (rough ?? exact) : exact;
      const [atLow, atHigh] = [low, high].map(({ choice, settings = at.settings, thread }) => {
        const goods = choice ? goodsOf(catalogue, choice) : at.goods;
        const changed: Case = { ...at, goods, settings, choice: choice ?? at.choice };
        if (tacking) return underlay.tackedOtherwise(changed, settings) - start;
        const answer = reach === 'wrinkles' ? response : underlay.respond(changed, thread);
        return underlay.height(changed, answer) - start;
      });
      return { source, atLow, atHigh };
    });
    return rangeOf(wrinkleMm, sensitivities);
  }
}
