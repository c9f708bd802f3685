import type { Sourced } from '../core/sourced.js';
import type { PlyValues } from './ply-values.js';

/** Maker of values in one unit, so that a table of materials reads as a table. */
export const inUnit =
  (unit: string) =>
  (basis: string, value: number, low: number, high: number): Sourced => ({ value, low, high, unit, basis });

/** Membrane stiffness: force per width of fabric for a strain of one. */
export const newtonPerMm = inUnit('N/mm');
/** Bending stiffness per width of fabric. 1 µN·m = 0.001 N·mm. */
export const microNewtonMetre = inUnit('µN·m');
export const gramPerM2 = inUnit('g/m²');
export const millimetre = inUnit('mm');
export const percent = inUnit('%');
export const plain = inUnit('');
export const usdPerSheet = inUnit('USD/sheet');

type ValueInRange = readonly [value: number, low: number, high: number];

/** Membrane stiffness along and across a material, N/mm, both from one source. */
export const membrane = (
  basis: string,
  along: ValueInRange,
  across: ValueInRange,
): Pick<PlyValues, 'membraneAlong' | 'membraneAcross'> => ({
  membraneAlong: newtonPerMm(basis, ...along),
  membraneAcross: newtonPerMm(basis, ...across),
});

/** Bending stiffness along and across a material, µN·m, both from one source. */
export const bending = (
  basis: string,
  along: ValueInRange,
  across: ValueInRange,
): Pick<PlyValues, 'bendingAlong' | 'bendingAcross'> => ({
  bendingAlong: microNewtonMetre(basis, ...along),
  bendingAcross: microNewtonMetre(basis, ...across),
});
