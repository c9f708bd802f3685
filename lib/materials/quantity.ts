import type { Sourced } from '../core/sourced.js';

/** Maker of values in one unit, so that a table of materials reads as a table. */
export const inUnit =
  (unit: string) =>
  (basis: string, value: number, low: number, high: number): Sourced => ({ value, low, high, unit, basis });

/** Membrane stiffness: force per width of goods for a strain of one. */
export const newtonPerMm = inUnit('N/mm');
/** Bending stiffness per width of goods. 1 µN·m = 0.001 N·mm. */
export const microNewtonMetre = inUnit('µN·m');
export const gramPerM2 = inUnit('g/m²');
export const millimetre = inUnit('mm');
export const percent = inUnit('%');
export const plain = inUnit('');
export const usdPerSheet = inUnit('USD/sheet');
