/** Why a plan is where it is, a sentence each. */
import type { StackHeights } from '../mechanics/stack-family.js';
import { counted, inWords } from '../vetting/words.js';
import type { Accepted } from './accepted.js';
import type { Judged } from './front.js';
import { meetsAt } from './meets.js';
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

interface Chanced extends Judged {
  /** Part of the draws in which it keeps what the shop accepts. */
  readonly chance: number;
}

/** Where a plan stands beside the recommended one. */
export function whyVerdict(
  plan: Chanced,
  recommended: Chanced,
  accepted: Accepted,
  considered: number,
): string {
  const standard = `your standard (${demand(accepted)})`;
  if (plan === recommended) {
    const meets = meetsAt(plan.chance);
    if (meets === 'yes')
      return considered === 1 ? `It meets ${standard}.` : `The cheapest setup that meets ${standard}.`;
    if (meets === 'may')
      return `It may miss ${standard}: no setup is sure to meet it, and this one is likeliest to.`;
    return `No backing fully meets ${standard}; this comes closest.`;
  }
  const [lower, when] =
    accepted.washes > 0
      ? [recommended.washedMm - plan.washedMm, ` after ${launderings(accepted.washes)}`]
      : [recommended.nowMm - plan.nowMm, ''];
  const beside =
    lower > 0 ? `its wrinkles${when} are ${inWords(lower)} lower` : `it is less likely to meet ${standard}`;
  return `Costs ${plan.total < recommended.total ? 'less' : 'more'} than the recommended setup; ${beside}.`;
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
    `With ${underlayWords(to)} under ${counted(changes.length, 'wide column', 'wide columns')} instead of zigzag: ${heights(nowMm, asItCame.nowMm)} as sewn${after}.`,
  ];
}
