import { COMMON_PRACTICE, FROM_MEMORY } from '../../core/sourced.js';
import { type FabricClass, fabricClass } from '../fabric-class.js';
import type { AdviceJob } from '../job.js';
import { RULE_LIMITS } from '../rule-limits.js';
import { type StackRule, sheetsOf } from './rule.js';

/** What a garment can carry behind a design: weight of all sheets, and their stiffness to bend. */
interface StackLimit {
  /** g/m². */
  readonly mass: number;
  /** µN·m, geometric mean of along and across, added up: sheets slide on each other. */
  readonly bending: number;
  readonly basis: string;
}

const limit = (mass: number, bending: number, basis: string): StackLimit => ({ mass, bending, basis });
/** Up to two sheets of 2.5 oz cut-away, or three of woven polyester, or a bonded one between two woven. */
const SOFT = limit(200, 130, `${COMMON_PRACTICE}: two sheets of 2.5 oz, or three of woven polyester`);
const FIRM = limit(250, 220, `${COMMON_PRACTICE}: two sheets of up to 3.5 oz`);
const FRAMED = limit(450, 2_000, `two sheets of cap backing, ${FROM_MEMORY}`);

export const STACK_LIMITS: Readonly<Record<FabricClass, StackLimit>> = {
  'structured-cap': FRAMED,
  'soft-cap': FRAMED,
  'thinnest-knit': SOFT,
  'elastic-knit': SOFT,
  stretchy: SOFT,
  sheer: SOFT,
  rigid: FIRM,
  towel: FIRM,
  other: FIRM,
};

/** What lies behind light woven cloth is felt, and shows, as it is behind a knit. */
const limitFor = ({ fabric }: AdviceJob): StackLimit => {
  const known = fabricClass(fabric);
  return known === 'other' && fabric.mass.value < RULE_LIMITS.stableMass.value ? SOFT : STACK_LIMITS[known];
};

export const stackLimit: StackRule = {
  id: 'stack-limit',
  basis: COMMON_PRACTICE,
  on: (job) => {
    const { mass, bending } = limitFor(job);
    return {
      allows: (stack) => {
        const sheets = sheetsOf(job, stack);
        const weight = sheets.reduce((sum, sheet) => sum + sheet.mass.value, 0);
        const stiffness = sheets.reduce(
          (sum, { bendingAlong, bendingAcross }) => sum + Math.sqrt(bendingAlong.value * bendingAcross.value),
          0,
        );
        // One sheet alone is judged by its kind, not by its weight.
        return stack.length < 2 || (weight <= mass && stiffness <= bending);
      },
      why: null,
    };
  },
};

const ELASTIC = new Set<FabricClass>(['elastic-knit', 'thinnest-knit']);

/**
 * A shop lays the same sheet once, twice or three times, the first woven one straight; on very stretchy knit something may lie between two woven
 * ones.
 */
export const plainStack: StackRule = {
  id: 'plain-stack',
  basis: COMMON_PRACTICE,
  on: (job) => ({
    allows: (stack) => {
      const sheets = sheetsOf(job, stack);
      const woven = stack.filter((_, k) => sheets[k].kind === 'woven');
      const alike = sheets.every(({ id }) => id === sheets[0].id);
      const sandwich = woven.length > 1 && ELASTIC.has(fabricClass(job.fabric));
      return (alike || sandwich) && (woven.length === 0 || woven.some(({ angleDeg }) => angleDeg === 0));
    },
    why: null,
  }),
};
