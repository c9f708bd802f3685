/**
 * The plans for a job: every stack that the rules of the trade leave, over the underlays in question, ranked by the pucker model between
 * cost and risk. All are looked at on the rough mesh; those that may be shown are worked out on the fine one, with their bands.
 */
import { USUAL_SHEET } from '../materials/usual-sheet.js';
import { atSpeed } from '../measure/sew-time.js';
import type { StackedSheet } from '../mechanics/layup.js';
import { isSurelyFlatter } from '../mechanics/paired-draws.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import type { RangedRisk, Risk, RiskMaps } from '../mechanics/risk.js';
import { gradeOf } from '../mechanics/score.js';
import type { NowAndWashed } from '../mechanics/stack-family.js';
import { stackText } from '../mechanics/stack-notation.js';
import type { Accepted } from './accepted.js';
import {
  allOf,
  type Candidates,
  costsOf,
  gradeAt,
  isLikely,
  openCandidates,
  type PlanCandidate,
  type RankedPlan,
  type RankedStacks,
  rankedPlans,
  rounded,
  type SearchInput,
  type StackOffer,
} from './candidates.js';
import { finishingFor } from './finishing.js';
import { type Meets, meetsAt, SURE, upperMiss } from './meets.js';
import { byCost, type Judged, money, paretoFront } from './pareto-front.js';
import type { Plan, PlanRisk } from './plan.js';
import { planPrice } from './plan-price.js';
import { type KeptColumns, keptColumns } from './underlay-kept.js';
import {
  whyNotCheaper,
  whyNotFlattest,
  whyUnderlay,
  whyUnderlayKept,
  whyUnderlayLaid,
  whyVerdict,
} from './why.js';

/** What a search comes to; plain data. */
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
  /** How many were looked at. */
  readonly considered: { readonly stacks: number; readonly underlays: number; readonly plans: number };
}

/** A search with what more can be asked of its recommendation. */
export interface Searched {
  readonly result: SearchResult;
  /** The risk of every object, in their order. */
  readonly objectRisks: () => ObjectRisks;
  /** How the fabric wrinkles. */
  readonly maps: () => NowAndWashed<RiskMaps>;
}

export interface ObjectRisks {
  /** On this plan. */
  readonly planned: readonly NowAndWashed<Risk>[];
  /** On the same stack with all underlay as it came. */
  readonly asItCame: readonly NowAndWashed<Risk>[];
}

/** Candidates that are worked out in full, at most. */
const MOST_DETAILED = 4;
/** Of one stack nothing is shown beside what was chosen. */
const MOST_OF_ONE_STACK = 0;
/** Chances that differ by less are alike. */
export const SAME_CHANCE = 0.03;

