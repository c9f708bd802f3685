/**
 * Patches: stretches of thread in which leg after leg lies beside the one before. A satin column is a patch of
 * swings, a fill is one or more patches of rows. What is left over between patches is running stitches: runs,
 * travel, underlay that follows an edge, locks.
 */
import { distance } from '../core/distance.js';
import { ScratchRoom } from '../core/room.js';
import type { Stitches } from '../format/stitches.js';
import { cutString, fits, type Pitches } from './cuts.js';
import { findLegStrings, type LegString } from './leg-strings.js';
import type { Legs } from './legs.js';
import { cosineOf, FINDER } from './parameters.js';

const FEWEST_LEGS = FINDER.fewestLegs.value;
const LEAST_PITCH_MM = FINDER.leastPitch.value;
const AGREE = FINDER.pitchesAgree.value;
const SAMPLE = FINDER.medianLegs.value;
const BROKEN_SHARE = FINDER.brokenShare.value;
const LEAST_SPLIT_MM = FINDER.leastSplit.value;
const STEPPED_SHARE = FINDER.steppedShare.value;
const ROW_PITCH_MM = FINDER.rowPitch.value;
const ON_TOP = FINDER.onTop.value;
const ODD_SWINGS = FINDER.oddSwings.value;
const ODD_COS = cosineOf(FINDER.oddTurn);
const RAIL_PITCHES = FINDER.railPitches.value;
const SWING_DIFFERS = FINDER.swingDiffers.value;

export interface Patch {
  /** Stitch indexes of the two ends of each leg, in sewing order. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly kind: 'swings' | 'rows';
  /** Median distance from one leg to the next at right angles to them, mm. */
  readonly pitchMm: number;
  /** Median length of a leg, mm. */
  readonly legMm: number;
  /** Swings with needle points inside. */
  readonly split: boolean;
}

/** Finds the patches among the legs of one thread, in sewing order; what it reckons with for a while lies in `room`. */
export function findPatches(stitches: Stitches, legs: Legs, room = new ScratchRoom()): Patch[] {
  const patches: Patch[] = [];
  for (const string of findLegStrings(stitches, legs, FEWEST_LEGS)) {
    const keep = (pitches: Pitches, start: number, end: number): boolean => {
      const patch = readPatch(stitches, string, pitches, start, end);
      if (patch !== null) patches.push(patch);
      return patch !== null;
    };
    cutString(stitches, string, keep, room);
  }
  return patches;
}

/** Legs `start`..`end` of a string as a patch, or null where they are none. */
function readPatch(
  stitches: Stitches,
  { from, to }: LegString,
  { raw, even }: Pitches,
  start: number,
  end: number,
): Patch | null {
  const { x, y } = stitches;
  if (end - start + 1 < FEWEST_LEGS) return null;
  const pitchMm = median((k) => Math.abs(even[k]), start, end - 1);
  if (pitchMm < LEAST_PITCH_MM || !agrees(even, start, end, pitchMm)) return null;
  if (pitchMm >= FINDER.openPitch.value && hasBentLegs(stitches, { from, to }, start, end)) return null;
  if (goesBack(stitches, { from, to }, start, end, pitchMm)) return null;

  const legs: MeasuredLegs = {
    x,
    y,
    from,
    to,
    pitchMm,
    length: (k) => distance(x[from[k]], y[from[k]], x[to[k]], y[to[k]]),
    points: (k) => to[k] - from[k] - 1,
  };
  const { broken, stepped } = sharesOf(legs, start, end);
  const rows =
    stepped >= STEPPED_SHARE
      ? pitchMm >= ROW_PITCH_MM
      : broken >= BROKEN_SHARE && joinedRows(pitchMm, legs.length, legs.points, start, end);
  const ends = rows ? rowEnds(raw, pitchMm, start, end) : swingEnds(legs, start, end);
  const legMm = median(legs.length, ends.start, ends.end);
  const legFrom = from.slice(ends.start, ends.end + 1);
  const legTo = to.slice(ends.start, ends.end + 1);
  if (ends.firstFrom !== null) legFrom[0] = ends.firstFrom;
  if (ends.lastTo !== null) legTo[legTo.length - 1] = ends.lastTo;
  return {
    from: legFrom,
    to: legTo,
    kind: rows ? 'rows' : 'swings',
    pitchMm,
    legMm,
    split: !rows && broken >= BROKEN_SHARE && legMm > LEAST_SPLIT_MM,
  };
}

interface MeasuredLegs extends LegString {
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly pitchMm: number;
  /** Of leg k, mm. */
  readonly length: (k: number) => number;
  /** Needle points inside leg k. */
  readonly points: (k: number) => number;
}

