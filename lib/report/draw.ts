/** A picture of the stitches as an SVG document. */
import { MM_PER_INCH } from '../core/units.js';
import type { Stitches } from '../format/stitches.js';
import type { DesignMeasures, ObjectMeasures } from '../measure/measures.js';
import { densityBands } from './density-bands.js';
import type { DrawBy } from './draw-by.js';
import { niceSteps } from './nice-steps.js';
import { ASIDE_COLOUR, INK_COLOUR, isDark, PAPER_COLOUR, STEP_COLOURS, TURN_COLOURS } from './palette.js';
import { counted, size, type Units } from './quantities.js';
import { scaleBar } from './scale-bar.js';
import { stitchPath } from './stitch-path.js';
import { element } from './svg.js';

/** What a picture shows: intermediate results of the flow, nothing measured anew. */
export interface Drawing {
  stitches: Stitches;
  measures: readonly ObjectMeasures[];
  designMeasures: DesignMeasures;
}

export interface DrawOptions {
  by: DrawBy;
  /** Shown above the picture: the file's name. Any text; escaped here. */
  title: string;
  units: Units;
}

/** Picture units: the page is this wide; its height follows the design. */
const PAGE_WIDTH = 1000;
const MARGIN = 40;
const FONT = 18;
const LINE = 26;
/** Tallest picture as a share of the page width. */
const TALLEST = 1.3;
/** Thread as drawn, mm: under the 0.4 mm that 40-weight covers (common practice, no source), so single lines show. */
const THREAD_MM = 0.3;
const UNDERLAY_MM = 0.12;
/** Bare paper around the stitches: bands of density reach a little past them. */
const PADDING = 30;
/** Past this many objects their numbers would cover the picture. */
const MOST_NUMBERS = 80;
/** Picture units that an object must reach across to carry its number. */
const LEAST_NUMBERED = 45;

interface LegendEntry {
  colour: string;
  text: string;
}

/**
 * Draws a design to scale, coloured by object, by column width, or by how close the needle points lie. One path an
 * object, so that a large design stays a usable file. The result is a whole SVG document.
 */
export async function drawDesign(drawing: Drawing, options: DrawOptions): Promise<string> {
  const { bounds, widthMm, heightMm } = drawing.designMeasures;
  const inner = PAGE_WIDTH - 2 * MARGIN;
  const room = inner - 2 * PADDING;
  // A point or a line still gets a page.
  const perMm = Math.min(room / Math.max(widthMm, 1), (room * TALLEST) / Math.max(heightMm, 1));
  const top = MARGIN + 2 * LINE + PADDING;
  const pictureHeight = Math.max(heightMm * perMm, LINE);
  const left = MARGIN + (inner - widthMm * perMm) / 2;

  const { layers, legend } = await paintStitches(drawing, options);
  const legendTop = top + pictureHeight + PADDING + LINE;
  const barTop = legendTop + legend.length * LINE + LINE * 0.5;
  const height = barTop + 2 * LINE + MARGIN;
  const unit = perMm / 10;
  const placed = `translate(${[left - bounds.minX * perMm, top + pictureHeight + bounds.minY * perMm].join(' ')}) scale(${unit} ${-unit})`;

  const body = [
    element('title', {}, { text: options.title }),
    element('rect', { width: PAGE_WIDTH, height, fill: PAPER_COLOUR }),
    element(
      'text',
      { x: MARGIN, y: MARGIN + FONT * 0.4, 'font-size': FONT * 1.3, fill: INK_COLOUR },
      { text: fitted(options.title, inner, FONT * 1.3) },
    ),
    element(
      'text',
      { x: MARGIN, y: MARGIN + LINE + FONT * 0.5, 'font-size': FONT, fill: INK_COLOUR },
      {
        text: `${size(widthMm, heightMm, options.units)}, ${counted(drawing.stitches.count, 'stitch', 'stitches')}, ${counted(drawing.measures.length, 'object')}`,
      },
    ),
    element(
      'g',
      {
        transform: placed,
        fill: 'none',
        'stroke-linecap': 'round',
        'stroke-linejoin': 'round',
        'stroke-width': THREAD_MM * 10,
      },
      { inner: layers.join('') },
    ),
    options.by === 'object' ? objectNumbers(drawing, perMm, left, top + pictureHeight) : '',
    ...legend.map(
      (entry, i) =>
        element('rect', {
          x: MARGIN,
          y: legendTop + i * LINE - FONT * 0.8,
          width: FONT * 1.6,
          height: FONT,
          fill: entry.colour,
        }) +
        element(
          'text',
          { x: MARGIN + FONT * 2.2, y: legendTop + i * LINE, 'font-size': FONT, fill: INK_COLOUR },
          { text: entry.text },
        ),
    ),
    scaleBar(MARGIN, barTop + LINE * 0.5, perMm, Math.max(widthMm, 1), FONT),
  ];
  return `${element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      viewBox: `0 0 ${PAGE_WIDTH} ${Math.ceil(height)}`,
      width: PAGE_WIDTH,
      height: Math.ceil(height),
      'font-family': 'sans-serif',
      role: 'img',
    },
    { inner: `\n${body.filter(Boolean).join('\n')}\n` },
  )}\n`;
}

