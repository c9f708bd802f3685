import { LieflatError } from '../core/errors.js';

/** Refused above this: a picture of it would not fit in memory of an ordinary machine. */
const MOST_PNG_PIXELS_WIDE = 8000;

export interface Png {
  data: Uint8Array;
  /** False where no font was found on this machine: the picture then has no lettering. */
  lettered: boolean;
}

/**
 * Renders an SVG document of ours to PNG.
 *
 * @param widthPx width of the picture in pixels; the height follows
 * @throws LieflatError `bad-argument` for a width that is no whole number from 16 to 8000
 */
export async function svgToPng(svg: string, widthPx: number): Promise<Png> {
  if (!(Number.isInteger(widthPx) && widthPx >= 16 && widthPx <= MOST_PNG_PIXELS_WIDE)) {
    throw new LieflatError({
      code: 'bad-argument',
      place: 'picture width',
      what: `${widthPx} is not a whole number of pixels from 16 to ${MOST_PNG_PIXELS_WIDE}`,
      todo: 'ask for another width',
    });
  }
  const { Resvg } = await import('@resvg/resvg-js');
  const probe = new Resvg(
    '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><text y="8" font-family="sans-serif">0</text></svg>',
  );
  const data = new Resvg(svg, { fitTo: { mode: 'width', value: widthPx } }).render().asPng();
  return { data: new Uint8Array(data), lettered: probe.getBBox() !== undefined };
}
