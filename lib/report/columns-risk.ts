/** What the satin columns of a design do under some conditions, as they are and on a light fill. */
import type { Catalogue } from '../materials/catalogue.js';
import type { Conditions } from '../mechanics/conditions.js';
import type { Mechanics, MechanicsInput } from '../mechanics/with-figures.js';
import { relaid } from '../stitch/relaid.js';
import type { Finding } from '../vetting/finding.js';
import { heavyColumns } from '../vetting/heavy-columns.js';
import type { ColumnsForeseen } from './columns/report.js';
import { conditionsReport, riskByObject } from './risk-report.js';

/** As they are, and with a light fill under all that are said to need a lighter underlay. */
export function columnsRisk(
  design: MechanicsInput & { readonly findings: readonly Finding[] },
  conditions: Conditions,
  { quickRisk }: Mechanics,
  catalogue: Catalogue,
): ColumnsForeseen {
  const { hoop, budget } = design;
  const heavy = heavyColumns(design.findings);
  const ids = design.objects.map(({ id }) => id);
  const riskOf = (sewn: MechanicsInput) => riskByObject(quickRisk(sewn, conditions), ids);
  const onFill = new Map([...heavy].map((id) => [id, 'fill'] as const));
  return {
    conditions: conditionsReport(conditions, catalogue),
    relaid: [...heavy],
    now: riskOf(design),
    onLightFill: heavy.size > 0 ? riskOf({ hoop, budget, ...relaid(design, onFill) }) : null,
  };
}
