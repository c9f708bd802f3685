/**
 * The plans for a job: every stack that the rules of the trade leave, over the underlays in question, ranked by the pucker model between
 * cost and risk. All are looked at on the rough mesh; those that may be shown are worked out on the fine one, with their bands.
 */
import type { Design } from '../format/design.js';
import type { HoopField } from '../materials/places.js';
import type { Prices } from '../materials/prices.js';
import type { Thread } from '../materials/threads.js';
import { USUAL_SHEET } from '../materials/usual-sheet.js';
import { atSpeed, type MachineProfile, secondsOfStitches, sewSeconds } from '../measure/sew-time.js';
import type { ThreadUse } from '../measure/thread-length.js';
import type { StackedSheet } from '../mechanics/layup.js';
import { isSurelyFlatter } from '../mechanics/paired-draws.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import { prepareDesign } from '../mechanics/prepared-design.js';
import type { RangedRisk, Risk, RiskMaps } from '../mechanics/risk.js';
import { gradeOf, scoreOf } from '../mechanics/score.js';
import { type NowAndWashed, type StackFamily, stackFamilies } from '../mechanics/stack-family.js';
import { stackText } from '../mechanics/stack-notation.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import type { SewnDesign } from '../stitch/relaid.js';
import type { Accepted } from './accepted.js';
import { costOf } from './cost.js';
import { finishingFor, toolsFor } from './finishing.js';
import type { AdviceJob } from './job.js';
import { type Meets, meetsAt, SURE } from './meets.js';
import { byCost, type Judged, money, paretoFront } from './pareto-front.js';
import type { Cost, Plan, PlanRisk } from './plan.js';
import { type AskedRun, planPrice } from './plan-price.js';
import { allowedStacks } from './stack-space.js';
import { treatmentsOf, type UnderlayTreatment } from './treatments.js';
import { type KeptColumns, keptColumns } from './underlay-kept.js';
import { whyNotFlattest, whyUnderlay, whyUnderlayKept, whyUnderlayLaid, whyVerdict } from './why.js';

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

export interface SearchResult {
  /** The front between cost and risk, and the recommendation; cheapest first. */
  readonly plans: readonly Plan[];
  /** The cheapest plan that surely is good enough; where none is, the one that most likely is. */
  readonly recommended: Plan;
  /** The columns that keep an underlay heavier than the rule of the trade has it, and why; null where none does. */
  readonly kept: KeptColumns | null;
  readonly meets: Meets;
  /** Part of the draws in which the recommendation is good enough. */
  readonly chance: number;
  /** The risk of every object on one of the plans, in their order. */
  readonly objectRisks: (plan: Plan) => ObjectRisks;
  /** How the fabric wrinkles on one of the plans. */
  readonly maps: (plan: Plan) => NowAndWashed<RiskMaps>;
  /** How many were looked at. */
  readonly considered: { readonly stacks: number; readonly underlays: number; readonly plans: number };
}

export interface ObjectRisks {
  /** On this plan. */
  readonly planned: readonly NowAndWashed<Risk>[];
  /** On the same stack with all underlay as it came. */
  readonly asItCame: readonly NowAndWashed<Risk>[];
}

interface PlanCandidate extends Judged {
  readonly stack: readonly StackedSheet[];
  readonly family: StackFamily;
  readonly treatment: UnderlayTreatment;
  readonly cost: Cost;
}

/** An underlay is changed only where that lowers the wrinkles by so much, mm, and by this part of them: less is not sure to be a gain. */
const WORTH_CHANGING_MM = 0.03;
const WORTH_CHANGING_PART = 0.15;
/** Candidates that are worked out in full, at most. */
const MOST_DETAILED = 4;
/** Of one stack nothing is shown beside what was chosen. */
const MOST_OF_ONE_STACK = 0;
/** Chances that differ by less are alike. */
export const SAME_CHANCE = 0.03;

/** A stack under every underlay in question that is worth laying on it, as the rough mesh ranks them. */
export interface StackChoice {
  readonly stack: readonly StackedSheet[];
  readonly plans: readonly RankedPlan[];
}

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

