/**
 * Patches: stretches of thread in which leg after leg turns back beside the one before. A satin column is a patch
 * of swings, a fill is one or more patches of rows. What is left over between patches is running stitches: runs,
 * travel, underlay that follows an edge, locks.
 *
 * Method. Legs that turn back on each other are strung together. Along the string the *pitch* is followed: the
 * signed distance from one leg to the next, at right angles to them. It does not change when swings slant, when a
 * short stitch stops before the rail or when a row is longer than its neighbour, but its sign flips where a
 * zigzag returns the way it came, its size jumps where an open zigzag turns into a dense top, and the legs turn
 * sharply where one stroke of a letter meets the next. The string is cut there.
 */
import type { Stitches } from '../format/stitches.js';
import type { Legs } from './legs.js';

/** Two legs turn back on each other when the angle between one and the other reversed is below 60°. */
const TURN_BACK_COS = -0.5;
/** Rows, and swings with needle points inside, run back more exactly: within 30°. */
const ROWS_BACK_COS = -0.87;
/** A leg whose ends are nearer than this share of the way between them is bent. */
const BENT = 0.75;
/** Fewest legs of a patch. */
const FEWEST_LEGS = 4;
/** An edge step between two rows is this short, or short beside the longer row and not long in any case, mm. */
const STEP_MM = 1;
const STEP_SHARE = 0.7;
const LONGEST_STEP_MM = 6;
/** Legs on each side of a cut that must agree that it is one. */
const WITNESSES = 3;
/** A short first or last leg that is turned by more than this against its neighbour is no swing (20°). */
const ODD_COS = Math.cos((20 * Math.PI) / 180);
/** Least turn of the swings where two strokes meet (25°), and most within a stroke over two swings (12°), cosines. */
const BEND_COS = Math.cos((25 * Math.PI) / 180);
const STEADY_COS = Math.cos((12 * Math.PI) / 180);
/** A first or last row nearer to its neighbour than this share of the pitch is none. */
const ON_TOP = 0.35;
/** Share of the pitches of a patch that agree. */
const AGREE = 0.7;
/** Legs that lie on each other are no patch: a run sewn there and back, mm. */
const LEAST_PITCH_MM = 0.08;
/** Pitch above which a zigzag or a set of rows is open: an underlay, or a decoration, mm. */
export const OPEN_PITCH_MM = 0.5;

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

/** Finds the patches among the legs of one thread, in sewing order. */
export function findPatches(stitches: Stitches, legs: Legs): Patch[] {
  const { x, y } = stitches;
  const patches: Patch[] = [];
  const n = legs.count;
  // legs of the string being followed, steps left out
  const chain: number[] = [];
  let lastSign = 0;
  let lastStrong = true;
  const flush = () => {
    if (chain.length >= FEWEST_LEGS) cutChain(stitches, legs, chain, patches);
    chain.length = 0;
    lastSign = 0;
    lastStrong = true;
  };
  const dx = (i: number) => x[legs.to[i]] - x[legs.from[i]];
  const dy = (i: number) => y[legs.to[i]] - y[legs.from[i]];

  for (let i = 0; i < n; i++) {
    if (isBent(stitches, legs, i)) {
      flush();
      continue;
    }
    if (chain.length === 0) {
      chain.push(i);
      continue;
    }
    const p = chain[chain.length - 1];
    const px = dx(p);
    const py = dy(p);
    const qx = dx(i);
    const qy = dy(i);
    const pl = Math.sqrt(px * px + py * py);
    const ql = Math.sqrt(qx * qx + qy * qy);
    if (i === p + 1 && i + 1 < n && isStep(px, py, pl, qx, qy, ql, dx(i + 1), dy(i + 1))) {
      continue;
    }
    const cos = (px * qx + py * qy) / (pl * ql || 1);
    const broken = legs.to[p] - legs.from[p] > 1 && legs.to[i] - legs.from[i] > 1;
    if (cos < (broken ? ROWS_BACK_COS : TURN_BACK_COS)) {
      const sign = px * qy - py * qx > 0 ? 1 : -1;
      const strong = cos < -0.87;
      // a zigzag turns left and right by turns; near 180° the side is only noise
      if (lastSign !== 0 && sign === lastSign && !strong && !lastStrong) {
        flush();
        chain.push(p);
      }
      lastSign = sign;
      lastStrong = strong;
      chain.push(i);
      continue;
    }
    // a step was left out on trial and the leg after it did not turn back: it is a leg of its own
    const restart = i > p + 1 ? i - 1 : i;
    flush();
    chain.push(restart);
    if (restart < i) i--;
  }
  flush();
  return patches;
}

/** Whether a leg is a curved run: neither a swing nor a row is much longer than the way between its ends. */
function isBent({ x, y }: Stitches, legs: Legs, i: number): boolean {
  const [a, b] = [legs.from[i], legs.to[i]];
  if (b - a < 4) return false;
  let way = 0;
  for (let k = a; k < b; k++) way += Math.hypot(x[k + 1] - x[k], y[k + 1] - y[k]);
  return Math.hypot(x[b] - x[a], y[b] - y[a]) < BENT * way;
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
  return (px * sy - py * sx) * (sx * qy - sy * qx) > 0;
}

