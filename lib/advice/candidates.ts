/** What a search chooses between: the stacks that the rules of the trade leave, over the underlays in question, as the rough mesh ranks them. */
import { memoize, once } from '../core/memoize.js';
import type { Design } from '../format/design.js';
import type { HoopField } from '../materials/places.js';
import type { Prices } from '../materials/prices.js';
import type { Thread } from '../materials/threads.js';
import { atSpeed, type MachineProfile, secondsOfStitches, sewSeconds } from '../measure/sew-time.js';
import type { ThreadUse } from '../measure/thread-length.js';
import type { StackedSheet } from '../mechanics/layup.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import { prepareDesign } from '../mechanics/prepared-design.js';
import { gradeOf, scoreOf } from '../mechanics/score.js';
import { type StackFamily, type StackHeights, stackFamilies } from '../mechanics/stack-family.js';
import { stackText } from '../mechanics/stack-notation.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import type { SewnDesign } from '../stitch/relaid.js';
import type { Accepted } from './accepted.js';
import { costOf } from './cost.js';
import { toolsFor } from './finishing.js';
import type { AdviceJob } from './job.js';
import type { Judged } from './pareto-front.js';
import type { Cost } from './plan.js';
import type { AskedRun } from './plan-price.js';
import type { Why } from './reason.js';
import { allowedStacks, rulesOn } from './stack-space.js';
import { treatmentsOf, type UnderlayTreatment } from './treatments.js';

export interface SearchInput {
  readonly job: AdviceJob;
  readonly design: Design;
  readonly sewn: SewnDesign;
  readonly thread: Thread;
  readonly grainDeg: number;
  readonly hoopStretchPercent: number;
  readonly accepted: Accepted;
  /** The hoop it is sewn in; the smallest that holds the design where nobody says. */
  readonly hoop: HoopField | null;
  readonly prices: Prices;
  /** Ids of the sheets that may be chosen; any may be looked at alone. */
  readonly stock: readonly string[];
  readonly machine: MachineProfile;
  readonly threadUse: ThreadUse;
  readonly parameters: MechanicsParameters;
  readonly run?: AskedRun;
  /** Look at this stack alone. */
  readonly only?: readonly StackedSheet[];
}

/** A stack over an underlay, with what it comes to. */
export interface PlanCandidate extends Judged {
  readonly stack: readonly StackedSheet[];
  readonly family: StackFamily;
  readonly treatment: UnderlayTreatment;
  readonly cost: Cost;
}

/** An underlay is changed only where that lowers the wrinkles by so much, mm, and by this part of them: less is not sure to be a gain. */
const WORTH_CHANGING_MM = 0.03;
const WORTH_CHANGING_PART = 0.15;

/** A stack that the rules leave, before anything is worked out on it. */
export interface StackOffer {
  readonly stack: readonly StackedSheet[];
  /** Cost of a piece at least, whichever underlay is laid. */
  readonly leastTotal: number;
}

/** How stacks rank that were looked at: plans by the stack's text, one for every underlay that is worth laying on it. */
export type RankedStacks = ReadonlyMap<string, readonly RankedPlan[]>;

/** An underlay on a stack, as the rough mesh ranks it. */
export interface RankedPlan {
  /** Laid under the columns that call for a lighter underlay; null leaves theirs as it came. */
  readonly to: LaidUnderlay | null;
  /** Cost of a piece. */
  readonly total: number;
  readonly nowMm: number;
  readonly washedMm: number;
  /** Most likely good enough. */
  readonly likely: boolean;
}

/** The stacks under the underlays in question, none of which is worked out before it is asked for. */
export interface OpenCandidates {
  /** Stacks that were looked at, those of fewer sheets first. */
  readonly looked: readonly (readonly StackedSheet[])[];
  readonly rules: readonly Why[];
  /** How many underlays were in question. */
  readonly underlays: number;
  /** With all underlay to the last stitch as it came. */
  readonly asItCame: StackFamily;
  /** Cost of a piece on a stack at least. */
  leastTotal(stack: readonly StackedSheet[]): number;
  /** One of the stacks over the underlay as it came, and over the lighter one that lowers the wrinkles most. */
  on(stack: readonly StackedSheet[]): readonly PlanCandidate[];
}

/** The same with all stacks worked out. */
export interface Candidates extends Omit<OpenCandidates, 'on' | 'leastTotal'> {
  readonly candidates: readonly PlanCandidate[];
}

/** @param known what stacks of the same job came to before; more may be added to it */
export function openCandidates(input: SearchInput, known: RankedStacks = new Map()): OpenCandidates {
  const { job, sewn, thread, accepted, parameters, only, hoop } = input;
  const { stacks, why } = stacksFor(input);
  const looked = only ? [only] : stacks;
  const { asItCame, offered: all } = treatmentsOf(sewn, job, input.threadUse);
  const isOffered = all[0] === asItCame;
  const designs = [...all, ...(isOffered ? [] : [asItCame])].map((one) =>
    prepareDesign(one.sewn.stitches, one.sewn.objects, thread, hoop ?? undefined, job.fabric.cap),
  );
  const conditions = {
    fabric: job.fabric.id,
    grainDeg: input.grainDeg,
    hoopStretchPercent: input.hoopStretchPercent,
    washes: accepted.washes,
  };
  const families = stackFamilies(designs, conditions, job.catalogue, parameters);
  const costs = costsOf(input);
  const offered = all.map((treatment, k) => ({ treatment, family: families[k], costOn: costs(treatment) }));
  const lighter = once(() => bestLighter(looked[0], offered));
  return {
    looked,
    rules: only ? rulesOn(job, only) : why,
    underlays: all.length,
    asItCame: families[isOffered ? 0 : all.length],
    leastTotal: (stack) => Math.min(...offered.map(({ costOn }) => costOn(stack).total)),
    on: memoize((stack) => {
      const plans = known.get(stackText(stack));
      return plans ? asRanked(stack, plans, offered) : ranked(stack, [offered[0], ...lighter()]);
    }),
  };
}

