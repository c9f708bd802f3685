import { Break, type Stitches } from '../format/stitches.js';
import type { ObjectMeasures } from '../measure/measures.js';
import { countLockStitches } from '../segment/locks.js';
import { firstStitch } from './spans.js';

/**
 * Marks the needle points of locks by 1: at both ends of every thread, be it cut there or moved on by a jump, and where an object that is joined to its
 * neighbor has a lock of its own.
 */
export function markLocks(stitches: Stitches, objects: readonly ObjectMeasures[]): Uint8Array {
  const mask = new Uint8Array(stitches.count);
  const mark = (from: number, step: 1 | -1, limit: number) => {
    const lock = countLockStitches(stitches, from, step, limit);
    if (lock === 0) return;
    for (let k = 0; k <= lock; k++) mask[from + step * k] = 1;
  };
  let first = 0;
  while (first < stitches.count) {
    let last = first;
    while (last + 1 < stitches.count && stitches.breakBefore[last + 1] === Break.none) last++;
    mark(first, 1, last);
    mark(last, -1, first);
    first = last + 1;
  }
  const bound = stitches.count - 1;
  for (const { object } of objects) {
    const start = firstStitch(object);
    const end = object.range[1];
    // where the thread is cut the lock has been found already
    if (object.locks.start && !mask[start] && !mask[Math.max(0, start - 1)]) {
      mark(start, -1, 0);
      mark(start, 1, bound);
    }
    if (object.locks.end && !mask[end] && !mask[Math.min(bound, end + 1)]) {
      mark(end, 1, bound);
      mark(end, -1, 0);
    }
  }
  return mask;
}
