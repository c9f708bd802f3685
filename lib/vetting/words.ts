import { mmToInch } from '../core/units.js';
import type { UnderlayKind } from '../segment/objects.js';

/** Below this a hundredth of an inch is too coarse: a spacing of 0.4 mm and one of 0.5 would read alike. */
const FINE_BELOW_IN = 0.1;
/** Below this a thousandth of an inch would read as nothing. */
const FINEST_BELOW_IN = 0.001;

/**
 * A length for people, in millimetres to a hundredth and then in inches: `4.2 mm (0.17 in)`. Reports in inches turn the two round, so
 * they look for this form.
 */
export function inWords(mm: number): string {
  return `${inMillimetres(mm)} mm (${inInches(mm)} in)`;
}

/** The lowest and the highest of some lengths in the same form: `0.1 to 0.32 mm (0.004 to 0.013 in)`; one length where they read alike. */
export function rangeInWords(mm: readonly number[]): string {
  const [low, high] = [Math.min(...mm), Math.max(...mm)];
  if (inMillimetres(low) === inMillimetres(high)) return inWords(high);
  return `${inMillimetres(low)} to ${inMillimetres(high)} mm (${inInches(low)} to ${inInches(high)} in)`;
}

const inMillimetres = (mm: number): string => trimmed(mm, 2);

function inInches(mm: number): string {
  // What millimetres leave out is nothing in inches either.
  const inches = mmToInch(Number(inMillimetres(mm)));
  const size = Math.abs(inches);
  return trimmed(inches, size < FINEST_BELOW_IN ? 4 : size < FINE_BELOW_IN ? 3 : 2);
}

/** A figure without trailing zeros. */
export const trimmed = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));

/** `1 stitch`, `2 stitches`. */
export const counted = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;

/** Underlay as an embroiderer calls it; programs go by the ids. */
export const UNDERLAY_NAMES: Readonly<Record<UnderlayKind, string>> = {
  'center-run': 'centre run',
  'edge-run': 'edge run',
  zigzag: 'zigzag',
  'double-zigzag': 'double zigzag',
  fill: 'light fill',
};

/** The underlay of an object for a table: `centre run, zigzag`, or `none`. */
export const underlayNames = (kinds: readonly UnderlayKind[]): string =>
  kinds.map((kind) => UNDERLAY_NAMES[kind]).join(', ') || 'none';