/** A job whose stacks are ranked and can be worked out further, one alone where several designs have to share it. */
export interface OpenSearch {
  /** Every stack that the rules leave, those of fewer sheets first. */
  readonly ranked: readonly StackChoice[];
  /**
   * The plans; with one of the stacks alone, at the speed of what is sewn beside it, where a setup is shared.
   * @throws RangeError for another stack
   */
  plans(shared?: SharedSetup): SearchResult;
}

/** What designs that are sewn one after another have in common. */
export interface SharedSetup {
  /** As `stackText` sets it. */
  readonly stack: string;
  readonly speedSpm: number;
}

/**
 * @throws LieflatError `unknown-id` for a sheet of `only`
 */
export const searchPlans = (input: SearchInput): SearchResult => openSearch(input).plans();

/**
 * Ranks every stack; {@link OpenSearch.plans} works out what is shown.
 * @throws LieflatError `unknown-id` for a sheet of `only`
 */
export function openSearch(input: SearchInput): OpenSearch {
  const found = candidatesOf(input);
  const ranked = found.looked.map((stack) => ({
    stack,
    plans: found.candidates
      .filter((one) => one.stack === stack)
      .map((one) => ({
        to: one.treatment.to,
        total: one.total,
        nowMm: one.nowMm,
        washedMm: one.washedMm,
        likely: isLikely(one, input),
      })),
  }));
  return {
    ranked,
    plans: (shared) => {
      if (shared === undefined) return plansOf(input, found);
      const slow = { ...input, machine: atSpeed(input.machine, shared.speedSpm) };
      const candidates = found.candidates
        .filter(({ stack }) => stackText(stack) === shared.stack)
        .map((one) => {
          const cost = costsOf(slow)(one.treatment)(one.stack);
          return { ...one, cost, total: cost.total };
        });
      if (candidates.length === 0) throw new RangeError(`${shared.stack} is not among the stacks`);
      return plansOf(slow, { ...found, candidates }, MOST_OF_ONE_STACK);
    },
  };
}

function plansOf(
  input: SearchInput,
  { looked, rules, underlays, asItCame, candidates }: ReturnType<typeof candidatesOf>,
  mostShown = MOST_DETAILED,
): SearchResult {
  const { job, accepted, parameters } = input;
  const fullyKnown = new Map<PlanCandidate, Detailed>();
  const detailOf = (candidate: PlanCandidate): Detailed => {
    const known = fullyKnown.get(candidate);
    if (known) return known;
    const detailed = detailedOf(candidate, accepted, parameters);
    fullyKnown.set(candidate, detailed);
    return detailed;
  };
  const chosen = choose(candidates, accepted, parameters, detailOf);
  const front = paretoFront(candidates);
  // What is shown beside it: the flattest, what was worked out anyway, and what lies between.
  const shown = [front[front.length - 1], ...front].filter(
    (one, k, all) => all.indexOf(one) === k && (fullyKnown.has(one) || k < mostShown),
  );
  for (const one of shown) if (fullyKnown.size < mostShown + 1) detailOf(one);
  const known = [...fullyKnown.values()].toSorted(byCost);
  const recommended = detailOf(chosen);
  const grades = [recommended.risks.now, recommended.risks.washed].map(({ score }) =>
    gradeOf(rounded(score)),
  );
  const kept = keptColumns({ to: chosen.treatment.to, grades, chance: recommended.chance }, job.called);
  const listed = [...new Set([...paretoFront(known), recommended])].toSorted(byCost);
  const withOwn = ({ stack, treatment }: PlanCandidate) =>
    treatment.to === null
      ? null
      : candidates.find((other) => other.stack === stack && other.treatment.to === null)!;

  const planOf = (candidate: Detailed): Plan => {
    const { stack, treatment, cost, risks } = candidate;
    const { topping, needle, speedSpm, hooping, why } = finishingFor(job, input.machine, stack);
    const own = withOwn(candidate);
    const isRecommended = candidate === recommended;
    return {
      stack,
      topping,
      underlay: treatment.changes,
      needle,
      speedSpm,
      hooping,
      cost,
      price: input.run ? planPrice(cost, input.run) : null,
      riskNow: planRisk(risks.now, 0),
      riskWashed: planRisk(risks.washed, accepted.washes),
      why: [
        whyVerdict(candidate, recommended, accepted, candidates.length),
        ...(isRecommended ? whyNotFlattest(candidate, listed, accepted) : []),
        ...(own ? whyUnderlay(candidate, own, job.called, accepted.washes) : []),
        ...whyUnderlayLaid(treatment, job.called),
        ...(isRecommended ? whyUnderlayKept(kept) : []),
        ...rules,
        ...why,
      ],
    };
  };
  const plans = listed.map(planOf);
  return {
    plans,
    recommended: plans[listed.indexOf(recommended)],
    kept,
    meets: meetsAt(recommended.chance),
    chance: recommended.chance,
    objectRisks: (plan) => {
      const { stack, treatment, family } = listed[plans.indexOf(plan)];
      const planned = family.objectRisks(stack);
      return { planned, asItCame: treatment.changes.length === 0 ? planned : asItCame.objectRisks(stack) };
    },
    maps: (plan) => {
      const { stack, family } = listed[plans.indexOf(plan)];
      return family.maps(stack);
    },
    considered: { stacks: looked.length, underlays, plans: candidates.length },
  };
}

