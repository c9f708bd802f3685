/** The two edges of a section in few numbers: each told by itself, or both by their center line, or both along one direction of rows. */
import { distance } from '../core/distance.js';
import { degToRad } from '../core/units.js';
import { type Curve, curveAt, fitCurve, type Nearness, numbersInCurve, slopeAt } from './curve.js';
import { type Edge, edgeAt, type Place } from './edge.js';

/** All curves run over the count of rows; see {@link EditableSection}. Lengths and places in mm. */
export type EdgeCurves =
  /** Two lines, as a shape with edges of its own has them. */
  | { readonly form: 'edges'; readonly a: Curve; readonly b: Curve }
  /** A stroke: the center line, half the width square to it on the side of edge A, and how far edge A is ahead of the center along it (and B behind): a slant. */
  | { readonly form: 'center'; readonly center: Curve; readonly half: Curve; readonly lead: Curve }
  /** An area: rows in one direction, how far across it each lies, and how far along it they end. */
  | {
      readonly form: 'rows';
      readonly angleDeg: number;
      readonly across: Curve;
      readonly a: Curve;
      readonly b: Curve;
    };

export type Side = 'a' | 'b';

export function numbersInEdges(edges: EdgeCurves): number {
  switch (edges.form) {
    case 'edges':
      return numbersInCurve(edges.a) + numbersInCurve(edges.b);
    case 'center':
      return numbersInCurve(edges.center) + numbersInCurve(edges.half) + numbersInCurve(edges.lead);
    case 'rows': {
      const angle = 1;
      return angle + numbersInCurve(edges.across) + numbersInCurve(edges.a) + numbersInCurve(edges.b);
    }
  }
}

/** Where an edge is at a count, mm. */
export function placeOnEdge(edges: EdgeCurves, side: Side, t: number): Place {
  switch (edges.form) {
    case 'edges':
      return curveAt(edges[side], t) as Place;
    case 'center': {
      const [x, y] = curveAt(edges.center, t);
      const [ux, uy] = direction(edges.center, t);
      const way = side === 'a' ? 1 : -1;
      const half = way * curveAt(edges.half, t)[0];
      const lead = way * curveAt(edges.lead, t)[0];
      return [x + ux * lead - uy * half, y + uy * lead + ux * half];
    }
    case 'rows': {
      const [ux, uy] = unit(edges.angleDeg);
      const along = curveAt(edges[side], t)[0];
      const across = curveAt(edges.across, t)[0];
      return [ux * along - uy * across, uy * along + ux * across];
    }
  }
}

const unit = (angleDeg: number): Place => [Math.cos(degToRad(angleDeg)), Math.sin(degToRad(angleDeg))];

function direction(center: Curve, t: number): Place {
  const [vx, vy] = slopeAt(center, t);
  const length = Math.hypot(vx, vy);
  return length > 0 ? [vx / length, vy / length] : [1, 0];
}

/** What several curves may be off one by one, for a share of what they may be off together. */
const CENTER_SHARE = 0.7;
const HALF_SHARE = 0.6;
const ROWS_SHARE = 0.8;

/** The form of two edges that takes the fewest numbers; null where all take more than `most`. */
export function fitEdges(a: Edge, b: Edge, near: Nearness, most: number): EdgeCurves | null {
  let best: EdgeCurves | null = null;
  let fewest = most + 1;
  for (const asForm of [fitRows, fitCenter, fitEach]) {
    const edges = asForm(a, b, near, fewest - 1);
    if (edges === null) continue;
    const numbers = numbersInEdges(edges);
    if (numbers >= fewest) continue;
    best = edges;
    fewest = numbers;
  }
  return best;
}

type FitEdges = (a: Edge, b: Edge, near: Nearness, most: number) => EdgeCurves | null;

