import { middleOf } from '../core/bounds.js';
import type { Design } from '../format/design.js';
import { boundsOf } from '../format/extent.js';
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import type { Enlarge, Enlargement } from './enlargement.js';

/** The point that a design is made larger about: the middle of the box around its needle points, mm. */
export function centreOf(stitches: Stitches): { x: number; y: number } {
  return middleOf(boundsOf(stitches));
}

/**
 * What a machine's own scaling does: every place of the file goes away from the design's centre by the same share, and then by the offset.
 * No stitch is added, so columns get wider and all spacing opens.
 */
export const machineScaled: Enlarge = (design, stitches, objects) => {
  const centre = centreOf(stitches);
  return (by) => {
    const inX = (at: Float64Array) => grown(at, centre.x, by.x, by.dx);
    const inY = (at: Float64Array) => grown(at, centre.y, by.y, by.dy);
    const scaled = (part: { design: Design; stitches: Stitches }) => ({
      design: { ...part.design, x: inX(part.design.x), y: inY(part.design.y), diagnostics: [] },
      stitches: { ...part.stitches, x: inX(part.stitches.x), y: inY(part.stitches.y) },
    });
    return {
      whole: () => ({
        ...scaled({ design, stitches }),
        objects: objects.map((object) => spaced(object, by)),
      }),
      alone: (k) => ({ ...scaled(excerpt(design, stitches, objects[k])), objects: [moved(objects[k])] }),
      mayHold: () => true,
      reach: (k) => {
        const { minX, minY, maxX, maxY } = boundsOf(stitches, ...objects[k].range);
        const [x, y] = [inX(Float64Array.of(minX, maxX)), inY(Float64Array.of(minY, maxY))];
        return { minX: Math.min(...x), minY: Math.min(...y), maxX: Math.max(...x), maxY: Math.max(...y) };
      },
    };
  };
};

/** An object whose underlay is sewn as much wider apart as the design has grown. */
function spaced(object: StitchObject, by: Enlargement): StitchObject {
  const { underlay } = object;
  // where x and y grow apart the direction of the underlay would say more; nobody measures it that closely
  return underlay.spacingMm === null
    ? object
    : { ...object, underlay: { ...underlay, spacingMm: underlay.spacingMm * (1 + (by.x + by.y) / 2) } };
}

/** What is sewn in the range of an object, by itself. */
function excerpt(
  design: Design,
  { x, y, breakBefore, block, record }: Stitches,
  { range: [first, last] }: StitchObject,
): { design: Design; stitches: Stitches } {
  const start = record[first];
  const end = record[last] + 1;
  return {
    design: {
      ...design,
      x: design.x.subarray(start, end),
      y: design.y.subarray(start, end),
      kind: design.kind.subarray(start, end),
      thread: null,
    },
    stitches: {
      count: last - first + 1,
      x: x.subarray(first, last + 1),
      y: y.subarray(first, last + 1),
      breakBefore: breakBefore.subarray(first, last + 1),
      block: block.subarray(first, last + 1),
      record: record.subarray(first, last + 1).map((r) => r - start),
    },
  };
}

/** An object whose range begins with the first of the stitches. */
function moved(object: StitchObject): StitchObject {
  const [first, last] = object.range;
  return {
    ...object,
    range: [0, last - first],
    from: object.from.map((i) => i - first),
    to: object.to.map((i) => i - first),
  };
}

// a search makes a hundred designs and more: a plain loop is several times faster than a function called for every place
function grown(places: Float64Array, from: number, share: number, move: number): Float64Array {
  const out = new Float64Array(places.length);
  for (let i = 0; i < out.length; i++) out[i] = from + (places[i] - from) * (1 + share) + move;
  return out;
}
