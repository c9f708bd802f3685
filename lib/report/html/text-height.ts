/** How much paper text will take, worked out without a browser: rather a little too much than too little. */
import { MM_PER_INCH } from '../../core/units.js';

/** A typographic point of 1/72 inch (CSS Values and Units 3, 6.2), mm. */
export const MM_PER_POINT = MM_PER_INCH / 72;

/** Lines as high as this many times the type: what the card's style sets. */
export const LINE_HEIGHT = 1.2;

/** Width of a letter, its share of spaces with it, over the size of the type: measured on Arial-like faces, with what is lost at line ends. */
const LETTER = 0.53;

export const lineMm = (points: number): number => points * MM_PER_POINT * LINE_HEIGHT;

/** Height of paragraphs of running text, mm. */
export function textHeight(paragraphs: readonly string[], widthMm: number, points: number): number {
  const perLine = widthMm / (points * MM_PER_POINT * LETTER);
  const lines = paragraphs.reduce((sum, text) => sum + Math.max(1, Math.ceil([...text].length / perLine)), 0);
  return lines * lineMm(points);
}
