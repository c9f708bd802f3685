/**
 * From the bare stitch stream to the pieces that a person sees.
 *
 * 1. The stream is cut into *threads* at trims and colour changes; lock stitches at their ends are set aside.
 * 2. A thread is read as *legs*, straight pieces between corners, and legs that turn back beside each other are
 *    strung into *patches*: swings of a column, or rows of a fill (`patches.ts`).
 * 3. Patches are put together to *tops*: a column, a filled area with all its sections (`tops.ts`).
 * 4. An open patch (points far apart) that a later, denser top covers is underlay of that top.
 * 5. What is left between tops is running stitches. Under the next top it is underlay or travel; what it is shows
 *    in the top's own coordinates (`column-underlay.ts`, `fill-underlay.ts`). Under another top it is hidden
 *    travel. In the open it is a run.
 *
 * Nothing here depends on where the design lies, how it is turned or mirrored, or from which end a column is sewn.
 *
 * Limits. Fills are read as parallel rows: spiral, radial and curved fills come out as several pieces. A zigzag
 * sewn for decoration over which something else is sewn in the same colour reads as underlay. Runs that lie under
 * later stitching of the same thread read as travel. Two strokes that meet in a bend of less than 60° without any
 * sign of a stop read as one column.
 */
import { shareWithin } from '../core/bounds.js';
import { Break, type Stitches } from '../format/stitches.js';
import { readColumnUnderlay } from './column-underlay.js';
import { OPEN_PITCH_MM } from './cuts.js';
import { readFillUnderlay } from './fill-underlay.js';
import { numberGroups } from './groups.js';
import { LegFinder } from './legs.js';
import { locksBetween } from './locks.js';
import type { StitchObject, Underlay } from './objects.js';
import { NO_UNDERLAY, PLAINLY_TOP } from './objects.js';
import { findPatches } from './patches.js';
import { ColumnRegion, type FillRegion } from './region.js';
import { findRuns, type RunDraft } from './runs.js';
import { findThreads, type Thread } from './threads.js';
import { assembleTops, type Top } from './tops.js';

/** Share of an open patch that must lie under a top to be its underlay. */
const COVERED = 0.8;
/** An underlay is at least this much more open than the top over it. */
const OPENER = 1.5;
/** Where less than this share of the box around a patch lies in that of a top, the points need not be asked. */
const BOXES_SHARE = 0.5;
/** Most points asked. */
const SAMPLE = 400;
/** How many tops ahead an underlay may lie from its top. */
const AHEAD = 6;

/** Locks of an object joined to its neighbour begin this near to its end, and reach this far, in stitches. */
const NEAR = 4;
const REACH = 9;

/** Finds all objects of a design, in sewing order. */
export function findObjects(stitches: Stitches): StitchObject[] {
  const threads = findThreads(stitches);
  const longest = threads.reduce((n, t) => Math.max(n, t.bodyLast - t.bodyFirst + 1), 0);
  const finder = new LegFinder(stitches, longest);
  const tops = sortOutUnderlay(stitches, findTops(stitches, threads, finder), threads);
  const runs = findRuns(stitches, threads, tops);
  return finish(stitches, threads, tops, runs);
}

function findTops(stitches: Stitches, threads: readonly Thread[], finder: LegFinder): Top[] {
  return threads.flatMap((thread, i) => {
    if (thread.bodyLast - thread.bodyFirst < 4) return [];
    const legs = finder.find(thread.bodyFirst, thread.bodyLast);
    const tops = assembleTops(stitches, findPatches(stitches, legs), i);
    for (let k = 1; k < tops.length; k++) {
      while (tops[k].first <= tops[k - 1].last) tops[k - 1].dropLastLeg();
    }
    tops.forEach((top, k) => {
      top.takeRowEnds(tops[k - 1]?.last ?? thread.bodyFirst - 1, tops[k + 1]?.first ?? thread.bodyLast + 1);
      if (k === tops.length - 1) top.takeStrayRows(thread.bodyLast);
    });
    return tops;
  });
}

/** Hands open patches that lie under a later, denser top to that top. */
function sortOutUnderlay(stitches: Stitches, tops: readonly Top[], threads: readonly Thread[]): Top[] {
  const under = new Set<Top>();
  for (let i = tops.length - 1; i >= 0; i--) {
    const low = tops[i];
    if (low.pitchMm < OPEN_PITCH_MM) continue;
    for (let j = i + 1, seen = 0; j < tops.length && seen < AHEAD; j++) {
      const high = tops[j];
      if (threads[high.thread].block !== threads[low.thread].block) break;
      if (under.has(high)) continue;
      seen++;
      if (low.pitchMm < OPENER * high.pitchMm || shareInside(stitches, low, high) < COVERED) continue;
      for (const patch of low.patches) {
        high.under.push({ first: patch.from[0], last: patch.to[patch.to.length - 1], patch });
      }
      under.add(low);
      break;
    }
  }
  return tops.filter((t) => !under.has(t));
}

/** Share of the needle points of an open patch that lie under a top, from a sample where they are many. */
function shareInside(stitches: Stitches, low: Top, high: Top): number {
  if (shareWithin(low.bounds, high.bounds, 1) < BOXES_SHARE) return 0;
  const stride = Math.ceil((low.last - low.first + 1) / SAMPLE);
  let inside = 0;
  let asked = 0;
  for (let i = low.first; i <= low.last; i += stride) {
    asked++;
    if (high.region.contains(stitches.x[i], stitches.y[i])) inside++;
  }
  return inside / asked;
}

