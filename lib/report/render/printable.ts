/**
 * Characters that must not reach a terminal or a page raw: control characters (a file name may carry an escape
 * sequence), the marks that turn the writing direction, invisible spaces, line separators and half surrogates. (Joiners inside words
 * of some scripts stay: they only shape letters.)
 */
const UNSAFE =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
  /[\u0000-\u001f\u007f-\u009f\u00ad\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|\p{Surrogate}/gu;

/**
 * The text with every unsafe character written out as `\xNN` or `\uNNNN`. Never throws; other text is unchanged.
 *
 * @example
 * ```ts
 * import { printable } from 'lieflat';
 * printable('a\u202eb'); // => 'a\\u202eb'
 * ```
 */
export function printable(text: string): string {
  return text.replace(UNSAFE, (char) => {
    const code = char.charCodeAt(0);
    if (code < 0x100) return byteEscape(code);
    // A byte of a file name that is no UTF-8.
    return code >= 0xdc80 && code <= 0xdcff ? byteEscape(code - 0xdc00) : unicodeEscape(code);
  });
}

/** JSON text with the same characters escaped as JSON allows: the parsed value is the same. */
export function printableJson(json: string): string {
  // Line feeds outside strings are layout of ours; JSON.stringify has escaped those inside.
  return json.replace(UNSAFE, (char) => (char === '\n' ? char : unicodeEscape(char.charCodeAt(0))));
}

const byteEscape = (code: number): string => `\\x${code.toString(16).padStart(2, '0')}`;

function unicodeEscape(code: number): string {
  return `\\u${code.toString(16).padStart(4, '0')}`;
}
