/** Where the edges of a section come to lie. */
import type { Edge, EdgePoint } from './edge.js';
import type { SectionShape } from './section-shape.js';

/** A section in the enlarged design. */
export interface NewEdges {
  readonly a: Edge;
  readonly b: Edge;
  /** Where a place comes to lie that is on no edge: a move along the axes. What is told from elsewhere than the edges goes by it. */
  readonly to: (x: number, y: number) => EdgePoint;
  /** How many times as long the way from count `k` to `k + 1` is: as many rows more there are. */
  readonly grown: Float64Array;
  /** Counts by which the edges go on beyond the first and the last row. */
  readonly before: number;
  readonly after: number;
  /** Distance of neighbouring rows, mm (of a column: of neighbouring points on an edge). */
  readonly spacingMm: number;
}

/** Edges and spacing as they are. */
export function unchanged({ a, b, span }: SectionShape): NewEdges {
  return {
    a: a.line,
    b: b.line,
    to: (x, y) => [x, y],
    grown: new Float64Array(span).fill(1),
    before: 0,
    after: 0,
    spacingMm: 1,
  };
}
