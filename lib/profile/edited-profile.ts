/** A profile with other values, as text: comments stay where they are. */

const FORMATTING = { insertSpaces: true, tabSize: 2, eol: '\n' };

/** The text of a profile with other values at some places; every other key stays, comments and all. */
export async function editedProfile(
  text: string | null,
  values: readonly (readonly [place: readonly string[], value: unknown])[],
): Promise<string> {
  const { applyEdits, modify } = await import('jsonc-parser');
  let out = (text ?? '{}').replace(/^\ufeff/, '');
  for (const [place, value] of values)
    out = applyEdits(out, modify(out, [...place], value, { formattingOptions: FORMATTING }));
  return out.endsWith('\n') ? out : `${out}\n`;
}

/**
 * The text of a profile in which the thread colors of a design are kept, by the hash of its file's content. Every other key stays, comments and all.
 *
 * @param text a profile that `readProfile` takes, or null for none
 */
export const withThreads = (
  text: string | null,
  sha256: string,
  design: { readonly file: string; readonly threads: string },
): Promise<string> => editedProfile(text, [[['designs', sha256], design]]);
