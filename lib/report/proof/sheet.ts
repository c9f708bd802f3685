/** How a proof lies on its sheet: pictures side by side at true size, words above and below, a bar to lay a ruler on. */
import { MM_PER_INCH } from '../../core/units.js';
import type { Bounds } from '../../measure/measures.js';
import type { Words } from '../phrases/words.js';
import { lettering, letteringWidth } from './lettering.js';

/** A picture on the sheet, mm from its upper left corner. */
export interface Panel {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
  /** Of the design's origin, from the corner of the sheet. */
  readonly originX: number;
  readonly originY: number;
}

/** Words and bars as strokes. */
export interface Strokes {
  /** x, y pairs, mm of the sheet, y downward. */
  readonly lines: readonly (readonly number[])[];
  readonly widthMm: number;
}

export interface ProofSheet {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly panels: readonly Panel[];
  readonly strokes: readonly Strokes[];
}

/** What is written on it. */
export interface SheetWords {
  readonly title: string;
  /** Under the title. */
  readonly facts: readonly string[];
  /** Under each picture. */
  readonly captions: readonly (readonly string[])[];
  /** At the foot. */
  readonly notes: readonly string[];
}

const EDGE_MM = 8;
const BETWEEN_MM = 8;
/** Narrower than this no line of words can be read. */
const LEAST_WIDTH_MM = 90;
/** Heights of capitals, mm, and what a line takes of its height. */
const TITLE_MM = 3.6;
const TEXT_MM = 2.2;
const LINE = 1.9;
/** Weight of strokes as a part of the height of capitals. */
const WEIGHT = 0.13;
const BAR_MM = { mm: 50, in: 2 * MM_PER_INCH };

/** Lines of words no wider than that. */
function broken(text: string, height: number, width: number): string[] {
  const out: string[] = [];
  for (const word of text.split(' ')) {
    const longer = out.length === 0 ? word : `${out.at(-1)} ${word}`;
    if (out.length > 0 && letteringWidth(longer, height) <= width) out[out.length - 1] = longer;
    else out.push(word);
  }
  return out;
}

/**
 * @param margin of garment about the design, mm
 */
export function sheetOf(
  bounds: Bounds,
  panels: number,
  margin: number,
  written: SheetWords,
  { proof, say }: Words<'proof'>,
): ProofSheet {
  const width = bounds.maxX - bounds.minX + 2 * margin;
  const height = bounds.maxY - bounds.minY + 2 * margin;
  const room = Math.max(LEAST_WIDTH_MM, panels * width + (panels - 1) * BETWEEN_MM);
  const words: number[][] = [];
  const heads: number[][] = [];
  let at = EDGE_MM;
  const write = (
    text: string,
    left: number,
    most: number,
    high: number,
    into: number[][],
    from: number,
  ): number => {
    let base = from;
    for (const line of broken(text, high, most)) {
      base += high * LINE;
      into.push(...lettering(line, left, base, high));
    }
    return base;
  };
  at = write(written.title, EDGE_MM, room, TITLE_MM, heads, at - TITLE_MM * (LINE - 1));
  for (const fact of written.facts) at = write(fact, EDGE_MM, room, TEXT_MM, words, at);
  const top = at + EDGE_MM / 2;
  const each = (room - (panels - 1) * BETWEEN_MM) / panels;
  const placed = Array.from({ length: panels }, (_, k) => {
    const left = EDGE_MM + k * (each + BETWEEN_MM) + (each - width) / 2;
    return {
      left,
      top,
      width,
      height,
      originX: left + margin - bounds.minX,
      originY: top + margin + bounds.maxY,
    };
  });
  at = top + height;
  const below = written.captions.map((lines, k) =>
    lines.reduce(
      (from, line) => write(line, placed[k].left, width + BETWEEN_MM / 2, TEXT_MM, words, from),
      at + 1,
    ),
  );
  at = Math.max(at, ...below) + EDGE_MM / 2;
  const bar = BAR_MM[say.units];
  const barLines = [
    [EDGE_MM, at, EDGE_MM + bar, at],
    [EDGE_MM, at - 1.5, EDGE_MM, at + 1.5],
    [EDGE_MM + bar, at - 1.5, EDGE_MM + bar, at + 1.5],
  ];
  words.push(...lettering(proof.bar({}), EDGE_MM + bar + 3, at + TEXT_MM / 2, TEXT_MM));
  at += EDGE_MM / 4;
  for (const note of written.notes) at = write(note, EDGE_MM, room, TEXT_MM, words, at);
  return {
    widthMm: room + 2 * EDGE_MM,
    heightMm: at + EDGE_MM,
    panels: placed,
    strokes: [
      { lines: heads, widthMm: TITLE_MM * WEIGHT },
      { lines: words, widthMm: TEXT_MM * WEIGHT },
      { lines: barLines, widthMm: 0.4 },
    ],
  };
}
