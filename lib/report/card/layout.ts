/** What goes where on the card, and how large, so that all of it fits one sheet. */
import type { Bounds } from '../../core/bounds.js';
import type { HoopField } from '../../materials/places.js';
import type { ColorLayout } from './colors.js';
import { GUTTER_MM, HEADING_MM } from './css.js';
import { INSET_MM } from './hoop-inset.js';
import { type PaperName, printRoom, type Room } from './paper.js';
import { RECORD_MM, type RecordFacts, recordLines } from './record.js';
import { type DrawnLayer, LAYER_PITCH_MM } from './stack-layers.js';
import { lineMm, textHeight } from './text-height.js';
import { type DrawingPlan, drawingAt, reducedDrawing } from './true-scale.js';
import { MOST_PARTS, type TrueSizeSheets, trueSizeSheets } from './true-size-sheets.js';

/** Words of the card that take room, as plain text. */
export interface CardTexts {
  title: string;
  /** Empty where nothing is said of it. */
  job: string;
  facts: string;
  alerts: readonly string[];
  colors: ColorLayout;
  layers: readonly DrawnLayer[];
  stackNote: string;
  setup: readonly (readonly [name: string, value: string])[];
  changes: readonly string[];
  hooping: readonly string[];
  risk: readonly string[];
  checks: readonly string[];
  cautions: readonly string[];
  record: RecordFacts;
  /** Over the lines for the log. */
  log: string;
  /** How a sheet is turned, and how sheets that hold a part of the picture each are put together. */
  turning: string;
  joining: string;
  /** Under the picture. */
  caption: (drawing: DrawingPlan) => string;
}

export interface Layout {
  /** Size of the type, points. */
  points: number;
  /** Height of a row of colors, mm. */
  rowMm: number;
  /** Width of the left column, mm. */
  leftMm: number;
  drawing: DrawingPlan;
  /** The picture goes across both columns. */
  across: boolean;
  /** The notes on hooping go below the columns, in three of their own. */
  hoopingBelow: boolean;
  /** The hoop has a picture of its own. */
  inset: boolean;
  /** For the map of wrinkles. */
  riskRoom: Room;
  /** The picture at true size, on sheets of its own; null where it is on the first, or is larger than they can be together. */
  apart: TrueSizeSheets | null;
}

interface Try {
  points: number;
  rowMm: number;
  across: boolean;
  hoopingBelow: boolean;
  withHoop: boolean;
}

/** Sizes of type, points: what is read at arm's length first, what can be read at all last. */
const LARGEST = 10;
const SMALLEST = 6;
const SIZES = Array.from({ length: 1 + 2 * (LARGEST - SMALLEST) }, (_, i) => LARGEST - i / 2);
/** A picture at true size is not worth smaller type than this. */
const READABLE = 7;
/** Rows of colors, mm: for a broad pen, and for a narrow one. */
const ROWS = [6, 5, 4.2, 3.6];
const LEFT = { least: 96, most: 126 };
/** Height of the wrinkle map, mm, for large type and for small. */
const RISK_MM = { most: 34, least: 20 };
/** Lowest picture of a design that is reduced, mm. */
const LOWEST_PICTURE_MM = 44;
/** Sizes that are tried for a picture, each smaller than the last. */
const MOST_TRIES = 3;
/** What the estimate of text may be off by, mm. */
const RESERVE_MM = 4;
/** Of a framed line: border, padding and space above, mm, and the width that they take. */
const FRAME_MM = { high: 4.2, wide: 4.4 };
/** Of a list's mark, and of the names in a list of facts, in mm and in letters. */
const MARK_MM = 4;
const FACT_NAME_MM = 12;

/**
 * The first of the ways to lay the card out that fits the paper, best first: design and hoop at true size, the design
 * alone at true size with its hoop small beside it, all of it reduced, with the picture at true size on sheets of its own. Smaller type
 * is tried before a smaller picture, down to what is well readable. Where nothing fits, the smallest.
 */
export function chooseLayout(
  card: CardTexts & { bounds: Bounds; hoop: HoopField | null },
  paper: PaperName,
): Layout {
  const room = printRoom(paper);
  for (const withHoop of card.hoop ? [true, false] : [false]) {
    for (const across of [false, true]) {
      const drawing = drawingAt(1, card.bounds, withHoop ? card.hoop : null);
      if (drawing.widthMm > (across ? room.widthMm : LEFT.most)) continue;
      for (const type of types(READABLE)) {
        const layout = settle({ ...type, across, withHoop }, drawing, card, room);
        if (heightOf(layout, card, room) <= room.heightMm - RESERVE_MM) return layout;
      }
    }
  }
  return reducedLayout(card, room);
}

