/**
 * Rounds for reports: 0.001 of a unit unless told otherwise, far below the 0.1 mm that a stitch file can say.
 * No negative zero; not-a-number and infinities pass through for the caller to notice.
 */
export function round(value: number, digits = 3): number {
  const factor = 10 ** digits;
  const rounded = Math.round(value * factor) / factor;
  return rounded === 0 ? 0 : rounded;
}

/** Every number of a flat record rounded to 0.001. */
export function roundAll<T extends object>(values: T): T {
  return Object.fromEntries(
    Object.entries(values).map(([key, value]) => [key, typeof value === 'number' ? round(value) : value]),
  ) as T;
}

/** Every number within a value rounded to 0.001, at any depth. */
export function roundEvery<T>(value: T): T {
  if (typeof value === 'number') return round(value) as T;
  if (Array.isArray(value)) return value.map(roundEvery) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, roundEvery(inner)])) as T;
}
