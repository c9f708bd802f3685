/** Why a plan is where it is, a sentence each. */
import type { StackHeights } from '../mechanics/stack-family.js';
import { counted, inWords } from '../vetting/words.js';
import type { Accepted } from './accepted.js';
import type { Judged } from './front.js';
import type { Treatment } from './treatments.js';
import { launderings, NO_WRINKLE_MM, underlayWords } from './words.js';

interface Reasoned extends Judged {
  readonly treatment: Pick<Treatment, 'to' | 'changes'>;
}

/** What the shop asks for, in words. */
export const demand = ({ grade, washedGrade, washes }: Accepted): string =>
  washes > 0
    ? `grade ${grade} as sewn and grade ${washedGrade} after ${launderings(washes)}`
    : `grade ${grade} as sewn`;

/** Where a plan stands beside the recommended one. */
export function whyVerdict(
  plan: Judged,
  recommended: Judged | null,
  accepted: Accepted,
  considered: number,
): string {
  if (recommended === null) return `Does not keep ${demand(accepted)}: no plan does.`;
  if (plan === recommended)
    return considered === 1
      ? `Keeps ${demand(accepted)}.`
      : `The cheapest of ${considered} plans that keeps ${demand(accepted)}.`;
  if (plan.total < recommended.total)
    return `Costs less than the recommended plan, but does not keep ${demand(accepted)}.`;
  const [lower, when] =
    accepted.washes > 0
      ? [recommended.washedMm - plan.washedMm, ` after ${launderings(accepted.washes)}`]
      : [recommended.nowMm - plan.nowMm, ''];
  return `Costs more than the recommended plan; its wrinkles${when} are ${inWords(lower)} lower.`;
}

/** What a changed underlay brings on the same stack, or nothing where it stays. */
export function whyUnderlay(
  { treatment, nowMm, washedMm }: Reasoned,
  asItCame: StackHeights,
  washes: number,
): string[] {
  const { to, changes } = treatment;
  if (to === null) return [];
  const heights = (mm: number, own: number): string =>
    mm < NO_WRINKLE_MM && own < NO_WRINKLE_MM
      ? 'no wrinkles with either'
      : `wrinkles ${inWords(mm)} instead of ${inWords(own)}`;
  const after = washes > 0 ? `; ${heights(washedMm, asItCame.washedMm)} after ${launderings(washes)}` : '';
  return [
    `With ${underlayWords(to)} under ${counted(changes.length, 'wide column', 'wide columns')} in place of zigzag: ${heights(nowMm, asItCame.nowMm)} as sewn${after}.`,
  ];
}
