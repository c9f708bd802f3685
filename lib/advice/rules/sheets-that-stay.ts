import { COMMON_PRACTICE } from '../../core/sourced.js';
import { goodsClass } from '../goods-class.js';
import { everySheet, type StackRule } from './rule.js';

const STRETCHY = new Set(['stretchy', 'elastic-knit', 'thinnest-knit']);

export const sheetsThatStay: StackRule = {
  id: 'sheets-that-stay',
  basis: COMMON_PRACTICE,
  on: (job) =>
    STRETCHY.has(goodsClass(job.fabric))
      ? everySheet(
          job,
          'The goods stretch: only backing that stays (cut-away or woven) keeps holding the stitching when they are worn and washed.',
          ({ kind }) => kind === 'cut-away' || kind === 'woven',
        )
      : null,
};
