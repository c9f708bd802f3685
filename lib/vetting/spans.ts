import { Break, type Stitches } from '../format/stitches.js';
import type { ObjectMeasures } from '../measure/measures.js';
import type { StitchObject } from '../segment/objects.js';

/** First stitch of an object with its underlay. */
export const firstStitch = ({ range, underlay }: StitchObject): number =>
  underlay.range ? Math.min(range[0], underlay.range[0]) : range[0];

/**
 * The object that a stitch belongs to: the first whose top stitching ends at or after it, so underlay and the way
 * to an object belong to that object; what follows the last object belongs to that one. Null without objects.
 */
export function ownerOf(objects: readonly ObjectMeasures[], stitch: number): number | null {
  return objects.length === 0 ? null : objects[ownerIndex(objects, stitch)].object.id;
}

function ownerIndex(objects: readonly ObjectMeasures[], stitch: number): number {
  let low = 0;
  let high = objects.length - 1;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (objects[mid].object.range[1] >= stitch) high = mid;
    else low = mid + 1;
  }
  return low;
}

/** Whether the thread that ends at the stitch is part of a swing or row, and not a way between two of them. */
export function isSwing(objects: readonly ObjectMeasures[], stitch: number): boolean {
  if (objects.length === 0) return false;
  const { from, to } = objects[ownerIndex(objects, stitch)].object;
  let low = 0;
  let high = from.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (from[mid] < stitch) low = mid + 1;
    else high = mid;
  }
  return low > 0 && stitch <= to[low - 1];
}

/** Whether the thread is cut somewhere on the way to stitch `to`, after stitch `after`. */
export function isCutBetween({ breakBefore }: Stitches, after: number, to: number): boolean {
  for (let i = after + 1; i <= to; i++) if (breakBefore[i] >= Break.trim) return true;
  return false;
}
