/**
 * The part of a satin column in which underlay may lie: the column less an inset from its rails and its ends.
 *
 * Places in it are told by `s`, the way along the centre line in mm, and `v`, the way across from −1 (right) to 1
 * (left), along the swing there. So slanted swings, bends and tapers need no care of their own.
 */
import { distanceToSegment } from '../core/distance.js';
import { type Column, smooth } from '../geometry/column.js';

/** Least centre-line distance between nodes, mm: no whole number of the usual steps, so that rounding decides nothing. */
const NODE_MM = 0.37;
/** Rails are looked at over this much centre line to each side, mm. */
const WINDOW_MM = 4;
/** Most steps in which a place is drawn in from a rail, and when it is near enough, mm. */
const STEPS = 24;
const NEAR_ENOUGH_MM = 0.005;
/** A place that rounding puts past an end is on it, mm. */
const ON_END_MM = 1e-9;
/** Steps between two nodes in which a place is looked for. */
const PARTS = 8;
/** The ends of a column leave at least this share of it between them. */
const LEAST_LEFT = 0.5;
/** The end of a lap round a closed column keeps this far from its beginning, mm. */
const LAP_GAP_MM = 1;

export interface InnerBand {
  /** Number of nodes; all arrays have one entry a node. */
  readonly count: number;
  /** Arc length along the centre line, mm. */
  readonly s: Float64Array;
  /** Centre line, mm. */
  readonly cx: Float64Array;
  readonly cy: Float64Array;
  /** From the centre line to the left rail along the swing, mm; the right rail lies as far the other way. */
  readonly hx: Float64Array;
  readonly hy: Float64Array;
  /** Share of that way that the inset leaves, to the left and to the right. */
  readonly left: Float64Array;
  readonly right: Float64Array;
  /** Width of the column across its centre line, mm. */
  readonly widthMm: Float64Array;
  /** Sine of the mean angle between swings and centre line: rows that lie d apart along it are d times this apart. */
  readonly slant: number;
  /** Where underlay may begin and end, mm. */
  readonly from: number;
  readonly to: number;
  readonly closed: boolean;
}

/** @param insetMm kept from the rails and the ends; where the column is too narrow for that only the centre line is left */
export function innerBand(column: Column, insetMm: number): InnerBand {
  const nodes = pickNodes(column.s);
  const count = nodes.length;
  const store = new Float64Array(count * 8);
  const part = (k: number) => store.subarray(k * count, (k + 1) * count);
  const [s, cx, cy, hx, hy, left, right, widthMm] = [0, 1, 2, 3, 4, 5, 6, 7].map(part);
  const halfX = halves(column.leftX, column.rightX);
  const halfY = halves(column.leftY, column.rightY);
  let sines = 0;
  nodes.forEach((j, k) => {
    s[k] = column.s[j];
    cx[k] = column.cx[j];
    cy[k] = column.cy[j];
    hx[k] = halfX[j];
    hy[k] = halfY[j];
    widthMm[k] = column.widthMm[j];
    const half = Math.hypot(hx[k], hy[k]);
    sines += half > 0 ? Math.abs(column.tx[j] * hy[k] - column.ty[j] * hx[k]) / half : 1;
  });
  const { closed } = column;
  const rails = { count, s, cx, cy, hx, hy };
  for (let k = 0; k < count; k++) {
    left[k] = shareWithin(rails, k, 1, insetMm);
    right[k] = shareWithin(rails, k, -1, insetMm);
  }
  const [from, to] = closed ? lap(rails) : between(rails, insetMm);
  return { ...rails, left, right, widthMm, slant: sines / count, from, to, closed };
}

/** The node at or before `s`, and how far on to the next it lies. */
export function nodeAt({ s, count }: InnerBand, at: number): [node: number, part: number] {
  let low = 0;
  let high = count - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (s[middle] <= at) low = middle;
    else high = middle;
  }
  const step = s[high] - s[low];
  return [low, step > 0 ? Math.min(1, Math.max(0, (at - s[low]) / step)) : 0];
}

/** Appends the place at `s` along and `v` across to two lists of coordinates, mm. */
export function placeIn(band: InnerBand, s: number, v: number, x: number[], y: number[]): void {
  const { cx, cy, hx, hy, left, right, count } = band;
  const [k, part] = nodeAt(band, s);
  const next = Math.min(count - 1, k + 1);
  const inner = v >= 0 ? left : right;
  const a = (1 - part) * v * inner[k];
  const b = part * v * inner[next];
  x.push(cx[k] * (1 - part) + cx[next] * part + hx[k] * a + hx[next] * b);
  y.push(cy[k] * (1 - part) + cy[next] * part + hy[k] * a + hy[next] * b);
}

/** Where in a band a point lies, or the place in it that is nearest, and how far away that is. */
export interface PlaceNear {
  readonly s: number;
  readonly v: number;
  readonly awayMm: number;
}

