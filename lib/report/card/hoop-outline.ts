/** The field of a hoop about the middle of a design. */
import { type Bounds, middleOf } from '../../core/bounds.js';
import type { HoopField } from '../../materials/places.js';
import { INK_COLOUR } from '../palette.js';
import { element } from '../svg.js';

/** Where the field lies when the design is centered in it, mm. */
export function fieldBounds({ widthMm, heightMm }: HoopField, design: Bounds): Bounds {
  const { x, y } = middleOf(design);
  const [w, h] = [widthMm.value / 2, heightMm.value / 2];
  return { minX: x - w, minY: y - h, maxX: x + w, maxY: y + h };
}

/**
 * Its outline, dashed.
 *
 * @param x, y from mm of the design to picture units of 0.1 mm on paper
 */
export function hoopOutline(
  hoop: HoopField,
  design: Bounds,
  { x, y }: { x: (mm: number) => number; y: (mm: number) => number },
): string {
  const field = fieldBounds(hoop, design);
  const [left, top, right, bottom] = [x(field.minX), y(field.maxY), x(field.maxX), y(field.minY)];
  const look = {
    class: 'hoop',
    fill: 'none',
    stroke: INK_COLOUR,
    'stroke-width': 4,
    'stroke-dasharray': '24 10',
  };
  if (hoop.shape === 'round')
    return element('circle', {
      cx: (left + right) / 2,
      cy: (top + bottom) / 2,
      r: (right - left) / 2,
      ...look,
    });
  return element('rect', { x: left, y: top, width: right - left, height: bottom - top, rx: 20, ...look });
}
