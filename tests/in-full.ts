import { it } from 'vitest';

/** Whether long runs are whole, as in `.ci/full`: `LIEFLAT_FULL=1 npm test`. */
export const IN_FULL = process.env.LIEFLAT_FULL === '1';

/** How many of the cases of a long run `npm test` draws: two of five, the same each time; in full all. */
export const someOf = (cases: number): number => (IN_FULL ? cases : Math.ceil(0.4 * cases));

/** A test that takes long, of what shorter ones beside it hold in part: `npm test` skips it. */
export const itInFull: typeof it.skip = it.runIf(IN_FULL);
