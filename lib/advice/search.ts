/**
 * The plans for a job: every stack that the rules of the trade leave, over every underlay in question, ranked by the pucker model between
 * cost and risk. The search leaves nothing out: it works each stack and underlay out.
 */
import type { Design } from '../format/design.js';
import type { HoopField } from '../materials/places.js';
import type { Prices } from '../materials/prices.js';
import type { Thread } from '../materials/threads.js';
import { type MachineProfile, secondsOfStitches, sewSeconds } from '../measure/sew-time.js';
import type { ThreadUse } from '../measure/thread-length.js';
import type { StackedSheet } from '../mechanics/goods.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import { cellFor, prepareDesign, prepareRelaid } from '../mechanics/prepared-design.js';
import type { Risk } from '../mechanics/risk.js';
import { gradeOf, scoreOf } from '../mechanics/score.js';
import {
  type NowAndWashed,
  type RangedRisk,
  type StackFamily,
  type StackHeights,
  stackFamilies,
} from '../mechanics/stack-family.js';
import type { SewnDesign } from '../stitch/relaid.js';
import type { Accepted } from './accepted.js';
import { costOf } from './cost.js';
import { finishingFor, toolsFor } from './finishing.js';
import { byCost, costRiskFront, type Judged } from './front.js';
import type { Job } from './job.js';
import type { Cost, Plan, PlanRisk } from './plan.js';
import { allowedStacks } from './stack-space.js';
import { type Treatment, treatmentsOf } from './treatments.js';
import { whyUnderlay, whyVerdict } from './why.js';

export interface SearchInput {
  readonly job: Job;
  readonly design: Design;
  readonly sewn: SewnDesign;
  readonly thread: Thread;
  readonly grainDeg: number;
  readonly hoopStretchPercent: number;
  readonly accepted: Accepted;
  /** The hoop it is sewn in; the smallest that holds the design where nobody says. */
  readonly hoop: HoopField | null;
  readonly prices: Prices;
  readonly machine: MachineProfile;
  readonly threadUse: ThreadUse;
  readonly parameters: MechanicsParameters;
  /** Look at this stack alone. */
  readonly only?: readonly StackedSheet[];
}

export interface SearchResult {
  /** The front between cost and risk, and the recommendation; cheapest first. */
  readonly plans: readonly Plan[];
  /** The cheapest plan that the shop accepts; null where it accepts none. */
  readonly recommended: Plan | null;
  /** The plan with the lowest wrinkles after laundering. */
  readonly flattest: Plan;
  /** The risk of every object on one of the plans, in their order. */
  readonly objectRisks: (plan: Plan) => ObjectRisks;
  /** How many were worked out. */
  readonly considered: { readonly stacks: number; readonly underlays: number; readonly plans: number };
}

export interface ObjectRisks {
  /** On this plan. */
  readonly planned: readonly NowAndWashed<Risk>[];
  /** On the same stack with the underlay as it came. */
  readonly asItCame: readonly NowAndWashed<Risk>[];
}

interface Candidate extends Judged {
  readonly stack: readonly StackedSheet[];
  readonly family: StackFamily;
  readonly treatment: Treatment;
  readonly cost: Cost;
}

/** An underlay is changed only where that lowers the wrinkles by this much, mm: less is not worth touching a file. Our own choice. */
const WORTH_CHANGING_MM = 0.02;

/**
 * @throws LieflatError `unknown-id` for a sheet of `only`
 */
export function searchPlans(input: SearchInput): SearchResult {
  const { job, sewn, thread, accepted, parameters, only } = input;
  const { stacks, why: rules } = allowedStacks(job, (id) => id in input.prices.sheets);
  const looked = only ? [only] : stacks;
  const treatments = treatmentsOf(sewn, job, input.threadUse);
  const asSewn = prepareDesign(
    sewn.stitches,
    sewn.objects,
    thread,
    parameters.bedIn.value,
    cellForSearch(job, sewn),
  );
  const families = stackFamilies(
    treatments.map(({ to, sewn: changed }) => (to === null ? asSewn : prepareRelaid(asSewn, changed))),
    looked,
    {
      fabric: job.fabric.id,
      grainDeg: input.grainDeg,
      hoopStretchPercent: input.hoopStretchPercent,
      washes: accepted.washes,
    },
    job.catalogue,
    parameters,
  );
  const costs = treatments.map(costsOf(input));
  const candidates = looked.flatMap((stack) => {
    const heights = families.map((family) => asTold(family.heights(stack)));
    const [asItCame] = heights;
    return treatments.flatMap((treatment, t): Candidate[] => {
      const { nowMm, washedMm } = heights[t];
      const gain = Math.max(asItCame.nowMm - nowMm, asItCame.washedMm - washedMm);
      if (treatment.to !== null && gain < WORTH_CHANGING_MM) return [];
      const cost = costs[t](stack);
      const turned = stack.filter(({ angleDeg }) => angleDeg !== 0).length;
      const effort = 10 * stack.length + turned + treatment.changes.length / 1000;
      const judged: Judged = { total: cost.total, nowMm, washedMm, effort };
      return [{ ...judged, stack, family: families[t], treatment, cost }];
    });
  });

  const keeps = (nowMm: number, washedMm: number): boolean =>
    gradeAt(nowMm, parameters) >= accepted.grade && gradeAt(washedMm, parameters) >= accepted.washedGrade;
  const { ranked, chosen, front } = settle(candidates, keeps);
  const listed = [...new Set([...front, ...(chosen ? [chosen] : [])])].toSorted(byCost);

  const onSameStack = ({ stack }: Candidate): Candidate =>
    ranked.find((other) => other.stack === stack && other.treatment.to === null)!;

  const planOf = (candidate: Candidate): Plan => {
    const { stack, treatment, cost } = candidate;
    const { now, washed } = candidate.family.detail(stack, candidate);
    const { topping, needle, speedSpm, hooping, why } = finishingFor(job, input.machine, stack);
    return {
      stack,
      topping,
      underlay: treatment.changes,
      needle,
      speedSpm,
      hooping,
      cost,
      riskNow: planRisk(now, 0),
      riskWashed: planRisk(washed, accepted.washes),
      why: [
        whyVerdict(candidate, chosen, accepted, candidates.length),
        ...whyUnderlay(candidate, onSameStack(candidate), accepted.washes),
        ...rules,
        ...why,
      ],
    };
  };
  const plans = listed.map(planOf);
  return {
    plans,
    recommended: chosen ? plans[listed.indexOf(chosen)] : null,
    flattest: plans[listed.indexOf(front[front.length - 1])],
    objectRisks: (plan) => {
      const candidate = listed[plans.indexOf(plan)];
      const { stack, treatment } = candidate;
      const planned = candidate.family.objectRisks(stack);
      return { planned, asItCame: treatment.to === null ? planned : families[0].objectRisks(stack) };
    },
    considered: {
      stacks: looked.length,
      underlays: treatments.length,
      plans: looked.length * treatments.length,
    },
  };
}

