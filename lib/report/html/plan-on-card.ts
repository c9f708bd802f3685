import type { PlanReport } from '../advice-report.js';
import type { AdviseReport } from '../advise-report.js';

/** The plan that a card shows: what is recommended, else the flattest there is. */
export function planOnCard({ recommended, plans }: Pick<AdviseReport, 'recommended' | 'plans'>): PlanReport {
  return (
    recommended ??
    plans.reduce((best, plan) => (plan.riskWashed.wrinkleMm < best.riskWashed.wrinkleMm ? plan : best))
  );
}