function finish(
  stitches: Stitches,
  threads: readonly Thread[],
  tops: readonly Top[],
  runs: readonly RunDraft[],
): StitchObject[] {
  const drafts = [
    ...tops.map((top) => ({ first: top.first, last: top.last, thread: top.thread, top })),
    ...runs.map((run) => ({ ...run, top: null })),
  ].sort((a, b) => a.first - b.first);
  const threadAt = (stitch: number) => threads.findIndex((t) => stitch <= t.last);
  const startOf = (draft: { first: number; thread: number }, { range }: Underlay) =>
    range !== null && range[0] < threads[draft.thread].first
      ? { thread: threadAt(range[0]), stitch: range[0] }
      : { thread: draft.thread, stitch: Math.min(draft.first, range?.[0] ?? draft.first) };
  const objects = drafts.map((draft, i): StitchObject => {
    const { top } = draft;
    const thread = threads[draft.thread];
    const underlay = top === null ? NO_UNDERLAY : readUnderlay(stitches, top);
    return {
      id: i + 1,
      block: thread.block + 1,
      group: 0,
      kind: top?.kind ?? 'run',
      range: [draft.first, draft.last],
      from: top?.from ?? new Int32Array(0),
      to: top?.to ?? new Int32Array(0),
      sections: sectionsOf(top),
      split: top?.split ?? false,
      underlay,
      locks: locksOf(
        stitches,
        threads,
        startOf(draft, underlay),
        draft,
        drafts[i - 1] ?? null,
        drafts[i + 1] ?? null,
      ),
      ...PLAINLY_TOP,
      pattern: top?.kind === 'fill' ? 'rows' : null,
    };
  });
  return numberGroups(stitches, numberUnderlays(objects));
}

/** Numbers the underlays from 1 in the order in which they are sewn. */
function numberUnderlays(objects: readonly StitchObject[]): StitchObject[] {
  const ranges = objects.flatMap(({ underlay: { range } }) => (range ? [range] : []));
  ranges.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const numbers = new Map(ranges.map((range, i) => [range, i + 1]));
  return objects.map((object) => {
    const { underlay } = object;
    return underlay.range
      ? { ...object, underlay: { ...underlay, id: numbers.get(underlay.range)! } }
      : object;
  });
}

/**
 * Locks of an object: those of its thread where it is the first or last on it, else tiny stitches of its own where
 * it is joined to its neighbour.
 *
 * @param start the thread on which the object with its underlay begins, and the stitch index
 */
function locksOf(
  stitches: Stitches,
  threads: readonly Thread[],
  start: { thread: number; stitch: number },
  draft: { last: number; thread: number },
  before: { last: number; thread: number } | null,
  after: { first: number; thread: number } | null,
): StitchObject['locks'] {
  const { stitch } = start;
  return {
    start:
      before?.thread === start.thread
        ? locksBetween(stitches, Math.max(before.last + 1, stitch - REACH), stitch, stitch + NEAR, stitch)
        : threads[start.thread].lockedStart,
    end:
      after?.thread === draft.thread
        ? locksBetween(
            stitches,
            draft.last - NEAR,
            draft.last + NEAR,
            Math.min(after.first, draft.last + REACH),
            draft.last,
          )
        : threads[draft.thread].lockedEnd,
  };
}

function sectionsOf(top: Top | null): Int32Array {
  if (top === null || top.kind !== 'fill') return new Int32Array(0);
  let at = 0;
  return Int32Array.from(top.patches, (p) => {
    const start = at;
    at += p.from.length;
    return start;
  });
}

function readUnderlay(stitches: Stitches, top: Top): Underlay {
  const parts = top.under.sort((a, b) => a.first - b.first);
  if (parts.length === 0) return NO_UNDERLAY;
  const { x, y } = stitches;
  const region = top.region;
  const reading =
    region instanceof ColumnRegion
      ? readColumnUnderlay(region.frame, x, y, indexesOf(stitches, region, parts))
      : readFillUnderlay(stitches, region as FillRegion, parts);
  if (reading.kinds.length === 0) return NO_UNDERLAY;
  const range = [parts[0].first, parts[parts.length - 1].last] as const;
  return {
    id: null,
    kinds: reading.kinds,
    range,
    stitches: countStitches(parts),
    spacingMm: reading.spacingMm,
  };
}

function countStitches(parts: readonly { first: number; last: number }[]): number {
  return parts.reduce((n, p) => n + p.last - p.first + 1, 0);
}

/**
 * All stitch indexes of the parts in order, with -1 where one part does not follow the other. The stitches that lead
 * into a part and out of it belong to the underlay as far as they lie under the column.
 */
function indexesOf(
  { x, y, breakBefore }: Stitches,
  region: ColumnRegion,
  parts: readonly { first: number; last: number }[],
): number[] {
  const out: number[] = [];
  const inside = (i: number) => i >= 0 && i < x.length && region.contains(x[i], y[i]);
  for (const part of parts) {
    const before = out[out.length - 1] ?? -1;
    const leadsIn = breakBefore[part.first] === Break.none && inside(part.first - 1);
    const leadsOut = breakBefore[part.last + 1] === Break.none && inside(part.last + 1);
    const first = Math.max(before + 1, leadsIn ? part.first - 1 : part.first);
    const last = leadsOut ? part.last + 1 : part.last;
    if (out.length > 0 && first > before + 1) out.push(-1);
    for (let i = first; i <= last; i++) out.push(i);
  }
  return out;
}
