/** Where wrinkles are predicted, small and in grays: what to look at on the first piece. */
import type { Bounds } from '../../core/bounds.js';
import type { WrinkleField } from '../../mechanics/risk.js';
import { heightBands, ringPath } from '../height-bands.js';
import { INK_COLOUR, PAPER_COLOUR } from '../palette.js';
import type { Units } from '../quantities.js';
import { element, tidy, trueSizeSvg } from '../svg.js';
import { stitchesAgain } from './shared-stitches.js';
import type { CardWords } from './words.js';

/** Lightest first; apart in print, and light enough that black lines show on them. */
const GRAYS = ['#dedede', '#b0b0b0', '#7d7d7d'] as const;
/** Fabric shown about the stitches: the sheet beyond is flat. */
const MARGIN_PART = 0.12;
/** And at least so much: a single needle point has no size. */
const LEAST_MARGIN_MM = 2;
const LEGEND_MM = 25;
const FONT = 23;

/** Fits the map into the width and height, its key on the right. Stitches are those of the picture at true scale. */
export async function riskPicture(
  { grid, wrinkleMm }: WrinkleField,
  bounds: Bounds,
  room: { widthMm: number; heightMm: number },
  units: Units,
  { card: { risk, riskPictureOf } }: CardWords,
): Promise<string> {
  const bands = await heightBands({ grid, wrinkleMm }, units, GRAYS.length);
  const longer = Math.max(bounds.maxX - bounds.minX, bounds.maxY - bounds.minY);
  const reach = Math.max(LEAST_MARGIN_MM, MARGIN_PART * longer);
  const [spanX, spanY] = [bounds.maxX - bounds.minX + 2 * reach, bounds.maxY - bounds.minY + 2 * reach];
  const scale = Math.min((room.widthMm - LEGEND_MM) / spanX, room.heightMm / spanY);
  const [width, height] = [spanX * scale * 10, Math.max(spanY * scale * 10, (bands.length + 1) * FONT * 1.5)];
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
            ...bands.map(({ rings }, i) =>
              element('path', {
                d: ringPath(rings),
                fill: GRAYS[i],
                stroke: INK_COLOUR,
                'stroke-width': 0.8 / scale,
              }),
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
    ...bands.map(({ from, to }, i) => ({
      gray: GRAYS[i] as string,
      text: to === null ? risk.from({ mm: from }) : risk.between({ from, to }),
    })),
    { gray: PAPER_COLOUR, text: bands.length > 0 ? risk.lower : risk.flat },
  ].map(({ gray, text }, i) => swatch(width + 15, i * FONT * 1.5, gray, text));
  return trueSizeSvg(
    { name: 'risk', width: width + LEGEND_MM * 10, height, label: riskPictureOf },
    map + key.join(''),
  );
}

const swatch = (x: number, y: number, gray: string, text: string): string =>
  element('rect', {
    x,
    y: y + 4,
    width: 26,
    height: FONT,
    fill: gray,
    stroke: INK_COLOUR,
    'stroke-width': 2,
  }) + element('text', { x: x + 36, y: y + FONT * 0.95, 'font-size': FONT, fill: INK_COLOUR }, { text });
