import type { FittedParameters } from '../mechanics/parameters.js';
import { hasFirstEdition } from './first-edition.js';

const FORMATTING = { insertSpaces: true, tabSize: 2, eol: '\n' };

/**
 * The text of a profile with fitted parameters in its `calibration`. Every other key stays, comments and all; parameters that were not fitted
 * stay, too.
 *
 * @param text a profile that `readProfile` takes, or null for none
 */
export async function withCalibration(text: string | null, fitted: FittedParameters): Promise<string> {
  const { applyEdits, modify, parse } = await import('jsonc-parser');
  let out = (text ?? '{}').replace(/^\ufeff/, '');
  // What was fitted with parameters that are no more goes as a whole.
  if (hasFirstEdition(parse(out, [], { allowTrailingComma: true })))
    out = applyEdits(out, modify(out, ['calibration'], {}, { formattingOptions: FORMATTING }));
  for (const [name, figure] of Object.entries(fitted)) {
    const edits = modify(out, ['calibration', name], figure, { formattingOptions: FORMATTING });
    out = applyEdits(out, edits);
  }
  return out.endsWith('\n') ? out : `${out}\n`;
}
