import { COMMON_PRACTICE } from '../../core/sourced.js';
import { fabricClass } from '../fabric-class.js';
import { everySheet, type StackRule } from './rule.js';

export const filmBehindTowels: StackRule = {
  id: 'film-behind-towels',
  basis: COMMON_PRACTICE,
  on: (job) =>
    fabricClass(job.fabric) === 'towel'
      ? everySheet(job, { code: 'film-behind-towels', params: {} }, ({ kind }) => kind === 'soluble')
      : null,
};
