import { mmToInch } from '../core/units.js';

/** Below this a hundredth of an inch is too coarse: a spacing of 0.4 mm and one of 0.5 would read alike. */
const FINE_BELOW_IN = 0.1;

/**
 * A length for people, in millimetres to a hundredth and then in inches: `4.2 mm (0.17 in)`. Reports in inches turn the two round, so
 * they look for this form.
 */
export function inWords(mm: number): string {
  const inches = mmToInch(mm);
  return `${trimmed(mm, 2)} mm (${trimmed(inches, Math.abs(inches) < FINE_BELOW_IN ? 3 : 2)} in)`;
}

/** A figure without trailing zeros. */
export const trimmed = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));

/** `1 stitch`, `2 stitches`. */
export const counted = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;
