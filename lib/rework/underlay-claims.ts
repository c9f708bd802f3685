import { distance } from '../core/distance.js';
import { Break, type Stitches } from '../format/stitches.js';
import type { ProvenObject } from './proof.js';

/** A needle point that has to stay, whoever's it is; 0 stands for those of nobody. */
const STAYS = -1;
/** A move without a cut that is longer than any stitch, mm. */
const MOVE_MM = 17;

/** Stitches of a lock are no longer than this, mm, and no more than so many at either end of a thread. */
const LOCK_STITCH_MM = 1.1;
const LOCK_STITCHES = 8;

export interface UnderlayClaims {
  /** Ids of the objects asked for, one entry a needle point; 0 where it has to stay. */
  readonly whose: Int32Array;
  /** 1 for a needle point of a lock of a thread that goes as a whole: it has nothing to hold any more. */
  readonly lock: Uint8Array;
}

/**
 * Which needle points may be taken out with the underlay of some objects, and for which. Where one range of underlay reaches over another the
 * shorter one counts; where two objects share a range both have to be asked for. What is sewn in one go with nothing but such underlay,
 * its locks, goes with it.
 */
export function underlayClaims(
  stitches: Stitches,
  objects: readonly ProvenObject[],
  asked: ReadonlySet<number>,
): UnderlayClaims {
  const pieces = objects.flatMap(({ id, underlay: { range, also } }) => [
    ...(range ? [{ range, id: asked.has(id) ? id : STAYS }] : []),
    ...also.map((piece) => ({ range: piece.range, id: STAYS })),
  ]);
  const length = ([first, last]: readonly [number, number]) => last - first;
  pieces.sort((a, b) => length(b.range) - length(a.range) || b.id - a.id);
  const whose = new Int32Array(stitches.count);
  const lock = new Uint8Array(stitches.count);
  for (const { range, id } of pieces) whose.fill(id, range[0], range[1] + 1);
  for (const { range } of objects) whose.fill(STAYS, range[0], range[1] + 1);
  for (let first = 0; first < whose.length; ) {
    let end = first + 1;
    while (end < whose.length && !begins(stitches, end)) end++;
    const sewn = whose.subarray(first, end);
    const last = sewn.findLast((id) => id > 0);
    if (last !== undefined && !sewn.includes(STAYS)) {
      sewn.forEach((id, k) => {
        sewn[k] = id || last;
      });
      markLocks(stitches, first, end - 1, lock);
    }
    first = end;
  }
  return { whose: whose.map((id) => Math.max(id, 0)), lock };
}

function markLocks(stitches: Stitches, first: number, last: number, lock: Uint8Array): void {
  const { x, y } = stitches;
  const tiny = (i: number) => distance(x[i - 1], y[i - 1], x[i], y[i]) <= LOCK_STITCH_MM;
  for (let i = first; i < last && i < first + LOCK_STITCHES && tiny(i + 1); i++) lock.fill(1, i, i + 2);
  for (let i = last; i > first && i > last - LOCK_STITCHES && tiny(i); i--) lock.fill(1, i - 1, i + 1);
}

/** Whether the machine begins to sew anew at a needle point. */
function begins({ x, y, breakBefore }: Stitches, i: number): boolean {
  if (breakBefore[i] >= Break.trim) return true;
  return breakBefore[i] === Break.jump && distance(x[i - 1], y[i - 1], x[i], y[i]) >= MOVE_MM;
}
