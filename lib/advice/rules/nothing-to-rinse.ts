import { COMMON_PRACTICE } from '../../core/sourced.js';
import { forbidding, type StackRule } from './rule.js';

export const nothingToRinse: StackRule = {
  id: 'nothing-to-rinse',
  basis: COMMON_PRACTICE,
  on: (job) =>
    job.fabric.washable
      ? null
      : forbidding(job, { code: 'nothing-to-rinse', params: {} }, ({ kind }) => kind === 'soluble'),
};
