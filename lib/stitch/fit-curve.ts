/** The curve of fewest numbers that follows some points: arcs by least squares, chosen by how far they reach for their numbers. */
import { type Arc, type Curve, type CurvePoint, MOST_ORDER, slopeAt, weigh } from './curve.js';

/** How near a curve is to follow what it is fitted to. */
export interface Nearness {
  readonly withinMm: number;
  /** This share of all points may lie farther off, none farther than {@link OUTLIERS_WITHIN_MM}. */
  readonly outliers: number;
}

const OUTLIERS_WITHIN_MM = 0.33;

/** How many control points an arc is tried with. */
const SIZES = [1, 2, 3, 4, 5, 6, 7, 8, 10, 12] as const;
const MOST_UNKNOWNS = 13;
/** An arc that lies far off a few of its points, so many for each control point, need not be held against all. */
const COARSE_POINTS = 4;
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
 * For each number of numbers the arcs (by least squares, each from where the one before ended) that reach farthest: what reaches farther for less is never worse to go on from,
 * so an arc is only looked for beyond that. It ends at a point, or at the corner between that and the next.
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
  const constant = middlePoint(values, near.withinMm);
  if (constant !== null) return { from: t[0], start: constant, arcs: [] };
  const size = values.length;
  const fitter = new ArcFitter(t, values, near);
  const reached: ArcReach[] = [];
  reached[size] = { first: 0, t: t[0], at: null, outliers: 0, arc: null };
  let whole: ArcReach | null = null;
  let fewest = most + 1;
  let farthest = -1;
  for (let numbers = size; numbers < Math.min(fewest, reached.length); numbers++) {
    const from = reached[numbers];
    if (from === undefined || from.first <= farthest) continue;
    farthest = from.first;
    const corner = fitter.cornerAfter(from);
    let beyond = farthest;
    let known = numbers;
    for (const points of SIZES) {
      const takes = numbers + 1 + size * points;
      if (takes - 1 >= fewest) break;
      for (; known <= takes; known++) beyond = Math.max(beyond, reached[known]?.first ?? 0);
      const next = farthestArc(fitter, [from, corner], points, beyond);
      if (next === null) {
        if (from.first + points > t.length) break;
        continue;
      }
      if (next.first === t.length) {
        whole = next;
        fewest = takes - 1;
        break;
      }
      if (!(reached[takes]?.first >= next.first)) reached[takes] = next;
    }
  }
  return whole && curveOf(whole, t[0]);
}

