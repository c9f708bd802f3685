import type { Bounds } from '../core/bounds.js';
import { boundsOf } from '../format/extent.js';
import type { Stitches } from '../format/stitches.js';
import type { Enlarge } from './enlargement.js';

/** The point that a design is made larger about: the middle of the box around its needle points, mm. */
export function centreOf(stitches: Stitches): { x: number; y: number } {
  const { minX, minY, maxX, maxY }: Bounds = boundsOf(stitches);
  return { x: (minX + maxX) / 2, y: (minY + maxY) / 2 };
}

/**
 * What a machine's own scaling does: every place of the file goes away from the design's centre by the same share, and then by the offset.
 * No stitch is added, so columns get wider and all spacing opens.
 */
export const machineScaled: Enlarge = (design, stitches, objects, by) => {
  const centre = centreOf(stitches);
  const along = (from: number, share: number, move: number) => (at: number) =>
    from + (at - from) * (1 + share) + move;
  const toX = along(centre.x, by.x, by.dx);
  const toY = along(centre.y, by.y, by.dy);
  const spacing = 1 + (by.x + by.y) / 2;
  return {
    design: { ...design, x: design.x.map(toX), y: design.y.map(toY), diagnostics: [] },
    stitches: { ...stitches, x: stitches.x.map(toX), y: stitches.y.map(toY) },
    objects: objects.map((object) => {
      const { underlay } = object;
      // where x and y grow apart the direction of the underlay would say more; nobody measures it that closely
      return underlay.spacingMm === null
        ? object
        : { ...object, underlay: { ...underlay, spacingMm: underlay.spacingMm * spacing } };
    }),
  };
};
