/** Running stitches in the open. */
import { distance } from '../core/distance.js';
import { Break, type Stitches } from '../format/stitches.js';
import { FINDER } from './parameters.js';

export interface RunDraft {
  first: number;
  last: number;
  thread: number;
}

export const BETWEEN = { points: FINDER.betweenPoints.value, mm: FINDER.betweenMm.value };
export const AT_END = { points: FINDER.atEndPoints.value, mm: FINDER.atEndMm.value };
export const ALONE = { points: FINDER.alonePoints.value, mm: FINDER.aloneMm.value };

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