/** The arc that reaches farthest beyond point `beyond` from one of two beginnings, the first where both reach as far; null where none does. */
function farthestArc(
  fitter: ArcFitter,
  [from, corner]: readonly [ArcReach, ArcReach | null],
  points: number,
  beyond: number,
): ArcReach | null {
  const next = fitter.longest(from, points, beyond);
  const cornered = corner && fitter.longest(corner, points, next?.first ?? beyond);
  return cornered && !(next && next.first >= cornered.first) ? cornered : next;
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

/** How far some arcs reach. */
interface ArcReach {
  /** Where the next arc begins: the first point that it has to follow, its count, and its place, which is free where there is no arc before. */
  readonly first: number;
  readonly t: number;
  readonly at: CurvePoint | null;
  /** How many points lie farther off than is asked. */
  readonly outliers: number;
  /** The last arc, from where those before it reach. */
  readonly arc: {
    readonly from: ArcReach;
    readonly start: CurvePoint;
    readonly points: readonly CurvePoint[];
  } | null;
}

function curveOf(whole: ArcReach, from: number): Curve {
  const arcs: Arc[] = [];
  let start: CurvePoint = [];
  for (let reach = whole; reach.arc !== null; reach = reach.arc.from) {
    arcs.unshift({ to: reach.t, points: reach.arc.points });
    start = reach.arc.start;
  }
  return { from, start, arcs };
}

/** Fits single arcs to the points of a line. What is found last stands in its fields until the next is looked for. */
class ArcFitter {
  private readonly channels: number;
  /** Of each point of the arc the first control point that it hangs on, and what they weigh. */
  private readonly firsts: Int32Array;
  private readonly weights: Float64Array;
  /** The matrix by its diagonals, and the right sides. */
  private readonly bands = new Float64Array(MOST_UNKNOWNS * (MOST_ORDER + 1));
  private readonly right: Float64Array;
  /** Control points of the last fit, the start first; furthest that a point lies off it, mm, and how many lie farther off than is asked. */
  private readonly control: Float64Array;
  private offMm = 0;
  private outliers = 0;

  constructor(
    private readonly t: ArrayLike<number>,
    private readonly values: readonly ArrayLike<number>[],
    private readonly near: Nearness,
  ) {
    this.channels = values.length;
    this.firsts = new Int32Array(t.length);
    this.weights = new Float64Array(t.length * (MOST_ORDER + 1));
    this.right = new Float64Array(MOST_UNKNOWNS * this.channels);
    this.control = new Float64Array((MOST_UNKNOWNS + 1) * this.channels);
  }

  /** The longest arc of so many control points, if it follows points up to number `beyond` at least: found by doubling and halving its length. */
  longest(from: ArcReach, size: number, beyond: number): ArcReach | null {
    const { t } = this;
    const last = t.length - 1;
    const shortest = from.first + size - (from.at === null ? 0 : 1);
    let end = Math.max(shortest, beyond);
    if (end > last || !this.follows(from, end, t[end], size)) return null;
    let offMm = this.offMm;
    let bad = last + 1;
    const reach = (to: number) => {
      if (this.follows(from, to, t[to], size)) [end, offMm] = [to, this.offMm];
      else bad = to;
    };
    for (let step = 2; end < last && bad > last; step *= 2) reach(Math.min(last, end + step));
    while (bad - end > 1) reach((end + bad) >> 1);
    if (end < last) {
      for (let back = 1; back <= CORNER_REACH && end - back >= shortest; back++) {
        this.fit(from, end - back, t[end - back], size);
        if (this.offMm < CORNER_GAIN * offMm) return this.reached(from, end - back, t[end - back], size);
      }
    }
    this.fit(from, end, t[end], size);
    return this.reached(from, end, t[end], size);
  }

  /** The last arc gone on with to the corner between its last point and the next; null where there is none. */
  cornerAfter({ first, t: ended, at, arc }: ArcReach): ArcReach | null {
    const { t, values } = this;
    const last = Math.min(t.length - 1, first + CORNER_POINTS - 1);
    if (arc === null || last === first) return null;
    const { from, start, points } = arc;
    const slope = slopeAt({ from: from.t, start: from.at ?? start, arcs: [{ to: ended, points }] }, ended);
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
      const there = (sumV - rise * sumT) / sum + rise * ended;
      const turn = rise - slope[c];
      toMeet -= turn * (there - at![c]);
      apart += turn * turn;
    });
    const gap = t[first] - ended;
    const way = apart > 0 ? toMeet / apart : 0;
    if (!(way > ON_POINT * gap && way < (1 - ON_POINT) * gap)) return null;
    return this.follows(from, first - 1, ended + way, points.length)
      ? this.reached(from, first - 1, ended + way, points.length)
      : null;
  }

  private follows(from: ArcReach, end: number, to: number, size: number): boolean {
    const { withinMm, outliers } = this.near;
    const stride = Math.floor((end - from.first) / (COARSE_POINTS * (size + 1)));
    if (stride > 1) {
      this.fit(from, end, to, size, stride);
      if (this.offMm > OUTLIERS_WITHIN_MM) return false;
    }
    this.fit(from, end, to, size);
    if (this.offMm <= withinMm) return true;
    const mayLieOff = Math.floor(outliers * this.t.length) - from.outliers;
    return this.outliers <= mayLieOff && this.offMm <= OUTLIERS_WITHIN_MM;
  }

  /** What the last fit reaches. */
  private reached(from: ArcReach, end: number, to: number, size: number): ArcReach {
    const { channels, control } = this;
    const point = (n: number): CurvePoint => Array.from(control.subarray(n * channels, (n + 1) * channels));
    const points = Array.from({ length: size }, (_, n) => point(n + 1));
    const start = from.arc === null ? point(0) : from.arc.start;
    return {
      first: end + 1,
      t: to,
      at: points[size - 1],
      outliers: from.outliers + this.outliers,
      arc: { from, start, points },
    };
  }

  /** Least squares for the control points of an arc from where others end to count `to`, over every `stride`-th point up to number `end`; for its start as well, where that is free. */
  private fit(from: ArcReach, end: number, to: number, size: number, stride = 1): void {
    const { t, channels, control } = this;
    const order = Math.min(MOST_ORDER, size);
    const fixed = from.at === null ? 0 : 1;
    const unknowns = size + 1 - fixed;
    this.bands.fill(0, 0, unknowns * (MOST_ORDER + 1));
    this.right.fill(0, 0, unknowns * channels);
    if (from.at !== null) for (let c = 0; c < channels; c++) control[c] = from.at[c];
    const span = to - from.t;
    for (let i = from.first; i <= end; i += stride) {
      this.firsts[i] = weigh(size, (t[i] - from.t) / span, this.weights, i * (MOST_ORDER + 1));
      this.addPoint(i, order, fixed);
    }
    this.solve(unknowns, fixed);
    this.measure(from.first, end, order, stride);
  }

  private addPoint(i: number, order: number, fixed: number): void {
    const { weights, bands, right, channels, values, control } = this;
    const at = i * (MOST_ORDER + 1);
    const first = this.firsts[i] - fixed;
    for (let p = first < 0 ? 1 : 0; p <= order; p++) {
      const weight = weights[at + p];
      const row = (first + p) * (MOST_ORDER + 1);
      for (let q = p; q <= order; q++) bands[row + q - p] += weight * weights[at + q];
      for (let c = 0; c < channels; c++) {
        const rest = first < 0 ? values[c][i] - weights[at] * control[c] : values[c][i];
        right[(first + p) * channels + c] += weight * rest;
      }
    }
  }

  /** Elimination without a search for pivots: the matrix is symmetric and positive definite, and no control point weighs with one that is more than the order away. */
  private solve(n: number, fixed: number): void {
    const { bands, right, channels, control } = this;
    const width = MOST_ORDER + 1;
    for (let p = 0; p < n; p++) {
      for (let d = 1; d < width && p + d < n; d++) {
        const f = bands[p * width + d] / bands[p * width];
        for (let k = d; k < width; k++) bands[(p + d) * width + k - d] -= f * bands[p * width + k];
        for (let c = 0; c < channels; c++) right[(p + d) * channels + c] -= f * right[p * channels + c];
      }
    }
    for (let p = n - 1; p >= 0; p--) {
      for (let c = 0; c < channels; c++) {
        let value = right[p * channels + c];
        for (let d = 1; d < width && p + d < n; d++)
          value -= bands[p * width + d] * control[(p + d + fixed) * channels + c];
        control[(p + fixed) * channels + c] = value / bands[p * width];
      }
    }
  }

  private measure(first: number, end: number, order: number, stride: number): void {
    const { weights, firsts, channels, values, control } = this;
    const asked = this.near.withinMm ** 2;
    let [most, outliers] = [0, 0];
    for (let i = first; i <= end; i += stride) {
      let square = 0;
      for (let c = 0; c < channels; c++) {
        let off = -values[c][i];
        for (let p = 0; p <= order; p++)
          off += weights[i * (MOST_ORDER + 1) + p] * control[(firsts[i] + p) * channels + c];
        square += off * off;
      }
      if (!(square <= asked)) outliers++;
      if (!(square <= most)) most = square;
    }
    this.offMm = Number.isFinite(most) ? Math.sqrt(most) : Number.POSITIVE_INFINITY;
    this.outliers = outliers;
  }
}