/** Share of legs with needle points inside, and of steps to the next leg that have thread of their own. */
function sharesOf({ from, to, points }: MeasuredLegs, start: number, end: number) {
  let broken = 0;
  let stepped = 0;
  for (let k = start; k <= end; k++) {
    if (points(k) > 0) broken++;
    if (k > start && from[k] > to[k - 1]) stepped++;
  }
  return { broken: broken / (end - start + 1), stepped: stepped / (end - start) };
}

interface PatchEnds {
  /** First and last leg. */
  readonly start: number;
  readonly end: number;
  /** Ends of the first and the last leg that lie inside the straight stretch of thread of which they are a part. */
  readonly firstFrom: number | null;
  readonly lastTo: number | null;
}

/** An edge run that ends beside the first row turns back into it, but lies on it. */
function rowEnds(raw: Float64Array, pitchMm: number, start: number, end: number): PatchEnds {
  while (end - start >= FEWEST_LEGS && Math.abs(raw[start]) < ON_TOP * pitchMm) start++;
  while (end - start >= FEWEST_LEGS && Math.abs(raw[end - 1]) < ON_TOP * pitchMm) end--;
  return { start, end, firstFrom: null, lastTo: null };
}

/** Without locks, and without the way into or out of a column. */
function swingEnds(legs: MeasuredLegs, start: number, end: number): PatchEnds {
  [start, end] = withoutLocks(legs.length, start, end);
  const first = swingEnd(legs, start, end, 1);
  const last = swingEnd(legs, end, first.leg, -1);
  return { start: first.leg, end: last.leg, firstFrom: first.point, lastTo: last.point };
}

/**
 * The leg that a column begins with, from leg `k` on toward leg `other`: the way into it can pass for its first swing, but has another
 * length. It may go straight on into a swing, which then begins at a needle point inside.
 */
function swingEnd(
  legs: MeasuredLegs,
  k: number,
  other: number,
  step: 1 | -1,
): { leg: number; point: number | null } {
  const [near, far] = step === 1 ? [legs.to, legs.from] : [legs.from, legs.to];
  for (; (other - k) * step >= FEWEST_LEGS; k += step) {
    const [a, b] =
      step === 1 ? [k + 1, Math.min(other, k + ODD_SWINGS)] : [Math.max(other, k - ODD_SWINGS), k - 1];
    if (!isOdd(legs, k, k + step, a, b)) break;
    if (far[k + step] !== near[k]) continue;
    const point = onRail(legs, k, [near[k], near[k + step]], step === 1 ? -1 : 1, median(legs.length, a, b));
    if (point !== null) return { leg: k, point };
  }
  return { leg: k, point: null };
}

/** Whether leg k has another length than legs `a`..`b`, or points inside where they have none. */
function isOdd(legs: MeasuredLegs, k: number, next: number, a: number, b: number): boolean {
  const { length, points } = legs;
  const usual = median(length, a, b);
  if (
    length(k) > FINDER.oddLonger.value * usual + FINDER.oddLongerMm.value ||
    (points(k) > 0 && median(points, a, b) === 0)
  )
    return true;
  return length(k) < FINDER.oddShorter.value * usual && axisCos(legs, k, next) < ODD_COS;
}

/** Cosine of the angle between two legs, whichever way they are sewn. */
function axisCos({ x, y, from, to, length }: MeasuredLegs, i: number, j: number): number {
  const dot =
    (x[to[i]] - x[from[i]]) * (x[to[j]] - x[from[j]]) + (y[to[i]] - y[from[i]]) * (y[to[j]] - y[from[j]]);
  return Math.abs(dot) / (length(i) * length(j) || 1);
}

/** The needle point inside leg k that lies beside those of the rail: nearest to point `rail`, a usual swing away from its end `still`. */
function onRail(
  { x, y, points, pitchMm }: MeasuredLegs,
  k: number,
  [still, rail]: readonly [number, number],
  step: 1 | -1,
  usual: number,
): number | null {
  const apart = (i: number, j: number) => Math.hypot(x[i] - x[j], y[i] - y[j]);
  let best: number | null = null;
  let least = RAIL_PITCHES * pitchMm;
  for (let n = 1, i = still + step; n <= points(k); n++, i += step) {
    const away = apart(i, rail);
    if (away >= least || Math.abs(apart(i, still) - usual) > SWING_DIFFERS * usual) continue;
    [best, least] = [i, away];
  }
  return best;
}

/**
 * The legs `start`..`end` of a column without the locks at its ends, and without the way that leads on from there: a leg as short as the stitch of
 * a lock right beside a whole swing. At a pointed end swings grow short little by little.
 */
