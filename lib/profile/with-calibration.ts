import type { FittedParameters } from '../mechanics/parameters.js';
import { editedProfile } from './edited-profile.js';
import { hasFirstEdition } from './first-edition.js';

/**
 * The text of a profile with fitted parameters in its `calibration`. Every other key stays, comments and all; parameters that were not fitted
 * stay, too.
 *
 * @param text a profile that `readProfile` takes, or null for none
 */
export async function withCalibration(text: string | null, fitted: FittedParameters): Promise<string> {
  const { parse } = await import('jsonc-parser');
  // What was fitted with parameters that are no more goes as a whole.
  const outdated = hasFirstEdition(
    parse(text?.replace(/^\ufeff/, '') ?? '{}', [], { allowTrailingComma: true }),
  );
  return editedProfile(text, [
    ...(outdated ? [[['calibration'], {}] as const] : []),
    ...Object.entries(fitted).map(([name, figure]) => [['calibration', name], figure] as const),
  ]);
}
