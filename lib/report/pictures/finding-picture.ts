/** The picture of a vet report: the stitches to scale, what was found lettered on them. */
import type { Stitches } from '../../format/stitches.js';
import type { Severity } from '../../vetting/finding.js';
import { INK_COLOUR, PAPER_COLOUR } from '../palette.js';
import { scaleBar } from '../scale-bar.js';
import { MOST_DRAWN, stitchPath } from '../stitch-path.js';
import { element, tidy } from '../svg.js';
import type { VetReport } from '../vet/report.js';
import { letterOf, type NumberedPlace, placeCallouts, type Spot } from './callouts.js';

/** Picture units. */
const WIDTH = 640;
/** Bare paper about the design: room for callouts that are moved. */
const MARGIN = 40;
/** Tallest and lowest design, as shares of the width. */
const TALLEST = 1.2;
const LOWEST = 0.2;
/** A design smaller than this is not enlarged to fill the picture, mm: a bar of 1/8 in still fits. */
const LEAST_MM = 15;
const FONT = 13;
export const CALLOUT_RADIUS = 12;
const BAR_HEIGHT = 46;

/** Thread as drawn, mm: under the 0.4 mm that 40-weight covers (common practice, no source), so single lines show. */
const THREAD_MM = 0.3;
const TRAVEL_MM = 0.15;

/** What a stitch belongs to, and the colour that shows it. */
const TONES = ['#9a9a9a', '#b9c2c4', '#4d6a73'] as const;
const ASIDE = 0;
const SOUND = 1;
const FOUND = 2;

/** How a design lies in its picture. */
export interface Framing {
  height: number;
  perMm: number;
  x: (mm: number) => number;
  y: (mm: number) => number;
}

/** One scale both ways, the design in the middle. */
export function frame({ bounds, widthMm, heightMm }: VetReport['design']): Framing {
  const room = WIDTH - 2 * MARGIN;
  const perMm = Math.min(room / Math.max(widthMm, LEAST_MM), (room * TALLEST) / Math.max(heightMm, LEAST_MM));
  const height = Math.max(heightMm * perMm, room * LOWEST) + 2 * MARGIN;
  const [midX, midY] = [(bounds.minX + bounds.maxX) / 2, (bounds.minY + bounds.maxY) / 2];
  return {
    height,
    perMm,
    x: (mm) => WIDTH / 2 + (mm - midX) * perMm,
    y: (mm) => height / 2 - (mm - midY) * perMm,
  };
}

/**
 * Draws the design of a report, the stitches of objects with something found darker than the rest.
 *
 * @param label what the picture is called for those who do not see it; any text
 */
export function findingPicture(
  report: VetReport,
  stitches: Stitches,
  places: readonly NumberedPlace[],
  framing: Framing,
  label: string,
): string {
  const { height, perMm } = framing;
  const anchors = places.map(({ at }) => ({ x: framing.x(at.x), y: framing.y(at.y) }));
  const spots = placeCallouts(anchors, { width: WIDTH, height, radius: CALLOUT_RADIUS + 1 });
  const whole = Math.ceil(height + BAR_HEIGHT);
  const parts = [
    element('rect', { width: WIDTH, height: whole, fill: PAPER_COLOUR }),
    element(
      'g',
      {
        transform: `translate(${framing.x(0)} ${framing.y(0)}) scale(${perMm / 10} ${-perMm / 10})`,
        fill: 'none',
        'stroke-linecap': 'round',
        'stroke-linejoin': 'round',
      },
      { inner: stitchLayers(report, stitches).join('') },
    ),
    ...anchors.map((anchor, i) => leader(anchor, spots[i])),
    ...places.map((place, i) => mark(place.severity, spots[i], letterOf(place.number))),
    scaleBar(MARGIN / 2, height + FONT, perMm, (WIDTH - 2 * MARGIN) / perMm, FONT),
  ];
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'design',
      viewBox: `0 0 ${WIDTH} ${whole}`,
      width: WIDTH,
      height: whole,
      role: 'img',
      'aria-label': label,
    },
    { inner: `\n${parts.filter(Boolean).join('\n')}\n` },
  );
}

