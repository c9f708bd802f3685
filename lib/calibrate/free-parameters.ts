/** The few parameters of the model that grades and widths of sew-outs can tell apart, and what is thought of them before any are looked at. */
import type { Sourced } from '../core/sourced.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';

/**
 * What a shop's machine, hands and eyes make differ, and what its sew-outs can tell.
 *
 * `tension` is set at the machine: all pull-in goes with it. `pointSpring` is how firmly needle, thread and bobbin of this machine join fabric
 * and backing: narrow columns feel it more than wide ones. `longestSpan` decides how soon fabric wrinkles; the bending stiffness of fabrics, which
 * nobody has measured on the shop's own, goes with it (a threshold is B/L²), so that a fit takes it in. `firstWash` is the shop's laundry,
 * `scoreHalf` its eye. The rest is left alone: bedding-in and the bobbin's share do what tension does, the fabric's grip what `pointSpring` does.
 */
export const FREE = ['tension', 'pointSpring', 'longestSpan', 'firstWash', 'scoreHalf'] as const;
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
