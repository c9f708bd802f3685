import { memoize } from '../core/memoize.js';
import type { Cover } from './cover.js';
import {
  type ExposedHole,
  everyHole,
  type Holes,
  type HoleTests,
  OFF_STEP_MM,
  Suspects,
} from './resew-holes.js';

/** Growth is looked at in steps of a thousandth, up to this many. */
export const MOST_STEPS = 120;
export const STEPS_PER_ONE = 1000;

/** The cover of the design grown by so many thousandths. */
export type CoverAt = (step: number) => Cover;

export interface SmallestScale {
  /** Least growth, in thousandths, at which every hole is hidden; null where there is none up to {@link MOST_STEPS}. */
  readonly step: number | null;
  /** The same for the holes of each owner by themselves. */
  readonly byOwner: readonly (number | null)[];
  /** False where the search ran out of tests before it was through. */
  readonly complete: boolean;
}

/**
 * The smallest growth that hides every hole, and that of each object's own holes. A hole that is hidden can come to light again as the
 * design grows, so every step is looked at, from none up: a step falls with the first hole that is seen, and the hole that was seen last is
 * asked about first. The result is that of testing all holes at all steps; the work is mostly that of a few full tests.
 *
 * @param slackMm how far off the design may be hooped
 * @param mostAsked places that may be asked about
 */
export function smallestScale(
  holes: Holes,
  coverOfStep: CoverAt,
  tests: HoleTests,
  slackMm: number,
  mostAsked: number,
): SmallestScale {
  const suspects = suspectsByOwner(holes);
  const byOwner: (number | null)[] = suspects.map(() => null);
  const limit = tests.asked + mostAsked;
  const coverAt = memoize(coverOfStep);
  let open = suspects.map((_, owner) => owner);
  let never: ReadonlySet<number> = new Set();
  /** Owners that are hidden already at some smaller step; the one that last was not goes first. */
  const settled: number[] = [];
  for (let step = 0; step <= MOST_STEPS; step++) {
    const cover = coverAt(step);
    if (step === 1) {
      never = neverHidden(holes, suspects, open, coverAt, tests, slackMm);
      open = open.filter((owner) => !never.has(owner));
    }
    const allHidden = (owner: number) =>
      !(suspects[owner].first >= 0 && tests.surelyShown(holes, suspects[owner].first, cover, slackMm)) &&
      suspects[owner].find((h) => tests.hiddenWithin(holes, h, cover, slackMm)) < 0;
    const now: number[] = [];
    open = open.filter((owner) => {
      if (!allHidden(owner)) return true;
      byOwner[owner] = step;
      now.push(owner);
      return false;
    });
    // what has a hole that no step hides leaves nothing to be looked for but the steps of the others
    if (open.length === 0 && never.size > 0) return { step: null, byOwner, complete: true };
    if (open.length === 0) {
      const seen = settled.findIndex((owner) => !allHidden(owner));
      if (seen < 0) return { step, byOwner, complete: true };
      settled.unshift(...settled.splice(seen, 1));
    }
    settled.push(...now);
    if (tests.asked > limit) return { step: null, byOwner, complete: step === MOST_STEPS };
  }
  return { step: null, byOwner, complete: true };
}

/** Holes of an owner that are looked at for one that is never hidden. */
const LOOKED_AT = 200;

/** Those of some owners of which a hole is in sight for sure at every step but the first: it lies beside all that is laid at any. Nothing is laid to know that. */
function neverHidden(
  holes: Holes,
  suspects: readonly Suspects[],
  owners: readonly number[],
  coverAt: CoverAt,
  tests: HoleTests,
  slackMm: number,
): ReadonlySet<number> {
  const never = new Set<number>();
  // the last and the first tell of most holes that they are hidden at some
  const steps = [MOST_STEPS, ...Array.from({ length: MOST_STEPS - 1 }, (_, k) => k + 1)];
  const shown = (hole: number) =>
    steps.every((step) => tests.surelyShown(holes, hole, coverAt(step), slackMm));
  for (const owner of owners) if (suspects[owner].pick(LOOKED_AT, shown) >= 0) never.add(owner);
  return never;
}

function suspectsByOwner({ count, owner, owners }: Holes): Suspects[] {
  const sizes = new Int32Array(owners);
  for (let h = 0; h < count; h++) sizes[owner[h]]++;
  const orders = Array.from(sizes, (size) => new Int32Array(size));
  sizes.fill(0);
  for (let h = 0; h < count; h++) orders[owner[h]][sizes[owner[h]]++] = h;
  return orders.map((order) => new Suspects(order));
}

/** About a quarter of the holes, spread without a pattern that a row of stitches could share (multiplicative hashing), and those given. */
function sampled({ count }: Holes, besides: readonly ExposedHole[]): Int32Array {
  const given = besides.map(({ hole }) => hole);
  const known = new Set(given);
  for (let h = 0; h < count; h++) {
    if (Math.imul(h, 0x9e3779b1) >>> 30 === 0 && !known.has(h)) given.push(h);
  }
  return Int32Array.from(given);
}

/** Steps of a whole percent. */
const COARSE = 10;