/**
 * The cheapest plan that is good enough, and the front. The one that will be shown is confirmed by a solve of its own, and so is every cheaper
 * one that could be good enough; its heights from then on are those.
 * @param keeps whether heights are good enough
 */
function settle(candidates: readonly Candidate[], keeps: (nowMm: number, washedMm: number) => boolean) {
  const byRank = candidates.toSorted(byCost);
  const ranked = [...byRank];
  const confirmed = new Set<Candidate>();
  const confirm = (candidate: Candidate): Candidate => {
    const sure = { ...candidate, ...asTold(candidate.family.confirmed(candidate.stack)) };
    ranked[ranked.indexOf(candidate)] = sure;
    confirmed.add(sure);
    return sure;
  };
  for (const candidate of byRank) {
    if (!keeps(atBest(candidate.nowMm), atBest(candidate.washedMm))) continue;
    const chosen = confirm(candidate);
    if (keeps(chosen.nowMm, chosen.washedMm)) return { ranked, chosen, front: costRiskFront(ranked) };
  }
  // Nothing is good enough: the flattest will be shown.
  let front = costRiskFront(ranked);
  while (!confirmed.has(front[front.length - 1])) {
    confirm(front[front.length - 1]);
    front = costRiskFront(ranked);
  }
  return { ranked, chosen: null, front };
}

/** Many plans are worked out on at most this many cells a side: a jacket back is seen more coarsely than by itself. */
const MOST_CELLS = 256;
/** A grid reaches a quarter of the design beyond it on each side. */
const WITH_MARGINS = 1.5;

/** Size of a cell, mm. */
export const cellForSearch = ({ design }: Job, { stitches, objects }: SewnDesign): number =>
  Math.max(
    cellFor(stitches, objects),
    (WITH_MARGINS * Math.max(design.widthMm, design.heightMm)) / MOST_CELLS,
  );

const rounded = (score: number): number => Math.round(score * 10) / 10;

const gradeAt = (heightMm: number, { scoreHalf }: MechanicsParameters): number =>
  gradeOf(rounded(scoreOf(heightMm, scoreHalf.value)));

/** Heights to a thousandth of a mm, as reports tell them: what is rounded once more from there comes to one figure wherever a plan is told of. */
const asTold = ({ nowMm, washedMm }: StackHeights): StackHeights => ({
  nowMm: thousandths(nowMm),
  washedMm: thousandths(washedMm),
});

const thousandths = (heightMm: number): number => Math.round(heightMm * 1000) / 1000;

/** The lowest that a height may turn out to be that no solve of its own has confirmed: half as far off again as any was seen to be. */
const atBest = (heightMm: number): number => Math.min(0.94 * heightMm, heightMm - 0.015);

const planRisk = (risk: RangedRisk, washes: number): PlanRisk => {
  const score = rounded(risk.score);
  return { ...risk, score, grade: gradeOf(score), washes };
};

/**
 * What each stack costs under a treatment. Machine time is that of the file, at the plan's speed, and what the changed underlay adds or saves.
 */
function costsOf(input: SearchInput): (treatment: Treatment) => (stack: readonly StackedSheet[]) => Cost {
  const { job, design, sewn, hoop, prices } = input;
  const { topping, speedSpm } = toolsFor(job, input.machine);
  const machine = { ...input.machine, speedSpm: { ...input.machine.speedSpm, value: speedSpm } };
  const apartFromStitches = sewSeconds(design, machine) - secondsOfStitches(sewn.stitches, machine);
  return ({ thread, sewn: { stitches } }) => {
    const sewSeconds = apartFromStitches + secondsOfStitches(stitches, machine);
    return (stack) => costOf({ stack, topping, hoop, design: job.design, ...thread, sewSeconds, prices });
  };
}
