/** How many of the cases of a long run `npm test` draws: two of five, the same each time; all with `LIEFLAT_FULL=1`. */
export const someOf = (cases: number): number =>
  process.env.LIEFLAT_FULL === '1' ? cases : Math.ceil(0.4 * cases);
