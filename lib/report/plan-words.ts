/** Parts of a plan in words. */

/** More stretches of numbers than this are not read out. */
const MOST_RUNS = 100;

/** `objects 1 to 4, 7`. */
export function idsInWords(ids: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const id of ids.toSorted((a, b) => a - b)) {
    const last = runs[runs.length - 1];
    if (last && id === last[1] + 1) last[1] = id;
    else runs.push([id, id]);
  }
  const text = runs
    .slice(0, MOST_RUNS)
    .map(([a, b]) => (a === b ? `${a}` : b === a + 1 ? `${a}, ${b}` : `${a} to ${b}`))
    .join(', ');
  const left = runs.slice(MOST_RUNS).reduce((sum, [a, b]) => sum + b - a + 1, 0);
  return `object${ids.length === 1 ? '' : 's'} ${text}${left > 0 ? ` … and ${left} more` : ''}`;
}

/** An amount, with its currency if that is named. */
export const moneyWords = (amount: number, currency?: string): string =>
  `${amount.toFixed(2)}${currency ? ` ${currency}` : ''}`;
