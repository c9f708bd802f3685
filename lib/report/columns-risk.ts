/** What the satin columns of a design do under some conditions, as they are and on the underlay that is advised. */
import type { Advice } from '../advice/advise.js';
import { decidedFindings } from '../advice/decided-findings.js';
import type { Catalogue } from '../materials/catalogue.js';
import type { Conditions } from '../mechanics/conditions.js';
import type { Mechanics, MechanicsInput } from '../mechanics/with-figures.js';
import { relaid } from '../stitch/relaid.js';
import type { Finding } from '../vetting/finding.js';
import type { ColumnsForeseen } from './columns/report.js';
import { conditionsReport, riskByObject } from './risk-report.js';
import { findingReport } from './vet/build.js';

/** @param advice for these conditions; null where no backing could be taken, and nothing is decided about underlay */
export function columnsRisk(
  design: MechanicsInput & { readonly findings: readonly Finding[] },
  advice: Advice | null,
  conditions: Conditions,
  { quickRisk }: Mechanics,
  catalogue: Catalogue,
): ColumnsForeseen {
  const { hoop, budget, findings } = design;
  const ids = design.objects.map(({ id }) => id);
  const riskOf = (sewn: MechanicsInput) => riskByObject(quickRisk(sewn, conditions), ids);
  const changes = advice?.search.recommended.underlay ?? [];
  const choices = new Map(changes.map(({ object, to }) => [object, to]));
  return {
    conditions: conditionsReport(conditions, catalogue),
    relaid: [...choices.keys()],
    to: changes[0]?.to ?? null,
    kept: advice?.search.kept ?? null,
    findings: (advice ? decidedFindings(findings, advice.search) : findings).map(findingReport),
    now: riskOf(design),
    onAdvised: choices.size > 0 ? riskOf({ hoop, budget, ...relaid(design, choices) }) : null,
  };
}
