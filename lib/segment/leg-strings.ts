/**
 * Strings of legs: leg after leg that turns back beside the one before, as the swings of a column and the rows of a
 * fill do.
 */
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import type { Legs } from './legs.js';
import { FINDER } from './parameters.js';

const TURN_BACK_COS = -FINDER.turnBack.value;
const ROWS_BACK_COS = -FINDER.rowsBack.value;
const STRAIGHT_BACK_COS = -FINDER.straightBack.value;
const MERGE_MM = FINDER.legMerge.value;
const STEP_MM = FINDER.stepShort.value;
const STEP_SHARE = FINDER.stepShare.value;
const LONGEST_STEP_MM = FINDER.stepLongest.value;
const BENT_STITCHES = FINDER.bentStitches.value;
const BENT = FINDER.bentShare.value;

/** Stitch indexes of the two ends of each leg, in sewing order; the short steps between rows are left out. */
export interface LegString {
  readonly from: Int32Array;
  readonly to: Int32Array;
}

/** Strings of at least `fewest` legs of one thread, in sewing order. */
export function findLegStrings(stitches: Stitches, legs: Legs, fewest: number): LegString[] {
  const { x, y } = stitches;
  const strings: LegString[] = [];
  const chain = new Int32Array(legs.count);
  let size = 0;
  let lastSign = 0;
  let lastStraight = true;
  const flush = () => {
    if (size >= fewest) {
      const from = new Int32Array(size);
      const to = new Int32Array(size);
      for (let k = 0; k < size; k++) {
        from[k] = legs.from[chain[k]];
        to[k] = legs.to[chain[k]];
      }
      strings.push({ from, to });
    }
    size = 0;
    lastSign = 0;
    lastStraight = true;
  };

  for (let i = 0; i < legs.count; i++) {
    if (isBent(stitches, legs, i)) {
      flush();
      continue;
    }
    if (size === 0) {
      chain[size++] = i;
      continue;
    }
    const p = chain[size - 1];
    const px = x[legs.to[p]] - x[legs.from[p]];
    const py = y[legs.to[p]] - y[legs.from[p]];
    const qx = x[legs.to[i]] - x[legs.from[i]];
    const qy = y[legs.to[i]] - y[legs.from[i]];
    const pl = Math.sqrt(px * px + py * py);
    const ql = Math.sqrt(qx * qx + qy * qy);
    if (i === p + 1 && i + 1 < legs.count) {
      const rx = x[legs.to[i + 1]] - x[legs.from[i + 1]];
      const ry = y[legs.to[i + 1]] - y[legs.from[i + 1]];
      if (isStep(px, py, pl, qx, qy, ql, rx, ry)) continue;
    }
    const cos = (px * qx + py * qy) / (pl * ql || 1);
    const broken = legs.to[p] - legs.from[p] > 1 && legs.to[i] - legs.from[i] > 1;
    const sign = Math.sign(px * qy - py * qx);
    if (
      cos < (broken ? ROWS_BACK_COS : TURN_BACK_COS) ||
      (i === p + 1 && sign !== lastSign && cos < FINDER.zigzagTurn.value && zigzags(stitches, legs, i))
    ) {
      const straight = cos < STRAIGHT_BACK_COS;
      // a zigzag turns left and right by turns
      if (lastSign === sign && !straight && !lastStraight) {
        flush();
        chain[size++] = p;
      }
      lastSign = sign;
      lastStraight = straight;
      chain[size++] = i;
      continue;
    }
    // a step was left out on trial and the leg after it did not turn back: it is a leg of its own
    const restart = i > p + 1 ? i - 1 : i;
    flush();
    chain[size++] = restart;
    if (restart < i) i--;
  }
  flush();
  return strings;
}

/**
 * Whether leg `i` and the one before are swings of an open zigzag: single stitches of one length, and over both the thread comes
 * as far, and the same way, as over the two before or the two after.
 */
function zigzags({ x, y }: Stitches, legs: Legs, i: number): boolean {
  const single = (k: number) =>
    k >= 0 &&
    k < legs.count &&
    legs.to[k] - legs.from[k] === 1 &&
    (k === 0 || legs.from[k] <= legs.to[k - 1] + 1);
  const length = (k: number) => distance(x[legs.from[k]], y[legs.from[k]], x[legs.to[k]], y[legs.to[k]]);
  if (!single(i - 1) || !single(i)) return false;
  const [a, b] = [length(i - 1), length(i)];
  if (Math.max(a, b) > FINDER.zigzagEven.value * Math.min(a, b)) return false;
  const way = (k: number): readonly [number, number] => [
    x[legs.to[k]] - x[legs.from[k - 1]],
    y[legs.to[k]] - y[legs.from[k - 1]],
  ];
  const [ux, uy] = way(i);
  const alike = (k: number) => {
    if (!single(k - 1) || !single(k)) return false;
    const [vx, vy] = way(k);
    const off = Math.hypot(vx - ux, vy - uy);
    return off <= FINDER.zigzagSteady.value * Math.max(Math.hypot(ux, uy), Math.hypot(vx, vy));
  };
  return alike(i - 1) || alike(i + 1);
}

/** Whether a leg is a curved run: neither a swing nor a row is much longer than the way between its ends. */
function isBent({ x, y }: Stitches, legs: Legs, i: number): boolean {
  const a = legs.from[i];
  const b = legs.to[i];
  if (b - a < BENT_STITCHES) return false;
  let way = 0;
  for (let k = a; k < b; k++) way += Math.sqrt((x[k + 1] - x[k]) ** 2 + (y[k + 1] - y[k]) ** 2);
  return (x[b] - x[a]) ** 2 + (y[b] - y[a]) ** 2 < (BENT * way) ** 2;
}

/** A short way along the edge between two rows that run against each other: both its corners turn the same way. */
function isStep(
  px: number,
  py: number,
  pl: number,
  sx: number,
  sy: number,
  sl: number,
  qx: number,
  qy: number,
): boolean {
  const ql = Math.sqrt(qx * qx + qy * qy);
  const long = sl > STEP_MM;
  if (long && (sl > STEP_SHARE * Math.max(pl, ql) || sl > LONGEST_STEP_MM)) return false;
  if (px * qx + py * qy > (long ? ROWS_BACK_COS : TURN_BACK_COS) * pl * ql) return false;
  // what is too short to have a direction of its own turns nowhere
  return sl < MERGE_MM || Math.sign(px * sy - py * sx) === Math.sign(sx * qy - sy * qx);
}
