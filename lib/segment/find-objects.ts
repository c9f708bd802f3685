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
 * 6. What each piece is sewn for shows in what it covers and what covers it (`purposes.ts`).
 *
 * Limits. A zigzag sewn for decoration over which something else is sewn in the same colour, without a stop between, reads
 * as underlay. Runs that lie under later stitching of the same thread read as travel. Two strokes that meet in a bend of less than 60° without any
 * sign of a stop read as one column. Filled letters with rows of one direction, sewn on from one to the next over less than seven rows, read as one area.
 */

import { countUpTo } from '../core/ascending.js';
import { ScratchRoom } from '../core/room.js';
import type { Stitches } from '../format/stitches.js';
import { assembleTops } from './assemble-tops.js';
import { tellSurety } from './confidence.js';
import { sortByCover } from './cover.js';
import { findField } from './fields.js';
import { numberGroups } from './groups.js';
import { LegFinder } from './legs.js';
import { locksBetween } from './locks.js';
import { numberUnderlays } from './number-underlays.js';
import type { StitchObject, Underlay } from './objects.js';
import { NO_UNDERLAY } from './objects.js';
import { FINDER } from './parameters.js';
import { joinOpenZigzags, joinPasses } from './passes.js';
import { findPatches } from './patches.js';
import { tellPurposes } from './purposes.js';
import { countPasses } from './run-passes.js';
import type { RunDraft } from './runs.js';
import { joinSections } from './sections.js';
import { findThreads, type SewnThread } from './threads.js';
import { Top } from './tops.js';
import { readUnderlay } from './underlay.js';

const NEAR = FINDER.lockNear.value;
const REACH = FINDER.lockUntil.value;

/**
 * Finds all objects of a design, in sewing order.
 *
 * @example
 * ```ts
 * import { findObjects, penetrations, readDesignFile } from 'lieflat';
 * const objects = findObjects(penetrations((await readDesignFile('samples/name-drop.dst')).design));
 * objects.length; // => 8
 * objects[0].kind; // => 'satin'
 * ```
 */
export function findObjects(stitches: Stitches): StitchObject[] {
  const threads = findThreads(stitches);
  const longest = threads.reduce((n, t) => Math.max(n, t.bodyLast - t.bodyFirst + 1), 0);
  const finder = new LegFinder(stitches, longest);
  const { tops, runs } = sortByCover(stitches, threads, findTops(stitches, threads, finder));
  return finish(stitches, threads, joinOpenZigzags(stitches, tops), runs);
}

function findTops(stitches: Stitches, threads: readonly SewnThread[], finder: LegFinder): Top[] {
  const room = new ScratchRoom();
  const found = threads.flatMap((thread, i) => {
    if (thread.bodyLast - thread.bodyFirst < FINDER.threadLeast.value) return [];
    const legs = finder.find(thread.bodyFirst, thread.bodyLast);
    const tops = assembleTops(stitches, findPatches(stitches, legs, room), i);
    for (let k = 1; k < tops.length; k++) {
      while (tops[k].first <= tops[k - 1].last) tops[k - 1].dropLastLeg();
    }
    tops.forEach((top, k) => {
      const before = tops[k - 1]?.last ?? thread.bodyFirst - 1;
      const after = tops[k + 1]?.first ?? thread.bodyLast + 1;
      top.takeRowEnds(before, after);
      top.takeTips(before, after);
      if (k === tops.length - 1) top.takeStrayRows(thread.bodyLast);
    });
    return withFields(stitches, thread, i, tops);
  });
  return joinSections(stitches, joinPasses(stitches, found));
}

/** One for all: an empty array takes as much as the object that has it. */
const NO_ENDS = new Int32Array(0);

/** Ends of swings and rows of all tops in one array, of which each gets its part: small arrays take several times what is in them. */
class EndArrays {
  private readonly all: Int32Array;
  private used = 0;

  constructor(tops: readonly Top[]) {
    this.all = new Int32Array(2 * tops.reduce((n, top) => n + top.ends, 0));
  }

  keep(part: Int32Array): Int32Array {
    this.all.set(part, this.used);
    this.used += part.length;
    return this.all.subarray(this.used - part.length, this.used);
  }
}

/** Likewise of whether an object is locked. */
const LOCKS = [false, true].map((start) => [false, true].map((end) => ({ start, end })));

/** Adds the areas without rows that lie between the tops of a thread. */
function withFields(stitches: Stitches, thread: SewnThread, index: number, tops: readonly Top[]): Top[] {
  const all: Top[] = [];
  for (let k = 0; k <= tops.length; k++) {
    const first = k === 0 ? thread.bodyFirst : tops[k - 1].last + 1;
    const last = k === tops.length ? thread.bodyLast : tops[k].first - 1;
    const field = findField(stitches, first, last);
    if (field) all.push(new Top(stitches, 'fill', [field], index, field.pattern));
    if (k < tops.length) all.push(tops[k]);
  }
  return all;
}

