/** What stands under the pictures of a proof. */
import type { Catalogue } from '../../materials/catalogue.js';
import type { Conditions } from '../../mechanics/conditions.js';
import type { Risk } from '../../mechanics/risk.js';
import type { PlanReport } from '../advise/plan-report.js';
import type { Reader } from '../phrases/voice.js';
import { wordsFor } from '../phrases/words.js';
import { conditionsReport } from '../risk-report.js';

/** Of the file as it is, over what lies behind it now. */
export function presentCaption(
  { wrinkleMm, grade }: Risk,
  conditions: Conditions,
  catalogue: Catalogue,
  reader: Reader,
): string[] {
  const { proof } = wordsFor(reader);
  const { fabricName: fabric, stackName: backing, washes } = conditionsReport(conditions, catalogue);
  return [proof.asItIs({ fabric, backing }), proof.wrinkles({ wrinkleMm, grade, washes })];
}

/** Of the setup that is advised. */
export function advisedCaption(
  { wrinkleMm, grade }: Risk,
  plan: Pick<PlanReport, 'stackName' | 'underlay'>,
  { washes }: Pick<Conditions, 'washes'>,
  reader: Reader,
): string[] {
  const { proof } = wordsFor(reader);
  return [
    proof.advised({ backing: plan.stackName, underlay: plan.underlay.length > 0 }),
    proof.wrinkles({ wrinkleMm, grade, washes }),
  ];
}
