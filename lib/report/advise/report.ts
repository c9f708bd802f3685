/** The plans for a design on a fabric: what `lieflat advise --format json` prints. */

import type { Accepted } from '../../advice/accepted.js';
import type { Advice } from '../../advice/advise.js';
import type { FileFaults } from '../../advice/decided-findings.js';
import { type Meets, upperMiss } from '../../advice/meets.js';
import type { ObjectAdvice } from '../../advice/object-advice.js';
import type { Plan, PlanRisk } from '../../advice/plan.js';
import type { DesignChange } from '../../advice/reason.js';
import { breaksBindingRule } from '../../advice/rules/binding.js';
import { type Catalogue, find } from '../../materials/catalogue.js';
import type { HoopField } from '../../materials/places.js';
import type { Conditions, NamedGarment } from '../../mechanics/conditions.js';
import type { SetOutcome } from '../../segment/set-right/saying.js';
import type { FindingCode } from '../../vetting/finding.js';
import { cautionCodes } from '../cautions.js';
import { sayCoded } from '../phrases/coded.js';
import type { CautionCode } from '../phrases/en/risk.js';
import { wordsFor } from '../phrases/words.js';
import { bareRiskReport, conditionsReport } from '../risk-report.js';
import { round, roundEvery } from '../round.js';
import { setObjectReport } from '../set-words.js';
import type { SetObjectReport, VetReport } from '../vet/report.js';
import { type VerdictLevel, type VerdictReason, verdictOnGarment, verdictReasons } from '../vet/verdict.js';
import { needSentences } from './objects.js';
import type {
  HoopReport,
  ObjectAdviceReport,
  PlanReport,
  PlanRiskReport,
  SheetToAskFor,
} from './plan-report.js';

export interface AdviseReport {
  schema: 'lieflat/advise@1';
  file: VetReport['file'];
  fabric: string;
  /** One of `plans`: the cheapest that surely meets the standard; where none does, the one that most likely will. */
  recommended: PlanReport;
  /** Whether that meets the standard. */
  meets: Meets;
  /** Of the file on this fabric, its own faults counted: the word that the file check, the card and an order have for it too. */
  verdict: VerdictLevel;
  /** Why it is no better; none where it is good to sew. */
  verdictReasons: readonly VerdictReason[];
  /** Cheapest first. */
  plans: PlanReport[];
  /** Where nothing meets the standard: what in the design, or which fabric, would have to change. English. */
  mustChange: string[];
  /** The same as data. */
  changes: readonly DesignChange[];
  accepted: Accepted;
  considered: { stacks: number; underlays: number; plans: number };
  /** Null where none that is known holds the design. */
  hoop: HoopReport | null;
  /** Codes of the findings for which the file should not be sewn as it is. */
  failures: readonly FindingCode[];
  /** Codes of the findings that are to be looked at before it is sewn. */
  warnings: readonly FindingCode[];
  /** Those of the warnings that are gone once the file is relaid as recommended. */
  relaidAway: readonly FindingCode[];
  fabricName: string;
  /** The garment by whose everyday name the fabric was asked for; null where the fabric itself was. */
  garment: NamedGarment | null;
  threadName: string;
  objects: ObjectAdviceReport[];
  /** What the shop has said of the design's objects. */
  setObjects: SetObjectReport[];
  /** On a cap, the first objects of what is not sewn from the bill up and from the center out; none elsewhere. */
  capOrder: readonly number[];
  /** English. */
  cautions: string[];
  /** The same as data. */
  cautionCodes: readonly CautionCode[];
}

/** What a report of plans is made of. */
export interface AdviseInput extends FileFaults {
  file: VetReport['file'];
  plans: readonly Plan[];
  recommended: Plan;
  meets: Meets;
  objects: readonly ObjectAdvice[];
  set: readonly SetOutcome[];
  mustChange: readonly DesignChange[];
  accepted: Accepted;
  considered: AdviseReport['considered'];
  conditions: Conditions;
  hoop: HoopField | null;
  /** The design lies within the field of that hoop. */
  hoopHolds: boolean;
  hoopRoomMm: number | null;
  capOrder: readonly number[];
  catalogue: Catalogue;
}

/** What the texts for programs are said in. */
const METRIC = wordsFor({ units: 'mm', detail: 'full' });

/** The report of an advice; `set` is what came of what the shop has said of the objects. */
export function adviceAsReport(
  file: AdviseInput['file'],
  { search, ...rest }: Advice,
  set: readonly SetOutcome[],
  catalogue: Catalogue,
): AdviseReport {
  return adviseReport({ ...rest, ...search, file, set, catalogue });
}

