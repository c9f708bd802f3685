import { LieflatError } from '../core/errors.js';
import type { MechanicsParameters } from './parameters.js';

/** What a shop's own sew-outs say of the model: a parameter's name to a value, or to a value with its range. */
export type ParameterOverrides = { readonly [P in keyof MechanicsParameters]?: number | ParameterFigure };

export interface ParameterFigure {
  readonly value: number;
  readonly low?: number;
  readonly high?: number;
  readonly basis?: string;
}

const SHOP = "fitted to the shop's own sew-outs";
/** Parts of a whole: the first two may reach it, the third may not, or nothing would be left for tacking to add. */
const AT_MOST: Readonly<Partial<Record<keyof MechanicsParameters, number>>> = {
  ownPoints: 1,
  firstWash: 1,
  hooped: 0.99,
};

/**
 * The parameters with a shop's own over the built-in ones. Neither argument is changed.
 * @throws LieflatError `bad-profile`, naming the key.
 */
export function withParameters(
  parameters: MechanicsParameters,
  overrides: ParameterOverrides,
): MechanicsParameters {
  const out = { ...parameters };
  for (const [name, given] of Object.entries(overrides)) {
    if (given === undefined) continue;
    const key = name as keyof MechanicsParameters;
    const { unit } = parameters[key];
    const most = AT_MOST[key] ?? Number.MAX_VALUE;
    const figure: ParameterFigure = typeof given === 'number' ? { value: given } : given;
    const { value, low = value, high = value, basis = SHOP } = figure;
    if (!(low > 0 && low <= value && value <= high && high <= most))
      throw new LieflatError({
        code: 'bad-profile',
        place: `calibration.${name}`,
        what: `has the range ${low} to ${high} about ${value}`,
        todo: `give 0 < low ≤ value ≤ high${most < Number.MAX_VALUE ? ` ≤ ${most}` : ''}${unit ? `, in ${unit}` : ''}`,
      });
    out[key] = { value, low, high, unit, basis };
  }
  return out;
}
