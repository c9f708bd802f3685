import { Break, type Stitches } from '../format/stitches.js';
import { columnFrame } from '../geometry/column-frame.js';
import { countLockStitches } from '../segment/locks.js';
import type { StitchObject, StitchRange } from '../segment/objects.js';
import { ColumnRegion } from '../segment/region.js';
import { findThreads } from '../segment/threads.js';

/** What a stitch is for, where it is not the underlay of the object with that id. */
const NOBODYS = 0;
const KEPT = -1;

/**
 * Which stitches go where the underlay of some objects is taken out: the id of the object for each of its underlay, 0 for all that
 * stay. With an underlay go the locks of a thread that sewed nothing else. The range of one underlay may reach over others that are
 * sewn in between, and over travel that lies elsewhere: they stay. So does what was laid under several
 * objects at once, a net or a light fill under a word: it is seen between them; and what ties a thread down that has come there without a cut.
 *
 * @param wanted whose underlay is taken out
 * @returns one entry a stitch
 */
export function underlayTakenOut(
  stitches: Stitches,
  objects: readonly StitchObject[],
  wanted: (object: StitchObject) => boolean,
): Int32Array {
  const owner = new Int32Array(stitches.count);
  const length = ([a, b]: StitchRange) => b - a + 1;
  const laid = objects.flatMap((object) => {
    const { range } = object.underlay;
    return range ? [{ object, range }] : [];
  });
  laid.sort((a, b) => length(b.range) - length(a.range));
  const shared = rangesShared(laid.map(({ range }) => range));
  for (const { object, range } of laid) {
    const whose = wanted(object) && !shared.has(range[0]) ? object.id : KEPT;
    const everywhere = object.kind !== 'satin' || object.underlay.stitches >= length(range);
    const lies = everywhere ? () => true : liesUnder(stitches, object);
    for (let i = range[0]; i <= range[1]; i++) if (lies(i)) owner[i] = whose;
    // the needle point that a move leads to may be told with the move
    const moved = [range[0], range[0] - 1].find((i) => stitches.breakBefore[i] === Break.jump);
    if (moved === undefined) continue;
    const ties = countLockStitches(stitches, moved, 1, range[1]);
    if (ties > 0) owner.fill(NOBODYS, range[0], moved + ties + 1);
  }
  for (const { range } of objects) owner.fill(KEPT, range[0], range[1] + 1);
  for (const thread of findThreads(stitches)) {
    const whose = owner.subarray(thread.first, thread.last + 1);
    const last = whose.findLast((id) => id > NOBODYS);
    if (last === undefined) continue;
    if (whose.includes(KEPT)) {
      // the last point of a lock is the first of what follows it
      if (thread.lockedStart) owner.fill(KEPT, thread.first, thread.bodyFirst + 1);
      if (thread.lockedEnd) owner.fill(KEPT, thread.bodyLast, thread.last + 1);
    } else {
      whose.forEach((id, k) => {
        if (id === NOBODYS) whose[k] = last;
      });
    }
  }
  return owner.map((whose) => Math.max(whose, NOBODYS));
}

/** First needle points of the ranges that several objects have. */
function rangesShared(ranges: readonly StitchRange[]): ReadonlySet<number> {
  const shared = new Set<number>();
  const seen = new Map<number, number>();
  for (const [first, last] of ranges) {
    if (seen.get(first) === last) shared.add(first);
    seen.set(first, last);
  }
  return shared;
}

function liesUnder({ x, y }: Stitches, { from, to }: StitchObject): (stitch: number) => boolean {
  const region = new ColumnRegion(columnFrame(x, y, from, to));
  return (i) => region.contains(x[i], y[i]);
}
