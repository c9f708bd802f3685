import { quantileSorted, quickselect } from 'simple-statistics';

/** Spread of a set of values: quantiles as R's type 7 (linear interpolation), as `simple-statistics` defines them. */
export interface Spread {
  min: number;
  median: number;
  max: number;
}

export interface Distribution extends Spread {
  p95: number;
}

/**
 * Smallest, middle, 95th percentile and largest of the values, or null for none. The array must be the caller's own:
 * it may be left in another order. The order statistics are selected, not sorted for: linear in the number of values.
 *
 * @throws RangeError on a value that is not finite: quantiles of such a set would be silently wrong
 */
export function distributionInPlace(values: Float64Array): Distribution | null {
  const spread = spreadInPlace(values);
  if (spread === null) return null;
  const { min, median, max } = spread;
  if (min === max) return { min, median, max, p95: max };
  const work = asList(values);
  // everything above the median lies above it already
  place(work, (values.length - 1) * 0.95, Math.ceil((values.length - 1) * 0.5) + 1);
  return { min, median, max, p95: quantileSorted(work, 0.95) };
}

/** As {@link distributionInPlace}, without the percentile. */
export function spreadInPlace(values: Float64Array): Spread | null {
  const n = values.length;
  if (n === 0) return null;
  let min = Number.POSITIVE_INFINITY;
  let max = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    const v = values[i];
    if (!(v - v === 0)) throw new RangeError(`value ${i} of the distribution is ${v}`);
    if (v < min) min = v;
    if (v > max) max = v;
  }
  if (min === max) return { min, median: min, max };
  const work = asList(values);
  place(work, (n - 1) * 0.5, 0);
  return { min, median: quantileSorted(work, 0.5), max };
}

/** The library declares plain arrays only, but reads and swaps by index alone. */
const asList = (values: Float64Array): number[] => values as unknown as number[];

/** Brings the one or two order statistics around a fractional rank to their places, leaving what is below `settled`. */
function place(work: number[], rank: number, settled: number): void {
  const last = work.length - 1;
  const low = Math.floor(rank);
  const high = Math.ceil(rank);
  if (low >= settled && settled < last) quickselect(work, low, settled, last);
  if (high > low && high >= settled && low + 1 < last) quickselect(work, high, low + 1, last);
}
