import { mmToInch } from '../core/units.js';

/** A length for people: millimetres and inches. */
export const inWords = (mm: number): string => `${trimmed(mm, 2)} mm (${trimmed(mmToInch(mm), 3)} in)`;

/** A figure without trailing zeros. */
export const trimmed = (value: number, decimals: number): string => String(Number(value.toFixed(decimals)));

/** `1 stitch`, `2 stitches`. */
export const counted = (count: number, one: string, many: string): string =>
  `${count} ${count === 1 ? one : many}`;
