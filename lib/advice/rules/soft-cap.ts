import { COMMON_PRACTICE } from '../../core/sourced.js';
import { fabricClass } from '../fabric-class.js';
import { tearAwayHand } from '../tear-away-hand.js';
import { type StackRule, sheetsOf } from './rule.js';

const FEWEST = 2;

export const softCap: StackRule = {
  id: 'soft-cap',
  basis: COMMON_PRACTICE,
  on: (job) =>
    fabricClass(job.fabric) === 'soft-cap'
      ? {
          allows: (stack) =>
            stack.length >= FEWEST && sheetsOf(job, stack).every((sheet) => tearAwayHand(sheet) === 'card'),
          why: { code: 'soft-cap', params: {} },
        }
      : null,
};
