/** A picture of the stitches as an SVG document. */
import { LieflatError } from '../core/errors.js';
import { MM_PER_INCH } from '../core/units.js';
import type { Stitches } from '../format/stitches.js';
import type { DesignMeasures, ObjectMeasures } from '../measure/measures.js';
import { densityBands } from './density-bands.js';
import type { DrawBy } from './draw-by.js';
import { niceSteps } from './nice-steps.js';
import {
  ASIDE_COLOUR,
  INK_COLOUR,
  isDark,
  PAPER_COLOUR,
  STEP_COLOURS,
  stepColour,
  TURN_COLOURS,
} from './palette.js';
import { GRADES, gradeStep } from './phrases/en/risk.js';
import { type Words, wordsFor } from './phrases/words.js';
import { FONT, haloed, type LegendEntry, type Placing, picturePage } from './picture-page.js';
import type { Units } from './quantities.js';
import { MOST_DRAWN, notDrawn, stitchPath } from './stitch-path.js';
import { element } from './svg.js';

/** What a picture shows: intermediate results of the flow, nothing measured anew. */
export interface Drawing {
  stitches: Stitches;
  measures: readonly ObjectMeasures[];
  designMeasures: DesignMeasures;
  /** Smoothness grade of each object on a fabric, by its id. */
  grades?: ReadonlyMap<number, number>;
}

export interface DrawOptions {
  by: DrawBy;
  /** Shown above the picture: the file's name. Any text; escaped here. */
  title: string;
  units: Units;
  /** Shown under the title of a picture by risk. Any text; longer lines are cut off. */
  on?: { readonly fabricName: string; readonly stackName: string };
}

/** Thread as drawn, mm: under the 0.4 mm that 40-weight covers (common practice, no source), so single lines show. */
const THREAD_MM = 0.3;
const UNDERLAY_MM = 0.12;
/** Past this many objects their numbers would cover the picture. */
const MOST_NUMBERS = 80;
/** Picture units that an object must reach across to carry its number. */
const LEAST_NUMBERED = 45;

/**
 * Draws a design to scale, colored by object, by column width, by how close the needle points lie, or by how it will look on a fabric.
 * One path an object, so that a large design stays a usable file. The result is a whole SVG document.
 *
 * @throws LieflatError `bad-argument` for `risk` without grades
 */
export async function drawDesign(drawing: Drawing, options: DrawOptions): Promise<string> {
  const { stitches, measures, designMeasures } = drawing;
  const { bounds, widthMm, heightMm } = designMeasures;
  const { by, title, on, units } = options;
  const words = wordsFor({ units, detail: 'short' });
  const { picture } = words;
  const { layers, legend } = await paintStitches(drawing, by, words);
  return picturePage({
    title,
    lines: [
      picture.size({ widthMm, heightMm, stitches: stitches.count, objects: measures.length }),
      ...(by === 'risk' && on
        ? [picture.on({ fabric: on.fabricName }), picture.over({ backing: on.stackName }), picture.predicted]
        : []),
      ...(by === 'width' || by === 'density' ? [picture.ownSteps] : []),
      ...notDrawn(stitches).map(picture.notDrawn),
    ],
    area: bounds,
    layers: [element('g', { 'stroke-width': THREAD_MM * 10 }, { inner: layers.join('') })],
    over: (placing) => (by === 'object' || by === 'risk' ? objectNumbers(drawing, placing) : ''),
    legend,
  });
}

interface Painted {
  layers: string[];
  legend: LegendEntry[];
}
type DrawWords = Words<'picture' | 'risk'>;

async function paintStitches(drawing: Drawing, by: DrawBy, words: DrawWords): Promise<Painted> {
  switch (by) {
    case 'object':
      return {
        layers: objectLayers(drawing, (_, i) => TURN_COLOURS[i % TURN_COLOURS.length]),
        legend: [
          { colour: TURN_COLOURS[0], text: words.picture.key.eachObject },
          { colour: ASIDE_COLOUR, text: words.picture.key.aside },
        ],
      };
    case 'width':
      return byWidth(drawing, words);
    case 'risk':
      return byRisk(drawing, words);
    case 'density':
      return byDensity(drawing, words);
  }
}

