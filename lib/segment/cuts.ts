/**
 * Where a string of legs is really two pieces of stitching.
 *
 * Along the string the *pitch* is followed: the signed distance from one leg to the next, at right angles to them.
 * It does not change when swings slant, when a short stitch stops before the rail or when a row is longer than its
 * neighbour, but its sign flips where a zigzag returns the way it came, its size jumps where an open zigzag turns
 * into a dense top, and the legs turn sharply where one stroke of a letter meets the next.
 */
import type { Stitches } from '../format/stitches.js';
import type { LegString } from './leg-strings.js';
import { cosineOf, FINDER } from './parameters.js';

const WITNESSES = FINDER.cutWitnesses.value;
const OPEN_PITCH_MM = FINDER.openPitch.value;
const SIGNED_PITCH_MM = FINDER.signedPitch.value;
const OPENS = FINDER.cutOpener.value;
const BEND_COS = cosineOf(FINDER.bendTurn);
const STEADY_COS = cosineOf(FINDER.bendSteady);
const BEND_INNER = FINDER.bendInner.value;
const BEND_OUTER = FINDER.bendOuter.value;
const PITCH_LESS = FINDER.pitchLess.value;
const PITCH_MORE = FINDER.pitchMore.value;

/** Distances between neighbouring legs: entry `k` is from leg `k` to leg `k + 1`, mm, signed. */
export interface Pitches {
  readonly raw: Float64Array;
  /** Averaged over two places: an edge step counted with one row and not with the next makes them alternate. */
  readonly even: Float64Array;
}

/**
 * Cuts a string of legs.
 *
 * @param keep takes the legs `start`..`end` as one piece, and says whether they are one
 */
export function cutString(
  stitches: Stitches,
  string: LegString,
  keep: (pitches: Pitches, start: number, end: number) => boolean,
): void {
  const n = string.from.length;
  const raw = pitchesOf(stitches, string);
  const even = evenOut(raw);
  const pitches = { raw, even };
  let start = 0;
  for (let k = 1; k < n - 1; k++) {
    if (k - start >= 3 && n - 1 - k >= 3 && turns(stitches, string, k) && isBend(stitches, string, k)) {
      keep(pitches, start, k);
      start = k + 1;
      k = start;
      continue;
    }
    if (!isCut(even, k, start, n - 1)) continue;
    // neighbouring places see the same change: the cut belongs where it is sharpest
    let best = k;
    for (; k < n - 1 && isCut(even, k, start, n - 1); k++) {
      if (sharpness(even, k, start, n - 1) > sharpness(even, best, start, n - 1)) best = k;
    }
    const opens = Math.abs(even[best - 1]) < Math.abs(even[best]);
    const kept = keep(pitches, start, opens ? best : best - 1);
    const before = start;
    start = opens ? best + 1 : best;
    // what was no piece may have begun with a stray leg: the rest of it is given to what follows
    while (!kept && start > before && fits(raw[start - 1], even[Math.min(start + 1, n - 2)])) start--;
    k = Math.max(best, start);
  }
  keep(pitches, start, n - 1);
}

/** Whether two pitches are of one sign and one size. */
export function fits(pitch: number, usual: number): boolean {
  const ratio = pitch / usual;
  return ratio > PITCH_LESS && ratio < PITCH_MORE;
}

function pitchesOf({ x, y }: Stitches, { from, to }: LegString): Float64Array {
  const n = from.length;
  const raw = new Float64Array(n);
  let flip = 1;
  let ux = x[to[0]] - x[from[0]];
  let uy = y[to[0]] - y[from[0]];
  let ul = Math.sqrt(ux * ux + uy * uy) || 1;
  let mx = x[to[0]] + x[from[0]];
  let my = y[to[0]] + y[from[0]];
  for (let k = 0; k + 1 < n; k++) {
    const c = from[k + 1];
    const d = to[k + 1];
    flip = -flip;
    const wx = (x[d] - x[c]) * flip;
    const wy = (y[d] - y[c]) * flip;
    const wl = Math.sqrt(wx * wx + wy * wy) || 1;
    const nx = ux / ul + wx / wl;
    const ny = uy / ul + wy / wl;
    const nextX = x[c] + x[d];
    const nextY = y[c] + y[d];
    raw[k] = (nx * (nextY - my) - ny * (nextX - mx)) / (2 * Math.sqrt(nx * nx + ny * ny) || 1);
    ux = wx;
    uy = wy;
    ul = wl;
    mx = nextX;
    my = nextY;
  }
  return raw;
}

function evenOut(raw: Float64Array): Float64Array {
  const n = raw.length - 1;
  const out = new Float64Array(n + 1);
  for (let k = 0; k < n; k++) {
    out[k] = (raw[k > 0 ? k - 1 : 0] + 2 * raw[k] + raw[k + 1 < n ? k + 1 : n - 1]) / 4;
  }
  return out;
}

/** Whether the pitch changes for good at leg `k`: the pitches before it and those after agree on another value. */
function isCut(pitch: Float64Array, k: number, start: number, end: number): boolean {
  if (k - start < 1 || end - k < 1 || isEven(pitch, k, start, end)) return false;
  const before = median3(pitch, Math.max(start, k - WITNESSES), k);
  const after = median3(pitch, k, Math.min(end, k + WITNESSES));
  if (differ(before, after)) return true;
  // a stray stitch at the joint hides the change from those next to it
  const far = WITNESSES + 1;
  return (
    k - far >= start &&
    k + far <= end &&
    differ(median3(pitch, k - far, k - 1), median3(pitch, k + 1, k + far))
  );
}

