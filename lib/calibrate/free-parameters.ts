/** The few parameters of the model that grades of sew-outs can tell apart, and what is thought of them before any are looked at. */
import type { Sourced } from '../core/sourced.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';

/**
 * The bed-in length goes with the tension (both set the pull of a stitch); the rest moves a grade by little. `threshold` multiplies the
 * bending stiffness wherever it stands, so a fit of it takes in how stiff the shop's goods are on the whole.
 */
export const FREE = ['tension', 'fullTacking', 'threshold', 'firstWash', 'scoreHalf'] as const;
export type FreeName = (typeof FREE)[number];
export type FreeValues = Readonly<Record<FreeName, number>>;

/** All in the logarithm: the parameters are above zero and known to a factor. */
export interface Prior {
  readonly centre: number;
  /** One standard deviation: half the built-in range from low to high, as the ranges of results take it, too. */
  readonly deviation: number;
  readonly low: number;
  readonly high: number;
}

/** No fit goes further than this many standard deviations from the built-in value. */
const FARTHEST = 2.5;
/** Of a shrinkage something is left for the second wash. */
const MOST_FIRST_WASH = 0.95;

export function priorOf(parameters: MechanicsParameters, name: FreeName): Prior {
  const { value, low, high }: Sourced = parameters[name];
  const centre = Math.log(value);
  const deviation = Math.log(high / low) / 2;
  const most = name === 'firstWash' ? Math.log(MOST_FIRST_WASH) : Infinity;
  return {
    centre,
    deviation,
    low: centre - FARTHEST * deviation,
    high: Math.min(most, centre + FARTHEST * deviation),
  };
}

export const freeValues = (parameters: MechanicsParameters): FreeValues =>
  Object.fromEntries(FREE.map((name) => [name, parameters[name].value])) as Record<FreeName, number>;
