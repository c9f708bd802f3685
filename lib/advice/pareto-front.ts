/** The Pareto front of cost and risk. */

/** Wrinkles that differ by less than this look the same, mm: an eye does not see a hundredth. Our own choice. */
export const SAME_HEIGHT_MM = 0.01;

/** What a plan is judged by. */
export interface Judged {
  readonly total: number;
  /** Height of the wrinkles as sewn and after laundering, mm. */
  readonly nowMm: number;
  readonly washedMm: number;
  /** Of two plans that cost the same and lie equally flat, the one with the lower figure is the simpler. */
  readonly effort: number;
}

const step = (heightMm: number): number => Math.round(heightMm / SAME_HEIGHT_MM);
/** Sums of the same prices in another order differ in their last digit. */
export const money = (total: number): number => Math.round(total * 1e6);

/** Below zero where `a` goes before `b`: cheaper, then flatter after laundering, then flatter as sewn, then simpler. */
export const byCost = (a: Judged, b: Judged): number =>
  money(a.total) - money(b.total) ||
  step(a.washedMm) - step(b.washedMm) ||
  step(a.nowMm) - step(b.nowMm) ||
  a.effort - b.effort;

/**
 * The plans than which none is at once no dearer and visibly flatter after laundering, and none cheaper and as flat: cheapest first, each
 * flatter than the one before. The order of the input does not matter but among plans that are alike in everything.
 */
export function paretoFront<P extends Judged>(plans: readonly P[]): P[] {
  const front: P[] = [];
  let lowest = Number.POSITIVE_INFINITY;
  for (const plan of plans.toSorted(byCost)) {
    if (step(plan.washedMm) >= lowest) continue;
    lowest = step(plan.washedMm);
    front.push(plan);
  }
  return front;
}