const fitEach: FitEdges = (a, b, near, most) => {
  const onA = fitCurve(a.t, [a.x, a.y], near, most);
  const onB = onA && fitCurve(b.t, [b.x, b.y], near, most - numbersInCurve(onA));
  return onA && onB && { form: 'edges', a: onA, b: onB };
};

/** All counts at which one of two edges has an end. */
const countsOf = (a: Edge, b: Edge): number[] => [...new Set([...a.t, ...b.t])].sort((p, q) => p - q);

const fitCenter: FitEdges = (a, b, near, most) => {
  const t = countsOf(a, b);
  const ends = t.map((at) => [edgeAt(a, at), edgeAt(b, at)]);
  const middle = (c: 0 | 1) => ends.map(([p, q]) => (p[c] + q[c]) / 2);
  const center = fitCurve(
    t,
    [middle(0), middle(1)],
    { ...near, withinMm: CENTER_SHARE * near.withinMm, outliers: near.outliers / 2 },
    most - 2,
  );
  if (center === null || center.arcs.length === 0) return null;
  const swings = t.map((at, k) => {
    const [ux, uy] = direction(center, at);
    const [p, q] = ends[k];
    const [hx, hy] = [(p[0] - q[0]) / 2, (p[1] - q[1]) / 2];
    return { lead: hx * ux + hy * uy, half: hy * ux - hx * uy };
  });
  const nearEach = { withinMm: HALF_SHARE * near.withinMm, outliers: near.outliers / 2 };
  const rest = most - numbersInCurve(center);
  const half = fitCurve(t, [swings.map(({ half }) => half)], nearEach, rest - 1);
  const lead = half && fitCurve(t, [swings.map(({ lead }) => lead)], nearEach, rest - numbersInCurve(half));
  return half && lead && { form: 'center', center, half, lead };
};

const fitRows: FitEdges = (a, b, near, most) => {
  const angleDeg = rowDirection(a, b);
  const [ux, uy] = unit(angleDeg);
  const t = countsOf(a, b);
  const ends = ({ t, x, y }: Edge) => new Map(t.map((at, k) => [at, y[k] * ux - x[k] * uy]));
  const [onA, onB] = [ends(a), ends(b)];
  const across = fitCurve(
    t,
    [
      t.map((at) => {
        const [p, q] = [onA.get(at), onB.get(at)];
        return p === undefined ? q! : q === undefined ? p : (p + q) / 2;
      }),
    ],
    { withinMm: ROWS_SHARE * near.withinMm, outliers: 0 },
    most - 3,
  );
  if (across === null) return null;
  const along = ({ t, x, y }: Edge, most: number) =>
    fitCurve(
      t,
      [x.map((px, k) => px * ux + y[k] * uy)],
      { ...near, withinMm: ROWS_SHARE * near.withinMm },
      most,
    );
  const rest = most - 1 - numbersInCurve(across);
  const alongA = along(a, rest - 1);
  const alongB = alongA && along(b, rest - numbersInCurve(alongA));
  return alongA && alongB && { form: 'rows', angleDeg, across, a: alongA, b: alongB };
};

/** The direction that the ways across from edge to edge have in common, degrees in (−90, 90]; longer ones count more. */
function rowDirection(a: Edge, b: Edge): number {
  let c2 = 0;
  let s2 = 0;
  const add = ([px, py]: Place, [qx, qy]: Place) => {
    const [vx, vy] = [px - qx, py - qy];
    const length = distance(px, py, qx, qy);
    c2 += (vx * vx - vy * vy) * length;
    s2 += 2 * vx * vy * length;
  };
  const within = ({ t }: Edge, at: number) => at >= t[0] && at <= t[t.length - 1];
  a.t.forEach((at, k) => {
    if (within(b, at)) add([a.x[k], a.y[k]], edgeAt(b, at));
  });
  b.t.forEach((at, k) => {
    if (within(a, at)) add([b.x[k], b.y[k]], edgeAt(a, at));
  });
  return (Math.atan2(s2, c2) * 90) / Math.PI;
}
