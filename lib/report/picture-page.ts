/** The page that every picture of a design shares: title, the picture to scale, what its colors mean, a scale. */
import type { Bounds } from '../measure/measures.js';
import { INK_COLOUR, PAPER_COLOUR } from './palette.js';
import { scaleBar } from './scale-bar.js';
import { element } from './svg.js';

/** Picture units: the page is this wide; its height follows the design. */
const PAGE_WIDTH = 1000;
const MARGIN = 40;
export const FONT = 18;
const LINE = 26;
/** Tallest picture as a share of the page width. */
const TALLEST = 1.3;
/** Bare paper around the picture. */
const PADDING = 30;

export interface LegendEntry {
  colour: string;
  text: string;
  /** Markup for a thing that is no area of its color, drawn around the middle of its place in the legend. */
  mark?: (x: number, y: number) => string;
}

/** Where the picture lies on its page. */
export interface Placing {
  /** Picture units a mm. */
  perMm: number;
  /** From mm of the design, Y up, to picture units, Y down. */
  x(mm: number): number;
  y(mm: number): number;
}

export interface Picture {
  /** Any text; escaped here. */
  title: string;
  /** Lines under the title. */
  lines: readonly string[];
  /** What is shown, mm. */
  area: Bounds;
  /** Markup in units of 0.1 mm, Y up. */
  layers: readonly string[];
  /** Markup in picture units that goes over them. */
  over?: (placing: Placing) => string;
  legend: readonly LegendEntry[];
}

/** Sets a picture on its page. The result is a whole SVG document. */
export function picturePage({ title, lines, area, layers, over, legend }: Picture): string {
  const widthMm = area.maxX - area.minX;
  const heightMm = area.maxY - area.minY;
  const inner = PAGE_WIDTH - 2 * MARGIN;
  const room = inner - 2 * PADDING;
  // A point or a line still gets a page.
  const perMm = Math.min(room / Math.max(widthMm, 1), (room * TALLEST) / Math.max(heightMm, 1));
  const top = MARGIN + (1 + lines.length) * LINE + PADDING;
  const pictureHeight = Math.max(heightMm * perMm, LINE);
  const left = MARGIN + (inner - widthMm * perMm) / 2;
  const legendTop = top + pictureHeight + PADDING + LINE;
  const barTop = legendTop + legend.length * LINE + LINE * 0.5;
  const height = Math.ceil(barTop + 2 * LINE + MARGIN);
  const unit = perMm / 10;
  const placing: Placing = {
    perMm,
    x: (mm) => left + (mm - area.minX) * perMm,
    y: (mm) => top + pictureHeight - (mm - area.minY) * perMm,
  };
  const line = (text: string, y: number, size: number): string =>
    element(
      'text',
      { x: MARGIN, y, 'font-size': size, fill: INK_COLOUR },
      { text: fitted(text, inner, size) },
    );
  const body = [
    element('title', {}, { text: title }),
    element('rect', { width: PAGE_WIDTH, height, fill: PAPER_COLOUR }),
    line(title, MARGIN + FONT * 0.4, FONT * 1.3),
    ...lines.map((text, i) => line(text, MARGIN + (i + 1) * LINE + FONT * 0.5, FONT)),
    element(
      'g',
      {
        transform: `translate(${placing.x(0)} ${placing.y(0)}) scale(${unit} ${-unit})`,
        fill: 'none',
        'stroke-linecap': 'round',
        'stroke-linejoin': 'round',
      },
      { inner: layers.join('') },
    ),
    over?.(placing) ?? '',
    ...legend.map(
      ({ colour, text, mark }, i) =>
        (mark?.(MARGIN + FONT * 0.8, legendTop + i * LINE - FONT * 0.3) ??
          element('rect', {
            x: MARGIN,
            y: legendTop + i * LINE - FONT * 0.8,
            width: FONT * 1.6,
            height: FONT,
            fill: colour,
            ...(colour === PAPER_COLOUR && { stroke: INK_COLOUR }),
          })) +
        element(
          'text',
          { x: MARGIN + FONT * 2.2, y: legendTop + i * LINE, 'font-size': FONT, fill: INK_COLOUR },
          { text },
        ),
    ),
    scaleBar(MARGIN, barTop + LINE * 0.5, perMm, Math.max(widthMm, 1), FONT),
  ];
  return `${element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${PAGE_WIDTH} ${height}`,
      width: PAGE_WIDTH,
      height,
      'font-family': 'sans-serif',
      role: 'img',
    },
    { inner: `\n${body.filter(Boolean).join('\n')}\n` },
  )}\n`;
}

/** Lettering that stays readable on whatever lies beneath it. */
export function haloed(text: string, x: number, y: number, size: number): string {
  return element(
    'text',
    {
      x,
      y: y + size * 0.36,
      'font-size': size,
      'font-weight': 'bold',
      'text-anchor': 'middle',
      fill: INK_COLOUR,
      stroke: PAPER_COLOUR,
      'stroke-width': 4,
      'stroke-linejoin': 'round',
      'paint-order': 'stroke',
    },
    { text },
  );
}

/** A text cut to what a line holds; letters of a sans-serif face are about 0.6 of their size wide. */
function fitted(text: string, width: number, fontSize: number): string {
  const most = Math.floor(width / (fontSize * 0.6));
  const chars = [...text];
  return chars.length <= most ? text : `${chars.slice(0, most - 1).join('')}…`;
}
