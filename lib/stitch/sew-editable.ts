/** Sews what a description says. */
import { curveAt } from './curve.js';
import type { Place } from './edge.js';
import { type EdgeCurves, placeOnEdge, type Side } from './edge-curves.js';
import type { EditableObject, EditableSection } from './editable.js';
import { insideOf, type RowSpan } from './inside-row.js';
import { type RowInside, type SectionEdge, type SectionShape, shapeFrom } from './section-shape.js';
import { sewSection, unchanged } from './sew-section.js';

/** Needle points, mm. */
export interface SewnPoints {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/** The needle points of an object in sewing order, mm. */
export function sewEditable({ parts }: EditableObject): SewnPoints {
  const x: number[] = [];
  const y: number[] = [];
  for (const part of parts) {
    if (part.kind === 'way') {
      for (let n = 0; n < part.stitches; n++) {
        const [px, py] = curveAt(part.curve, n);
        x.push(px);
        y.push(py);
      }
      continue;
    }
    const shape = rowsOf(part);
    const sewn = sewSection(shape, unchanged(shape), part.joined, false);
    for (let n = 0; n < sewn.x.length; n++) {
      x.push(sewn.x[n]);
      y.push(sewn.y[n]);
    }
  }
  return { x, y };
}

/** The rows of a section as its description has them: what is sewn anew between edges that have been moved. */
export function rowsOf(section: EditableSection): SectionShape {
  const { joined, swings, inside, odd } = section;
  const { a, b, rows } = rowEnds(section);
  const known = new Map(odd.map((row) => [row.row, row]));
  const all = rows.map((row): RowInside => {
    const odd = known.get(row.k);
    const places = insideOf(inside, row, odd);
    return {
      ax: row.a[0],
      ay: row.a[1],
      bx: row.b[0],
      by: row.b[1],
      inside: places,
      aside: (odd && 'atMm' in odd && odd.asideMm) || places.map(() => 0),
    };
  });
  return shapeFrom(all, joined, swings, { a, b });
}

/** The two edges of a section and the rows between them, nothing inside these. */
export function rowEnds(section: Pick<EditableSection, 'joined' | 'rows' | 'edges' | 'off'>): {
  readonly a: SectionEdge;
  readonly b: SectionEdge;
  readonly rows: readonly RowSpan[];
} {
  const { joined, rows } = section;
  const a = endsOf(section, 'a');
  const b = endsOf(section, 'b');
  return {
    a: a.edge,
    b: b.edge,
    rows: Array.from({ length: rows }, (_, k): RowSpan => {
      const [ta, tb] = !joined ? [k, k] : k % 2 === 1 ? [k + 1, k] : [k, k + 1];
      return { k, a: a.at(ta), b: b.at(tb) };
    }),
  };
}

/** The direction from an edge to where the row that ends there comes from. */
export function inwards(edges: EdgeCurves, side: Side, t: number, joined: boolean): Place {
  const [ex, ey] = placeOnEdge(edges, side, t);
  const goal = placeOnEdge(edges, side === 'a' ? 'b' : 'a', joined ? (t > 0 ? t - 1 : t + 1) : t);
  const length = Math.hypot(goal[0] - ex, goal[1] - ey) || 1;
  return [(goal[0] - ex) / length, (goal[1] - ey) / length];
}

/** Where rows end on one edge, by their count. */
function endsOf(
  { joined, rows, edges, off }: Pick<EditableSection, 'joined' | 'rows' | 'edges' | 'off'>,
  side: Side,
): { edge: SectionEdge; at(t: number): Place } {
  const ends: number[] = [];
  const last = joined ? rows : rows - 1;
  for (let t = joined && side === 'b' ? 1 : 0; t <= last; t += joined ? 2 : 1) ends.push(t);
  const apart = new Map<number, Place>();
  const numbers = new Map(ends.map((t, n) => [t, n]));
  const put = (t: number, to: (ex: number, ey: number) => Place) => {
    const n = numbers.get(t);
    if (n !== undefined) apart.set(n, to(...placeOnEdge(edges, side, t)));
  };
  for (const { first, step, ends: many, depth } of off[side].short) {
    for (let k = 0; k < many; k++) {
      const t = first + k * step;
      const mm = curveAt(depth, t)[0];
      const [ux, uy] = inwards(edges, side, t, joined);
      put(t, () => [ux * mm, uy * mm]);
    }
  }
  for (const { t, place } of off[side].placed) put(t, (ex, ey) => [place[0] - ex, place[1] - ey]);
  const full = ends.filter((_, n) => !apart.has(n));
  const line = full.map((t) => placeOnEdge(edges, side, t));
  return {
    edge: { line: { t: full, x: line.map(([px]) => px), y: line.map(([, py]) => py) }, ends, off: apart },
    at: (t: number): Place => {
      const [px, py] = placeOnEdge(edges, side, t);
      const by = apart.get(numbers.get(t)!);
      return by ? [px + by[0], py + by[1]] : [px, py];
    },
  };
}
