/** Whether thread of two files is the same: needle points at the same place, in the same color, between the same cuts. */
import { Break, type Stitches } from '../format/stitches.js';
import { SAME_MM } from './proof.js';
import { squareOf } from './thread-grid.js';

/** Needle points `first` to `last`. */
export type NeedleSpan = readonly [first: number, last: number];

/** What lies between two needle points that stay, these included, in the old design and in the new. */
export interface Gap {
  readonly was: NeedleSpan;
  readonly is: NeedleSpan;
}

/** @param sewnOn whether what lies between the needle point and the one before has to be the same as well */
export function sameStitch(a: Stitches, i: number, b: Stitches, j: number, sewnOn: boolean): boolean {
  if (Math.abs(a.x[i] - b.x[j]) > SAME_MM || Math.abs(a.y[i] - b.y[j]) > SAME_MM || a.block[i] !== b.block[j])
    return false;
  return !sewnOn || sameBreak(a.breakBefore[i], b.breakBefore[j]);
}

/** A long stitch may be made by jumps or not: it is the same thread. */
const sameBreak = (a: number, b: number): boolean => a === b || (a < Break.stop && b < Break.stop);

export function unchanged(a: Stitches, b: Stitches, { was, is }: Gap): boolean {
  if (was[1] - was[0] !== is[1] - is[0]) return false;
  for (let n = 1; was[0] + n < was[1]; n++) if (!sameStitch(a, was[0] + n, b, is[0] + n, true)) return false;
  return was[1] >= a.count || sameBreak(a.breakBefore[was[1]], b.breakBefore[is[1]]);
}

/** A needle point, told by its place. */
export const placeName = ({ x, y }: Stitches, i: number): string => `${squareOf(x[i])},${squareOf(y[i])}`;

/** A thread, told by where it lies. */
export const nameOf = (stitches: Stitches, i: number): string =>
  `${placeName(stitches, i - 1)} ${placeName(stitches, i)}`;

/** The names of the needle points between two. */
export function* placesOf(stitches: Stitches, [first, last]: NeedleSpan): Generator<string> {
  for (let i = Math.max(first + 1, 0); i < Math.min(last, stitches.count); i++) yield placeName(stitches, i);
}

/** The names of all threads between two needle points. */
export function threadsOf(stitches: Stitches, [first, last]: NeedleSpan): Set<string> {
  const names = new Set<string>();
  for (let i = Math.max(first, 0) + 1; i <= last && i < stitches.count; i++) {
    if (stitches.breakBefore[i] < Break.trim) names.add(nameOf(stitches, i));
  }
  return names;
}
