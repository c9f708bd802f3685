import { COMMON_PRACTICE } from '../../core/sourced.js';
import { fabricClass } from '../fabric-class.js';
import { tearAwayHand } from '../tear-away-hand.js';
import { everySheet, type StackRule } from './rule.js';

export const structuredCap: StackRule = {
  id: 'structured-cap',
  basis: COMMON_PRACTICE,
  on: (job) =>
    fabricClass(job.fabric) === 'structured-cap'
      ? everySheet(job, { code: 'structured-cap', params: {} }, (sheet) =>
          ['firm', 'card'].includes(tearAwayHand(sheet) ?? ''),
        )
      : null,
};
