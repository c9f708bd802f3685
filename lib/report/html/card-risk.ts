/** Where wrinkles are foreseen, small and in greys: what to look at on the first piece. */
import type { Bounds } from '../../core/bounds.js';
import { MM_PER_INCH } from '../../core/units.js';
import type { RiskMaps } from '../../mechanics/risk.js';
import { niceSteps } from '../nice-steps.js';
import { INK_COLOUR, PAPER_COLOUR } from '../palette.js';
import { bareLength, type Units } from '../quantities.js';
import { element, tidy } from '../svg.js';
import { stitchesAgain } from './shared-stitches.js';

/** Wrinkles lower than this look flat, mm. */
export const LOWEST_MM = 0.05;
/** What stands higher than on this part of the wrinkled goods is small spots, and goes into the last step. */
const USUAL = 0.98;
/** Lightest first; apart in print, and light enough that black lines show on them. */
const GREYS = ['#dedede', '#b0b0b0', '#7d7d7d'] as const;
/** Goods shown about the stitches: the sheet beyond is flat. */
const MARGIN_PART = 0.12;
const LEGEND_MM = 25;
const FONT = 23;

/** Fits the map into the width and height, its key on the right. Stitches are those of the picture at true scale. */
export async function riskPicture(
  { grid, wrinkleMm }: Pick<RiskMaps, 'grid' | 'wrinkleMm'>,
  bounds: Bounds,
  room: { widthMm: number; heightMm: number },
  units: Units,
  label: string,
): Promise<string> {
  const { limits, paths } = await bands({ grid, wrinkleMm }, units);
  const reach = MARGIN_PART * Math.max(bounds.maxX - bounds.minX, bounds.maxY - bounds.minY);
  const [spanX, spanY] = [bounds.maxX - bounds.minX + 2 * reach, bounds.maxY - bounds.minY + 2 * reach];
  const scale = Math.min((room.widthMm - LEGEND_MM) / spanX, room.heightMm / spanY);
  const [width, height] = [
    spanX * scale * 10,
    Math.max(spanY * scale * 10, (limits.length + 1) * FONT * 1.5),
  ];
  const map = element(
    'svg',
    {
      x: 0,
      y: 0,
      width,
      height: spanY * scale * 10,
      viewBox: `${tidy((bounds.minX - reach) * 10)} ${tidy(-(bounds.maxY + reach) * 10)} ${tidy(spanX * 10)} ${tidy(spanY * 10)}`,
    },
    {
      inner: element(
        'g',
        { transform: 'scale(1 -1)', fill: 'none' },
        {
          inner: [
            ...paths.map((d, i) =>
              element('path', { d, fill: GREYS[i], stroke: INK_COLOUR, 'stroke-width': 0.8 / scale }),
            ),
            element(
              'g',
              { stroke: INK_COLOUR, 'stroke-opacity': 0.55, 'stroke-width': 0.6 / scale },
              { inner: stitchesAgain() },
            ),
          ].join(''),
        },
      ),
    },
  );
  const key = [
    ...limits.map((from, i) => ({
      grey: GREYS[i] as string,
      text:
        i === limits.length - 1
          ? `${bareLength(from, units)} ${units} and more`
          : `${bareLength(from, units)} to ${bareLength(limits[i + 1], units)}`,
    })),
    { grey: PAPER_COLOUR, text: limits.length > 0 ? 'lower' : 'flat throughout' },
  ].map(({ grey, text }, i) => swatch(width + 15, i * FONT * 1.5, grey, text));
  return element(
    'svg',
    {
      class: 'risk',
      viewBox: `0 0 ${tidy(width + LEGEND_MM * 10)} ${tidy(height)}`,
      width: `${tidy(width / 10 + LEGEND_MM)}mm`,
      height: `${tidy(height / 10)}mm`,
      role: 'img',
      'aria-label': label,
    },
    { inner: map + key.join('') },
  );
}

/** Limits (mm) from which on each grey stands, and outlines in units of 0.1 mm of the design, Y up. */
async function bands(
  { grid, wrinkleMm }: Pick<RiskMaps, 'grid' | 'wrinkleMm'>,
  units: Units,
): Promise<{ limits: number[]; paths: string[] }> {
  const { contours } = await import('d3-contour');
  const high = wrinkleMm.filter((height) => height > LOWEST_MM).sort();
  if (high.length === 0) return { limits: [], paths: [] };
  const perUnit = units === 'mm' ? 1 : MM_PER_INCH;
  const steps = niceSteps(high[Math.floor(USUAL * (high.length - 1))] / perUnit, GREYS.length)
    .map((limit) => limit * perUnit)
    .filter((limit) => limit > LOWEST_MM);
  const limits = [LOWEST_MM, ...steps.slice(0, -1)];
  const { nx, ny, cellMm, x0, y0 } = grid;
  // Values stand for the middles of cells, half a cell in from the corner, as in the grid.
  const shapes = contours().size([nx, ny]).thresholds(limits)(wrinkleMm as unknown as number[]);
  const point = ([gx, gy]: number[]): string =>
    `${Math.round((x0 + gx * cellMm) * 10)} ${Math.round((y0 + gy * cellMm) * 10)}`;
  const paths = shapes.map(({ coordinates }) =>
    coordinates
      .flat()
      .map((ring) => `M${ring.slice(0, -1).map(point).join('L')}Z`)
      .join(''),
  );
  return { limits, paths };
}

const swatch = (x: number, y: number, grey: string, text: string): string =>
  element('rect', {
    x,
    y: y + 4,
    width: 26,
    height: FONT,
    fill: grey,
    stroke: INK_COLOUR,
    'stroke-width': 2,
  }) + element('text', { x: x + 36, y: y + FONT * 0.95, 'font-size': FONT, fill: INK_COLOUR }, { text });
