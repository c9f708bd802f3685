/**
 * Where a string of legs is really two pieces of stitching.
 *
 * Along the string the *pitch* is followed: the signed distance from one leg to the next, at right angles to them.
 * It does not change when swings slant, when a short stitch stops before the rail or when a row is longer than its
 * neighbour, but its sign flips where a zigzag returns the way it came, its size jumps where an open zigzag turns
 * into a dense top, and it leaps once where the thread steps over to another area.
 */
import { ScratchRoom } from '../core/room.js';
import type { Stitches } from '../format/stitches.js';
import type { LegString } from './leg-strings.js';
import { FINDER } from './parameters.js';

const WITNESSES = FINDER.cutWitnesses.value;
const OPEN_PITCH_MM = FINDER.openPitch.value;
const SIGNED_PITCH_MM = FINDER.signedPitch.value;
const OPENS = FINDER.cutOpener.value;
const ROWS_LOST = FINDER.rowsLost.value;
const PITCH_LESS = FINDER.pitchLess.value;
const PITCH_MORE = FINDER.pitchMore.value;

/** Distances between neighbouring legs: entry `k` is from leg `k` to leg `k + 1`, mm, signed. */
export interface Pitches {
  readonly raw: Float64Array;
  /** Averaged over two places: an edge step counted with one row and not with the next makes them alternate. */
  readonly even: Float64Array;
  /** Of the even ones from each place on the middle one, as far as a cut has witnesses. */
  readonly middle: Float64Array;
}

/**
 * Cuts a string of legs.
 *
 * @param keep takes the legs `start`..`end` as one piece, and says whether they are one
 * @param room where the pitches lie
 */
export function cutString(
  stitches: Stitches,
  string: LegString,
  keep: (pitches: Pitches, start: number, end: number) => boolean,
  room = new ScratchRoom(),
): void {
  const last = string.from.length - 1;
  const n = last + 1;
  const store = room.take(n + n + n).fill(0);
  const part = (k: number) => store.subarray(k * n, (k + 1) * n);
  const pitches = { raw: part(0), even: part(1), middle: part(2) };
  const { raw, even, middle } = pitches;
  layPitches(stitches, string, raw);
  for (let start = 0, k = 0; k <= last; k++) {
    const leadsOver = k < last && k > start && leadsElsewhere(stitches, string, k);
    if (k < last && !leadsOver && !leaps(raw, k, start, last)) continue;
    // a row that goes on across bare fabric belongs to neither side
    const end = leadsOver ? k - 1 : k;
    evenOut(raw, even, start, end);
    for (let i = start; i < end; i++) middle[i] = median3(even, i, Math.min(end, i + WITNESSES));
    cutStretch(pitches, start, end, keep);
    start = k + 1;
  }
}

/** Cuts the legs `start`..`end`, between which the thread does not leap. */
function cutStretch(
  pitches: Pitches,
  start: number,
  end: number,
  keep: (pitches: Pitches, start: number, end: number) => boolean,
): void {
  const { raw, even } = pitches;
  for (let k = start; k < end; k++) {
    if (!isCut(pitches, k, start, end)) continue;
    // neighbouring places see the same change: the cut belongs where it is sharpest
    let best = k;
    for (; k < end && isCut(pitches, k, start, end); k++) {
      if (sharpness(even, k, start, end) > sharpness(even, best, start, end)) best = k;
    }
    const opens = Math.abs(even[best - 1]) < Math.abs(even[best]);
    const kept = keep(pitches, start, opens ? best : best - 1);
    const before = start;
    start = opens ? best + 1 : best;
    // what was no piece may have begun with a stray leg: the rest of it is given to what follows
    while (!kept && start > before && fits(raw[start - 1], even[Math.min(start + 1, end - 1)])) start--;
    k = Math.max(best, start);
  }
  keep(pitches, start, end);
}

/** Whether two pitches are of one sign and one size. */
export function fits(pitch: number, usual: number): boolean {
  const ratio = pitch / usual;
  return ratio > PITCH_LESS && ratio < PITCH_MORE;
}

function layPitches({ x, y }: Stitches, { from, to }: LegString, raw: Float64Array): void {
  const n = from.length;
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
}

/** Evens the pitches between the legs `start`..`end` out. */
function evenOut(raw: Float64Array, even: Float64Array, start: number, end: number): void {
  for (let k = start; k < end; k++)
    even[k] = (raw[k > start ? k - 1 : start] + 2 * raw[k] + raw[k + 1 < end ? k + 1 : end - 1]) / 4;
}

/** Whether the thread steps over bare fabric between legs `k` and `k + 1`: dense legs lie on both sides, and farther apart than rows of one area ever do. */
function leaps(raw: Float64Array, k: number, start: number, end: number): boolean {
  const leap = Math.abs(raw[k]);
  if (leap < OPEN_PITCH_MM) return false;
  const before = Math.abs(median3(raw, Math.max(start, k - WITNESSES), k));
  const after = Math.abs(median3(raw, k + 1, Math.min(end, k + 1 + WITNESSES)));
  const usual = Math.max(before, after);
  return usual < FINDER.netPitch.value && leap > ROWS_LOST * usual;
}

/** Whether leg `k` leads from one area to another that lies beyond it: the legs before and after lie beside it, and far from each other along it. */
function leadsElsewhere({ x, y }: Stitches, { from, to }: LegString, k: number): boolean {
  const ax = x[from[k]];
  const ay = y[from[k]];
  const dx = x[to[k]] - ax;
  const dy = y[to[k]] - ay;
  const length = Math.sqrt(dx * dx + dy * dy);
  const ux = dx / length;
  const uy = dy / length;
  const reached = Math.max(
    (x[from[k - 1]] - ax) * ux + (y[from[k - 1]] - ay) * uy,
    (x[to[k - 1]] - ax) * ux + (y[to[k - 1]] - ay) * uy,
  );
  if (!(reached > 0)) return false;
  const begun = Math.min(
    (x[from[k + 1]] - ax) * ux + (y[from[k + 1]] - ay) * uy,
    (x[to[k + 1]] - ax) * ux + (y[to[k + 1]] - ay) * uy,
  );
  return begun - reached > FINDER.sectionsNear.value && begun < length;
}

/** Whether the pitch changes for good at leg `k`: the pitches before it and those after agree on another value. */
function isCut({ even, middle }: Pitches, k: number, start: number, end: number): boolean {
  const before = k - WITNESSES >= start ? middle[k - WITNESSES] : median3(even, start, k);
  if (differ(before, middle[k])) return true;
  // a stray stitch at the joint hides the change from those next to it
  const far = WITNESSES + 1;
  return k - far >= start && k + far <= end && differ(middle[k - far], middle[k + 1]);
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

/** Median of the up to three values from `a` up to but not including `b`; none has no median. */
function median3(values: Float64Array, a: number, b: number): number {
  if (b <= a) return Number.NaN;
  if (b - a === 1) return values[a];
  if (b - a === 2) return (values[a] + values[a + 1]) / 2;
  const p = values[a];
  const q = values[a + 1];
  const r = values[a + 2];
  return Math.max(Math.min(p, q), Math.min(Math.max(p, q), r));
}
