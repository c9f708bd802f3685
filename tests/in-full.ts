import { it } from 'vitest';

/** Whether long runs are whole, as in `.ci/full`: `LIEFLAT_FULL=1 npm test`. */
export const IN_FULL = process.env.LIEFLAT_FULL === '1';

/** How many of the cases of a long run `npm test` draws: a quarter, the same each time; in full all. */
export const someOf = (cases: number): number => (IN_FULL ? cases : Math.ceil(0.25 * cases));

/** One of every `step` things that a long run looks at, the first among them; in full all. */
export const everyNth = <T>(step: number, all: readonly T[]): readonly T[] =>
  IN_FULL ? all : all.filter((_, k) => k % step === 0);

/** A test that takes long, of what shorter ones beside it hold in part: `npm test` skips it. */
export const itInFull: typeof it.skip = it.runIf(IN_FULL);
