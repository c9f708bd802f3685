import type { PlanReport } from './advice-report.js';

/** The plan that is shown first: what is recommended, else the flattest there is. */
export function shownPlan({
  recommended,
  plans,
}: {
  recommended: PlanReport | null;
  plans: readonly PlanReport[];
}): PlanReport {
  return (
    recommended ??
    plans.reduce((best, plan) => (plan.riskWashed.wrinkleMm < best.riskWashed.wrinkleMm ? plan : best))
  );
}
