/**
 * Running stitches between the tops: underlay and travel under the tops, runs in the open.
 *
 * Each gap between two tops of a thread is read point by point. Its last part that lies under the next top belongs
 * to that top. What lies under another top of the thread is hidden travel, though along the middle of a column it
 * acts as a centre run and is handed to that column. Enough of the rest in one piece is a run.
 */

import { holds } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { Break, type Stitches } from '../format/stitches.js';
import { shareAlongMiddle } from './column-underlay.js';
import { ColumnRegion } from './region.js';
import type { Thread } from './threads.js';
import type { Top } from './tops.js';

export interface RunDraft {
  first: number;
  last: number;
  thread: number;
}

/** How many tops of the thread ahead are asked whether they hide a travel. */
const AHEAD = 8;
/** Share of the way to the next top that must lie under it, from where it enters, to belong to it. */
const STAYS_UNDER = 0.8;
/** Least share of a column's middle that travel must follow to count. */
const PART_OF_RUN = 0.1;
/** Shortest run in the open, between tops, at the end of a thread, and alone on a thread: points and mm. */
const BETWEEN = { points: 7, mm: 14 };
const AT_END = { points: 4, mm: 5 };
const ALONE = { points: 3, mm: 1.5 };

export function findRuns(stitches: Stitches, threads: readonly Thread[], tops: readonly Top[]): RunDraft[] {
  const runs: RunDraft[] = [];
  let next = 0;
  threads.forEach((thread, index) => {
    const mine: Top[] = [];
    while (next < tops.length && tops[next].thread === index) mine.push(tops[next++]);
    const follower = nextTopOfBlock(threads, tops, next, thread);
    if (mine.length === 0) {
      readLonelyThread(stitches, thread, index, follower, runs);
      return;
    }
    for (let k = 0; k <= mine.length; k++) {
      const gap = {
        first: k === 0 ? thread.bodyFirst : mine[k - 1].last + 1,
        last: k === mine.length ? thread.bodyLast : mine[k].first - 1,
      };
      if (gap.first > gap.last) continue;
      readGap(stitches, index, gap, mine, k, runs);
    }
  });
  return runs;
}

function nextTopOfBlock(
  threads: readonly Thread[],
  tops: readonly Top[],
  next: number,
  thread: Thread,
): Top | null {
  const top = tops[next];
  return top !== undefined && threads[top.thread].block === thread.block ? top : null;
}

/** A thread without tops is a run, or underlay of the next top if that covers it. */
function readLonelyThread(
  stitches: Stitches,
  thread: Thread,
  index: number,
  follower: Top | null,
  runs: RunDraft[],
): void {
  const { x, y } = stitches;
  const count = thread.bodyLast - thread.bodyFirst + 1;
  if (follower !== null && count >= 3) {
    let inside = 0;
    for (let i = thread.bodyFirst; i <= thread.bodyLast; i++)
      if (follower.region.contains(x[i], y[i])) inside++;
    if (inside >= 0.95 * count) {
      follower.under.push({ first: thread.bodyFirst, last: thread.bodyLast, patch: null });
      return;
    }
  }
  keepRuns(stitches, index, thread.bodyFirst, thread.bodyLast, ALONE, runs);
}

/** Reads the gap before the top `k` of the thread (or after the last). */
function readGap(
  stitches: Stitches,
  thread: number,
  gap: { first: number; last: number },
  tops: readonly Top[],
  k: number,
  runs: RunDraft[],
): void {
  const next = tops[k] as Top | undefined;
  let restEnd = gap.last;
  if (next !== undefined) {
    const start = entersForGood(stitches, next, gap.first, gap.last);
    if (start <= gap.last) {
      for (const piece of outside(next, start, gap.last)) {
        next.under.push({ ...piece, patch: null });
      }
      restEnd = start - 1;
    }
  }
  if (restEnd < gap.first) return;

  const hiding = [
    ...tops.slice(Math.max(0, k - (next === undefined ? 0 : 2)), k),
    ...tops.slice(k, k + AHEAD),
  ];
  const hidden = new Uint8Array(restEnd - gap.first + 1);
  for (const top of hiding) {
    for (const stretch of stretchesUnder(stitches, top, gap.first, restEnd)) {
      hidden.fill(1, stretch.first - gap.first, stretch.last - gap.first + 1);
      if (top.first <= restEnd || !runsAlongMiddle(stitches, top, stretch)) continue;
      for (const piece of outside(top, stretch.first, stretch.last))
        top.under.push({ ...piece, patch: null });
    }
  }
  const need = k === 0 || next === undefined ? AT_END : BETWEEN;
  for (let i = gap.first; i <= restEnd; i++) {
    if (hidden[i - gap.first] === 1) continue;
    let last = i;
    while (last < restEnd && hidden[last + 1 - gap.first] === 0) last++;
    keepRuns(stitches, thread, i, last, need, runs);
    i = last;
  }
}

/** Unbroken stretches of a range that lie under a top. */
function stretchesUnder(
  stitches: Stitches,
  top: Top,
  first: number,
  last: number,
): { first: number; last: number }[] {
  const { x, y } = stitches;
  const out: { first: number; last: number }[] = [];
  for (let i = first; i <= last; i++) {
    if (!holds(top.bounds, x[i], y[i], 1) || !top.region.contains(x[i], y[i])) continue;
    const open = out[out.length - 1];
    if (open !== undefined && open.last === i - 1) open.last = i;
    else out.push({ first: i, last: i });
  }
  return out;
}

/** Whether travel under a column that is sewn later goes along its middle: then it is part of a centre run. */
function runsAlongMiddle(stitches: Stitches, top: Top, stretch: { first: number; last: number }): boolean {
  if (!(top.region instanceof ColumnRegion) || stretch.last - stretch.first < 1) return false;
  const indexes = Array.from({ length: stretch.last - stretch.first + 1 }, (_, i) => stretch.first + i);
  return shareAlongMiddle(top.region.frame, stitches.x, stitches.y, indexes) >= PART_OF_RUN;
}

/** First stitch from which on the gap keeps under the top; past its end if it never does. */
function entersForGood(stitches: Stitches, top: Top, first: number, last: number): number {
  const { x, y } = stitches;
  let inside = 0;
  let start = last + 1;
  for (let i = last; i >= first; i--) {
    if (!top.region.contains(x[i], y[i])) continue;
    inside++;
    if (inside >= STAYS_UNDER * (last - i + 1)) start = i;
  }
  return start;
}

/** The parts of a range that no underlay patch of the top holds already. */
function outside(top: Top, first: number, last: number): { first: number; last: number }[] {
  const held = top.under.filter((u) => u.last >= first && u.first <= last).sort((a, b) => a.first - b.first);
  const pieces: { first: number; last: number }[] = [];
  let at = first;
  for (const u of held) {
    if (u.first > at) pieces.push({ first: at, last: u.first - 1 });
    at = Math.max(at, u.last + 1);
  }
  if (at <= last) pieces.push({ first: at, last });
  return pieces;
}

/** Keeps what is sewn in one piece (no jump inside) and long enough. */
function keepRuns(
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
