/**
 * Locks: the few tiny stitches that keep a thread from pulling out where it starts or ends.
 *
 * They are told from the narrow tip of a column and from the first short rows of a fill by what they do: they go
 * back over their own needle places, or run straight on in tiny steps, and the stitches after them are clearly
 * longer.
 */
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import { FINDER } from './parameters.js';

const LOCK_STITCH_MM = FINDER.lockStitch.value;
const ROUND_STITCH_MM = FINDER.lockRoundStitch.value;
const MOST = FINDER.lockMost.value;
const HOME_MM = FINDER.lockHome.value;
const CLEARLY = FINDER.lockLonger.value;
const SHORTER = FINDER.lockShorter.value;
const AHEAD = FINDER.lockAhead.value;
const STRAIGHT = FINDER.lockStraight.value;
const MOST_ROUND = FINDER.lockRound.value;
const CLOSES_MM = FINDER.lockCloses.value;
const LEAST_STITCH_MM = FINDER.lockLeast.value;
const FEWEST_ON_SPOT = FINDER.lockOnSpot.value;
const SAME_PLACE_MM = FINDER.samePlace.value;

/** How near a lock comes to the place that it left so many stitches ago: there and back is the same place, a way round need not be. */
const closes = (stitches: number): number => (stitches === 2 ? SAME_PLACE_MM : CLOSES_MM);

/**
 * Number of lock stitches at one end of a thread, 0 where there are none.
 *
 * @param end stitch index of the first (or last) needle point of the thread
 * @param step +1 to look forward from the start of a thread, -1 to look back from its end
 * @param limit stitch index of the thread's other end
 */
export function countLockStitches(stitches: Stitches, end: number, step: 1 | -1, limit: number): number {
  const { x, y } = stitches;
  const length = (k: number) => {
    const a = end + step * k;
    const b = a + step;
    return distance(x[a], y[a], x[b], y[b]);
  };
  const apart = (j: number, k: number) =>
    distance(x[end + step * j], y[end + step * j], x[end + step * k], y[end + step * k]);
  const available = Math.abs(limit - end);
  // a way round from a place back to it may have longer stitches; there and back again it would be a run
  for (let n = 2; n <= Math.min(MOST_ROUND, available); n++) {
    const isRound =
      apart(0, n) <= SAME_PLACE_MM && apart(0, 2) > SAME_PLACE_MM && apart(1, n - 1) > SAME_PLACE_MM;
    let longestMm = 0;
    for (let k = 0; k < n; k++) longestMm = Math.max(longestMm, length(k));
    if (isRound && longestMm > LOCK_STITCH_MM && longestMm <= ROUND_STITCH_MM) return n;
  }
  let tiny = 0;
  while (tiny < available && tiny < MOST && length(tiny) <= LOCK_STITCH_MM) tiny++;
  if (tiny < 2) return 0;

  // back over its own needle places: the last place met again ends the lock
  let back = 0;
  for (let k = 2; k <= tiny; k++) {
    let again = false;
    for (let j = 2; j <= Math.min(k, MOST_ROUND); j++) again ||= apart(k, k - j) <= closes(j);
    if (again && length(k - 1) >= LEAST_STITCH_MM) back = k;
  }
  if (back >= 2) {
    while (back < tiny && length(back) < SHORTER * longest(length, back, available)) back++;
    return back;
  }

  // several points on one spot tie as well
  let spot = 0;
  while (spot < tiny && apart(0, spot + 1) <= SAME_PLACE_MM) spot++;
  if (spot >= FEWEST_ON_SPOT) return spot;

  // straight on in tiny steps, then clearly longer ones
  if (tiny >= MOST) return 0;
  let biggest = 0;
  for (let k = 0; k < tiny; k++) biggest = Math.max(biggest, length(k));
  if (tiny === available || length(tiny) < CLEARLY * biggest) return 0;
  const straight = apart(0, tiny);
  let path = 0;
  for (let k = 0; k < tiny; k++) path += length(k);
  return straight > STRAIGHT * path ? tiny : 0;
}

/**
 * Whether locks begin within the range, for those that are sewn in the middle of a thread: tiny stitches that go
 * back over their own needle places, or run straight on between clearly longer ones.
 *
 * @param first, last stitch indexes between which they may begin
 * @param limit last stitch index that they may reach
 * @param home stitch index of the end that they lock: locks farther from it belong to another
 */
export function locksBetween(
  { x, y, count }: Stitches,
  first: number,
  last: number,
  limit: number,
  home: number,
): boolean {
  const apart = (i: number, j: number) => distance(x[i], y[i], x[j], y[j]);
  const length = (i: number) => (i < 0 || i + 1 >= count ? 0 : apart(i, i + 1));
  const tiny = (i: number) => length(i) >= LEAST_STITCH_MM && length(i) <= LOCK_STITCH_MM;
  for (let i = Math.max(0, first); i <= last; i++) {
    if (!tiny(i)) continue;
    const near = Math.min(apart(i, home), apart(i + 1, home), apart(i + 2, home)) <= HOME_MM;
    if (!near) continue;
    let [way, biggest] = [length(i), length(i)];
    for (let n = 2; n <= MOST && i + n <= limit && tiny(i + n - 1); n++) {
      way += length(i + n - 1);
      biggest = Math.max(biggest, length(i + n - 1));
      const clearly = CLEARLY * biggest;
      // the swings of a narrow column come back as well, but all around are as long
      const around = Math.max(length(i - 1), length(i + n), length(i + n + 1));
      if (n <= MOST_ROUND && apart(i, i + n) <= closes(n) && around > clearly) return true;
      const longer = Math.min(length(i - 1), length(i + n)) > clearly;
      if (longer && apart(i, i + n) > STRAIGHT * way) return true;
    }
  }
  return false;
}

/** Longest of the next three stitches. */
function longest(length: (k: number) => number, k: number, available: number): number {
  let l = 0;
  for (let j = k; j < Math.min(available, k + AHEAD); j++) l = Math.max(l, length(j));
  return l;
}
