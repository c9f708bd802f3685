/** What hides a hole, worked out the plain way: every hole against every thread. */
import type { Design } from '../../lib/format/design.js';
import { Break, penetrations, type Stitches } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';

export const sewnOf = (design: Design) => {
  const stitches = penetrations(design);
  return { design, stitches, objects: findObjects(stitches) };
};

/** Distance from a place to the nearest thread of top stitching; infinite without any. */
export function bruteDistance(
  { x, y, breakBefore }: Stitches,
  objects: readonly StitchObject[],
  px: number,
  py: number,
): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { range } of objects) {
    for (let i = range[0] + 1; i <= range[1]; i++) {
      if (breakBefore[i] >= Break.trim) continue;
      const [vx, vy] = [x[i] - x[i - 1], y[i] - y[i - 1]];
      const [wx, wy] = [px - x[i - 1], py - y[i - 1]];
      const whole = vx * vx + vy * vy;
      const along = wx * vx + wy * vy;
      const beside = wx * vy - wy * vx;
      let squared = wx * wx + wy * wy;
      if (along >= whole) squared = (px - x[i]) ** 2 + (py - y[i]) ** 2;
      else if (along > 0) squared = (beside * beside) / whole;
      if (squared < least) least = squared;
    }
  }
  return Math.sqrt(least);
}