function withoutLocks(
  length: (k: number) => number,
  start: number,
  end: number,
): [start: number, end: number] {
  const usual = median(length, start, end);
  const isWhole = (k: number) => length(k) >= FINDER.oddShorter.value * usual;
  const isLock = (k: number) =>
    length(k) <= FINDER.lockStitch.value && length(k) < FINDER.lockShorter.value * usual;
  const most = Math.min(FINDER.lockMost.value, end - start + 1 - FEWEST_LEGS);
  for (let k = 1; k <= most; k++) if (isWhole(end - k) && isLock(end - k + 1)) return withoutFirst(end - k);
  return withoutFirst(end);

  function withoutFirst(last: number): [number, number] {
    const few = Math.min(FINDER.lockMost.value, last - start + 1 - FEWEST_LEGS);
    for (let k = 1; k <= few; k++) if (isWhole(start + k) && isLock(start + k - 1)) return [start + k, last];
    return [start, last];
  }
}

/** Whether many legs have a corner in them: the rows of an open area are straight, the lines of an ornament need not be. */
function hasBentLegs({ x, y }: Stitches, { from, to }: LegString, start: number, end: number): boolean {
  let bent = 0;
  for (let k = start; k <= end; k++) {
    const [dx, dy] = [x[to[k]] - x[from[k]], y[to[k]] - y[from[k]]];
    const most = dx * dx + dy * dy;
    for (let i = from[k] + 1; i < to[k]; i++) {
      const [ex, ey] = [x[i] - x[from[k]], y[i] - y[from[k]]];
      // near an end it is the step over to the next row
      const inner = Math.min(ex * dx + ey * dy, most - ex * dx - ey * dy) > FINDER.rowEnd.value * most;
      if (!inner || Math.abs(ex * dy - ey * dx) <= FINDER.rowRise.value * most) continue;
      bent++;
      break;
    }
  }
  return bent >= FINDER.rowsBent.value * (end - start + 1);
}

/**
 * Whether the legs are a line that is sewn there and back: a run of two or four passes, or the prongs of a blanket edge. The
 * swings of a very dense column come back to nearly the same place as well, but get on.
 */
function goesBack(
  { x, y }: Stitches,
  { from, to }: LegString,
  start: number,
  end: number,
  pitchMm: number,
): boolean {
  let back = 0;
  for (let k = start; k < end; k++) {
    if (distance(x[from[k]], y[from[k]], x[to[k + 1]], y[to[k + 1]]) <= FINDER.backPlace.value) back++;
  }
  if (back < FINDER.backShare.value * (end - start)) return false;
  return pitchMm >= FINDER.openPitch.value || end - start < 2 * FEWEST_LEGS;
}

/**
 * Tells rows that lead straight on to the next from the swings of a split column. Swings lie half as far apart as
 * rows of the same density, and have few points inside, far from each other.
 */
function joinedRows(
  pitchMm: number,
  length: (k: number) => number,
  points: (k: number) => number,
  start: number,
  end: number,
): boolean {
  const inside = median(points, start, end);
  let [mm, stitches] = [0, 0];
  for (let k = start; k <= end; k++) {
    mm += length(k);
    stitches += points(k) + 1;
  }
  const stitchMm = mm / stitches;
  const from = stitchMm > FINDER.splitStitch.value ? FINDER.longRowsFrom : FINDER.rowsFrom;
  return inside >= FINDER.rowsPoints.value || pitchMm >= from.value;
}

/** Whether most pitches have one sign and one size: a few legs that happen to turn back have not. */
function agrees(pitch: Float64Array, start: number, end: number, usual: number): boolean {
  let left = 0;
  let right = 0;
  for (let k = start; k < end; k++) {
    if (!fits(Math.abs(pitch[k]), usual)) continue;
    if (pitch[k] > 0) left++;
    else right++;
  }
  return Math.max(left, right) >= AGREE * (end - start);
}

/** Room for the samples of one median; each is done before the next begins. */
const SAMPLES = new Float64Array(SAMPLE);

/** Median of a figure over legs `a`..`b`, from evenly spread samples where they are many. */
function median(figure: (k: number) => number, a: number, b: number): number {
  const count = Math.min(SAMPLE, b - a + 1);
  for (let i = 0; i < count; i++) {
    const value = figure(a + Math.floor((i * (b - a + 1)) / count));
    let at = i;
    for (; at > 0 && SAMPLES[at - 1] > value; at--) SAMPLES[at] = SAMPLES[at - 1];
    SAMPLES[at] = value;
  }
  return SAMPLES[count >> 1];
}
