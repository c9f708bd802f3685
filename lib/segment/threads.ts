/** Threads: what is sewn between two cuts of the thread. */
import { Break, type Stitches } from '../format/stitches.js';
import { countLockStitches } from './locks.js';

export interface Thread {
  /** Stitch indexes of its first and last needle point. */
  readonly first: number;
  readonly last: number;
  /** The same without the lock stitches at its ends. */
  readonly bodyFirst: number;
  readonly bodyLast: number;
  readonly lockedStart: boolean;
  readonly lockedEnd: boolean;
  /** Colour block, from 0. */
  readonly block: number;
}

/** Splits the needle points at trims and colour changes. A pause alone does not cut the thread. */
export function findThreads(stitches: Stitches): Thread[] {
  const threads: Thread[] = [];
  for (let first = 0; first < stitches.count; ) {
    let last = first;
    while (last + 1 < stitches.count && stitches.breakBefore[last + 1] < Break.trim) last++;
    const start = countLockStitches(stitches, first, 1, last);
    const end = countLockStitches(stitches, last, -1, first + start);
    threads.push({
      first,
      last,
      bodyFirst: first + start,
      bodyLast: last - end,
      lockedStart: start > 0,
      lockedEnd: end > 0,
      block: stitches.block[first],
    });
    first = last + 1;
  }
  return threads;
}
