/** The advice as the vet report carries it. */
import { sayCoded } from '../phrases/coded.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { round } from '../round.js';
import type { VetReport } from '../vet/report.js';
import type { DesignAdviceReport, ObjectAdviceReport } from './plan-report.js';
import type { AdviseReport } from './report.js';

const METRIC = wordsFor({ units: 'mm', detail: 'full' });

/**
 * The vet report with the advice for the whole and for every object that needs something; the report given is not changed.
 *
 * @param sewSeconds of the design at the speed of the recommended plan
 */
export function withAdvice(report: VetReport, advice: AdviseReport, sewSeconds: number): VetReport {
  const byId = new Map<number, ObjectAdviceReport>(advice.objects.map((object) => [object.object, object]));
  const { recommended, meets, verdict, verdictReasons, hoop, mustChange, changes, warnings, relaidAway } =
    advice;
  const { washes } = recommended.riskWashed;
  const otherPlans = advice.plans.length - 1;
  const own = {
    recommended,
    meets,
    verdict,
    verdictReasons,
    hoop,
    mustChange,
    changes,
    warnings,
    relaidAway,
    washes,
    otherPlans,
  };
  return {
    ...report,
    design: { ...report.design, sewSeconds: round(sewSeconds, 1), sewSpeedSpm: recommended.speedSpm },
    objects: report.objects.map((object) => ({ ...object, advice: byId.get(object.id) ?? null })),
    advice: { ...own, text: planSentences(own, METRIC) },
  };
}

/** What to sew the whole design over, how that stands to the standard, and what would have to change. */
export function planSentences(
  { recommended, changes, washes }: Pick<DesignAdviceReport, 'recommended' | 'changes' | 'washes'>,
  words: Words<'advice' | 'setup'>,
): string[] {
  const { stackName, underlay, toppingName, needleName, riskNow, riskWashed, cost } = recommended;
  const plan = words.advice.sewIt({
    backing: stackName,
    underlay:
      underlay.length > 0 ? { to: underlay[0].to, objects: underlay.map(({ object }) => object) } : null,
    topping: toppingName,
    needle: needleName,
    now: riskNow.grade,
    washed: riskWashed.grade,
    washes,
    total: cost.total,
    currency: cost.currency,
  });
  return [
    plan,
    ...recommended.reasons.slice(0, 1).map((reason) => sayCoded(reason, words.advice.why)),
    ...changes.map((change) => words.setup.changes[change]),
  ];
}
