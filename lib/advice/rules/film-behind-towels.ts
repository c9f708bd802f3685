import { COMMON_PRACTICE } from '../../core/sourced.js';
import { goodsClass } from '../goods-class.js';
import { everySheet, type StackRule } from './rule.js';

export const filmBehindTowels: StackRule = {
  id: 'film-behind-towels',
  basis: COMMON_PRACTICE,
  on: (job) =>
    goodsClass(job.fabric) === 'towel'
      ? everySheet(job, { code: 'film-behind-towels', params: {} }, ({ kind }) => kind === 'soluble')
      : null,
};
