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
  const inX = (at: Float64Array) => grown(at, centre.x, by.x, by.dx);
  const inY = (at: Float64Array) => grown(at, centre.y, by.y, by.dy);
  const spacing = 1 + (by.x + by.y) / 2;
  return {
    design: { ...design, x: inX(design.x), y: inY(design.y), diagnostics: [] },
    stitches: { ...stitches, x: inX(stitches.x), y: inY(stitches.y) },
    objects: objects.map((object) => {
      const { underlay } = object;
      // where x and y grow apart the direction of the underlay would say more; nobody measures it that closely
      return underlay.spacingMm === null
        ? object
        : { ...object, underlay: { ...underlay, spacingMm: underlay.spacingMm * spacing } };
    }),
  };
};

// a search makes a hundred designs and more: a plain loop is several times faster than a function called for every place
function grown(places: Float64Array, from: number, share: number, move: number): Float64Array {
  const out = new Float64Array(places.length);
  for (let i = 0; i < out.length; i++) out[i] = from + (places[i] - from) * (1 + share) + move;
  return out;
}
