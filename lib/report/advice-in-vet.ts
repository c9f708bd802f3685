/** The advice as the vet report carries it. */
import { launderings } from '../advice/words.js';
import type { ObjectAdviceReport, PlanReport } from './advice-report.js';
import type { AdviseReport } from './advise-report.js';
import { moneyWords, relayWords } from './plan-words.js';
import { riskWord } from './risk-word.js';
import type { VetReport } from './vet/report.js';

/** The vet report with the advice for the whole and for every object that needs something; the report given is not changed. */
export function withAdvice(report: VetReport, advice: AdviseReport): VetReport {
  const byId = new Map<number, ObjectAdviceReport>(advice.objects.map((object) => [object.object, object]));
  const { recommended, meets, mustChange } = advice;
  return {
    ...report,
    objects: report.objects.map((object) => ({ ...object, advice: byId.get(object.id) ?? null })),
    advice: {
      recommended,
      meets,
      mustChange,
      washes: recommended.riskWashed.washes,
      text: [`Sew it ${planText(recommended)}`, ...recommended.why.slice(0, 1), ...mustChange],
    },
  };
}

function planText(plan: PlanReport): string {
  const { underlay, topping, toppingName, riskNow, riskWashed, cost } = plan;
  const relaid = underlay.length > 0 ? ` with ${relayWords(plan)}` : '';
  const washed =
    riskWashed.washes > 0 ? `, ${riskWord(riskWashed.grade)} after ${launderings(riskWashed.washes)}` : '';
  return `over ${plan.stackName}${relaid}${topping ? `, under ${toppingName}` : ''}, needle ${plan.needleName}: ${riskWord(riskNow.grade)} as sewn${washed}; ${moneyWords(cost.total, cost.currency)} a piece.`;
}
