import { COMMON_PRACTICE, type Sourced } from '../../core/sourced.js';

export { COMMON_PRACTICE };

const OWN = 'our own choice';

/** A figure by which the finder decides, with the range in which it could as well stand. */
export const of = (value: number, low: number, high: number, unit: string, basis: string = OWN): Sourced => ({
  value,
  low,
  high,
  unit,
  basis,
});

/** Why a figure that bounds work stands in the table: it decides only what is looked at. */
export const WORK = 'our own choice: it bounds the work';

/** Cosine of an angle that is given in degrees. */
export const cosineOf = (angle: Sourced): number => Math.cos((angle.value * Math.PI) / 180);