/** Cuts a string of legs where pitch or direction say that something else begins, and keeps the patches. */
function cutChain(stitches: Stitches, legs: Legs, chain: readonly number[], out: Patch[]): void {
  const { x, y } = stitches;
  const n = chain.length;
  const raw = new Float64Array(n);
  let flip = 1;
  for (let k = 0; k + 1 < n; k++, flip = -flip) {
    const a = legs.from[chain[k]];
    const b = legs.to[chain[k]];
    const c = legs.from[chain[k + 1]];
    const d = legs.to[chain[k + 1]];
    const ux = (x[b] - x[a]) * flip;
    const uy = (y[b] - y[a]) * flip;
    const wx = (x[c] - x[d]) * flip;
    const wy = (y[c] - y[d]) * flip;
    const ul = Math.sqrt(ux * ux + uy * uy) || 1;
    const wl = Math.sqrt(wx * wx + wy * wy) || 1;
    let nx = ux / ul + wx / wl;
    let ny = uy / ul + wy / wl;
    const nl = Math.sqrt(nx * nx + ny * ny) || 1;
    nx /= nl;
    ny /= nl;
    const mx = (x[c] + x[d] - x[a] - x[b]) / 2;
    const my = (y[c] + y[d] - y[a] - y[b]) / 2;
    raw[k] = nx * my - ny * mx;
  }
  const pitch = evenOut(raw, n - 1);
  const pitches = { raw, pitch };
  let start = 0;
  for (let k = 1; k < n - 1; k++) {
    if (k - start >= 3 && n - 1 - k >= 3 && isBend(stitches, legs, chain, k)) {
      keepPatch(stitches, legs, chain, pitches, start, k, out);
      start = k + 1;
      k = start;
      continue;
    }
    if (!isCut(pitch, k, start, n - 1)) continue;
    // neighbouring places see the same change: the cut belongs where it is sharpest
    let best = k;
    for (; k < n - 1 && isCut(pitch, k, start, n - 1); k++) {
      if (sharpness(pitch, k, start, n - 1) > sharpness(pitch, best, start, n - 1)) best = k;
    }
    const opens = Math.abs(pitch[best - 1]) < Math.abs(pitch[best]);
    const kept = keepPatch(stitches, legs, chain, pitches, start, opens ? best : best - 1, out);
    const before = start;
    start = opens ? best + 1 : best;
    // what was no patch may have begun with a stray leg: the rest of it is given to what follows
    while (!kept && start > before && fits(raw[start - 1], pitch[Math.min(start + 1, n - 2)])) start--;
    k = Math.max(best, start);
  }
  keepPatch(stitches, legs, chain, pitches, start, n - 1, out);
}

