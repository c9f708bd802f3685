import { COMMON_PRACTICE } from '../../core/sourced.js';
import { ozPerYd2ToGsm } from '../../core/units.js';
import type { Sheet } from '../../materials/sheets.js';
import { fabricClass } from '../fabric-class.js';
import { isCrossed } from './crossed-woven.js';
import { type StackRule, sheetsOf } from './rule.js';

const LIGHT_OZ = 2.5;
/** Sheets are sold by rounded weights. */
const NEAR_OZ = 0.25;

const isLightBonded = ({ kind, mass }: Sheet): boolean =>
  kind === 'cut-away' && Math.abs(mass.value - ozPerYd2ToGsm(LIGHT_OZ)) < ozPerYd2ToGsm(NEAR_OZ);

export const wovenSandwich: StackRule = {
  id: 'woven-sandwich',
  basis: COMMON_PRACTICE,
  on: (job) =>
    fabricClass(job.fabric) === 'thinnest-knit'
      ? {
          allows: (stack) => {
            const sheets = sheetsOf(job, stack);
            const woven = stack.filter((_, i) => sheets[i].kind === 'woven');
            return (
              stack.length === 3 &&
              woven.length === 2 &&
              isCrossed(woven.map(({ angleDeg }) => angleDeg)) &&
              sheets.some(isLightBonded)
            );
          },
          why: { code: 'woven-sandwich', params: {} },
        }
      : null,
};