async function paintStitches(
  drawing: Drawing,
  options: DrawOptions,
): Promise<{ layers: string[]; legend: LegendEntry[] }> {
  switch (options.by) {
    case 'object':
      return {
        layers: objectLayers(drawing, (_, i) => TURN_COLOURS[i % TURN_COLOURS.length]),
        legend: [
          {
            colour: TURN_COLOURS[0],
            text: 'each object in a colour of its own, in turn; its underlay as a thin line over it',
          },
          { colour: ASIDE_COLOUR, text: 'travel and stitches that belong to no object' },
        ],
      };
    case 'width': {
      // Steps are round in the units that the legend speaks.
      const perUnit = options.units === 'mm' ? 1 : MM_PER_INCH;
      const widths = drawing.measures.map((m) => (m.widthMm ? m.widthMm.p95 / perUnit : null));
      const limits = niceSteps(Math.max(0, ...widths.map((w) => w ?? 0)), STEP_COLOURS.length);
      const stepOf = (width: number): number => limits.findIndex((limit) => width <= limit);
      return {
        layers: objectLayers(drawing, (_, i) => {
          const width = widths[i];
          return width === null ? ASIDE_COLOUR : stepColour(stepOf(width), limits.length);
        }),
        legend: [
          ...limits.map((limit, i) => ({
            colour: stepColour(i, limits.length),
            text: `satin ${i === 0 ? 'up' : limits[i - 1]} to ${limit} ${options.units} wide`,
          })),
          { colour: ASIDE_COLOUR, text: 'fills, runs and travel: no column width; thin lines are underlay' },
        ],
      };
    }
    case 'density': {
      const bands = await densityBands(drawing.stitches, drawing.designMeasures.bounds, STEP_COLOURS.length);
      return {
        layers: [
          ...bands.map((band, i) =>
            element('path', { d: band.path, fill: stepColour(i, bands.length), stroke: 'none' }),
          ),
          element('path', {
            d: stitchPath(drawing.stitches, 0, drawing.stitches.count - 1),
            stroke: INK_COLOUR,
            'stroke-width': 0.6,
            'stroke-opacity': 0.35,
          }),
        ],
        legend: bands.map((band, i) => ({
          colour: stepColour(i, bands.length),
          text: `${i === 0 ? 'up' : band.from} to ${band.to} needle points a mm²`,
        })),
      };
    }
  }
}

/** The step colours spread over however few steps there are, so that the top step is always the darkest. */
function stepColour(step: number, steps: number): string {
  const last = STEP_COLOURS.length - 1;
  return STEP_COLOURS[steps === 1 ? last : Math.round((step * last) / (steps - 1))];
}

/** Travel first, then every object in sewing order: its top stitching, and as a thin line what lies under it. */
function objectLayers(
  drawing: Drawing,
  colourOf: (measures: ObjectMeasures, index: number) => string,
): string[] {
  const { stitches, measures } = drawing;
  const owned = new Uint8Array(stitches.count);
  const objects = measures.flatMap((m, i) => {
    const colour = colourOf(m, i);
    const { range, underlay } = m.object;
    owned.fill(1, range[0], range[1] + 1);
    const top = element('path', { d: stitchPath(stitches, ...range), stroke: colour });
    if (underlay.range === null) return [top];
    owned.fill(1, underlay.range[0], underlay.range[1] + 1);
    const under = element('path', {
      d: stitchPath(stitches, ...underlay.range),
      stroke: isDark(colour) ? PAPER_COLOUR : INK_COLOUR,
      'stroke-width': UNDERLAY_MM * 10,
    });
    return [top, under];
  });
  let aside = '';
  for (let i = 0; i < stitches.count; i++) {
    if (owned[i]) continue;
    const first = i;
    while (i + 1 < stitches.count && !owned[i + 1]) i++;
    aside += stitchPath(stitches, first, i, true);
  }
  if (aside === '') return objects;
  return [element('path', { d: aside, stroke: ASIDE_COLOUR, 'stroke-width': 1.5 }), ...objects];
}

/** Each object's number on the middle of its sewing, where the object is large enough to carry it. */
function objectNumbers(drawing: Drawing, perMm: number, left: number, bottom: number): string {
  const { stitches, measures, designMeasures } = drawing;
  if (measures.length > MOST_NUMBERS) return '';
  return measures
    .filter(({ bounds: b }) => Math.max(b.maxX - b.minX, b.maxY - b.minY) * perMm >= LEAST_NUMBERED)
    .map(({ object }) => {
      const [first, last] = object.range;
      const middle = (first + last) >> 1;
      const next = Math.min(middle + 1, last);
      const x = (stitches.x[middle] + stitches.x[next]) / 2 - designMeasures.bounds.minX;
      const y = (stitches.y[middle] + stitches.y[next]) / 2 - designMeasures.bounds.minY;
      return element(
        'text',
        {
          x: left + x * perMm,
          y: bottom - y * perMm + FONT * 0.3,
          'font-size': FONT * 0.8,
          'font-weight': 'bold',
          'text-anchor': 'middle',
          fill: INK_COLOUR,
          stroke: PAPER_COLOUR,
          'stroke-width': 4,
          'stroke-linejoin': 'round',
          'paint-order': 'stroke',
        },
        { text: String(object.id) },
      );
    })
    .join('');
}

/** A title cut to what a line holds; letters of a sans-serif face are about 0.6 of their size wide. */
function fitted(text: string, width: number, fontSize: number): string {
  const most = Math.floor(width / (fontSize * 0.6));
  const chars = [...text];
  return chars.length <= most ? text : `${chars.slice(0, most - 1).join('')}…`;
}