export const allOf = ({ looked, on, ...rest }: OpenCandidates): Candidates => ({
  ...rest,
  looked,
  candidates: looked.flatMap(on),
});

/** An underlay that is offered, and what it comes to. */
interface Offer {
  readonly treatment: UnderlayTreatment;
  readonly family: StackFamily;
  readonly costOn: (stack: readonly StackedSheet[]) => Cost;
}

function candidateOf(
  stack: readonly StackedSheet[],
  { treatment, family, costOn }: Offer,
  { nowMm, washedMm }: StackHeights,
): PlanCandidate {
  const cost = costOn(stack);
  const turned = stack.filter(({ angleDeg }) => angleDeg !== 0).length;
  const effort = 10 * stack.length + turned + treatment.changes.length / 1000;
  return { total: cost.total, nowMm, washedMm, effort, stack, family, treatment, cost };
}

const asRanked = (
  stack: readonly StackedSheet[],
  plans: readonly RankedPlan[],
  offered: readonly Offer[],
): PlanCandidate[] =>
  plans.map((plan) => candidateOf(stack, offered.find(({ treatment }) => treatment.to === plan.to)!, plan));

/** Which lighter underlay is best hangs little on the stack: the first tells, and whether there is anything to gain. */
function bestLighter(first: readonly StackedSheet[], [own, ...lighter]: readonly Offer[]): Offer[] {
  // What the first stack comes to over its own underlay sets the level of all others.
  if (worst(own.family.heights(first)) < 2 * WORTH_CHANGING_MM) return [];
  return lighter
    .map((offer, k) => ({ offer, k, mm: worst(offer.family.heights(first)) }))
    .toSorted((a, b) => a.mm - b.mm || a.k - b.k)
    .slice(0, 1)
    .map(({ offer }) => offer);
}

/** A stack on the rough mesh; the first of the offers is the underlay as it came. */
function ranked(stack: readonly StackedSheet[], offers: readonly Offer[]): PlanCandidate[] {
  const heights = offers.map(({ family }) => family.heights(stack));
  return offers.flatMap((offer, k) =>
    offer.treatment.to === null || gains(heights[0], heights[k])
      ? [candidateOf(stack, offer, heights[k])]
      : [],
  );
}

const worst = ({ nowMm, washedMm }: StackHeights): number => Math.max(nowMm, washedMm);

const gains = (own: StackHeights, other: StackHeights): boolean =>
  (['nowMm', 'washedMm'] as const).some(
    (when) => own[when] - other[when] >= Math.max(WORTH_CHANGING_MM, WORTH_CHANGING_PART * own[when]),
  );

/** The candidates on a stack as plain data. */
export const rankedPlans = (candidates: readonly PlanCandidate[], input: SearchInput): RankedPlan[] =>
  candidates.map((one) => ({
    to: one.treatment.to,
    total: one.total,
    nowMm: one.nowMm,
    washedMm: one.washedMm,
    likely: isLikely(one, input),
  }));

/** Those that the rules leave; with one that was asked for, it is no matter whether any other is in stock. */
function stacksFor({ job, prices, stock, only }: SearchInput) {
  const priced = (id: string): boolean => Object.hasOwn(prices.sheets, id);
  return allowedStacks(job, priced, only ? priced : (id) => stock.includes(id));
}

/**
 * What each stack costs under a treatment. Machine time is that of the file, at the plan's speed, and what the changed underlay adds or saves.
 */
export function costsOf(
  input: SearchInput,
): (treatment: UnderlayTreatment) => (stack: readonly StackedSheet[]) => Cost {
  const { job, design, sewn, hoop, prices } = input;
  const { topping, speedSpm } = toolsFor(job, input.machine);
  const machine = atSpeed(input.machine, speedSpm);
  const apartFromStitches = sewSeconds(design, machine) - secondsOfStitches(sewn.stitches, machine);
  return ({ thread, sewn: { stitches } }) => {
    const sewSeconds = apartFromStitches + secondsOfStitches(stitches, machine);
    return (stack) => costOf({ stack, topping, hoop, design: job.design, ...thread, sewSeconds, prices });
  };
}

export const isLikely = (
  { nowMm, washedMm }: Judged,
  { accepted, parameters }: Pick<SearchInput, 'accepted' | 'parameters'>,
): boolean =>
  gradeAt(nowMm, parameters) >= accepted.grade && gradeAt(washedMm, parameters) >= accepted.washedGrade;

export const rounded = (score: number): number => Math.round(score * 10) / 10;

export const gradeAt = (heightMm: number, { scoreHalf }: MechanicsParameters): number =>
  gradeOf(rounded(scoreOf(heightMm, scoreHalf.value)));
