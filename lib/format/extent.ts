import type { Bounds } from '../core/bounds.js';
import type { Stitches } from './stitches.js';

/** Bounds of the needle penetrations `first` to `last`, both included; all zero where there is none. */
export function boundsOf(stitches: Stitches, first = 0, last = stitches.count - 1): Bounds {
  if (last < first) return { minX: 0, minY: 0, maxX: 0, maxY: 0 };
  const { x, y } = stitches;
  let minX = x[first];
  let maxX = minX;
  let minY = y[first];
  let maxY = minY;
  for (let i = first + 1; i <= last; i++) {
    const px = x[i];
    const py = y[i];
    if (px < minX) minX = px;
    else if (px > maxX) maxX = px;
    if (py < minY) minY = py;
    else if (py > maxY) maxY = py;
  }
  return { minX, minY, maxX, maxY };
}

/** Across the circle about the middle of the bounds that holds every needle penetration, mm; 0 where there is none. */
export function acrossMiddle({ x, y, count }: Stitches, { minX, maxX, minY, maxY }: Bounds): number {
  const cx = (minX + maxX) / 2;
  const cy = (minY + maxY) / 2;
  let most2 = 0;
  for (let i = 0; i < count; i++) {
    const dx = x[i] - cx;
    const dy = y[i] - cy;
    const d2 = dx * dx + dy * dy;
    if (d2 > most2) most2 = d2;
  }
  return 2 * Math.sqrt(most2);
}
