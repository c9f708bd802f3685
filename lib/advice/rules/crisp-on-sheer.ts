import { COMMON_PRACTICE } from '../../core/sourced.js';
import { goodsClass } from '../goods-class.js';
import { tearAwayHand } from '../tear-away-hand.js';
import { everySheet, type StackRule } from './rule.js';

export const crispOnSheer: StackRule = {
  id: 'crisp-on-sheer',
  basis: COMMON_PRACTICE,
  on: (job) =>
    goodsClass(job.fabric) === 'sheer'
      ? everySheet(
          job,
          'Whatever stays behind see-through goods shows: a crisp tear-away comes off clean.',
          (sheet) => tearAwayHand(sheet) === 'crisp',
        )
      : null,
};