/** Whether the pitches around `k` are all alike, as they are almost everywhere: then nothing ends there. */
function isEven(pitch: Float64Array, k: number, start: number, end: number): boolean {
  if (k - 2 < start || k + 2 >= end) return false;
  let low = Infinity;
  let high = 0;
  for (let j = k - 2; j <= k + 2; j++) {
    if (pitch[j] * pitch[k] <= 0) return false;
    const size = Math.abs(pitch[j]);
    if (size < low) low = size;
    if (size > high) high = size;
  }
  return high <= OPEN_PITCH_MM || high <= OPENS * low;
}

/** Whether the way is retraced from here on, or an open zigzag and a dense top meet. */
function differ(before: number, after: number): boolean {
  const small = Math.min(Math.abs(before), Math.abs(after));
  const large = Math.max(Math.abs(before), Math.abs(after));
  if (before * after < 0) return small > SIGNED_PITCH_MM;
  return large > OPEN_PITCH_MM && large > OPENS * small;
}

function sharpness(pitch: Float64Array, k: number, start: number, end: number): number {
  const a = (pitch[k - 1] + pitch[Math.max(start, k - 2)]) / 2;
  const b = (pitch[k] + pitch[Math.min(end - 1, k + 1)]) / 2;
  return Math.abs(a - b);
}

/** Median of the up to three values from `a` up to but not including `b`. */
function median3(values: Float64Array, a: number, b: number): number {
  if (b - a === 1) return values[a];
  if (b - a === 2) return (values[a] + values[a + 1]) / 2;
  const p = values[a];
  const q = values[a + 1];
  const r = values[a + 2];
  return Math.max(Math.min(p, q), Math.min(Math.max(p, q), r));
}

/**
 * Whether the legs beside leg `k` are turned against each other. Most legs are in no bend, and this settles it
 * without a closer look.
 */
function turns({ x, y }: Stitches, { from, to }: LegString, k: number): boolean {
  if (to[k] - from[k] > 1) return false;
  const px = x[to[k - 1]] - x[from[k - 1]];
  const py = y[to[k - 1]] - y[from[k - 1]];
  const qx = x[to[k + 1]] - x[from[k + 1]];
  const qy = y[to[k + 1]] - y[from[k + 1]];
  const dot = px * qx + py * qy;
  return dot <= 0 || dot * dot < STEADY_COS ** 2 * (px * px + py * py) * (qx * qx + qy * qy);
}

/**
 * Whether one stroke ends and another begins at leg `k` though the legs still turn back on each other: the swings
 * keep one direction before and another after, and at the joint one rail leaps ahead while the other steps back.
 * In a corner of one column the swings fan out, or both rails stay closed.
 */
function isBend({ x, y }: Stitches, { from, to }: LegString, k: number): boolean {
  const tail = (j: number) => ((j - k) % 2 === 0 ? from[j] : to[j]);
  const head = (j: number) => ((j - k) % 2 === 0 ? to[j] : from[j]);
  const dx = (j: number) => x[head(j)] - x[tail(j)];
  const dy = (j: number) => y[head(j)] - y[tail(j)];
  const cos = (ax: number, ay: number, bx: number, by: number) =>
    (ax * bx + ay * by) / (Math.hypot(ax, ay) * Math.hypot(bx, by) || 1);
  const beforeX = dx(k - 3) + dx(k - 2) + dx(k - 1);
  const beforeY = dy(k - 3) + dy(k - 2) + dy(k - 1);
  const afterX = dx(k + 1) + dx(k + 2) + dx(k + 3);
  const afterY = dy(k + 1) + dy(k + 2) + dy(k + 3);
  if (cos(beforeX, beforeY, afterX, afterY) > BEND_COS) return false;
  // swings two apart are parallel in a straight stroke, whatever their slant
  const steady = (j: number) => cos(dx(j), dy(j), dx(j + 2), dy(j + 2)) > STEADY_COS;
  if (!steady(k - 3) || !steady(k + 1)) return false;

  const midX = (j: number) => (x[tail(j)] + x[head(j)]) / 2;
  const midY = (j: number) => (y[tail(j)] + y[head(j)]) / 2;
  const lead = (a: number, b: number): [number, number] => {
    const l = Math.hypot(midX(b) - midX(a), midY(b) - midY(a)) || 1;
    return [(midX(b) - midX(a)) / l, (midY(b) - midY(a)) / l];
  };
  const [ax, ay] = lead(k - 3, k - 1);
  const [bx, by] = lead(k + 1, k + 3);
  const spacing = Math.hypot(midX(k - 1) - midX(k - 3), midY(k - 1) - midY(k - 3));
  const progress = (end: (j: number) => number) =>
    ((x[end(k + 1)] - x[end(k - 1)]) * (ax + bx) + (y[end(k + 1)] - y[end(k - 1)]) * (ay + by)) / 2;
  const t = progress(tail);
  const h = progress(head);
  return Math.min(t, h) < BEND_INNER * spacing && Math.max(t, h) > BEND_OUTER * spacing;
}
