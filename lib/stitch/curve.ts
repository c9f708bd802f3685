/**
 * A line in few numbers: arcs end to end over the count of rows. An arc of one control point is straight, of two or more a spline of second or third order whose
 * knots are evenly apart in that count (de Boor's, clamped at both ends, from memory). Control points grow, turn and move as the line does.
 *
 * A point of a curve has one coordinate (a width) or two (a place); all points of a curve have as many.
 */

export type CurvePoint = readonly number[];

export interface Arc {
  /** The count at which it ends. */
  readonly to: number;
  /** Control points after the one where the arc before ended, mm. At least one; the last is its end. */
  readonly points: readonly CurvePoint[];
}

export interface Curve {
  /** The count at which it begins. */
  readonly from: number;
  readonly start: CurvePoint;
  /** None: the curve stays where it is. */
  readonly arcs: readonly Arc[];
}

/** How many numbers a curve takes whose first and last count are known. */
export const numbersInCurve = ({ start, arcs }: Curve): number =>
  start.length +
  Math.max(0, arcs.length - 1) +
  arcs.reduce((sum, { points }) => sum + start.length * points.length, 0);

export const MOST_ORDER = 3;

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
  const knot = (k: number) => Math.max(0, Math.min(spans, k)) / spans;
  const weights = new Float64Array(order + 1);
  const first = weigh(points, u, weights, 0);
  return {
    first,
    weights: [...weights],
    slopes: () => {
      const lower = new Float64Array(order + 1);
      weigh(points, u, lower, 0, order - 1);
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

/**
 * What the control points of an arc weigh at `u`, put into `out` from `at` on; the number of the first of them is returned.
 *
 * @param points control points after the first
 * @param upTo the order up to which that is worked out
 */
export function weigh(
  points: number,
  u: number,
  out: Float64Array,
  at: number,
  upTo = Math.min(MOST_ORDER, points),
): number {
  const spans = points - Math.min(MOST_ORDER, points) + 1;
  const v = u * spans;
  const first = Math.min(spans - 1, Math.floor(v));
  out[at] = 1;
  for (let d = 1; d <= upTo; d++) {
    let carried = 0;
    for (let j = 0; j < d; j++) {
      const low = Math.max(0, first + 1 + j - d);
      const high = Math.min(spans, first + 1 + j);
      const share = out[at + j] / (high - low);
      out[at + j] = carried + (high - v) * share;
      carried = (v - low) * share;
    }
    out[at + d] = carried;
  }
  return first;
}
