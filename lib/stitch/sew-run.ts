/** Running stitches divided anew along their path: corners stay, what is sewn there and back or three times stays so. */
import { distance } from '../core/distance.js';
import type { EdgePoint } from './edge.js';

/** Turn from which a needle point is a corner (35°), cosine. */
const CORNER_COS = Math.cos((35 * Math.PI) / 180);
/** A needle place met again within this distance, mm, by stitches that are no locks, mm. */
const SAME_PLACE_MM = 0.18;
const TRIPLE_STITCH_MM = 0.8;
/** Stitches this short are made for a reason of their own: their ends stay, mm. */
const TINY_MM = 0.5;

/** Needle points of a stretch of thread. */
export interface LaidRun {
  readonly x: number[];
  readonly y: number[];
  /** For each needle point as found the number of the one that stands for it. */
  readonly at: Int32Array;
}

/** How one span between corners is divided: the counts, as found, from 0 to `stitches`, at which the needle goes down. */
export type Divide = (stitches: number, stretched: number, shortestMm: number) => readonly number[];

/** As many stitches as keep their length, in the pattern of lengths as found. */
export const keepLength: Divide = (stitches, stretched) => {
  const count = Math.max(1, Math.round(stretched));
  return Array.from({ length: count + 1 }, (_, k) => (k * stitches) / count);
};

/**
 * Divides a run anew.
 *
 * @param x, y needle points as found, mm
 * @param fixed whether a needle point must stay one; the first and last always do
 * @param to where a place comes to lie
 */
export function layRun(
  x: Float64Array,
  y: Float64Array,
  fixed: (k: number) => boolean,
  to: (x: number, y: number) => EdgePoint,
  divide: Divide,
): LaidRun {
  const path = readPath(x, y, fixed);
  const moved = path.map(({ k }) => to(x[k], y[k]));
  const out: LaidRun = { x: [], y: [], at: new Int32Array(x.length) };
  const put = ([px, py]: EdgePoint) => {
    out.x.push(px);
    out.y.push(py);
  };
  put(moved[0]);
  for (let a = 0; a + 1 < path.length; ) {
    let b = a + 1;
    while (b + 1 < path.length && !isCorner(path, moved, b, fixed)) b++;
    const base = out.x.length - 1;
    const { thrice } = path[a];
    const counts = countsOf(path, moved, x, y, a, b, divide);
    const perStitch = thrice ? 3 : 1;
    for (let n = 1; n < counts.length; n++) {
      const here = counts[n] === b - a ? moved[b] : onCurve(moved, a, b, a + counts[n]);
      if (thrice) {
        const last = out.x.length - 1;
        const start: EdgePoint = [out.x[last], out.y[last]];
        put(here);
        put(start);
      }
      put(here);
    }
    for (let j = a; j <= b; j++) {
      let n = 0;
      while (n + 1 < counts.length && counts[n + 1] <= j - a + 1e-9) n++;
      const end = j + 1 < path.length ? path[j + 1].k : x.length;
      for (let k = path[j].k; k < end && (j < b || k === path[b].k); k++) out.at[k] = base + perStitch * n;
    }
    a = b;
  }
  return out;
}

/** A place where the path goes on: its needle point, and whether the way to the next place is sewn three times. */
interface Stop {
  readonly k: number;
  readonly thrice: boolean;
}

function readPath(x: Float64Array, y: Float64Array, fixed: (k: number) => boolean): Stop[] {
  const apart = (i: number, j: number) => distance(x[i], y[i], x[j], y[j]);
  const path: Stop[] = [];
  const last = x.length - 1;
  for (let k = 0; k <= last; ) {
    const thrice =
      k + 3 <= last &&
      apart(k, k + 2) <= SAME_PLACE_MM &&
      apart(k + 1, k + 3) <= SAME_PLACE_MM &&
      apart(k, k + 1) > TRIPLE_STITCH_MM &&
      !fixed(k + 1) &&
      !fixed(k + 2);
    path.push({ k, thrice });
    k += thrice ? 3 : 1;
  }
  return path;
}

function isCorner(
  path: readonly Stop[],
  moved: readonly EdgePoint[],
  b: number,
  fixed: (k: number) => boolean,
): boolean {
  if (path[b].thrice !== path[b - 1].thrice || fixed(path[b].k)) return true;
  const [px, py] = [moved[b][0] - moved[b - 1][0], moved[b][1] - moved[b - 1][1]];
  const [qx, qy] = [moved[b + 1][0] - moved[b][0], moved[b + 1][1] - moved[b][1]];
  const [pl, ql] = [Math.hypot(px, py), Math.hypot(qx, qy)];
  return Math.min(pl, ql) < TINY_MM || px * qx + py * qy < CORNER_COS * pl * ql;
}

function countsOf(
  path: readonly Stop[],
  moved: readonly EdgePoint[],
  x: Float64Array,
  y: Float64Array,
  a: number,
  b: number,
  divide: Divide,
): readonly number[] {
  let stretched = 0;
  let shortestMm = Number.POSITIVE_INFINITY;
  for (let j = a; j < b; j++) {
    const was = distance(x[path[j].k], y[path[j].k], x[path[j + 1].k], y[path[j + 1].k]);
    const is = distance(...moved[j], ...moved[j + 1]);
    stretched += was > 0 ? is / was : 1;
    shortestMm = Math.min(shortestMm, is);
  }
  return divide(b - a, stretched, shortestMm);
}

/** A place between the stops `a` and `b` of a path, on a smooth curve through them (Catmull and Rom's, from memory). */
function onCurve(moved: readonly EdgePoint[], a: number, b: number, at: number): EdgePoint {
  const j = Math.min(b - 1, Math.floor(at));
  const f = at - j;
  if (f === 0) return moved[j];
  const p1 = moved[j];
  const p2 = moved[j + 1];
  const before = j > a ? moved[j - 1] : null;
  const after = j + 1 < b ? moved[j + 2] : null;
  return [0, 1].map((c) => {
    const chord = p2[c] - p1[c];
    const through = (p: EdgePoint, q: EdgePoint) => (q[c] - p[c]) / 2;
    // at a corner the curve has no bend of its own
    const free = (other: number) => (3 * chord - other) / 2;
    const leaving = before && through(before, p2);
    const arriving = after && through(p1, after);
    const leave = leaving ?? free(arriving ?? chord);
    const arrive = arriving ?? free(leaving ?? chord);
    return p1[c] + f * (leave + f * (3 * chord - 2 * leave - arrive + f * (leave + arrive - 2 * chord)));
  }) as EdgePoint;
}
