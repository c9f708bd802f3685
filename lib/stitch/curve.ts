/**
 * A line in few numbers: arcs end to end over the count of rows. An arc of one control point is straight, of two or more a spline of second or third order whose
 * knots are evenly apart in that count (de Boor's, clamped at both ends, from memory). Control points grow, turn and move as the line does.
 *
 * A point of a curve has one coordinate (a width) or two (a place); all points of a curve have as many.
 */

export type Point = readonly number[];

export interface Arc {
  /** The count at which it ends. */
  readonly to: number;
  /** Control points after the one where the arc before ended, mm. At least one; the last is its end. */
  readonly points: readonly Point[];
}

export interface Curve {
  /** The count at which it begins. */
  readonly from: number;
  readonly start: Point;
  /** None: the curve stays where it is. */
  readonly arcs: readonly Arc[];
}

/** How many numbers a curve takes whose first and last count are known. */
export const numbersInCurve = ({ start, arcs }: Curve): number =>
  start.length +
  Math.max(0, arcs.length - 1) +
  arcs.reduce((sum, { points }) => sum + start.length * points.length, 0);

const MOST_ORDER = 3;

/** Where a curve is at a count; beyond its ends straight on. */
export function curveAt(curve: Curve, t: number): number[] {
  const place = placeOn(curve, t);
  if (place === null) return [...curve.start];
  const { basis, beyond } = place;
  if (beyond === 0) return place.mix(basis.weights);
  const slopes = basis.slopes();
  return place.mix(basis.weights.map((weight, j) => weight + slopes[j] * beyond));
}

/** How fast a curve goes at a count, in mm for a count; at a joint as the arc that ends there. */
export function slopeAt(curve: Curve, t: number): number[] {
  const place = placeOn(curve, t);
  if (place === null) return curve.start.map(() => 0);
  return place.mix(place.basis.slopes().map((slope) => slope / place.span));
}

interface PlaceOnArc {
  readonly basis: Basis;
  /** How far beyond the end of the arc, as a share of it, and how many counts that is long. */
  readonly beyond: number;
  readonly span: number;
  mix(weights: readonly number[]): number[];
}

/** Null on a curve that stays where it is. */
function placeOn({ from, start, arcs }: Curve, t: number): PlaceOnArc | null {
  if (arcs.length === 0) return null;
  let k = 0;
  while (k + 1 < arcs.length && arcs[k].to < t) k++;
  const begin = k === 0 ? from : arcs[k - 1].to;
  const first = k === 0 ? start : arcs[k - 1].points[arcs[k - 1].points.length - 1];
  const { to, points } = arcs[k];
  const u = (t - begin) / (to - begin);
  const inside = Math.max(0, Math.min(1, u));
  const basis = basisAt(points.length, inside);
  return {
    basis,
    beyond: u - inside,
    span: to - begin,
    mix: (weights) =>
      start.map((_, c) =>
        weights.reduce((sum, weight, j) => {
          const n = basis.first + j;
          return sum + weight * (n === 0 ? first : points[n - 1])[c];
        }, 0),
      ),
  };
}

/** The control points that tell where an arc is at `u`, 0 to 1: number of the first of them, what each weighs, and how fast that changes. */
interface Basis {
  readonly first: number;
  readonly weights: readonly number[];
  slopes(): number[];
}

/** @param points control points after the first */
function basisAt(points: number, u: number): Basis {
  const order = Math.min(MOST_ORDER, points);
  const spans = points - order + 1;
  const first = Math.min(spans - 1, Math.floor(u * spans));
  const knot = (k: number) => Math.max(0, Math.min(spans, k)) / spans;
  let weights = [1];
  let lower = weights;
  for (let d = 1; d <= order; d++) {
    lower = weights;
    const next = new Array<number>(d + 1).fill(0);
    for (let j = 0; j < d; j++) {
      const [low, high] = [knot(first + 1 + j - d), knot(first + 1 + j)];
      const share = lower[j] / (high - low);
      next[j] += (high - u) * share;
      next[j + 1] += (u - low) * share;
    }
    weights = next;
  }
  return {
    first,
    weights,
    slopes: () => {
      const out = new Array<number>(order + 1).fill(0);
      for (let j = 0; j < order; j++) {
        const slope = (order * lower[j]) / (knot(first + 1 + j) - knot(first + 1 + j - order));
        out[j] -= slope;
        out[j + 1] += slope;
      }
      return out;
    },
  };
}

