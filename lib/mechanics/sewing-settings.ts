import type { SewingParameters } from './sewing-parameters.js';

/** The parameters as plain numbers, in the units of {@link SewingParameters}. */
export type SewingSettings = { readonly [P in keyof SewingParameters]: number };

export const settingsOf = (parameters: SewingParameters): SewingSettings =>
  Object.fromEntries(Object.entries(parameters).map(([name, { value }]) => [name, value])) as SewingSettings;
