import { COMMON_PRACTICE } from '../../core/sourced.js';
import { fabricClass } from '../fabric-class.js';
import { countOf, type StackRule } from './rule.js';

const ELASTIC = new Set(['elastic-knit', 'thinnest-knit']);

/** Bonded sheets are let in as the middle of a sandwich alone. */
export const wovenOnElastic: StackRule = {
  id: 'woven-on-elastic',
  basis: COMMON_PRACTICE,
  on: (job) =>
    ELASTIC.has(fabricClass(job.fabric))
      ? {
          allows: (stack) => {
            const woven = countOf(job, stack, ({ kind }) => kind === 'woven');
            return woven >= 2 || woven === stack.length;
          },
          why: { code: 'woven-on-elastic', params: {} },
        }
      : null,
};