function byWidth(drawing: Drawing, { picture: { key }, say }: DrawWords): Painted {
  // Steps are round in the units that the legend speaks.
  const perUnit = say.units === 'mm' ? 1 : MM_PER_INCH;
  const widths = drawing.measures.map((m) => (m.widthMm ? m.widthMm.p95 / perUnit : null));
  const limits = niceSteps(Math.max(0, ...widths.map((w) => w ?? 0)), STEP_COLOURS.length);
  const stepOf = (width: number): number => limits.findIndex((limit) => width <= limit);
  return {
    layers: objectLayers(drawing, (_, i) => {
      const width = widths[i];
      return width === null ? ASIDE_COLOUR : stepColour(stepOf(width), limits.length);
    }),
    legend: [
      ...limits.map((to, i) => ({
        colour: stepColour(i, limits.length),
        text: key.width({ from: i === 0 ? null : limits[i - 1], to }),
      })),
      { colour: ASIDE_COLOUR, text: key.noWidth },
    ],
  };
}

function byRisk(drawing: Drawing, { picture: { key } }: DrawWords): Painted {
  const { grades } = drawing;
  if (!grades)
    throw new LieflatError({
      code: 'bad-argument',
      place: 'draw by risk',
      what: 'the fabric is missing',
      todo: 'name the fabric',
    });
  return {
    layers: objectLayers(drawing, ({ object }) =>
      stepColour(gradeStep(grades.get(object.id) ?? 5), GRADES.length),
    ),
    legend: [
      ...GRADES.map(({ word, from }, i) => ({
        colour: stepColour(i, GRADES.length),
        text: key.grade({ word, best: i === 0 ? 5 : GRADES[i - 1].from - 0.5, from }),
      })),
      { colour: ASIDE_COLOUR, text: key.aside },
    ],
  };
}

async function byDensity(
  { stitches, designMeasures }: Drawing,
  { picture: { key } }: DrawWords,
): Promise<Painted> {
  const bands = await densityBands(stitches, designMeasures.bounds, STEP_COLOURS.length);
  return {
    layers: [
      ...bands.map((band, i) =>
        element('path', { d: band.path, fill: stepColour(i, bands.length), stroke: 'none' }),
      ),
      element('path', {
        d: stitchPath(stitches, 0, stitches.count - 1),
        stroke: INK_COLOUR,
        'stroke-width': 0.6,
        'stroke-opacity': 0.35,
      }),
    ],
    legend: bands.map(({ from, to }, i) => ({
      colour: stepColour(i, bands.length),
      text: key.density({ from: i === 0 ? null : from, to }),
    })),
  };
}

/** Travel first, then every object in sewing order: its top stitching, and as a thin line what lies under it. */
function objectLayers(
  drawing: Drawing,
  colourOf: (measures: ObjectMeasures, index: number) => string,
): string[] {
  const { stitches, measures } = drawing;
  const owned = new Uint8Array(stitches.count);
  const objects = measures.flatMap((m, i) => {
    if (m.object.range[0] >= MOST_DRAWN) return [];
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
  for (let i = 0; i < Math.min(stitches.count, MOST_DRAWN); i++) {
    if (owned[i]) continue;
    const first = i;
    while (i + 1 < stitches.count && !owned[i + 1]) i++;
    aside += stitchPath(stitches, first, i, true);
  }
  if (aside === '') return objects;
  return [element('path', { d: aside, stroke: ASIDE_COLOUR, 'stroke-width': 1.5 }), ...objects];
}

/** Each object's number on the middle of its sewing, where the object is large enough to carry it. */
function objectNumbers({ stitches, measures }: Drawing, placing: Placing): string {
  if (measures.length > MOST_NUMBERS) return '';
  return measures
    .filter(({ bounds: b }) => Math.max(b.maxX - b.minX, b.maxY - b.minY) * placing.perMm >= LEAST_NUMBERED)
    .map(({ object }) => {
      const [first, last] = object.range;
      const middle = (first + last) >> 1;
      const next = Math.min(middle + 1, last);
      return haloed(
        String(object.id),
        placing.x((stitches.x[middle] + stitches.x[next]) / 2),
        placing.y((stitches.y[middle] + stitches.y[next]) / 2),
        FONT * 0.8,
      );
    })
    .join('');
}
