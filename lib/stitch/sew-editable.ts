/** Sews what a description says. */
import { distance } from '../core/distance.js';
import { sewBlend } from './blend.js';
import { curveAt } from './curve.js';
import { type EdgePoint, edgeAt } from './edge.js';
import { type EdgeCurves, placeOnEdge, type Side } from './edge-curves.js';
import type { EditableObject, EditableSection, Leg, Way } from './editable.js';
import { insideOf, type RowSpan } from './inside-row.js';
import { unchanged } from './new-edges.js';
import type { RowLattice } from './row-lattice.js';
import { IN_ORDER, type SectionPattern, turnOf } from './section-pattern.js';
import {
  type RowInside,
  type SectionEdge,
  type SectionShape,
  shapeFrom,
  stepsOver,
  stitchesOver,
} from './section-shape.js';
import { sewSection } from './sew-section.js';

/** Needle points, mm. */
export interface SewnPoints {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** The needle points of an object in sewing order, mm. */
export function sewEditable(object: EditableObject): SewnPoints {
  const sewn = object.parts.map((part) => {
    if (part.kind === 'way') return null;
    if (part.kind === 'blend') return sewBlend(part);
    const shape = rowsOf(object, part);
    return sewSection(shape, unchanged(shape), () => patternOf(object, part), part.joined, false);
  });
  const x: number[] = [];
  const y: number[] = [];
  object.parts.forEach((part, n) => {
    const section = sewn[n];
    if (section !== null) {
      for (let k = 0; k < section.x.length; k++) {
        x.push(section.x[k]);
        y.push(section.y[k]);
      }
      return;
    }
    const next = sewn[n + 1];
    sewWay(
      part as Way,
      object.travelMm ?? Number.POSITIVE_INFINITY,
      next ? [next.x[0], next.y[0]] : null,
      x,
      y,
    );
  });
  return { x, y };
}

const numbersOf = ({ edges }: Pick<EditableSection, 'edges'>) => (edges.form === 'rows' ? edges : IN_ORDER);

/** Where the needle goes down inside the rows of a section, for rows between other edges. */
export const patternOf = (
  { inside }: Pick<EditableObject, 'inside'>,
  section: EditableSection,
): SectionPattern => ({
  inside,
  phasesMm: section.phasesMm,
  odd: new Map(section.odd.map((row) => [row.row, row])),
  rows: numbersOf(section),
});

function sewWay(
  { start, legs, onwards }: Way,
  travelMm: number,
  next: EdgePoint | null,
  x: number[],
  y: number[],
): void {
  if (start !== null) {
    x.push(start[0]);
    y.push(start[1]);
  }
  const leg = ({ stitches }: Pick<Leg, 'stitches'>, [tx, ty]: EdgePoint, sewn: 0 | 1) => {
    const [fx, fy] = [x[x.length - 1], y[y.length - 1]];
    const count = stitches ?? stitchesOver(distance(fx, fy, tx, ty), travelMm);
    for (let k = 1; k < count + sewn; k++) {
      x.push(fx + ((tx - fx) * k) / count);
      y.push(fy + ((ty - fy) * k) / count);
    }
  };
  for (const each of legs) leg(each, each.to, 1);
  if (onwards !== null && next !== null) leg(onwards, next, 0);
}

/** The rows of a section as its description has them: what is sewn anew between edges that have been moved. */
export function rowsOf(
  { lattice, inside, stepMm }: Omit<EditableObject, 'parts' | 'travelMm'>,
  section: EditableSection,
): SectionShape {
  const { joined, swings, odd, phasesMm, oddSteps } = section;
  const { a, b, rows } = rowEnds(section, lattice);
  const known = new Map(odd.map((row) => [row.row, row]));
  const steps = joined ? [] : stepsTold(rows, stepMm);
  const bent = new Map<number, readonly EdgePoint[]>();
  for (const step of oddSteps) {
    steps[step.row] = step.stitches;
    bent.set(step.row, step.bent);
  }
  const all = rows.map((row): RowInside => {
    const odd = known.get(row.k);
    const places = insideOf(inside, row, phasesMm, odd);
    return {
      ax: row.a[0],
      ay: row.a[1],
      bx: row.b[0],
      by: row.b[1],
      inside: places,
      aside: (odd && 'atMm' in odd && odd.asideMm) || places.map(() => 0),
      steps: steps[row.k] ?? 0,
      bent: bent.get(row.k) ?? [],
    };
  });
  return shapeFrom(all, joined, swings, { a, b });
}

/** Stitches of the step over to each row, but for odd ones. */
export function stepsTold(rows: readonly RowSpan[], stepMm: number | null): number[] {
  const ends = rows.map(({ a, b }) => ({ ax: a[0], ay: a[1], bx: b[0], by: b[1] }));
  return [0, ...stepsOver(ends).map((mm) => (stepMm === null ? 1 : stitchesOver(mm, stepMm)))];
}

type RowEndsOf = Pick<EditableSection, 'joined' | 'rows' | 'edges' | 'off'>;

/** The two edges of a section and the rows between them, nothing inside these. */
export function rowEnds(
  section: RowEndsOf,
  lattice: RowLattice | null,
): {
  readonly a: SectionEdge;
  readonly b: SectionEdge;
  readonly rows: readonly RowSpan[];
} {
  const { joined, rows } = section;
  const a = endsOf(section, lattice, 'a');
  const b = endsOf(section, lattice, 'b');
  return {
    a: a.edge,
    b: b.edge,
    rows: Array.from({ length: rows }, (_, k): RowSpan => {
      const [ta, tb] = !joined ? [k, k] : k % 2 === 1 ? [k + 1, k] : [k, k + 1];
      return { k, turn: turnOf(numbersOf(section), joined, k), a: a.at(ta), b: b.at(tb) };
    }),
  };
}

/** The direction from an edge to where the row that ends there comes from. */
export function inwards(
  edges: EdgeCurves,
  lattice: RowLattice | null,
  side: Side,
  t: number,
  joined: boolean,
): EdgePoint {
  const [ex, ey] = placeOnEdge(edges, lattice, side, t);
  const goal = placeOnEdge(edges, lattice, side === 'a' ? 'b' : 'a', joined ? (t > 0 ? t - 1 : t + 1) : t);
  const length = Math.hypot(goal[0] - ex, goal[1] - ey) || 1;
  return [(goal[0] - ex) / length, (goal[1] - ey) / length];
}

/** Where rows end on one edge, by their count. */
function endsOf(
  { joined, rows, edges, off }: RowEndsOf,
  lattice: RowLattice | null,
  side: Side,
): { edge: SectionEdge; at(t: number): EdgePoint } {
  const ends: number[] = [];
  const last = joined ? rows : rows - 1;
  for (let t = joined && side === 'b' ? 1 : 0; t <= last; t += joined ? 2 : 1) ends.push(t);
  const apart = new Map<number, EdgePoint>();
  for (const { first, step, ends: many, depth } of off[side].short) {
    for (let k = 0; k < many; k++) {
      const t = first + k * step;
      const mm = curveAt(depth, t)[0];
      const [ux, uy] = inwards(edges, lattice, side, t, joined);
      const [ex, ey] = placeOnEdge(edges, lattice, side, t);
      apart.set(t, [ex + ux * mm, ey + uy * mm]);
    }
  }
  for (const { t, place } of off[side].placed) apart.set(t, place);
  const full = ends.filter((t) => !apart.has(t));
  const places = full.map((t) => placeOnEdge(edges, lattice, side, t));
  const line = { t: full, x: places.map(([px]) => px), y: places.map(([, py]) => py) };
  const offLine = new Map<number, EdgePoint>();
  ends.forEach((t, n) => {
    const place = apart.get(t);
    if (place === undefined) return;
    const [ex, ey] = edgeAt(line, t);
    offLine.set(n, [place[0] - ex, place[1] - ey]);
  });
  return {
    edge: { line, ends, off: offLine },
    at: (t) => apart.get(t) ?? placeOnEdge(edges, lattice, side, t),
  };
}
