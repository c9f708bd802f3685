/** Sheets of paper that pages are laid out for. Lengths mm. */

export const PAPERS = {
  // ISO 216.
  a4: { css: 'A4 portrait', widthMm: 210, heightMm: 297 },
  // 8 1/2 by 11 inches (ANSI/ASME Y14.1, size A).
  letter: { css: 'letter portrait', widthMm: 215.9, heightMm: 279.4 },
} as const;
export type PaperName = keyof typeof PAPERS;
export const PAPER_NAMES = Object.keys(PAPERS) as [PaperName, ...PaperName[]];
/** What American shops print on. */
export const USUAL_PAPER: PaperName = 'letter';

/** Office printers leave 4 to 6 mm at the edge white (from memory). */
export const PAPER_MARGIN_MM = 9;

export interface Room {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** What is left of a sheet within its margins. */
export function printRoom(paper: PaperName): Room {
  const { widthMm, heightMm } = PAPERS[paper];
  return { widthMm: widthMm - 2 * PAPER_MARGIN_MM, heightMm: heightMm - 2 * PAPER_MARGIN_MM };
}
