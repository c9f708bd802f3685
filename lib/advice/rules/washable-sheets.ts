import { COMMON_PRACTICE } from '../../core/sourced.js';
import { forbidding, type StackRule } from './rule.js';

export const washableSheets: StackRule = {
  id: 'washable-sheets',
  basis: COMMON_PRACTICE,
  on: (job) =>
    job.fabric.washable ? forbidding(job, { code: 'washable-sheets', params: {} }, (s) => !s.washable) : null,
};
