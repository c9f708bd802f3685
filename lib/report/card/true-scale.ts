/** The design as large as it is sewn, or at a round scale where the paper is too small. */
import { type Bounds, middleOf, union } from '../../core/bounds.js';
import type { Stitches } from '../../format/stitches.js';
import type { HoopField } from '../../materials/places.js';
import { INK_COLOUR, PAPER_COLOUR } from '../palette.js';
import { placeCallouts } from '../pictures/callouts.js';
import { scaleBar } from '../scale-bar.js';
import { stitchPath } from '../stitch-path.js';
import { element, tidy, trueSizeSvg } from '../svg.js';
import { directionArrow } from './direction-arrow.js';
import { fieldBounds, hoopOutline } from './hoop-outline.js';
import type { Room } from './paper.js';
import { STITCHES_ID, stitchesAgain } from './shared-stitches.js';
import type { CardWords } from './words.js';

/** Bare paper about what is drawn, and the word that says which way is up, mm. */
const MARGIN_MM = 4;
const TOP_MM = 4;
/** The strip below with the bar and the grain, mm. */
const STRIP_MM = 11;
/** The bar to lay a ruler on, and the inches beside it: a quarter of this, mm. */
const BAR_FOR_MM = 200;
/** Narrowest picture: bar and grain stand side by side, mm. */
const NARROWEST_MM = 92;
const FONT = 26;
const CALLOUT = 17;
/** Apart in print, none so light that its lines are lost or so dark that the marks on it are. */
const GRAYS = ['#7d7d7d', '#4a4a4a', '#a6a6a6'] as const;
/** An origin nearer to the middle than this is on it for a hand that sets a frame, mm. */
const SAME_PLACE_MM = 0.5;
/** Ratios that a person works with; past the last, whole tens. */
const REDUCTIONS = [1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15];

export interface DrawingPlan {
  /** Design mm a mm of paper: 1 is true size. */
  reduction: number;
  /** Whether the hoop is on it. */
  withHoop: boolean;
  /** What is shown, mm of the design. */
  area: Bounds;
  /** Of the whole picture on paper. */
  widthMm: number;
  heightMm: number;
}

/** The picture at a reduction; `hoop` null draws none. */
export function drawingAt(reduction: number, design: Bounds, hoop: HoopField | null): DrawingPlan {
  const area = hoop ? union(design, fieldBounds(hoop, design)) : design;
  return {
    reduction,
    withHoop: hoop !== null,
    area,
    widthMm: Math.max((area.maxX - area.minX) / reduction + 2 * MARGIN_MM, NARROWEST_MM),
    heightMm: (area.maxY - area.minY) / reduction + 2 * MARGIN_MM + TOP_MM + STRIP_MM,
  };
}

/** The largest of the round scales at which design and hoop fit the room. */
export function reducedDrawing(design: Bounds, hoop: HoopField | null, room: Room): DrawingPlan {
  const { area } = drawingAt(1, design, hoop);
  const reduction = roundReduction(
    Math.max(
      (area.maxX - area.minX) / (room.widthMm - 2 * MARGIN_MM),
      (area.maxY - area.minY) / (room.heightMm - 2 * MARGIN_MM - TOP_MM - STRIP_MM),
    ),
  );
  return drawingAt(reduction, design, hoop);
}

/** The next of the round ratios from this on. */
export function roundReduction(least: number): number {
  return REDUCTIONS.find((reduction) => reduction >= least) ?? Math.ceil(least / 10) * 10;
}

export const fits = ({ widthMm, heightMm }: Room, room: Room): boolean =>
  widthMm <= room.widthMm && heightMm <= room.heightMm;

export interface TrueScaleInput {
  stitches: Stitches;
  bounds: Bounds;
  hoop: HoopField | null;
  grainDeg: number;
  /** Where colors start, mm, with their numbers. */
  starts: readonly { number: number; x: number; y: number }[];
  /** For those who do not see it; any text. */
  label: string;
  words: Pick<CardWords['card'], 'top' | 'grain'>;
  /** The stitches stand on the page already. */
  again?: boolean;
}

/** Draws the design by the plan. Picture units are 0.1 mm of paper. */
export function trueScale(input: TrueScaleInput, plan: DrawingPlan): string {
  const { widthMm, heightMm } = plan;
  return trueSizeSvg(
    { name: 'true-scale', width: widthMm * 10, height: heightMm * 10, label: input.label },
    drawnByPlan(input, plan),
  );
}