/** Those that the rules leave; with one that was asked for, it is no matter whether any other is in stock. */
function stacksFor({ job, prices, stock, only }: SearchInput) {
  const priced = (id: string): boolean => Object.hasOwn(prices.sheets, id);
  return allowedStacks(job, priced, only ? priced : (id) => stock.includes(id));
}

/** Every stack over the underlay as it came, and over the lighter one that lowers the wrinkles most. */
function candidatesOf(input: SearchInput) {
  const { job, sewn, thread, accepted, parameters, only, hoop } = input;
  const { stacks, why: rules } = stacksFor(input);
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
  const allFamilies = stackFamilies(designs, conditions, job.catalogue, parameters);
  // Which lighter underlay is best hangs little on the stack: the first tells, and whether there is anything to gain.
  const own = allFamilies[0].heights(looked[0]);
  const gainful = Math.max(own.nowMm, own.washedMm) >= 2 * WORTH_CHANGING_MM;
  const first = [
    own,
    ...(gainful ? allFamilies.slice(1, all.length).map((family) => family.heights(looked[0])) : []),
  ];
  const worst = ({ nowMm, washedMm }: (typeof first)[number]) => Math.max(nowMm, washedMm);
  const lighter = first.map((_, k) => k).slice(1);
  const best = lighter.toSorted((a, b) => worst(first[a]) - worst(first[b]) || a - b).slice(0, 1);
  const kept = [0, ...best];
  const treatments = kept.map((k) => all[k]);
  const families = kept.map((k) => allFamilies[k]);
  const costs = treatments.map(costsOf(input));
  const candidates = looked.flatMap((stack) => {
    const heights = families.map((family) => family.heights(stack));
    const [own] = heights;
    return treatments.flatMap((treatment, t): PlanCandidate[] => {
      const { nowMm, washedMm } = heights[t];
      const gains = (before: number, after: number) =>
        before - after >= Math.max(WORTH_CHANGING_MM, WORTH_CHANGING_PART * before);
      if (treatment.to !== null && !gains(own.nowMm, nowMm) && !gains(own.washedMm, washedMm)) return [];
      const cost = costs[t](stack);
      const turned = stack.filter(({ angleDeg }) => angleDeg !== 0).length;
      const effort = 10 * stack.length + turned + treatment.changes.length / 1000;
      const judged: Judged = { total: cost.total, nowMm, washedMm, effort };
      return [{ ...judged, stack, family: families[t], treatment, cost }];
    });
  });
  return {
    looked,
    rules,
    underlays: all.length,
    asItCame: isOffered ? allFamilies[0] : allFamilies[all.length],
    candidates,
  };
}

interface Detailed extends PlanCandidate {
  readonly risks: NowAndWashed<RangedRisk>;
  /** Part of the draws in which it keeps what the shop accepts. */
  readonly chance: number;
}

