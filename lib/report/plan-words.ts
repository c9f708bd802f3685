/** Parts of a plan in words. */

/** `objects 1 to 4, 7`. */
export function idsInWords(ids: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const id of ids.toSorted((a, b) => a - b)) {
    const last = runs[runs.length - 1];
    if (last && id === last[1] + 1) last[1] = id;
    else runs.push([id, id]);
  }
  const text = runs
    .map(([a, b]) => (a === b ? `${a}` : b === a + 1 ? `${a}, ${b}` : `${a} to ${b}`))
    .join(', ');
  return `object${ids.length === 1 ? '' : 's'} ${text}`;
}

/** An amount, with its currency if that is named. */
export const moneyWords = (amount: number, currency?: string): string =>
  `${amount.toFixed(2)}${currency ? ` ${currency}` : ''}`;