/** Paths in sewing order, so that what was sewn later lies on top. */
function stitchLayers(report: VetReport, stitches: Stitches): string[] {
  const found = new Set(report.findings.map(({ object }) => object));
  const tones = new Uint8Array(stitches.count);
  for (const { id, stitchRange, underlay } of report.objects) {
    const tone = found.has(id) ? FOUND : SOUND;
    for (const range of [stitchRange, underlay.stitchRange])
      if (range) tones.fill(tone, range[0], range[1] + 1);
  }
  const layers: string[] = [];
  for (let first = 0; first < Math.min(stitches.count, MOST_DRAWN); ) {
    const tone = tones[first];
    let last = first;
    while (last + 1 < stitches.count && tones[last + 1] === tone) last++;
    layers.push(
      element('path', {
        d: stitchPath(stitches, first, last, true),
        stroke: TONES[tone],
        'stroke-width': (tone === ASIDE ? TRAVEL_MM : THREAD_MM) * 10,
      }),
    );
    first = last + 1;
  }
  return layers;
}

/** A line from a callout that was moved to the place that it speaks of; nothing where it stands on it. */
function leader(anchor: Spot, spot: Spot): string {
  if (Math.hypot(anchor.x - spot.x, anchor.y - spot.y) < CALLOUT_RADIUS) return '';
  const d = `M${tidy(anchor.x)} ${tidy(anchor.y)}L${tidy(spot.x)} ${tidy(spot.y)}`;
  return (
    element('path', { d, stroke: PAPER_COLOUR, 'stroke-width': 4, 'stroke-opacity': 0.8 }) +
    element('path', { d, stroke: INK_COLOUR, 'stroke-width': 1.3 }) +
    element('circle', {
      cx: anchor.x,
      cy: anchor.y,
      r: 3,
      fill: INK_COLOUR,
      stroke: PAPER_COLOUR,
    })
  );
}

/** A number in the shape of its severity: a filled square, a heavy ring, a dashed ring. */
function mark(severity: Severity, { x, y }: Spot, text: string): string {
  const r = CALLOUT_RADIUS;
  const shape =
    severity === 'fail'
      ? element('rect', {
          x: x - r + 1,
          y: y - r + 1,
          width: 2 * r - 2,
          height: 2 * r - 2,
          fill: '#8c1c13',
          stroke: PAPER_COLOUR,
          'stroke-width': 1.5,
        })
      : element('circle', {
          cx: x,
          cy: y,
          r: r - 1,
          fill: PAPER_COLOUR,
          stroke: INK_COLOUR,
          'stroke-width': severity === 'warn' ? 2.4 : 1.2,
          ...(severity === 'note' && { 'stroke-dasharray': '3 2' }),
        });
  return element(
    'g',
    { class: `callout ${severity}` },
    {
      inner:
        shape +
        element(
          'text',
          {
            x,
            y: y + FONT * 0.35,
            'font-size': FONT,
            'font-weight': severity === 'note' ? 400 : 700,
            'text-anchor': 'middle',
            fill: severity === 'fail' ? PAPER_COLOUR : INK_COLOUR,
          },
          { text },
        ),
    },
  );
}

/** The shape of a severity by itself, with a letter in it: for the key and for the list. */
export function calloutKey(severity: Severity, number = 1): string {
  const size = 2 * CALLOUT_RADIUS;
  return element(
    'svg',
    { viewBox: `0 0 ${size} ${size}`, width: size, height: size, 'aria-hidden': 'true' },
    { inner: mark(severity, { x: CALLOUT_RADIUS, y: CALLOUT_RADIUS }, letterOf(number)) },
  );
}