function detailedOf(candidate: PlanCandidate, accepted: Accepted, parameters: MechanicsParameters): Detailed {
  const risks = candidate.family.detail(candidate.stack);
  const { now, washed } = risks;
  let keeps = 0;
  for (let k = 0; k < now.draws.length; k++)
    if (
      gradeAt(now.draws[k], parameters) >= accepted.grade &&
      gradeAt(washed.draws[k], parameters) >= accepted.washedGrade
    )
      keeps++;
  return {
    ...candidate,
    nowMm: now.wrinkleMm,
    washedMm: washed.wrinkleMm,
    risks,
    chance: keeps / now.draws.length,
  };
}

/**
 * The cheapest that surely keeps what the shop accepts. What most likely does is worked out, cheapest first; where none of it surely does, the
 * flattest is as well, and the likeliest of them all is taken. A chance hardly better than another buys nothing, and of what costs the same the sheet goes first
 * that the trade takes in doubt: heights that differ by a hundredth of a millimeter are no reason to stock another.
 */
function choose(
  candidates: readonly PlanCandidate[],
  accepted: Accepted,
  parameters: MechanicsParameters,
  detailOf: (candidate: PlanCandidate) => Detailed,
): PlanCandidate {
  const byRank = candidates.toSorted(byCostThenUsual);
  const likely = byRank.filter((one) => isLikely(one, { accepted, parameters }));
  const flattest = byRank.reduce((best, one) => (worstOf(one) < worstOf(best) ? one : best));
  const tried: Detailed[] = [];
  for (const candidate of [...likely.slice(0, MOST_DETAILED - 1), flattest]) {
    const detailed = detailOf(candidate);
    tried.push(detailed);
    if (detailed.chance >= SURE) break;
  }
  const most = Math.max(...tried.map(({ chance }) => chance));
  const near = tried.filter(({ chance }) => chance >= most - SAME_CHANCE);
  // Where none has a chance, the flattest comes nearest.
  const best = most > 0 ? near.toSorted(byCostThenUsual)[0] : tried[tried.length - 1];
  const own = byRank.find((one) => one.stack === best.stack && one.treatment.to === null)!;
  const kept = best.treatment.to !== null && !isWorthRework(best, detailOf(own)) ? own : best;
  return byRank.find(({ stack, treatment }) => stack === kept.stack && treatment === kept.treatment)!;
}

/** Whether laying other underlay makes a setup surely flatter: a gain within the error is not worth a new file. */
const isWorthRework = ({ risks }: Detailed, own: Detailed): boolean =>
  (['now', 'washed'] as const).some((when) => isSurelyFlatter(risks[when], own.risks[when]));

const isLikely = (
  { nowMm, washedMm }: Judged,
  { accepted, parameters }: Pick<SearchInput, 'accepted' | 'parameters'>,
): boolean =>
  gradeAt(nowMm, parameters) >= accepted.grade && gradeAt(washedMm, parameters) >= accepted.washedGrade;

const byCostThenUsual = (a: PlanCandidate, b: PlanCandidate): number =>
  money(a.total) - money(b.total) || unusual(a) - unusual(b) || byCost(a, b);

/** Below the others where the sheet is the one that the trade takes in doubt. */
export const unusual = ({ stack }: { readonly stack: readonly StackedSheet[] }): number =>
  Number(stack.some(({ sheet }) => sheet !== USUAL_SHEET.id));

const worstOf = ({ nowMm, washedMm }: Judged): number => Math.max(nowMm, washedMm);

const rounded = (score: number): number => Math.round(score * 10) / 10;

const gradeAt = (heightMm: number, { scoreHalf }: MechanicsParameters): number =>
  gradeOf(rounded(scoreOf(heightMm, scoreHalf.value)));

const planRisk = (risk: RangedRisk, washes: number): PlanRisk => {
  const { draws: _, ...told } = risk;
  const score = rounded(risk.score);
  return { ...told, score, grade: gradeOf(score), washes };
};

/**
 * What each stack costs under a treatment. Machine time is that of the file, at the plan's speed, and what the changed underlay adds or saves.
 */
function costsOf(
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
