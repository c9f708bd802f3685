/** Running stitches in the open. */
import { distance } from '../core/distance.js';
import { Break, type Stitches } from '../format/stitches.js';

export interface RunDraft {
  first: number;
  last: number;
  thread: number;
}

/** Shortest run in the open, between tops, at the end of a thread, and alone on a thread: points and mm. */
export const BETWEEN = { points: 7, mm: 14 };
export const AT_END = { points: 4, mm: 5 };
export const ALONE = { points: 3, mm: 1.5 };

/** Keeps what is sewn in one piece (no jump inside) and long enough. */
export function keepRuns(
  stitches: Stitches,
  thread: number,
  first: number,
  last: number,
  need: { points: number; mm: number },
  runs: RunDraft[],
): void {
  const { x, y, breakBefore } = stitches;
  let start = first;
  let length = 0;
  for (let i = first + 1; i <= last + 1; i++) {
    if (i > last || breakBefore[i] === Break.jump) {
      if (i - start >= need.points && length >= need.mm) runs.push({ first: start, last: i - 1, thread });
      start = i;
      length = 0;
    } else {
      length += distance(x[i - 1], y[i - 1], x[i], y[i]);
    }
  }
}
