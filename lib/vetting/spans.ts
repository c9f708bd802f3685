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

/** Index of the object of {@link ownerOf}; there must be one. */
export function ownerIndex(objects: readonly ObjectMeasures[], stitch: number): number {
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
function isSwing({ from, to }: StitchObject, stitch: number): boolean {
  let low = 0;
  let high = from.length;
  while (low < high) {
    const mid = (low + high) >> 1;
    if (from[mid] < stitch) low = mid + 1;
    else high = mid;
  }
  return low > 0 && stitch <= to[low - 1];
}

/**
 * Whether the thread that a jump to the stitch lays is no loose move: a swing or row too long for one record, or the
 * way from an object's underlay to its top stitching, which covers it.
 */
export function isSewnIn(objects: readonly ObjectMeasures[], stitch: number, lengthMm: number): boolean {
  if (objects.length === 0) return false;
  const { object, widthMm } = objects[ownerIndex(objects, stitch)];
  if (isSwing(object, stitch)) return true;
  if (object.underlay.range && stitch > object.underlay.range[0] && stitch <= object.range[0]) return true;
  // a first swing that was not counted to the column is as long as the others
  return widthMm !== null && stitch <= object.range[0] + 1 && lengthMm <= 1.05 * widthMm.max;
}
