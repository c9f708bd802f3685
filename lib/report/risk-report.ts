/** The risk of puckering under the names and in the rounding of the reports. */
import { type Catalogue, find } from '../materials/catalogue.js';
import type { Conditions } from '../mechanics/conditions.js';
import type { DesignRisk, DetailedRisk, QuickRisk, Risk } from '../mechanics/risk.js';
import { gradeOf } from '../mechanics/score.js';
import { stackText } from '../mechanics/stack-notation.js';
import type { RiskByObject } from './columns/report.js';
import { wordsFor } from './phrases/words.js';
import { round } from './round.js';
import type { ConditionsReport, ObjectRiskReport, RiskReport, VetReport } from './vet/report.js';

/** Scores are rounded to 0.1, all else to 0.001; the grade is that of the rounded score, so that the two agree. */
export function bareRiskReport(risk: Risk): RiskReport {
  const score = round(risk.score, 1);
  return {
    score,
    grade: gradeOf(score),
    pullInMm: round(risk.pullInMm),
    wrinkleMm: round(risk.wrinkleMm),
  };
}

/** The same with its range and what causes it. */
export function riskReport(risk: DetailedRisk): ObjectRiskReport {
  const scores = risk.range.score.map((s) => round(s, 1)) as [number, number];
  return {
    ...bareRiskReport(risk),
    wrinkleBandMm: risk.wrinkleBandMm.map((h) => round(h)) as [number, number, number],
    range: {
      score: scores,
      wrinkleMm: risk.range.wrinkleMm.map((h) => round(h)) as [number, number],
      // The higher the score, the lower the grade.
      grade: [gradeOf(scores[1]), gradeOf(scores[0])],
    },
    drivers: risk.drivers.map(({ cause, share }) => ({ cause, share: round(share) })),
  };
}

/** What texts for programs are said in. */
const METRIC = wordsFor({ units: 'mm', detail: 'full' });

/** Names beside the ids, so that a report can be read without the catalogue. */
export function conditionsReport(conditions: Conditions, catalogue: Catalogue): ConditionsReport {
  const { fabric, stack, thread } = conditions;
  const sheets = stack.map(({ sheet, angleDeg }) => ({
    name: find(catalogue, 'sheets', sheet).name,
    angleDeg,
  }));
  return {
    fabric,
    fabricName: find(catalogue, 'fabrics', fabric).name,
    garment: conditions.garment && { ...conditions.garment },
    stack: stack.map(({ sheet, angleDeg }) => ({ sheet, angleDeg })),
    stackText: stackText(stack),
    stackName: METRIC.risk.stack({ sheets }),
    stackGiven: conditions.stackGiven,
    grainDeg: conditions.grainDeg,
    hoopStretchPercent: conditions.hoopStretchPercent,
    washes: conditions.washes,
    thread,
    threadName: find(catalogue, 'threads', thread).name,
  };
}

/** The vet report with the risk of every object and of the whole filled in; the report given is not changed. */
export function withRisk(
  report: VetReport,
  risk: DesignRisk,
  conditions: Conditions,
  catalogue: Catalogue,
): VetReport {
  const byId = new Map(risk.objects.map((object) => [object.id, object]));
  return {
    ...report,
    objects: report.objects.map((object) => ({ ...object, risk: riskReport(byId.get(object.id)!) })),
    risk: { ...riskReport(risk), conditions: conditionsReport(conditions, catalogue) },
  };
}

/** A quick risk by object id; `ids` are those of its objects, in order. */
export function riskByObject(risk: QuickRisk, ids: readonly number[]): RiskByObject {
  return {
    design: bareRiskReport(risk),
    objects: new Map(ids.map((id, k) => [id, bareRiskReport(risk.objects[k])])),
  };
}