/** Whether two pitches are of one sign and one size. */
function fits(pitch: number, usual: number): boolean {
  const ratio = pitch / usual;
  return ratio > 0.35 && ratio < 2.8;
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

/** An edge step counted with one row and not with the next makes the pitch alternate: averaged over two places. */
function evenOut(raw: Float64Array, n: number): Float64Array {
  const out = new Float64Array(n + 1);
  for (let k = 0; k < n; k++) {
    out[k] = (raw[Math.max(0, k - 1)] + 2 * raw[k] + raw[Math.min(n - 1, k + 1)]) / 4;
  }
  return out;
}

/** Cosine of the angle between two legs as axes. */
function axisCos({ x, y }: Stitches, legs: Legs, i: number, j: number): number {
  const ax = x[legs.to[i]] - x[legs.from[i]];
  const ay = y[legs.to[i]] - y[legs.from[i]];
  const bx = x[legs.to[j]] - x[legs.from[j]];
  const by = y[legs.to[j]] - y[legs.from[j]];
  return Math.abs(ax * bx + ay * by) / (Math.hypot(ax, ay) * Math.hypot(bx, by) || 1);
}

/**
 * Whether one stroke ends and another begins at leg `k` though the legs still turn back on each other: the swings
 * keep one direction before and another after, and at the joint one rail leaps ahead while the other steps back.
 * In a corner of one column the swings fan out, or both rails stay closed.
 */
function isBend({ x, y }: Stitches, legs: Legs, chain: readonly number[], k: number): boolean {
  const tail = (j: number) => ((j - k) % 2 === 0 ? legs.from[chain[j]] : legs.to[chain[j]]);
  const head = (j: number) => ((j - k) % 2 === 0 ? legs.to[chain[j]] : legs.from[chain[j]]);
  const dx = (j: number) => x[head(j)] - x[tail(j)];
  const dy = (j: number) => y[head(j)] - y[tail(j)];
  const cos = (ax: number, ay: number, bx: number, by: number) =>
    (ax * bx + ay * by) / (Math.hypot(ax, ay) * Math.hypot(bx, by) || 1);

  const beforeX = dx(k - 3) + dx(k - 2) + dx(k - 1);
  const beforeY = dy(k - 3) + dy(k - 2) + dy(k - 1);
  const afterX = dx(k + 1) + dx(k + 2) + dx(k + 3);
  const afterY = dy(k + 1) + dy(k + 2) + dy(k + 3);
  if (cos(beforeX, beforeY, afterX, afterY) > BEND_COS) return false;
  if (legs.to[chain[k]] - legs.from[chain[k]] > 1) return false;
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
  return Math.min(t, h) < 0.1 * spacing && Math.max(t, h) > 1.6 * spacing;
}

/** Whether the pitch changes for good at leg `k`: the pitches before it and those after agree on another value. */
function isCut(pitch: Float64Array, k: number, start: number, end: number): boolean {
  if (k - start < 1 || end - k < 1) return false;
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

/** Whether the way is retraced from here on, or an open zigzag and a dense top meet. */
function differ(before: number, after: number): boolean {
  const small = Math.min(Math.abs(before), Math.abs(after));
  const large = Math.max(Math.abs(before), Math.abs(after));
  if (before * after < 0) return small > 0.05;
  return large > OPEN_PITCH_MM && large > 2.2 * small;
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
  return Math.max(Math.min(p, q), Math.min(Math.max(p, q), values[a + 2]));
}

/** Keeps legs `start`..`end` of a string as a patch and says so, if they are one; tells swings from rows. */
function keepPatch(
  stitches: Stitches,
  legs: Legs,
  chain: readonly number[],
  pitches: { raw: Float64Array; pitch: Float64Array },
  start: number,
  end: number,
  out: Patch[],
): boolean {
  const { x, y } = stitches;
  const { raw, pitch } = pitches;
  const length = (k: number) =>
    Math.hypot(x[legs.to[chain[k]]] - x[legs.from[chain[k]]], y[legs.to[chain[k]]] - y[legs.from[chain[k]]]);
  const points = (k: number) => legs.to[chain[k]] - legs.from[chain[k]] - 1;
  const median = (values: number[]) => values.sort((a, b) => a - b)[values.length >> 1];
  const sample = (f: (k: number) => number, a: number, b: number) => {
    const values: number[] = [];
    const step = Math.max(1, Math.floor((b - a) / 64));
    for (let k = a; k <= b; k += step) values.push(f(k));
    return median(values);
  };
  if (end - start + 1 < FEWEST_LEGS) return false;
  const pitchMm = sample((k) => Math.abs(pitch[k]), start, end - 1);
  if (pitchMm < LEAST_PITCH_MM || !agrees(pitch, start, end, pitchMm)) return false;

  let broken = 0;
  let stepped = 0;
  for (let k = start; k <= end; k++) {
    if (points(k) > 0) broken++;
    if (k > start && legs.from[chain[k]] > legs.to[chain[k - 1]]) stepped++;
  }
  const brokenShare = broken / (end - start + 1);
  const stepShare = stepped / (end - start);
  const stitchMm = sample((k) => length(k) / (points(k) + 1), start, end);
  const inside = sample(points, start, end);
  const rows =
    stepShare >= 0.5
      ? pitchMm >= 0.2
      : brokenShare >= 0.2 &&
        (inside >= 4 ||
          pitchMm >= (stitchMm > 4.6 ? 0.42 : 0.31) ||
          (pitchMm >= 0.24 && inside >= 2 && stitchMm < 2.8 && sample(length, start, end) > 12));

  if (rows) {
    // an edge run that ends beside the first row turns back into it, but lies on it
    while (end - start >= FEWEST_LEGS && Math.abs(raw[start]) < ON_TOP * pitchMm) start++;
    while (end - start >= FEWEST_LEGS && Math.abs(raw[end - 1]) < ON_TOP * pitchMm) end--;
  } else {
    // the way into or out of a column can pass for its first or last swing: it has another length
    const odd = (k: number, a: number, b: number) => {
      const usual = sample(length, a, b);
      if (length(k) > 1.6 * usual + 0.3 || (points(k) > 0 && sample(points, a, b) === 0)) return true;
      return (
        length(k) < 0.7 * usual &&
        axisCos(stitches, legs, chain[k], chain[k === start ? k + 1 : k - 1]) < ODD_COS
      );
    };
    while (end - start >= FEWEST_LEGS && odd(start, start + 1, Math.min(end, start + 5))) start++;
    while (end - start >= FEWEST_LEGS && odd(end, Math.max(start, end - 5), end - 1)) end--;
  }
  const n = end - start + 1;
  const from = new Int32Array(n);
  const to = new Int32Array(n);
  for (let k = 0; k < n; k++) {
    from[k] = legs.from[chain[start + k]];
    to[k] = legs.to[chain[start + k]];
  }
  const legMm = sample(length, start, end);
  out.push({ from, to, kind: rows ? 'rows' : 'swings', pitchMm, legMm, split: !rows && brokenShare >= 0.2 });
  return true;
}
