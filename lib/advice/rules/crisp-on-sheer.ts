import { COMMON_PRACTICE } from '../../core/sourced.js';
import { fabricClass } from '../fabric-class.js';
import { tearAwayHand } from '../tear-away-hand.js';
import { everySheet, type StackRule } from './rule.js';

export const crispOnSheer: StackRule = {
  id: 'crisp-on-sheer',
  basis: COMMON_PRACTICE,
  on: (job) =>
    fabricClass(job.fabric) === 'sheer'
      ? everySheet(job, { code: 'crisp-on-sheer', params: {} }, (sheet) => tearAwayHand(sheet) === 'crisp')
      : null,
};
