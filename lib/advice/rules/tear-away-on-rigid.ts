import { COMMON_PRACTICE } from '../../core/sourced.js';
import { fabricClass } from '../fabric-class.js';
import { tearAwayHand } from '../tear-away-hand.js';
import { everySheet, type StackRule } from './rule.js';

export const tearAwayOnRigid: StackRule = {
  id: 'tear-away-on-rigid',
  basis: COMMON_PRACTICE,
  on: (job) =>
    fabricClass(job.fabric) === 'rigid'
      ? everySheet(job, { code: 'tear-away-on-rigid', params: {} }, (sheet) => tearAwayHand(sheet) === 'firm')
      : null,
};
