/** A design cut into what is laid anew in one stretch: sections of rows, stretches of running stitches, locks. */
import { distance } from '../core/distance.js';
import { Break, type Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import { findThreads } from '../segment/threads.js';
import type { Section } from './find-sections.js';

/** Longest stitch of a lock, how far one reaches, and how near a needle place met again lies, mm. */
const LOCK_STITCH_MM = 1.05;
const LOCK_REACH_MM = 1.6;
const SAME_PLACE_MM = 0.16;
/** A stitch this many times as long is clearly longer. */
const CLEARLY = 1.5;

interface StitchSpan {
  /** Stitch indexes of its first and last needle point. */
  readonly first: number;
  readonly last: number;
}

export type Stretch = StitchSpan &
  (
    | { readonly kind: 'section'; readonly section: Section }
    /** `run`: the object that it is (a part of), if it is one. */
    | { readonly kind: 'path'; readonly run: StitchObject | null }
    /** Moves as the needle point `anchor` of another stretch does; as its own first one where that is null. */
    | { readonly kind: 'lock'; readonly anchor: number | null }
  );

/** All needle points in sewing order, each in one stretch. Pieces begin where the machine does anything but sew, and sections elsewhere. */
export function findStretches(
  stitches: Stitches,
  objects: readonly StitchObject[],
  sections: readonly Section[],
): Stretch[] {
  const { count, breakBefore } = stitches;
  const inSection = new Uint8Array(count);
  for (const { from, to } of sections) inSection.fill(1, from[0], to[to.length - 1] + 1);
  const runs = new Map<number, StitchObject>();
  for (const object of objects) {
    if (object.kind !== 'run') continue;
    for (let i = object.range[0]; i <= object.range[1]; i++) runs.set(i, object);
  }
  const locks = findLocks(stitches, inSection);
  const stretches: Stretch[] = [];
  let next = 0;
  for (let first = 0; first < count; ) {
    if (sections[next]?.from[0] === first) {
      const section = sections[next++];
      const last = section.to[section.to.length - 1];
      stretches.push({ kind: 'section', first, last, section });
      first = last + 1;
      continue;
    }
    const lock = locks.get(first);
    const run = runs.get(first) ?? null;
    let last = first;
    while (
      last + 1 < count &&
      breakBefore[last + 1] === Break.none &&
      inSection[last + 1] === 0 &&
      locks.get(last + 1) === lock &&
      (runs.get(last + 1) ?? null) === run
    )
      last++;
    stretches.push(
      lock === undefined
        ? { kind: 'path', first, last, run }
        : { kind: 'lock', first, last, anchor: lock.anchor },
    );
    first = last + 1;
  }
  return stretches;
}

interface Lock {
  readonly anchor: number | null;
}

/** The lock that each needle point belongs to, for those that do. */
function findLocks(stitches: Stitches, inSection: Uint8Array): Map<number, Lock> {
  const locks = new Map<number, Lock>();
  const add = (first: number, last: number, anchor: number | null) => {
    const lock = { anchor };
    for (let i = first; i <= last; i++) if (inSection[i] === 0 && !locks.has(i)) locks.set(i, lock);
  };
  for (const { first, last, bodyFirst, bodyLast } of findThreads(stitches)) {
    if (bodyFirst > first) add(first, bodyFirst - 1, bodyFirst);
    if (bodyLast < last) add(bodyLast + 1, last, bodyLast);
    for (let i = bodyFirst; i <= bodyLast; i++) {
      if (inSection[i] === 1) continue;
      const end = lockFrom(stitches, Math.max(bodyFirst, i - 1), bodyLast, inSection);
      if (end === null || end < i) continue;
      const [a, b] = [i - 1, end + 1];
      if (a >= bodyFirst && inSection[a] === 1) add(i, end, a);
      else if (b <= bodyLast && inSection[b] === 1) add(i, end, b);
      else add(i, end, null);
      i = end;
    }
  }
  return locks;
}

/** The last needle point outside sections of a lock in the middle of a thread that begins with point `first`; null where none does. */
function lockFrom({ x, y }: Stitches, first: number, limit: number, inSection: Uint8Array): number | null {
  const apart = (i: number, j: number) => distance(x[i], y[i], x[j], y[j]);
  let last = first;
  while (
    last < limit &&
    apart(last, last + 1) <= LOCK_STITCH_MM &&
    apart(first, last + 1) <= LOCK_REACH_MM &&
    (last === first || inSection[last] === 0)
  )
    last++;
  if (last - first < 2) return null;
  let again = false;
  for (let i = first; i + 2 <= last; i++) {
    again ||= apart(i, i + 2) <= SAME_PLACE_MM || (i + 3 <= last && apart(i, i + 3) <= SAME_PLACE_MM);
  }
  const longest = Math.max(
    ...Array.from({ length: last - first }, (_, k) => apart(first + k, first + k + 1)),
  );
  const beside = Math.min(
    first > 0 ? apart(first - 1, first) : 0,
    last + 1 < x.length ? apart(last, last + 1) : 0,
  );
  if (!again && beside < CLEARLY * longest) return null;
  return inSection[last] === 1 ? last - 1 : last;
}
