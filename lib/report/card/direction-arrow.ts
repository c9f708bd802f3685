import { INK_COLOUR } from '../palette.js';
import { element, tidy } from '../svg.js';

/**
 * A line with a head at both ends: a grain has a direction and no sense.
 *
 * @param angleDeg counter-clockwise from level
 * @param size its length in picture units
 */
export function directionArrow(cx: number, cy: number, size: number, angleDeg: number): string {
  const angle = (-angleDeg * Math.PI) / 180;
  const [dx, dy] = [Math.cos(angle) * (size / 2), Math.sin(angle) * (size / 2)];
  const barb = size / 5;
  const head = (turn: number, sign: number): string =>
    `M${tidy(cx + sign * dx)} ${tidy(cy + sign * dy)}l${tidy(-sign * barb * Math.cos(angle + turn))} ${tidy(-sign * barb * Math.sin(angle + turn))}`;
  const heads = [1, -1].flatMap((sign) => [head(0.5, sign), head(-0.5, sign)]).join('');
  return element('path', {
    d: `M${tidy(cx - dx)} ${tidy(cy - dy)}L${tidy(cx + dx)} ${tidy(cy + dy)}${heads}`,
    fill: 'none',
    stroke: INK_COLOUR,
    'stroke-width': 4,
    'stroke-linecap': 'round',
  });
}
