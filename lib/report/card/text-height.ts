/** How much paper text will take, worked out without a browser: rather a little too much than too little. */
import { MM_PER_INCH } from '../../core/units.js';

/** A typographic point of 1/72 inch (CSS Values and Units 3, 6.2), mm. */
export const MM_PER_POINT = MM_PER_INCH / 72;

/** Lines as high as this many times the type: what the card's style sets. */
export const LINE_HEIGHT = 1.2;

/** Widths over the size of the type of the usual sans-serif faces, letters that are about alike taken together (from memory). */
const WIDTHS: readonly (readonly [letters: RegExp, width: number])[] = [
  [/[ijl.,:;'|!/\s]/, 0.27],
  [/[frt()\-·*"]/, 0.35],
  [/[mwMW@%]/, 0.83],
  [/[a-z0-9?+<>=_]/, 0.55],
];
const OTHER = 0.72;
/** Bold is wider, and faces differ. */
const ALLOWANCE = 1.04;

export const lineMm = (points: number): number => points * MM_PER_POINT * LINE_HEIGHT;

/** Width on one line, in sizes of the type. */
function widthOf(text: string): number {
  let sum = 0;
  for (const letter of text) sum += WIDTHS.find(([letters]) => letters.test(letter))?.[1] ?? OTHER;
  return sum * ALLOWANCE;
}

/** Lines of a paragraph that is broken at spaces, and within a word that no line holds. */
function linesOf(text: string, room: number): number {
  let lines = 1;
  let used = 0;
  for (const word of text.split(' ')) {
    const width = widthOf(word);
    const withSpace = used === 0 ? width : used + widthOf(' ') + width;
    if (withSpace <= room) {
      used = withSpace;
      continue;
    }
    if (used > 0) lines++;
    lines += Math.max(0, Math.ceil(width / room) - 1);
    used = width > room ? width % room : width;
  }
  return lines;
}

/** Height of paragraphs of running text, mm. */
export function textHeight(paragraphs: readonly string[], widthMm: number, points: number): number {
  const room = widthMm / (points * MM_PER_POINT);
  return paragraphs.reduce((sum, text) => sum + linesOf(text, room), 0) * lineMm(points);
}