function finish(
  stitches: Stitches,
  threads: readonly SewnThread[],
  tops: readonly Top[],
  runs: readonly RunDraft[],
): StitchObject[] {
  const drafts = [
    ...tops.map((top) => ({
      first: top.first,
      last: top.last,
      thread: top.thread,
      top,
      pattern: top.pattern,
    })),
    ...runs.map((run) => ({ ...run, top: null, pattern: null })),
  ].sort((a, b) => a.first - b.first);
  const underlays = drafts.map(({ top }) => (top === null ? NO_UNDERLAY : readUnderlay(stitches, top)));
  const told = tellPurposes(stitches, drafts);
  const sure = tellSurety(
    stitches,
    drafts,
    told.map(({ purpose }) => purpose),
    underlays,
  );
  const starts = new UnderlayStarts(threads, underlays);
  const ends = new EndArrays(tops);
  const objects = drafts.map((draft, i): StitchObject => {
    const { top } = draft;
    const underlay = underlays[i];
    const before = drafts[i - 1] ?? null;
    return {
      id: i + 1,
      block: threads[draft.thread].block + 1,
      group: 0,
      kind: top?.kind ?? 'run',
      range: [draft.first, draft.last],
      from: top ? ends.keep(top.from) : NO_ENDS,
      to: top ? ends.keep(top.to) : NO_ENDS,
      sections: sectionsOf(top),
      split: top?.split ?? false,
      underlay,
      locks: locksOf(
        stitches,
        threads,
        starts.of(draft, underlay, before?.last ?? -1, before?.thread ?? -1),
        draft,
        before,
        drafts[i + 1] ?? null,
      ),
      purpose: told[i].purpose,
      overPiece: told[i].overPiece,
      foam: (top?.capped ?? 0) > 0,
      pattern: draft.pattern,
      passes: top?.passes ?? countPasses(stitches, draft.first, draft.last),
      timesDense: top?.timesDense ?? 1,
      confidence: sure[i].confidence,
      doubt: sure[i].doubt,
      setByShop: false,
    };
  });
  return numberGroups(stitches, numberUnderlays(objects));
}

/**
 * Where the thread of an object begins: with its underlay if that leads straight to it, else with its own first stitch, as
 * where the underlay of a whole word is sewn ahead; and whether it is `alone` there, with no object and no other underlay before it on the thread.
 */
class UnderlayStarts {
  private readonly firsts: Float64Array;
  private readonly threadStarts: Float64Array;

  constructor(threads: readonly SewnThread[], underlays: readonly Underlay[]) {
    this.firsts = Float64Array.from(underlays.flatMap(({ range }) => (range ? [range[0]] : []))).sort();
    this.threadStarts = Float64Array.from(threads, (t) => t.first);
  }

  of(
    draft: { first: number },
    { range }: Underlay,
    before: number,
    threadBefore: number,
  ): { thread: number; stitch: number; alone: boolean } {
    const leadsOn = range !== null && range[0] > before && this.noneWithin(range[1], draft.first);
    const stitch = leadsOn && range[0] <= draft.first ? range[0] : draft.first;
    const thread = countUpTo(this.threadStarts, stitch) - 1;
    const alone = threadBefore !== thread && this.noneWithin(this.threadStarts[thread] - 1, stitch - 1);
    return { thread, stitch, alone };
  }

  private noneWithin(after: number, until: number): boolean {
    return countUpTo(this.firsts, after) === countUpTo(this.firsts, until);
  }
}

/**
 * Locks of an object: those of its thread where it is the first or last on it, else tiny stitches of its own where
 * it is joined to what is sewn before or after.
 *
 * @param start the thread on which the object with its underlay begins, the stitch index, and whether nothing else lies before it there
 */
function locksOf(
  stitches: Stitches,
  threads: readonly SewnThread[],
  start: { thread: number; stitch: number; alone: boolean },
  draft: { last: number; thread: number },
  before: { last: number; thread: number } | null,
  after: { first: number; thread: number } | null,
): StitchObject['locks'] {
  const { stitch } = start;
  const earliest = Math.max((before?.last ?? -1) + 1, threads[start.thread].first, stitch - REACH);
  const atStart = start.alone
    ? threads[start.thread].lockedStart
    : locksBetween(stitches, earliest, stitch, stitch + NEAR, stitch);
  const atEnd =
    after?.thread === draft.thread
      ? locksBetween(
          stitches,
          draft.last - NEAR,
          draft.last + NEAR,
          Math.min(after.first, draft.last + REACH),
          draft.last,
        )
      : threads[draft.thread].lockedEnd;
  return LOCKS[Number(atStart)][Number(atEnd)];
}

function sectionsOf(top: Top | null): Int32Array {
  if (top === null || top.kind !== 'fill') return NO_ENDS;
  let at = 0;
  return Int32Array.from(top.patches, (p) => {
    const start = at;
    at += p.from.length;
    return start;
  });
}