/**
 * The picture reduced as little as the sheet lets, with all words in readable type; of ways in which it is as large, that with the hoop on it and
 * the largest type. Where no type leaves room for a picture, the smallest.
 */
function reducedLayout(card: CardTexts & { bounds: Bounds; hoop: HoopField | null }, room: Room): Layout {
  const apart = sheetsApart(card, room);
  let best: Layout | null = null;
  for (const withHoop of card.hoop ? [true, false] : [false])
    for (const across of [false, true])
      for (const type of types(READABLE)) {
        const layout = reducedWay({ ...type, across, withHoop }, apart, card, room);
        if (layout && layout.drawing.reduction < (best?.drawing.reduction ?? Infinity)) best = layout;
      }
  if (best) return best;
  const way = { withHoop: card.hoop !== null, across: false };
  let last: Layout | null = null;
  for (const type of types(SMALLEST)) {
    const low = { widthMm: LEFT.most, heightMm: LOWEST_PICTURE_MM };
    const drawing = reducedDrawing(card.bounds, card.hoop, low);
    last = { ...settle({ ...way, ...type }, drawing, card, room), apart };
    if (heightOf(last, card, room) <= room.heightMm - RESERVE_MM) return last;
  }
  return last!;
}

/** One way to set the words, with the largest picture that it leaves room for; null where it leaves none. */
function reducedWay(
  way: Try,
  apart: TrueSizeSheets | null,
  card: CardTexts & { bounds: Bounds; hoop: HoopField | null },
  room: Room,
): Layout | null {
  const widthMm = way.across ? room.widthMm : LEFT.most;
  const most = room.heightMm - RESERVE_MM;
  const flat = { ...drawingAt(1, card.bounds, null), widthMm, heightMm: 0 };
  const blank = { ...settle(way, flat, card, room), apart };
  let heightMm =
    most -
    (way.across ? heightOf(blank, card, room) : aroundBody(blank, card, room) + belowPicture(blank, card));
  // Beside a narrower picture the words take more room.
  for (let left = MOST_TRIES; left > 0 && heightMm >= LOWEST_PICTURE_MM; left--) {
    const drawing = reducedDrawing(card.bounds, way.withHoop ? card.hoop : null, { widthMm, heightMm });
    const layout = { ...settle(way, drawing, card, room), apart };
    const overMm = heightOf(layout, card, room) - most;
    if (overMm <= 0) return layout;
    heightMm = Math.min(heightMm, drawing.heightMm) - overMm;
  }
  return null;
}

/** True size on sheets of its own, with the hoop where one sheet can hold that as well. */
function sheetsApart(
  card: CardTexts & { bounds: Bounds; hoop: HoopField | null },
  room: Room,
): TrueSizeSheets | null {
  const roomBeside = (drawing: DrawingPlan, notes: string): Room => ({
    widthMm: room.widthMm,
    heightMm:
      room.heightMm -
      RESERVE_MM -
      HEADING_MM.above -
      HEADING_MM.below -
      HEADING_MM.rule -
      textHeight([card.title], room.widthMm, LARGEST * 1.1) -
      textHeight([card.caption(drawing)], room.widthMm, LARGEST) -
      textHeight([notes], room.widthMm, LARGEST),
  });
  const drawings = [card.hoop, null].map((hoop) => drawingAt(1, card.bounds, hoop));
  for (const most of [1, MOST_PARTS])
    for (const drawing of drawings.slice(most === 1 ? 0 : 1)) {
      const notes = most === 1 ? card.turning : card.joining;
      const sheets = trueSizeSheets(drawing, roomBeside(drawing, notes), most);
      if (sheets) return sheets;
    }
  return null;
}

/** Ways to set the words, best first. */
function* types(smallest: number): Generator<Pick<Try, 'points' | 'rowMm' | 'hoopingBelow'>> {
  for (const points of SIZES.filter((size) => size >= smallest))
    for (const hoopingBelow of [false, true]) for (const rowMm of ROWS) yield { points, rowMm, hoopingBelow };
}

function settle(
  { points, rowMm, across, hoopingBelow, withHoop }: Try,
  drawing: DrawingPlan,
  { hoop }: { hoop: HoopField | null },
  room: Room,
): Layout {
  const leftMm = across
    ? (room.widthMm - GUTTER_MM) / 2
    : Math.min(LEFT.most, Math.max(LEFT.least, drawing.widthMm));
  return {
    points,
    rowMm,
    across,
    hoopingBelow,
    leftMm,
    drawing,
    inset: hoop !== null && !withHoop,
    apart: null,
    riskRoom: {
      widthMm: room.widthMm - leftMm - GUTTER_MM,
      heightMm: RISK_MM.least + ((points - SMALLEST) / (LARGEST - SMALLEST)) * (RISK_MM.most - RISK_MM.least),
    },
  };
}

