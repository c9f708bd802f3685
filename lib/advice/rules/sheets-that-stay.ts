import { COMMON_PRACTICE } from '../../core/sourced.js';
import { fabricClass } from '../fabric-class.js';
import { everySheet, type StackRule } from './rule.js';

const STRETCHY = new Set(['stretchy', 'elastic-knit', 'thinnest-knit']);

export const sheetsThatStay: StackRule = {
  id: 'sheets-that-stay',
  basis: COMMON_PRACTICE,
  on: (job) =>
    STRETCHY.has(fabricClass(job.fabric))
      ? everySheet(
          job,
          { code: 'sheets-that-stay', params: {} },
          ({ kind }) => kind === 'cut-away' || kind === 'woven',
        )
      : null,
};