/** Nothing of the input is kept or changed. Money is rounded to a thousandth, so that a total is that of its parts. */
export function adviseReport(input: AdviseInput): AdviseReport {
  const { plans, recommended, conditions, catalogue, accepted, meets } = input;
  const { failures, warnings, relaidAway } = input;
  const hoop = input.hoop && {
    ...{ id: input.hoop.id, name: input.hoop.name, holds: input.hoopHolds },
    roomMm: round(input.hoopRoomMm ?? 0),
  };
  const reports = plans.map((plan) => planReport(plan, conditions, catalogue));
  const shown = reports[plans.indexOf(recommended)];
  const againstRule = breaksBindingRule(shown.reasons);
  const judged = { failures, warnings, relaidAway, hoop, meets, againstRule };
  const codes = cautionCodes(
    { ...conditions, stack: shown.stack, washes: shown.riskWashed.washes },
    catalogue,
  );
  const named = conditionsReport({ ...conditions, stack: shown.stack, stackGiven: true }, catalogue);
  return {
    schema: 'lieflat/advise@1',
    file: { ...input.file },
    fabric: conditions.fabric,
    recommended: shown,
    meets,
    verdict: verdictOnGarment(judged),
    verdictReasons: verdictReasons(judged, upperMiss(recommended, accepted)),
    plans: reports,
    mustChange: input.mustChange.map((change) => METRIC.setup.changes[change]),
    changes: [...input.mustChange],
    accepted: { ...accepted },
    considered: { ...input.considered },
    hoop,
    failures: [...failures],
    warnings: [...warnings],
    relaidAway: [...relaidAway],
    fabricName: named.fabricName,
    garment: named.garment,
    threadName: named.threadName,
    objects: input.objects.map((object) => objectAdviceReport(object, shown.riskWashed.washes)),
    setObjects: input.set.map(setObjectReport),
    capOrder: [...input.capOrder],
    cautions: [
      ...codes.map((code) => METRIC.setup.cautions[code]),
      ...(input.capOrder.length > 0 ? [METRIC.setup.capOrder({ objects: input.capOrder })] : []),
    ],
    cautionCodes: codes,
  };
}

export function sheetToAskFor(id: string, catalogue: Catalogue): SheetToAskFor {
  const { name, kind, mass } = find(catalogue, 'sheets', id);
  return { sheet: id, sheetName: name, kind, massGPerM2: round(mass.value) };
}

export function planReport(plan: Plan, conditions: Conditions, catalogue: Catalogue): PlanReport {
  const { stack, stackText, stackName } = conditionsReport(
    { ...conditions, stack: plan.stack, stackGiven: true },
    catalogue,
  );
  const { total: _, ...cost } = plan.cost;
  const money = { backing: round(cost.backing), thread: round(cost.thread), machine: round(cost.machine) };
  return {
    stack,
    stackText,
    stackName,
    toAskFor: [...new Set(plan.stack.map(({ sheet }) => sheet))].map((id) => sheetToAskFor(id, catalogue)),
    topping: plan.topping,
    toppingName: plan.topping && find(catalogue, 'toppings', plan.topping).name,
    underlay: plan.underlay.map(({ object, to }) => ({ object, to })),
    needle: plan.needle,
    needleName: find(catalogue, 'needles', plan.needle).name,
    speedSpm: plan.speedSpm,
    hooping: plan.hooping.map((note) => sayCoded(note, METRIC.setup.hooping)),
    hoopingNotes: plan.hooping.map(roundEvery),
    cost: {
      total: round(money.backing + money.thread + money.machine),
      ...money,
      currency: cost.currency,
      parts: {
        sheets: round(cost.parts.sheets),
        topping: round(cost.parts.topping),
        topThread: round(cost.parts.topThread),
        bobbin: round(cost.parts.bobbin),
        machineMinutes: round(cost.parts.machineMinutes, 2),
      },
    },
    price: plan.price && roundEvery(plan.price),
    riskNow: planRiskReport(plan.riskNow),
    riskWashed: planRiskReport(plan.riskWashed),
    why: plan.why.map((reason) => sayCoded(reason, METRIC.advice.why)),
    reasons: plan.why.map(roundEvery),
  };
}

function planRiskReport(risk: PlanRisk): PlanRiskReport {
  return {
    ...bareRiskReport(risk),
    washes: risk.washes,
    wrinkleBandMm: risk.wrinkleBandMm.map((h) => round(h)) as [number, number, number],
    range: {
      score: [round(risk.range.score[0], 1), round(risk.range.score[1], 1)],
      wrinkleMm: [round(risk.range.wrinkleMm[0]), round(risk.range.wrinkleMm[1])],
    },
  };
}

export function objectAdviceReport(advice: ObjectAdvice, washes: number): ObjectAdviceReport {
  const { object, relay, split, locks, pullCompensationMm, drawsInMm } = advice;
  const pair = ([own, relaid]: readonly [number, number]): [number, number] => [round(own), round(relaid)];
  const needs = {
    object,
    relay: relay && {
      from: [...relay.from],
      to: relay.to,
      wrinkleMm: { now: pair(relay.wrinkleMm.now), washed: pair(relay.wrinkleMm.washed) },
    },
    split,
    locks,
    pullCompensationMm: pullCompensationMm === null ? null : round(pullCompensationMm),
    drawsInMm: drawsInMm === null ? null : round(drawsInMm),
  };
  return { ...needs, text: needSentences([needs], washes, METRIC) };
}
