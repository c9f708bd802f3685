/** Threads: what is sewn in one go, from one cut or move to the next. */
import { Break, type Stitches } from '../format/stitches.js';
import { countLockStitches } from './locks.js';
import { cosineOf, FINDER } from './parameters.js';

const LONG_STITCH_MM = FINDER.longStitch.value;
const RECORD_MM = FINDER.record.value;
const LIKE = FINDER.longAlike.value;
const TURNED_COS = -cosineOf(FINDER.longTurn);

export interface SewnThread {
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

/**
 * Splits the needle points at trims, at colour changes, at stops and at untrimmed moves. The jumps by which a file makes a
 * stitch too long for one record end no thread.
 */
export function findThreads(stitches: Stitches): SewnThread[] {
  const threads: SewnThread[] = [];
  const { breakBefore, count } = stitches;
  for (let first = 0; first < count; ) {
    let last = first;
    while (last + 1 < count && (breakBefore[last + 1] === Break.none || !endsBefore(stitches, last + 1)))
      last++;
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

/** Whether a break before a point ends the thread. */
function endsBefore(stitches: Stitches, i: number): boolean {
  const kind = stitches.breakBefore[i];
  return kind >= Break.stop || !isLongStitch(stitches, i);
}

/** Whether the move to point `i` is a stitch: one that a record cannot hold, though short enough, or a swing beside which others turn back. */
function isLongStitch({ x, y, count }: Stitches, i: number): boolean {
  const dx = x[i] - x[i - 1];
  const dy = y[i] - y[i - 1];
  const length = Math.hypot(dx, dy);
  if (length < LONG_STITCH_MM && Math.max(Math.abs(dx), Math.abs(dy)) > RECORD_MM) return true;
  const turnsBack = (a: number) => {
    if (a < 0 || a + 1 >= count) return false;
    const ex = x[a + 1] - x[a];
    const ey = y[a + 1] - y[a];
    const l = Math.hypot(ex, ey);
    return l > LIKE * length && dx * ex + dy * ey < TURNED_COS * l * length;
  };
  return turnsBack(i - 2) || turnsBack(i);
}
