import { MM_PER_INCH } from '../core/units.js';
import { niceSteps } from './nice-steps.js';
import { INK_COLOUR } from './palette.js';
import { element, tidy } from './svg.js';

/** Inch lengths that a rule shows: halves down to eighths, then whole inches. */
const INCHES: readonly [length: number, label: string][] = [
  [0.125, '1/8 in'],
  [0.25, '1/4 in'],
  [0.5, '1/2 in'],
  [1, '1 in'],
  [2, '2 in'],
  [5, '5 in'],
  [10, '10 in'],
];

/**
 * Two bars from one left end, millimetres above inches, each about a quarter of the picture's width.
 *
 * @param perMm picture units a millimetre
 */
export function scaleBar(x: number, y: number, perMm: number, pictureMm: number, fontSize: number): string {
  const target = pictureMm / 4;
  const mm = niceSteps(target, 1)[0];
  const [inches, inchLabel] = INCHES.reduce((best, next) =>
    Math.abs(Math.log((next[0] * MM_PER_INCH) / target)) <
    Math.abs(Math.log((best[0] * MM_PER_INCH) / target))
      ? next
      : best,
  );
  const bar = (length: number, label: string, top: number): string => {
    const end = x + length * perMm;
    const tick = fontSize * 0.35;
    return (
      element('path', {
        d: `M${tidy(x)} ${tidy(top - tick)}V${tidy(top)}H${tidy(end)}V${tidy(top - tick)}`,
        fill: 'none',
        stroke: INK_COLOUR,
        'stroke-width': 2,
      }) +
      element(
        'text',
        { x: end + fontSize * 0.5, y: top, 'font-size': fontSize, fill: INK_COLOUR },
        { text: label },
      )
    );
  };
  return bar(mm, `${tidy(mm)} mm`, y) + bar(inches * MM_PER_INCH, inchLabel, y + fontSize * 1.4);
}
