import { COMMON_PRACTICE } from '../../core/sourced.js';
import type { Sheet } from '../../materials/sheets.js';
import { fabricClass } from '../fabric-class.js';
import { RULE_LIMITS } from '../rule-limits.js';
import { tearAwayHand } from '../tear-away-hand.js';
import { everySheet, type StackRule } from './rule.js';

const isFilm = ({ kind }: Sheet): boolean => kind === 'soluble';
const comesOff = (sheet: Sheet): boolean =>
  isFilm(sheet) || ['firm', 'crisp'].includes(tearAwayHand(sheet) ?? '');

/** Both sides of a towel are seen: what lies behind it has to come off again. Film alone carries a light design. */
export const towelBacking: StackRule = {
  id: 'towel-backing',
  basis: COMMON_PRACTICE,
  on: (job) => {
    if (fabricClass(job.fabric) !== 'towel') return null;
    const { stitches } = job.design;
    const most = RULE_LIMITS.filmStitches.value;
    const light = stitches <= most;
    return everySheet(
      job,
      { code: 'towel-backing', params: { light, stitches, most } },
      light ? isFilm : comesOff,
    );
  },
};