/** A job whose stacks can be ranked and worked out further, one alone where several designs have to share it. */
export interface OpenSearch {
  /** Every stack that the rules leave, those of fewer sheets first. */
  readonly offers: readonly StackOffer[];
  /**
   * How one of them ranks, by its text.
   * @throws RangeError for another stack
   */
  ranked(stack: string): readonly RankedPlan[];
  /**
   * The plans; with one of the stacks alone, at the speed of what is sewn beside it, where a setup is shared.
   * @throws RangeError for another stack
   */
  plans(shared?: SharedSetup): Searched;
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
export const searchPlans = (input: SearchInput): Searched => openSearch(input).plans();

/**
 * Looks up what there is to choose from; nothing is worked out before it is asked for.
 * @param known how stacks of the same job ranked before: they come to the same without being ranked anew
 * @throws LieflatError `unknown-id` for a sheet of `only`
 */
export function openSearch(input: SearchInput, known?: RankedStacks): OpenSearch {
  const found = openCandidates(input, known);
  const { looked } = found;
  const on = (text: string): readonly PlanCandidate[] => {
    const stack = looked.find((one) => stackText(one) === text);
    if (stack === undefined) throw new RangeError(`${text} is not among the stacks`);
    return found.on(stack);
  };
  return {
    offers: looked.map((stack) => ({ stack, leastTotal: found.leastTotal(stack) })),
    ranked: (stack) => rankedPlans(on(stack), input),
    plans: (shared) => {
      if (shared === undefined) return plansOf(input, allOf(found));
      const slow = { ...input, machine: atSpeed(input.machine, shared.speedSpm) };
      const costs = costsOf(slow);
      const candidates = on(shared.stack).map((one) => {
        const cost = costs(one.treatment)(one.stack);
        return { ...one, cost, total: cost.total };
      });
      return plansOf(slow, { ...found, candidates }, MOST_OF_ONE_STACK);
    },
  };
}

function plansOf(
  input: SearchInput,
  { looked, rules, underlays, asItCame, candidates }: Candidates,
  mostShown = MOST_DETAILED,
): Searched {
  const { job, accepted, parameters } = input;
  const fullyKnown = new Map<PlanCandidate, Detailed>();
  const detailOf = (candidate: PlanCandidate): Detailed => {
    const known = fullyKnown.get(candidate);
    if (known) return known;
    const detailed = detailedOf(candidate, accepted, parameters);
    fullyKnown.set(candidate, detailed);
    return detailed;
  };
  const first = choose(candidates, accepted, parameters, detailOf);
  const front = paretoFront(candidates);
  // What is shown beside it: the flattest, what was worked out anyway, and what lies between.
  const shown = [front[front.length - 1], ...front].filter(
    (one, k, all) => all.indexOf(one) === k && (fullyKnown.has(one) || k < mostShown),
  );
  for (const one of shown) if (fullyKnown.size < mostShown + 1) detailOf(one);
  const known = [...fullyKnown.values()].toSorted(byCost);
  // What was worked out to be shown may be cheaper, and good enough on the fine mesh.
  const chosen = cheapestSure(known, detailOf(first)) ?? first;
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

  const withRisks = (candidate: Detailed) => ({
    ...candidate,
    riskNow: planRisk(candidate.risks.now, 0),
    riskWashed: planRisk(candidate.risks.washed, accepted.washes),
  });
  const planOf = (candidate: Detailed): Plan => {
    const { stack, treatment, cost, riskNow, riskWashed } = withRisks(candidate);
    const { topping, needle, speedSpm, hooping, why } = finishingFor(job, input.machine, stack);
    const own = withOwn(candidate);
    const isRecommended = candidate === recommended;
    const upper = upperMiss({ riskNow, riskWashed }, accepted);
    return {
      stack,
      topping,
      underlay: treatment.changes,
      needle,
      speedSpm,
      hooping,
      cost,
      price: input.run ? planPrice(cost, input.run) : null,
      riskNow,
      riskWashed,
      why: [
        whyVerdict(candidate, recommended, accepted, { considered: candidates.length, upper }),
        ...(isRecommended ? whyNotCheaper(candidate, listed.map(withRisks), accepted) : []),
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
  const { stack, treatment, family } = recommended;
  return {
    result: {
      plans,
      recommended: plans[listed.indexOf(recommended)],
      kept,
      meets: meetsAt(recommended.chance),
      chance: recommended.chance,
      considered: { stacks: looked.length, underlays, plans: candidates.length },
    },
    objectRisks: () => {
      const planned = family.objectRisks(stack);
      return { planned, asItCame: treatment.changes.length === 0 ? planned : asItCame.objectRisks(stack) };
    },
    maps: () => family.maps(stack),
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

/**
 * Of what is worked out the cheapest that surely keeps what the shop accepts, where it is cheaper than what was chosen, or that is not sure. Other
 * underlay on the same stack was decided on before.
 */
function cheapestSure(known: readonly Detailed[], chosen: Detailed): Detailed | null {
  const sure = known.filter(
    ({ chance, total, stack }) =>
      chance >= SURE &&
      stack !== chosen.stack &&
      (chosen.chance < SURE || money(total) < money(chosen.total)),
  );
  return sure.toSorted(byCostThenUsual)[0] ?? null;
}

/** Whether laying other underlay makes a setup surely flatter: a gain within the error is not worth a new file. */
const isWorthRework = ({ risks }: Detailed, own: Detailed): boolean =>
  (['now', 'washed'] as const).some((when) => isSurelyFlatter(risks[when], own.risks[when]));

const byCostThenUsual = (a: PlanCandidate, b: PlanCandidate): number =>
  money(a.total) - money(b.total) || unusual(a) - unusual(b) || byCost(a, b);

/** Below the others where the sheet is the one that the trade takes in doubt. */
export const unusual = ({ stack }: { readonly stack: readonly StackedSheet[] }): number =>
  Number(stack.some(({ sheet }) => sheet !== USUAL_SHEET.id));

const worstOf = ({ nowMm, washedMm }: Judged): number => Math.max(nowMm, washedMm);

const planRisk = (risk: RangedRisk, washes: number): PlanRisk => {
  const { draws: _, ...told } = risk;
  const score = rounded(risk.score);
  return { ...told, score, grade: gradeOf(score), washes };
};
