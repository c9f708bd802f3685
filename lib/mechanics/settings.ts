import type { MechanicsParameters } from './parameters.js';

/** The parameters as plain numbers, in the units of {@link MechanicsParameters}. */
export type ParameterValues = { readonly [P in keyof MechanicsParameters]: number };

export const settingsOf = (parameters: MechanicsParameters): ParameterValues =>
  Object.fromEntries(Object.entries(parameters).map(([name, { value }]) => [name, value])) as ParameterValues;