/** The whole percentage at which fewest of a sample of the holes are seen, in thousandths; the smallest such. */
export function stepOfFewest(holes: Holes, coverAt: CoverAt, tests: HoleTests): number {
  const sample = sampled(holes, []);
  let best = 0;
  let fewest = Number.POSITIVE_INFINITY;
  for (let step = 0; step <= MOST_STEPS && fewest > 0; step += COARSE) {
    const cover = coverAt(step);
    let seen = 0;
    for (let k = 0; k < sample.length && seen < fewest; k++) {
      if (!tests.hidden(holes, sample[k], cover)) seen++;
    }
    if (seen < fewest) {
      fewest = seen;
      best = step;
    }
  }
  return best;
}

/** Steps of half a percent. */
const HALF_PERCENT = 5;

/**
 * The growth that leaves most room for hooping error where none leaves as much as was asked for: of every half percent the smallest that hides
 * all holes as far off as any does, to 0.1 mm, in thousandths; null where none hides all with room.
 *
 * @param slackMm how far off the design may be hooped: it need leave no more
 * @param mostAsked places that may be asked about
 */
export function stepOfMostRoom(
  holes: Holes,
  coverAt: CoverAt,
  tests: HoleTests,
  slackMm: number,
  mostAsked: number,
): number | null {
  const suspects = new Suspects(everyHole(holes));
  const limit = tests.asked + mostAsked;
  let most = 0;
  let best: number | null = null;
  for (let step = 0; step <= MOST_STEPS && tests.asked <= limit; step += HALF_PERCENT) {
    const cover = coverAt(step);
    const hasRoom = (mm: number) => suspects.find((h) => tests.hiddenWithin(holes, h, cover, mm)) < 0;
    while (most + OFF_STEP_MM <= slackMm && hasRoom(most + OFF_STEP_MM)) {
      most += OFF_STEP_MM;
      best = step;
    }
  }
  return best;
}

export interface Offset {
  readonly dx: number;
  readonly dy: number;
}

/** Furthest that the design is moved along x and y to hide more, mm, and the steps tried one after another: whole steps of the file. */
const FURTHEST_MM = 1;
const STRIDES_MM = [0.4, 0.2, 0.1];
const NEIGHBOURS = [
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
  [1, 1],
  [-1, 1],
  [-1, -1],
  [1, -1],
];

/**
 * A further move of the design, along each axis at most 1 mm in whole steps of 0.1 mm, that leaves fewer holes in sight, or as many with less gap in
 * sum: found on a sample by going from place to better place (a pattern search, Hooke and Jeeves 1961), so a still better one may exist. Null where
 * none was found, or what was found does not hold for all holes.
 *
 * @param now the holes seen without it
 * @param mostAsked places that may be asked about
 */
export function betterOffset(
  holes: Holes,
  cover: Cover,
  tests: HoleTests,
  now: readonly ExposedHole[],
  mostAsked: number,
): (Offset & { readonly exposed: number }) | null {
  if (now.length === 0) return null;
  const limit = tests.asked + mostAsked;
  /** What is seen at a move, followed no further than it takes to know that it is more. */
  const judge = (order: Int32Array, dx: number, dy: number, most: number): Seen => {
    const seen: number[] = [];
    for (let k = 0; k < order.length && seen.length <= most; k++) {
      if (!tests.hidden(holes, order[k], cover, dx, dy)) seen.push(order[k]);
    }
    let gapMm: number | null = null;
    return {
      count: seen.length,
      gapMm: () => {
        gapMm ??= seen.reduce((sum, h) => sum + (cover.gapMm(holes.x[h] - dx, holes.y[h] - dy) ?? 0), 0);
        return gapMm;
      },
    };
  };
  const gapNow = now.reduce((sum, { gapMm }) => sum + (gapMm ?? 0), 0);
  const start: Seen = { count: now.length, gapMm: () => gapNow };
  const sample = sampled(holes, now);
  let at = { dx: 0, dy: 0, seen: start };
  for (const stride of STRIDES_MM) {
    for (let moved = true; moved && tests.asked < limit; ) {
      moved = false;
      for (const [nx, ny] of NEIGHBOURS) {
        const dx = tenths(at.dx + nx * stride);
        const dy = tenths(at.dy + ny * stride);
        if (Math.max(Math.abs(dx), Math.abs(dy)) > FURTHEST_MM) continue;
        const seen = judge(sample, dx, dy, at.seen.count);
        if (!isLess(seen, at.seen)) continue;
        at = { dx, dy, seen };
        moved = true;
        break;
      }
    }
  }
  if (at.seen === start) return null;
  const all = judge(everyHole(holes), at.dx, at.dy, start.count);
  return isLess(all, start) ? { dx: at.dx, dy: at.dy, exposed: all.count } : null;
}

interface Seen {
  readonly count: number;
  /** Sum of the gaps, worked out where it decides. */
  gapMm(): number;
}

/** A gain in gap below this is only rounding, mm. */
const LEAST_GAIN_MM = 1e-6;

const isLess = (a: Seen, b: Seen): boolean =>
  a.count < b.count || (a.count === b.count && a.gapMm() < b.gapMm() - LEAST_GAIN_MM);

const tenths = (mm: number): number => Math.round(mm * 10) / 10;
