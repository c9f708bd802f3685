/** The design at true size on sheets of its own: on one, turned where it only fits so, or in parts that are taped together. */
import { INK_COLOUR, PAPER_COLOUR } from '../palette.js';
import { element, tidy, trueSizeSvg } from '../svg.js';
import type { Room } from './paper.js';
import { type DrawingPlan, drawnByPlan, type TrueScaleInput } from './true-scale.js';
import type { CardWords } from './words.js';

/** Sheets side by side, and above one another, at most: a design for the largest frames is no larger. */
export const MOST_PARTS = 2;
/** What two sheets that meet have in common, mm: wider than a mark is high, so that each mark is whole on both. */
const OVERLAP_MM = 12;
/** Of the ring about a mark, 0.1 mm. */
const RING = 28;
const LETTER = 30;

/** How the picture lies on its sheets. */
export interface TrueSizeSheets {
  readonly drawing: DrawingPlan;
  /** By a quarter, so that its top is at the left edge of the paper. */
  readonly turned: boolean;
  readonly columns: number;
  readonly rows: number;
}

export type PartName = keyof CardWords['card']['parts'];

/** What a sheet shows of the picture, mm from its upper left corner. */
interface PartWindow {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/**
 * As few sheets as hold it; null where so many do not.
 * @param room on each, beside its words
 * @param most sheets in a row, and rows of them
 */
export function trueSizeSheets(drawing: DrawingPlan, room: Room, most: number): TrueSizeSheets | null {
  const { widthMm, heightMm } = drawing;
  const ways = [
    { turned: false, columns: 1, rows: 1 },
    { turned: true, columns: 1, rows: 1 },
    { turned: false, columns: 2, rows: 1 },
    { turned: false, columns: 1, rows: 2 },
    { turned: false, columns: 2, rows: 2 },
  ];
  const fits = ({ turned, columns, rows }: (typeof ways)[number]): boolean => {
    const [wide, high] = turned ? [heightMm, widthMm] : [widthMm, heightMm];
    return partMm(wide, columns) <= room.widthMm && partMm(high, rows) <= room.heightMm;
  };
  const way = ways.find((one) => one.columns <= most && one.rows <= most && fits(one));
  return way ? { drawing, ...way } : null;
}

/** Of so many parts that share strips, each. */
const partMm = (mm: number, parts: number): number => (mm + (parts - 1) * OVERLAP_MM) / parts;

/** What is on each sheet, row by row. */
export function partsOf({ drawing, columns, rows }: TrueSizeSheets): PartWindow[] {
  const [widthMm, heightMm] = [partMm(drawing.widthMm, columns), partMm(drawing.heightMm, rows)];
  return Array.from({ length: columns * rows }, (_, k) => {
    const [column, row] = [k % columns, Math.floor(k / columns)];
    return {
      xMm: column * (widthMm - OVERLAP_MM),
      yMm: row * (heightMm - OVERLAP_MM),
      widthMm,
      heightMm,
    };
  });
}

/** Which part a sheet shows, as the card names it; null where it shows all. */
export function partName({ columns, rows }: TrueSizeSheets, k: number): PartName | null {
  const [column, row] = [k % columns, Math.floor(k / columns)];
  const names = [
    ...(rows === 1 ? [] : [row === 0 ? 'upper' : 'lower']),
    ...(columns === 1 ? [] : [column === 0 ? 'left' : 'right']),
  ];
  return names.length === 0 ? null : (names.join('-') as PartName);
}

/** The pictures of all sheets, row by row; the stitches stand on the page already. */
export function drawnSheets(input: TrueScaleInput, sheets: TrueSizeSheets): string[] {
  const { drawing, turned } = sheets;
  const whole = drawnByPlan({ ...input, again: true }, drawing);
  const name = 'true-scale';
  if (turned) {
    const [width, height] = [drawing.heightMm * 10, drawing.widthMm * 10];
    const inner = element('g', { transform: `translate(0 ${tidy(height)}) rotate(-90)` }, { inner: whole });
    return [trueSizeSvg({ name, width, height, label: input.label }, inner)];
  }
  const inner = whole + joins(sheets);
  return partsOf(sheets).map(({ xMm, yMm, widthMm, heightMm }) =>
    trueSizeSvg(
      { name, width: widthMm * 10, height: heightMm * 10, label: input.label },
      element('g', { transform: `translate(${tidy(-xMm * 10)} ${tidy(-yMm * 10)})` }, { inner }),
    ),
  );
}

/** Lines in the middle of what two sheets share, with two marks on each that only fall on one another where the sheets lie right. */
function joins({ drawing, columns, rows }: TrueSizeSheets): string {
  const [width, height] = [drawing.widthMm * 10, drawing.heightMm * 10];
  const across = columns === 1 ? [] : [{ x: width / 2, along: height }];
  const down = rows === 1 ? [] : [{ y: height / 2, along: width }];
  const lines = [
    ...across.map(({ x }) => `M${tidy(x)} 0V${tidy(height)}`),
    ...down.map(({ y }) => `M0 ${tidy(y)}H${tidy(width)}`),
  ];
  const marks = [
    ...across.flatMap(({ x, along }) =>
      [0.25, 0.75].map((part) => ({ x, y: part * along, aside: { x: 0, y: -1 } })),
    ),
    ...down.flatMap(({ y, along }) =>
      [0.25, 0.75].map((part) => ({ x: part * along, y, aside: { x: 1, y: 0 } })),
    ),
  ];
  return (
    lines.map((d) => onPaper('join', d, 3)).join('') +
    marks.map(({ x, y, aside }, k) => mark(x, y, aside, String.fromCharCode(65 + k))).join('')
  );
}

/** A ring with a cross in it, and its letter on the line. */
function mark(x: number, y: number, aside: { x: number; y: number }, letter: string): string {
  const ring = { cx: x, cy: y, r: RING };
  return (
    element('circle', { ...ring, fill: PAPER_COLOUR, stroke: INK_COLOUR, 'stroke-width': 3 }) +
    onPaper(
      'meet',
      `M${tidy(x - RING)} ${tidy(y)}h${2 * RING}M${tidy(x)} ${tidy(y - RING)}v${2 * RING}`,
      2.5,
    ) +
    element(
      'text',
      {
        x: x + aside.x * (RING + LETTER * 0.6),
        y: y + aside.y * (RING + LETTER * 0.3) + (aside.y === 0 ? LETTER * 0.35 : 0),
        'font-size': LETTER,
        'font-weight': 'bold',
        'text-anchor': 'middle',
        fill: INK_COLOUR,
        stroke: PAPER_COLOUR,
        'stroke-width': 8,
        'paint-order': 'stroke',
      },
      { text: letter },
    )
  );
}

/** A line that shows on stitches as well as on bare paper. */
const onPaper = (name: string, d: string, width: number): string =>
  element('path', { d, fill: 'none', stroke: PAPER_COLOUR, 'stroke-width': width + 5 }) +
  element('path', { class: name, d, fill: 'none', stroke: INK_COLOUR, 'stroke-width': width });
