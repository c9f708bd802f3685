/** The two edges of a section in few numbers: each told by itself, or both by their center line, or both along the rows of a lattice. */
import { type Curve, curveAt, numbersInCurve, slopeAt } from './curve.js';
import { type Edge, type EdgePoint, edgeAt } from './edge.js';
import { fitCurve, type Nearness } from './fit-curve.js';
import {
  type LatticeRows,
  latticeRow,
  numbersInRows,
  placeOnLattice,
  type RowLattice,
  unitAt,
} from './row-lattice.js';

/** All curves run over the count of rows; see {@link EditableSection}. Lengths and places in mm. */
export type EdgeCurves =
  /** Two lines, as a shape with edges of its own has them. */
  | { readonly form: 'edges'; readonly a: Curve; readonly b: Curve }
  /** A stroke: the center line, half the width square to it on the side of edge A, and how far edge A is ahead of the center along it (and B behind): a slant. */
  | { readonly form: 'center'; readonly center: Curve; readonly half: Curve; readonly lead: Curve }
  /** An area: where its rows are on the lattice of the whole area, and how far along them they end. */
  | ({ readonly form: 'rows'; readonly a: Curve; readonly b: Curve } & LatticeRows);

export type Side = 'a' | 'b';

export function numbersInEdges(edges: EdgeCurves): number {
  switch (edges.form) {
    case 'edges':
      return numbersInCurve(edges.a) + numbersInCurve(edges.b);
    case 'center':
      return numbersInCurve(edges.center) + numbersInCurve(edges.half) + numbersInCurve(edges.lead);
    case 'rows':
      return numbersInRows(edges) + numbersInCurve(edges.a) + numbersInCurve(edges.b);
  }
}

/** Where an edge is at a count, mm. */
export function placeOnEdge(edges: EdgeCurves, lattice: RowLattice | null, side: Side, t: number): EdgePoint {
  switch (edges.form) {
    case 'edges':
      return curveAt(edges[side], t) as EdgePoint;
    case 'center': {
      const [x, y] = curveAt(edges.center, t);
      const [ux, uy] = direction(edges.center, t);
      const way = side === 'a' ? 1 : -1;
      const half = way * curveAt(edges.half, t)[0];
      const lead = way * curveAt(edges.lead, t)[0];
      return [x + ux * lead - uy * half, y + uy * lead + ux * half];
    }
    case 'rows':
      return placeOnLattice(lattice!, latticeRow(edges, t), curveAt(edges[side], t)[0]);
  }
}

function direction(center: Curve, t: number): EdgePoint {
  const [vx, vy] = slopeAt(center, t);
  const length = Math.hypot(vx, vy);
  return length > 0 ? [vx / length, vy / length] : [1, 0];
}

/** What several curves may be off one by one, for a share of what they may be off together. */
const CENTER_SHARE = 0.7;
const HALF_SHARE = 0.6;
const ROWS_SHARE = 0.9;

/** The form of two edges by themselves that takes the fewest numbers; null where all take more than `most`. */
export function fitEdges(a: Edge, b: Edge, near: Nearness, most: number): EdgeCurves | null {
  const center = fitCenter(a, b, near, most);
  const each = fitEach(a, b, near, center === null ? most : numbersInEdges(center) - 1);
  return each ?? center;
}

/** The edges of a section whose rows are on a lattice, along these. */
export function fitEdgesOnLattice(
  a: Edge,
  b: Edge,
  { angleDeg }: RowLattice,
  rows: LatticeRows,
  near: Nearness,
  most: number,
): EdgeCurves | null {
  const [ux, uy] = unitAt(angleDeg);
  const along = ({ t, x, y }: Edge, most: number) =>
    fitCurve(
      t,
      [x.map((px, k) => px * ux + y[k] * uy)],
      { ...near, withinMm: ROWS_SHARE * near.withinMm },
      most,
    );
  const onA = along(a, most - 3);
  const onB = onA && along(b, most - 2 - numbersInCurve(onA));
  return onA && onB && { form: 'rows', ...rows, a: onA, b: onB };
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
