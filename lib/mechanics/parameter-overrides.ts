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
/** Parts of a whole may reach it. */
const AT_MOST: Readonly<Partial<Record<keyof MechanicsParameters, number>>> = {
  topShare: 1,
  ownPoints: 1,
  firstWash: 1,
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
    const { unit, low: least } = parameters[key];
    const most = AT_MOST[key] ?? Number.MAX_VALUE;
    const figure: ParameterFigure = typeof given === 'number' ? { value: given } : given;
    const { value, low = value, high = value, basis = SHOP } = figure;
    const enough = least > 0 ? low > 0 : low >= 0;
    if (!(enough && low <= value && value <= high && high <= most))
      throw new LieflatError({
        code: 'bad-profile',
        place: `calibration.${name}`,
        what: `has the range ${low} to ${high} about ${value}`,
        todo: `give 0 ${least > 0 ? '<' : '≤'} low ≤ value ≤ high${most < Number.MAX_VALUE ? ` ≤ ${most}` : ''}${unit ? `, in ${unit}` : ''}`,
      });
    out[key] = { value, low, high, unit, basis };
  }
  return out;
}
