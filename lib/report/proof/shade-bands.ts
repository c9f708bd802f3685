import { element, tidy } from '../svg.js';
import type { Relief } from './relief.js';
import { PER_MM } from './thread-picture.js';

/** Shades from which a band is drawn, each over the one before, and how much it adds. */
const STEPS = [0.02, 0.05, 0.085, 0.125, 0.17, 0.22, 0.275, 0.335, 0.4, 0.46];
const OPACITY = 0.05;

/** Light and shade as areas in units of 0.1 mm, Y up: black over what lies in shade, white over what is lit. */
export async function shadeBands(relief: Relief | null): Promise<string> {
  if (relief === null || relief.shade.every((value) => value === 0)) return '';
  const { contours } = await import('d3-contour');
  const { columns, rows, cellMm, x0, y0, shade } = relief;
  const trace = contours().size([columns, rows]).thresholds(STEPS);
  const place = (at: number, from: number): string => tidy(Math.round((from + (at - 0.5) * cellMm) * PER_MM));
  return [1, -1]
    .map((side) => {
      const values = Array.from(shade, (value) => side * value);
      const paths = trace(values).flatMap(({ coordinates }) => {
        const d = coordinates
          .flat()
          .map(
            (ring) =>
              `M${ring
                .slice(0, -1)
                .map(([x, y]) => `${place(x, x0)} ${place(y, y0)}`)
                .join('L')}Z`,
          )
          .join('');
        return d === '' ? [] : [element('path', { d })];
      });
      return element(
        'g',
        { fill: side > 0 ? '#ffffff' : '#000000', 'fill-opacity': OPACITY, 'fill-rule': 'evenodd' },
        { inner: paths.join('') },
      );
    })
    .join('');
}