/** How near a curve is to follow what it is fitted to. */
export interface Nearness {
  readonly withinMm: number;
  /** This share of all points may lie farther off, none farther than {@link OUTLIERS_WITHIN_MM}. */
  readonly outliers: number;
}

export const OUTLIERS_WITHIN_MM = 0.33;

/** How many control points an arc is tried with. */
const SIZES = [1, 2, 3, 4, 5, 6, 7, 8, 10, 12] as const;
/** An arc ends up to so many points earlier where that halves what it is off: at a corner, that is. */
const CORNER_REACH = 4;
const CORNER_GAIN = 0.5;

/**
 * The curve of fewest numbers that follows some points; null where it takes more than `most`.
 *
 * For each number of numbers the arcs (by least squares, each from where the one before ended) that reach farthest: what reaches farther for less is never worse to go on from.
 *
 * @param t ascending counts; at least one
 * @param values the coordinates, mm, each a list over the counts
 */
export function fitCurve(
  t: ArrayLike<number>,
  values: readonly ArrayLike<number>[],
  near: Nearness,
  most = Number.POSITIVE_INFINITY,
): Curve | null {
  const last = t.length - 1;
  const constant = middlePoint(values, near.withinMm);
  if (constant !== null) return { from: t[0], start: constant, arcs: [] };
  const size = values.length;
  const data: Data = { t, values, near };
  const reached: Reach[] = [];
  reached[size] = { index: 0, start: null, end: null, outliers: 0, arcs: [] };
  let whole: Reach | null = null;
  let fewest = most + 1;
  let farthest = -1;
  for (let numbers = size; numbers < Math.min(fewest, reached.length); numbers++) {
    const from = reached[numbers];
    if (from === undefined || from.index <= farthest) continue;
    farthest = from.index;
    for (const points of SIZES) {
      if (numbers + size * points >= fewest) break;
      const fit = longest(data, from, last, points);
      if (fit === null) break;
      const next: Reach = {
        index: fit.end,
        start: from.start ?? fit.start,
        end: fit.points[points - 1],
        outliers: from.outliers + fit.outliers,
        arcs: [...from.arcs, { to: t[fit.end], points: fit.points }],
      };
      if (fit.end === last) {
        whole = next;
        fewest = numbers + size * points;
        break;
      }
      const takes = numbers + 1 + size * points;
      if (!(reached[takes]?.index >= fit.end)) reached[takes] = next;
    }
  }
  return whole && { from: t[0], start: whole.start!, arcs: whole.arcs };
}

/** The point that all points are near, if there is one. */
function middlePoint(values: readonly ArrayLike<number>[], withinMm: number): number[] | null {
  const middle: number[] = [];
  for (const channel of values) {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (let i = 0; i < channel.length; i++) {
      if (channel[i] < low) low = channel[i];
      if (channel[i] > high) high = channel[i];
    }
    if (high - low > Math.SQRT2 * withinMm) return null;
    middle.push((low + high) / 2);
  }
  return middle;
}

interface Data {
  readonly t: ArrayLike<number>;
  readonly values: readonly ArrayLike<number>[];
  readonly near: Nearness;
}

/** How far some arcs reach: number of the point at which they end, and where that is. */
interface Reach {
  readonly index: number;
  readonly start: Point | null;
  readonly end: Point | null;
  readonly outliers: number;
  readonly arcs: readonly Arc[];
}

interface Fit {
  readonly end: number;
  readonly start: Point;
  readonly points: Point[];
  /** Furthest that a point lies off it, mm, and how many lie farther off than is asked. */
  readonly offMm: number;
  readonly outliers: number;
}