const heading = (points: number): number =>
  lineMm(points * 1.1) + HEADING_MM.above + HEADING_MM.below + HEADING_MM.rule;

function heightOf(layout: Layout, card: CardTexts, room: Room): number {
  const { across, drawing } = layout;
  const right = rightColumn(layout, card);
  const risk = riskHeight(layout, card);
  const left = belowPicture(layout, card);
  const body = across
    ? drawing.heightMm +
      textHeight([card.caption(drawing)], room.widthMm, layout.points) +
      Math.max(colorsHeight(layout, card) + risk, right)
    : Math.max(drawing.heightMm + left, right + risk);
  return body + aroundBody(layout, card, room);
}

/** All above and below the columns. */
function aroundBody({ points, hoopingBelow, apart }: Layout, card: CardTexts, { widthMm }: Room): number {
  const third = (widthMm - 2 * GUTTER_MM) / 3 - MARK_MM;
  const marks = (lines: readonly string[]): number =>
    // Three columns never come out even: one item more in one of them.
    textHeight(lines, third, points) / 3 + lineMm(points);
  const log =
    textHeight([card.log], widthMm, points) +
    // Letters of even width are wider.
    textHeight(recordLines(card.record), widthMm, points * 1.15) +
    1;
  return (
    textHeight([card.title], widthMm, points * 1.7) +
    // Bold is wider.
    (card.job === '' ? 0 : textHeight([card.job], widthMm, points * 1.25)) +
    textHeight([card.facts], widthMm, points) +
    framed(card.alerts, widthMm, points) +
    // Further sheets are told of in a line.
    (apart === null ? 0 : FRAME_MM.high + lineMm(points)) +
    2 * heading(points) +
    marks(card.checks) +
    marks(card.cautions) +
    (hoopingBelow ? heading(points) + marks(card.hooping) : 0) +
    heading(points) +
    RECORD_MM +
    log
  );
}

const framed = (lines: readonly string[], widthMm: number, points: number): number =>
  lines.length * FRAME_MM.high + textHeight(lines, widthMm - FRAME_MM.wide, points * 1.06);

/** In the left column: words under the picture, and the colors. */
function belowPicture(layout: Layout, card: CardTexts): number {
  return (
    textHeight([card.caption(layout.drawing)], layout.leftMm, layout.points) + colorsHeight(layout, card)
  );
}

function colorsHeight({ points, rowMm, leftMm }: Layout, { colors }: CardTexts): number {
  const { columns, more, unnamed } = colors;
  const rows = columns[0];
  // A name has half of its table, less the padding.
  const nameMm = leftMm / columns.length / 2 - 2.5;
  const least = Math.max(rowMm, lineMm(points) + 0.2);
  const rowHeight = (k: number): number =>
    Math.max(
      least,
      ...columns.map((column) => textHeight([column[k]?.thread?.name ?? ''], nameMm, points) + 0.2),
    );
  const stops = columns.flat().filter(({ stopsAfter }) => stopsAfter.length > 0).length;
  return (
    heading(points) +
    (2 + (more > 0 ? 1 : 0)) * (lineMm(points) + 0.5) +
    (unnamed ? 2 * lineMm(points) : 0) +
    rows.reduce((sum, _, k) => sum + rowHeight(k), 0) +
    // A stop is set under its stitches, in three lines at most.
    stops * 2 * lineMm(points)
  );
}

function rightColumn(layout: Layout, card: CardTexts): number {
  const { points, riskRoom, inset, hoopingBelow } = layout;
  const { widthMm } = riskRoom;
  const layers = card.layers.reduce(
    (sum, { head, text }) =>
      sum + Math.max(LAYER_PITCH_MM, textHeight([`${head} ${text}`], widthMm - 19, points)),
    3,
  );
  const setup = card.setup.reduce(
    (sum, [, value]) => sum + textHeight([value], widthMm - FACT_NAME_MM, points * 1.08),
    0,
  );
  return (
    heading(points) * 2 +
    layers +
    textHeight([card.stackNote], widthMm, points) +
    setup +
    (inset ? INSET_MM.heightMm + 2 : 0) +
    framed(card.changes, widthMm, points) +
    (hoopingBelow ? 0 : heading(points) + textHeight(card.hooping, widthMm - MARK_MM, points))
  );
}

function riskHeight({ points, riskRoom }: Layout, { risk }: CardTexts): number {
  return heading(points) + textHeight(risk, riskRoom.widthMm, points) + riskRoom.heightMm;
}
