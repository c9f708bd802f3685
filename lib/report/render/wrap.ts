/** Text set in a fixed number of terminal columns. */

/**
 * Columns that a text takes at most. An upper bound by intent: combining marks count as nothing, every character
 * from Hangul Jamo (U+1100) on as two, so a line never runs past the edge whatever a terminal draws.
 */
export function displayWidth(text: string): number {
  let width = 0;
  for (const char of text) width += charWidth(char);
  return width;
}

function charWidth(char: string): number {
  const code = char.codePointAt(0)!;
  if (code < 0x300) return 1;
  if (/^\p{Mark}$/u.test(char)) return 0;
  // General punctuation to box drawing and dingbats is one column wide, CJK and pictographs two.
  return code < 0x1100 || (code >= 0x2010 && code <= 0x2bff && !/^\p{Emoji_Presentation}$/u.test(char))
    ? 1
    : 2;
}

/**
 * Breaks a text at spaces into lines of at most `width` columns; a word longer than a line is broken where it
 * must be. `indent` stands before every line but the first, `first` before that one; both count.
 *
 * @throws RangeError when the width leaves no room beside the indent
 *
 * @example
 * ```ts
 * import { wrap } from 'lieflat';
 * wrap('one two three', 8); // => ['one two', 'three']
 * ```
 */
export function wrap(text: string, width: number, first = '', indent = first): string[] {
  if (!(width - Math.max(displayWidth(first), displayWidth(indent)) >= 2)) {
    throw new RangeError(`no room for text in ${width} columns`);
  }
  const lines: string[] = [];
  let line = first;
  let used = displayWidth(first);
  let empty = true;
  const flush = (): void => {
    lines.push(line.trimEnd());
    line = indent;
    used = displayWidth(indent);
    empty = true;
  };
  for (const word of text.split(/ +/)) {
    if (word === '') continue;
    const wordWidth = displayWidth(word);
    if (!empty && used + 1 + wordWidth > width) flush();
    if (!empty) {
      line += ' ';
      used += 1;
    }
    for (const char of word) {
      const w = charWidth(char);
      if (used + w > width) flush();
      line += char;
      used += w;
      empty = false;
    }
  }
  flush();
  return lines;
}
