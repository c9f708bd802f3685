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
/** A corner between two points lies where the arc before it, gone on with, meets the line through so many points after it. */
const CORNER_POINTS = 4;
/** Nearer than this to a point, as a share of the way to the next, the corner is on it. */
const ON_POINT = 0.05;

/**
 * The curve of fewest numbers that follows some points; null where it takes more than `most`.
 *
 * For each number of numbers the arcs (by least squares, each from where the one before ended) that reach farthest: what reaches farther for less is never worse to go on from.
 * An arc ends at a point, or at the corner between that and the next.
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
  reached[size] = { begin: { first: 0, t: t[0], at: null }, start: null, outliers: 0, arcs: [] };
  let whole: Reach | null = null;
  let fewest = most + 1;
  let farthest = -1;
  for (let numbers = size; numbers < Math.min(fewest, reached.length); numbers++) {
    const from = reached[numbers];
    if (from === undefined || from.begin.first <= farthest) continue;
    farthest = from.begin.first;
    const corner = cornerAfter(data, from);
    for (const points of SIZES) {
      if (numbers + size * points >= fewest) break;
      let next = longest(data, from, last, points);
      const cornered = corner && longest(data, corner, last, points);
      if (cornered && !(next && next.begin.first >= cornered.begin.first)) next = cornered;
      if (next === null) break;
      if (next.begin.first > last) {
        whole = next;
        fewest = numbers + size * points;
        break;
      }
      const takes = numbers + 1 + size * points;
      if (!(reached[takes]?.begin.first >= next.begin.first)) reached[takes] = next;
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

/** Where an arc begins: the first point that it has to follow, and its count and place; the place is free where there is no arc before. */
interface Begin {
  readonly first: number;
  readonly t: number;
  readonly at: Point | null;
}

/** How far some arcs reach. */
interface Reach {
  /** Where the next arc begins. */
  readonly begin: Begin;
  readonly start: Point | null;
  readonly outliers: number;
  readonly arcs: readonly Arc[];
  /** The same with another end of the last arc; null where it would not follow its points any more. */
  readonly endedAt?: (t: number) => Reach | null;
}

interface Fit {
  readonly start: Point;
  readonly points: Point[];
  /** Furthest that a point lies off it, mm, and how many lie farther off than is asked. */
  readonly offMm: number;
  readonly outliers: number;
}

/** The arcs gone on with to the corner between their last point and the next; null where there is none. */
function cornerAfter({ t, values }: Data, reach: Reach): Reach | null {
  const { begin, arcs, start, endedAt } = reach;
  const { first } = begin;
  const last = Math.min(t.length - 1, first + CORNER_POINTS - 1);
  if (endedAt === undefined || last === first) return null;
  const curve: Curve = { from: t[0], start: start!, arcs };
  const slope = slopeAt(curve, begin.t);
  // the line through the points after it, by least squares
  let [sum, sumT, sumTT] = [0, 0, 0];
  for (let i = first; i <= last; i++) {
    sum++;
    sumT += t[i];
    sumTT += t[i] * t[i];
  }
  let [toMeet, apart] = [0, 0];
  values.forEach((channel, c) => {
    let [sumV, sumTV] = [0, 0];
    for (let i = first; i <= last; i++) {
      sumV += channel[i];
      sumTV += t[i] * channel[i];
    }
    const rise = (sum * sumTV - sumT * sumV) / (sum * sumTT - sumT * sumT);
    const there = (sumV - rise * sumT) / sum + rise * begin.t;
    const turn = rise - slope[c];
    toMeet -= turn * (there - begin.at![c]);
    apart += turn * turn;
  });
  const gap = t[first] - begin.t;
  const way = apart > 0 ? toMeet / apart : 0;
  return way > ON_POINT * gap && way < (1 - ON_POINT) * gap ? endedAt(begin.t + way) : null;
}

/** The longest arc of so many control points: found by doubling and halving its length. */
function longest(data: Data, from: Reach, last: number, size: number): Reach | null {
  const { begin } = from;
  const shortest = begin.first + size - (begin.at === null ? 0 : 1);
  if (last < shortest) return null;
  const mayLieOff = Math.floor(data.near.outliers * data.t.length) - from.outliers;
  const fitTo = (end: number, to: number) => fitArc(data, begin, end, to, size);
  const isNear = ({ offMm, outliers }: Fit) =>
    offMm <= data.near.withinMm || (outliers <= mayLieOff && offMm <= OUTLIERS_WITHIN_MM);
  const tryTo = (end: number): Fit | null => {
    const tried = fitTo(end, data.t[end]);
    return isNear(tried) ? tried : null;
  };
  const reachOf = (end: number, to: number, { start, points, outliers }: Fit): Reach => ({
    begin: { first: end + 1, t: to, at: points[size - 1] },
    start: from.start ?? start,
    outliers: from.outliers + outliers,
    arcs: [...from.arcs, { to, points }],
    endedAt: (t) => {
      const tried = fitTo(end, t);
      return isNear(tried) ? reachOf(end, t, tried) : null;
    },
  });
  let end = shortest;
  let good = tryTo(end);
  if (good === null) return null;
  let bad = last + 1;
  const reach = (to: number) => {
    const tried = tryTo(to);
    if (tried) [good, end] = [tried, to];
    else bad = to;
  };
  for (let step = 2; end < last && bad > last; step *= 2) reach(Math.min(last, shortest + step));
  while (bad - end > 1) reach((end + bad) >> 1);
  if (end === last) return reachOf(end, data.t[end], good);
  for (let back = 1; back <= CORNER_REACH && end - back >= shortest; back++) {
    const earlier = fitTo(end - back, data.t[end - back]);
    if (earlier.offMm < CORNER_GAIN * good.offMm) return reachOf(end - back, data.t[end - back], earlier);
  }
  return reachOf(end, data.t[end], good);
}

/** Least squares for the control points of an arc; for its start as well, where that is not given. */
function fitArc({ t, values, near }: Data, begin: Begin, end: number, to: number, size: number): Fit {
  const { first: s, at } = begin;
  const span = to - begin.t;
  const skip = at === null ? 0 : 1;
  const unknowns = size + 1 - skip;
  const matrix = Array.from({ length: unknowns }, () => new Float64Array(unknowns));
  const right = values.map(() => new Float64Array(unknowns));
  const rows: Basis[] = [];
  for (let i = s; i <= end; i++) {
    const row = basisAt(size, (t[i] - begin.t) / span);
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
    if (off > near.withinMm) outliers++;
    if (!(off <= offMm)) offMm = off;
  });
  return {
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