/** What is in the picture, to be set into one of its size or into several, each of a part of it. */
export function drawnByPlan(
  { stitches, bounds, hoop, grainDeg, starts, words, again = false }: TrueScaleInput,
  { reduction, withHoop, area, widthMm, heightMm }: DrawingPlan,
): string {
  const [width, height] = [widthMm * 10, heightMm * 10];
  const perMm = 10 / reduction;
  const left = (width - (area.maxX - area.minX) * perMm) / 2;
  const top = (MARGIN_MM + TOP_MM) * 10;
  const x = (mm: number): number => left + (mm - area.minX) * perMm;
  const y = (mm: number): number => top + (area.maxY - mm) * perMm;
  const paper = { width, height: height - STRIP_MM * 10, radius: CALLOUT + 2 };
  const anchors = starts.map((start) => ({ x: x(start.x), y: y(start.y) }));
  const spots = starts.length > 1 ? placeCallouts(anchors, paper) : [];
  const inMm = middleOf(bounds);
  const middle = { x: x(inMm.x), y: y(inMm.y) };
  const parts = [
    element(
      'g',
      {
        class: 'design',
        transform: `translate(${tidy(x(0))} ${tidy(y(0))}) scale(${1 / reduction} ${-1 / reduction})`,
        fill: 'none',
        'stroke-width': reduction > 1.5 ? 1.2 * reduction : 1.6,
        'stroke-linecap': 'round',
        'stroke-linejoin': 'round',
      },
      { inner: again ? stitchesAgain() : element('g', { id: STITCHES_ID }, { inner: blockPaths(stitches) }) },
    ),
    withHoop && hoop ? hoopOutline(hoop, bounds, { x, y }) : '',
    crossHair(middle, {
      left: x(area.minX) - 20,
      right: x(area.maxX) + 20,
      top: y(area.maxY) - 20,
      bottom: y(area.minY) + 20,
    }),
    originOffset(bounds) ? originMark(x(0), y(0), paper) : '',
    ...spots.map((spot, i) => callout(anchors[i], spot, String(starts[i].number))),
    word(`${words.top} ▲`, width / 2, FONT * 1.1, 'middle'),
    scaleBar(20, height - 55, 10, BAR_FOR_MM, FONT),
    directionArrow(width - 130, height - 55, 90, grainDeg),
    word(words.grain, width - 75, height - 46),
  ];
  return `\n${parts.filter(Boolean).join('\n')}\n`;
}

/** A path a color block, in grays by turns: in one gray, blocks that touch would be one blot. */
function blockPaths(stitches: Stitches): string {
  const { block, count } = stitches;
  let paths = '';
  for (let first = 0, turn = 0; first < count; turn++) {
    let last = first;
    while (last + 1 < count && block[last + 1] === block[first]) last++;
    paths += element('path', { d: stitchPath(stitches, first, last), stroke: GRAYS[turn % GRAYS.length] });
    first = last + 1;
  }
  return paths;
}

/** How far the file's origin lies from the design's middle, mm, right and up; null where it is the middle. */
export function originOffset(bounds: Bounds): { right: number; up: number } | null {
  const { x, y } = middleOf(bounds);
  const [right, up] = [-x, -y];
  return Math.hypot(right, up) < SAME_PLACE_MM ? null : { right, up };
}

function crossHair(
  at: { x: number; y: number },
  { left, right, top, bottom }: { left: number; right: number; top: number; bottom: number },
): string {
  const d = `M${tidy(left)} ${tidy(at.y)}H${tidy(right)}M${tidy(at.x)} ${tidy(top)}V${tidy(bottom)}`;
  return (
    element('path', { d, fill: 'none', stroke: PAPER_COLOUR, 'stroke-width': 7 }) +
    element('path', {
      class: 'cross',
      d,
      fill: 'none',
      stroke: INK_COLOUR,
      'stroke-width': 2.5,
      'stroke-dasharray': '40 8 8 8',
    })
  );
}

/** A ring about the origin; on the edge of the paper where it lies off it, which the words beside the picture measure. */
function originMark(x: number, y: number, paper: { width: number; height: number }): string {
  if (x < 12 || y < 12 || x > paper.width - 12 || y > paper.height - 12) return '';
  return ['#ffffff', INK_COLOUR]
    .map((stroke, i) =>
      element('circle', {
        class: 'origin',
        cx: x,
        cy: y,
        r: 12,
        fill: 'none',
        stroke,
        'stroke-width': i === 0 ? 10 : 4,
      }),
    )
    .join('');
}

function callout(anchor: { x: number; y: number }, spot: { x: number; y: number }, text: string): string {
  const far = Math.hypot(anchor.x - spot.x, anchor.y - spot.y) > CALLOUT;
  const d = `M${tidy(anchor.x)} ${tidy(anchor.y)}L${tidy(spot.x)} ${tidy(spot.y)}`;
  return element(
    'g',
    { class: 'callout' },
    {
      inner:
        (far
          ? element('path', { d, stroke: PAPER_COLOUR, 'stroke-width': 8 }) +
            element('path', { d, stroke: INK_COLOUR, 'stroke-width': 2.5 }) +
            element('circle', { cx: anchor.x, cy: anchor.y, r: 5, fill: INK_COLOUR })
          : '') +
        element('circle', {
          cx: spot.x,
          cy: spot.y,
          r: CALLOUT,
          fill: PAPER_COLOUR,
          stroke: INK_COLOUR,
          'stroke-width': 3,
        }) +
        word(text, spot.x, spot.y + FONT * 0.33, 'middle', FONT * 0.92),
    },
  );
}

const word = (
  text: string,
  x: number,
  y: number,
  anchor: 'start' | 'middle' = 'start',
  size: number = FONT,
): string =>
  element(
    'text',
    { x, y, 'font-size': size, 'font-weight': 'bold', 'text-anchor': anchor, fill: INK_COLOUR },
    { text },
  );
