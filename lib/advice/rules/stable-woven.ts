import { COMMON_PRACTICE } from '../../core/sourced.js';
import type { Fabric } from '../../materials/fabric.js';
import { fabricClass } from '../fabric-class.js';
import type { AdviceJob } from '../job.js';
import { RULE_LIMITS } from '../rule-limits.js';
import { tearAwayHand } from '../tear-away-hand.js';
import { everySheet, type StackRule } from './rule.js';

/** Tight and stable enough to hold a small logo by itself. */
const isTightWoven = ({ structure, pile, open, mass }: Fabric): boolean =>
  structure === 'woven' && !pile && !open && mass.value >= RULE_LIMITS.stableMass.value;

const isSmall = ({ design: { widthMm, heightMm, stitches } }: AdviceJob): boolean =>
  Math.max(widthMm, heightMm) <= RULE_LIMITS.smallLogo.value &&
  stitches <= RULE_LIMITS.smallLogoStitches.value;

/** Fabric that hardly stretch, and none of those that have a rule of their own. */
export const stableWoven: StackRule = {
  id: 'stable-woven',
  basis: COMMON_PRACTICE,
  on: (job) => {
    if (fabricClass(job.fabric) !== 'other') return null;
    return isTightWoven(job.fabric) && isSmall(job)
      ? everySheet(
          job,
          { code: 'stable-woven', params: { small: true } },
          (sheet) => sheet.kind === 'cut-away' || tearAwayHand(sheet) === 'firm',
        )
      : everySheet(
          job,
          { code: 'stable-woven', params: { small: false } },
          ({ kind }) => kind === 'cut-away',
        );
  },
};
