/** The risk of two versions of a design on the same fabric, side by side. */
import type { Catalogue } from '../../materials/catalogue.js';
import type { Conditions } from '../../mechanics/conditions.js';
import { pairedDraws, withinRange } from '../../mechanics/paired-draws.js';
import type { DesignRisk, DetailedRisk } from '../../mechanics/risk.js';
import { roundedPair } from '../pucker/comparison.js';
import { conditionsReport, riskReport } from '../risk-report.js';
import type { ChangeForeseen, RiskChange } from './report.js';

/** @param before,after risks on the same fabric; what both rest on alike does not blur which lies flatter */
export function changeForeseen(
  before: DesignRisk,
  after: DesignRisk,
  conditions: Conditions,
  catalogue: Catalogue,
): ChangeForeseen {
  const byId = ({ objects }: DesignRisk) => new Map(objects.map((object) => [object.id, object]));
  const [a, b] = [byId(before), byId(after)];
  return {
    conditions: conditionsReport(conditions, catalogue),
    design: riskChange(before, after),
    ofObject: (beforeId, afterId) => riskChange(a.get(beforeId)!, b.get(afterId)!),
  };
}

function riskChange(before: DetailedRisk, after: DetailedRisk): RiskChange {
  const [a, b] = [riskReport(before), riskReport(after)];
  const { wrinkleMm: from } = a;
  const { wrinkleMm: to } = b;
  return {
    before: a,
    after: b,
    flatter: to < from ? 'after' : to > from ? 'before' : null,
    paired: roundedPair(pairedDraws(after.draws, before.draws)),
    tooCloseToCall: to !== from && withinRange(before, after),
  };
}
