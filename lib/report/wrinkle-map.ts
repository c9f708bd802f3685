/** The predicted wrinkles about a design as a picture: areas of equal height, their outlines marked in mm, the stitches on top. */
import type { Stitches } from '../format/stitches.js';
import type { Bounds } from '../measure/measures.js';
import type { WrinkleField } from '../mechanics/risk.js';
import { type BandRing, type HeightBand, heightBands, LOWEST_MM, ringPath } from './height-bands.js';
import { INK_COLOUR, PAPER_COLOUR, STEP_COLOURS, stepColour } from './palette.js';
import type { Voice } from './phrases/voice.js';
import { wordsFor } from './phrases/words.js';
import { FONT, haloed, type LegendEntry, type Placing, picturePage } from './picture-page.js';
import type { PuckerReport } from './pucker/report.js';
import type { Units } from './quantities.js';
import { notDrawn, stitchPath } from './stitch-path.js';
import { element, tidy } from './svg.js';

export interface MapInput {
  stitches: Stitches;
  bounds: Bounds;
  maps: WrinkleField;
  report: PuckerReport;
}

export interface MapOptions {
  /** Shown above the picture. Any text; escaped here. */
  title: string;
  units: Units;
}

/** Fabric shown about the stitches, mm, at least and at most. */
const LEAST_MARGIN_MM = 8;
const MOST_MARGIN_MM = 25;
const THREAD_MM = 0.15;
/** A ring shorter than this carries no mark, mm. */
const LEAST_MARKED_MM = 12;
const ARROW = 46;

type Band = HeightBand & { colour: string };

/** Draws the map to scale. The result is a whole SVG document. */
export async function wrinkleMap(
  { stitches, bounds, maps, report }: MapInput,
  { title, units }: MapOptions,
): Promise<string> {
  const heights = await heightBands(maps, units, STEP_COLOURS.length);
  const bands = heights.map((band, i) => ({ ...band, colour: stepColour(i, heights.length) }));
  const { risk, conditions } = report;
  const { say, picture, risk: said } = wordsFor({ units, detail: 'short' });
  const legend: LegendEntry[] =
    bands.length === 0
      ? [{ colour: PAPER_COLOUR, text: picture.key.flat({ lowestMm: LOWEST_MM }) }]
      : [
          ...bands.map(({ colour, from: fromMm, to: toMm }) => ({
            colour,
            text: picture.key.wrinkles({ fromMm, toMm }),
          })),
          { colour: PAPER_COLOUR, text: picture.key.lower({ lowestMm: LOWEST_MM }) },
        ];
  const { wrinkleMm, range, grade } = risk;
  const height = said.height({ wrinkleMm, range: range.wrinkleMm });
  return picturePage({
    title,
    lines: [
      picture.answer({ word: said.grade({ grade }).toUpperCase(), grade, height }),
      picture.on({ fabric: conditions.fabricName }),
      picture.over({ backing: conditions.stackName }),
      picture.predicted,
      ...(bands.length > 0 ? [picture.ownSteps] : []),
      ...notDrawn(stitches).map(picture.notDrawn),
    ],
    area: shownArea(bounds, bands),
    layers: [
      ...bands.map(({ colour, rings }) => element('path', { d: ringPath(rings), fill: colour })),
      element('path', {
        d: stitchPath(stitches, 0, stitches.count - 1),
        stroke: PAPER_COLOUR,
        'stroke-width': THREAD_MM * 20,
        'stroke-opacity': 0.5,
      }),
      element('path', {
        d: stitchPath(stitches, 0, stitches.count - 1),
        stroke: INK_COLOUR,
        'stroke-width': THREAD_MM * 10,
        'stroke-opacity': 0.55,
      }),
      ...bands.map(({ rings }) =>
        element('path', { d: ringPath(rings), stroke: INK_COLOUR, 'stroke-width': 1.5 }),
      ),
    ],
    over: (placing) => heightMarks(bands, placing, say) + grainArrow(conditions.grainDeg, picture.grain),
    legend,
  });
}

/** The stitches and the wrinkles about them, not the whole sheet. */
function shownArea(bounds: Bounds, [lowest]: readonly Band[]): Bounds {
  let [minX, minY, maxX, maxY] = [
    bounds.minX - LEAST_MARGIN_MM,
    bounds.minY - LEAST_MARGIN_MM,
    bounds.maxX + LEAST_MARGIN_MM,
    bounds.maxY + LEAST_MARGIN_MM,
  ];
  for (const [x, y] of lowest?.rings.flat() ?? []) {
    minX = Math.min(minX, x);
    maxX = Math.max(maxX, x);
    minY = Math.min(minY, y);
    maxY = Math.max(maxY, y);
  }
  return {
    minX: Math.max(minX, bounds.minX - MOST_MARGIN_MM),
    minY: Math.max(minY, bounds.minY - MOST_MARGIN_MM),
    maxX: Math.min(maxX, bounds.maxX + MOST_MARGIN_MM),
    maxY: Math.min(maxY, bounds.maxY + MOST_MARGIN_MM),
  };
}

/** Its height on every outline that is long enough, where there is room for it. */
function heightMarks(bands: readonly Band[], placing: Placing, say: Voice): string {
  const size = FONT * 0.7;
  const taken: { x: number; y: number }[] = [];
  const marks: string[] = [];
  // The lowest outline needs none: it parts color from white.
  for (const { from, rings } of bands.slice(1).reverse()) {
    const text = say.units === 'mm' ? tidy(from) : say.bare(from);
    for (const ring of rings) {
      if (around(ring) < LEAST_MARKED_MM) continue;
      const free = ring
        .map(([x, y]) => ({ x: placing.x(x), y: placing.y(y) }))
        .find((at) =>
          taken.every((t) => Math.abs(t.x - at.x) > size * 3 || Math.abs(t.y - at.y) > size * 1.4),
        );
      if (!free) continue;
      taken.push(free);
      marks.push(haloed(text, free.x, free.y, size));
    }
  }
  return marks.join('');
}

function around(ring: BandRing): number {
  let sum = 0;
  let [px, py] = ring[ring.length - 1];
  for (const [x, y] of ring) {
    sum += Math.hypot(x - px, y - py);
    [px, py] = [x, y];
  }
  return sum;
}

/** Which way the grain runs, in the corner of the page. */
function grainArrow(grainDeg: number, name: string): string {
  const [cx, cy] = [1000 - 40 - ARROW, 40 + ARROW / 2];
  const angle = (-grainDeg * Math.PI) / 180;
  const [dx, dy] = [(Math.cos(angle) * ARROW) / 2, (Math.sin(angle) * ARROW) / 2];
  const head = (turn: number, sign: number): string =>
    `M${tidy(cx + sign * dx)} ${tidy(cy + sign * dy)}l${tidy(-sign * 10 * Math.cos(angle + turn))} ${tidy(-sign * 10 * Math.sin(angle + turn))}`;
  return (
    element('path', {
      d: `M${tidy(cx - dx)} ${tidy(cy - dy)}L${tidy(cx + dx)} ${tidy(cy + dy)}${[1, -1].flatMap((sign) => [head(0.5, sign), head(-0.5, sign)]).join('')}`,
      fill: 'none',
      stroke: INK_COLOUR,
      'stroke-width': 2,
      'stroke-linecap': 'round',
    }) +
    element(
      'text',
      {
        x: cx,
        y: cy + ARROW / 2 + FONT * 1.1,
        'font-size': FONT * 0.8,
        'text-anchor': 'middle',
        fill: INK_COLOUR,
      },
      { text: name },
    )
  );
}