/** The longest arc of so many control points: found by doubling and halving its length. */
function longest(data: Data, from: Reach, last: number, size: number): Fit | null {
  const s = from.index;
  if (last - s < size) return null;
  const { withinMm, outliers } = data.near;
  const tryTo = (end: number): Fit | null => {
    const fit = fitArc(data, s, end, from.end, size);
    if (fit.offMm <= withinMm) return fit;
    const mayLieOff = Math.floor(outliers * data.t.length) - from.outliers;
    return fit.outliers <= mayLieOff && fit.offMm <= OUTLIERS_WITHIN_MM ? fit : null;
  };
  let good: Fit | null = tryTo(s + size);
  if (good === null) return null;
  let bad = last + 1;
  for (let step = 2; good.end < last && bad > last; step *= 2) {
    const end = Math.min(last, s + size + step);
    const fit = tryTo(end);
    if (fit) good = fit;
    else bad = end;
  }
  while (bad - good.end > 1) {
    const end = (good.end + bad) >> 1;
    const fit = tryTo(end);
    if (fit) good = fit;
    else bad = end;
  }
  if (good.end === last) return good;
  for (let back = 1; back <= CORNER_REACH && good.end - back >= s + size; back++) {
    const fit = fitArc(data, s, good.end - back, from.end, size);
    if (fit.offMm < CORNER_GAIN * good.offMm) return fit;
  }
  return good;
}

/** Least squares for the control points of an arc; for its start as well, where that is not given. */
function fitArc({ t, values, near }: Data, s: number, end: number, at: Point | null, size: number): Fit {
  const span = t[end] - t[s];
  const skip = at === null ? 0 : 1;
  const unknowns = size + 1 - skip;
  const matrix = Array.from({ length: unknowns }, () => new Float64Array(unknowns));
  const right = values.map(() => new Float64Array(unknowns));
  const rows: Basis[] = [];
  for (let i = s; i <= end; i++) {
    const row = basisAt(size, (t[i] - t[s]) / span);
    rows.push(row);
    const { first, weights } = row;
    const pinned = skip === 1 && first === 0 ? weights[0] : 0;
    for (let p = 0; p < weights.length; p++) {
      const n = first + p - skip;
      if (n < 0) continue;
      for (let q = 0; q < weights.length; q++) {
        if (first + q >= skip) matrix[n][first + q - skip] += weights[p] * weights[q];
      }
      for (let c = 0; c < values.length; c++) {
        right[c][n] += weights[p] * (values[c][i] - (pinned === 0 ? 0 : pinned * at![c]));
      }
    }
  }
  solve(matrix, right);
  const all: Point[] = Array.from({ length: unknowns }, (_, n) => right.map((column) => column[n]));
  if (at !== null) all.unshift(at);
  let offMm = 0;
  let outliers = 0;
  rows.forEach(({ first, weights }, k) => {
    let square = 0;
    for (let c = 0; c < values.length; c++) {
      let off = -values[c][s + k];
      for (let p = 0; p < weights.length; p++) off += weights[p] * all[first + p][c];
      square += off * off;
    }
    const off = Math.sqrt(square);
    // the joint itself was the arc's before
    if (off > near.withinMm && (k > 0 || at === null)) outliers++;
    if (!(off <= offMm) && (k > 0 || at === null)) offMm = off;
  });
  return {
    end,
    start: all[0],
    points: all.slice(1),
    offMm: Number.isFinite(offMm) ? offMm : Number.POSITIVE_INFINITY,
    outliers,
  };
}

/** Solves a symmetric system for several right sides, in place (elimination without a search for pivots: it is positive definite). */
function solve(matrix: Float64Array[], right: readonly Float64Array[]): void {
  const n = matrix.length;
  // no point weighs with one that is more than the order away from it
  const reach = (p: number) => Math.min(n, p + MOST_ORDER + 1);
  for (let p = 0; p < n; p++) {
    for (let q = p + 1; q < reach(p); q++) {
      const f = matrix[q][p] / matrix[p][p];
      for (let k = p; k < reach(p); k++) matrix[q][k] -= f * matrix[p][k];
      for (const column of right) column[q] -= f * column[p];
    }
  }
  for (const column of right) {
    for (let p = n - 1; p >= 0; p--) {
      for (let q = p + 1; q < reach(p); q++) column[p] -= matrix[p][q] * column[q];
      column[p] /= matrix[p][p];
    }
  }
}