/** Finds the place of a band that is nearest to a point; x, y in mm. */
export function placeNear(band: InnerBand, x: number, y: number): PlaceNear {
  const { s, cx, cy, hx, hy, left, right, count, from, to } = band;
  let best: PlaceNear = { s: from, v: 0, awayMm: Infinity };
  const look = (k: number, part: number) => {
    const next = Math.min(count - 1, k + 1);
    const mix = (of: Float64Array) => of[k] * (1 - part) + of[next] * part;
    const at = mix(s);
    if (at < from - ON_END_MM || at > to + ON_END_MM) return;
    const [px, py, qx, qy] = [mix(cx), mix(cy), mix(hx), mix(hy)];
    const squared = qx * qx + qy * qy;
    const across = squared > 0 ? ((x - px) * qx + (y - py) * qy) / squared : 0;
    const inner = mix(across >= 0 ? left : right);
    const v = inner > 0 ? Math.max(-1, Math.min(1, across / inner)) : 0;
    const awayMm = Math.hypot(px + qx * v * inner - x, py + qy * v * inner - y);
    if (awayMm < best.awayMm) best = { s: at, v, awayMm };
  };
  const [first, firstPart] = nodeAt(band, from);
  const [last, lastPart] = nodeAt(band, to);
  look(first, firstPart);
  look(last, lastPart);
  let nearest = first;
  for (let k = first; k <= last; k++) {
    const before = best.awayMm;
    look(k, 0);
    if (best.awayMm < before) nearest = k;
  }
  // between the nodes beside the nearest
  for (let k = Math.max(0, nearest - 1); k <= nearest; k++) {
    for (let part = 1; part < PARTS; part++) look(k, part / PARTS);
  }
  return best;
}

function pickNodes(s: Float64Array): number[] {
  const last = s.length - 1;
  const nodes = [0];
  for (let j = 1; j < last; j++) if (s[j] - s[nodes[nodes.length - 1]] >= NODE_MM) nodes.push(j);
  if (last > 0) nodes.push(last);
  return nodes;
}

function halves(left: Float64Array, right: Float64Array): Float64Array {
  const out = new Float64Array(left.length);
  smooth(
    left.map((l, j) => (l - right[j]) / 2),
    out,
  );
  return out;
}

type Rails = Pick<InnerBand, 'count' | 's' | 'cx' | 'cy' | 'hx' | 'hy'>;

/**
 * How far out along the swing of node `k` a point keeps the inset from both rails, as a share of the half swing. The point is
 * drawn in from the rail by what it lacks: no step goes too far, since its distance from the outline grows by no more
 * than it moves.
 */
function shareWithin(rails: Rails, k: number, side: 1 | -1, insetMm: number): number {
  const { cx, cy, hx, hy } = rails;
  const half = Math.hypot(hx[k], hy[k]);
  if (half === 0) return 0;
  let t = 1;
  for (let step = 0; step < STEPS && t > 0; step++) {
    const px = cx[k] + side * t * hx[k];
    const py = cy[k] + side * t * hy[k];
    const lacks = insetMm - clearance(rails, k, px, py);
    if (lacks <= NEAR_ENOUGH_MM) return t;
    t -= lacks / half;
  }
  return Math.max(0, t);
}

/** Distance of a point near node `k` from the rails around it. */
function clearance({ count, s, cx, cy, hx, hy }: Rails, k: number, px: number, py: number): number {
  let least = Infinity;
  let a = k;
  let b = k;
  while (a > 0 && s[k] - s[a] < WINDOW_MM) a--;
  while (b < count - 1 && s[b] - s[k] < WINDOW_MM) b++;
  for (let side = -1; side <= 1; side += 2) {
    for (let j = a; j < b; j++) {
      const d = distanceToSegment(
        px,
        py,
        cx[j] + side * hx[j],
        cy[j] + side * hy[j],
        cx[j + 1] + side * hx[j + 1],
        cy[j + 1] + side * hy[j + 1],
      );
      if (d < least) least = d;
    }
  }
  return least;
}

/** Where underlay may begin and end in an open column. */
function between(rails: Rails, insetMm: number): [number, number] {
  const last = rails.count - 1;
  return [clearOfEnd(rails, 0, 1, insetMm), clearOfEnd(rails, last, -1, insetMm)];
}

/** Where the swings come to lie the inset away from the end swing, all across, since ends may be slanted; in a short column sooner. */
function clearOfEnd({ count, s, cx, cy, hx, hy }: Rails, end: number, step: 1 | -1, insetMm: number): number {
  const gap = (k: number) => {
    const inner = Math.max(0, 1 - insetMm / (Math.hypot(hx[k], hy[k]) || 1));
    const to = (t: number) =>
      distanceToSegment(
        cx[k] + t * hx[k],
        cy[k] + t * hy[k],
        cx[end] - hx[end],
        cy[end] - hy[end],
        cx[end] + hx[end],
        cy[end] + hy[end],
      );
    return Math.min(to(-inner), to(0), to(inner));
  };
  const most = ((1 - LEAST_LEFT) / 2) * s[count - 1];
  let before = 0;
  for (let k = end + step; k >= 0 && k < count; k += step) {
    const here = gap(k);
    const part = here > before ? Math.min(1, (insetMm - before) / (here - before)) : 1;
    const way = Math.abs(s[k - step] + (s[k] - s[k - step]) * part - s[end]);
    if (here >= insetMm || way >= most) return s[end] + step * Math.min(most, way);
    before = here;
  }
  return s[end] + step * most;
}

/** One time round a closed column, which may be sewn on over its own beginning. */
function lap({ count, s, cx, cy }: Rails): [number, number] {
  const apart = (k: number) => Math.hypot(cx[k] - cx[0], cy[k] - cy[0]);
  let nearest = count - 1;
  for (let k = count - 1; k > 0 && s[k] > 0.75 * s[count - 1]; k--) {
    if (apart(k) < apart(nearest)) nearest = k;
  }
  return [0, Math.max(0, s[nearest] + apart(nearest) - LAP_GAP_MM)];
}
