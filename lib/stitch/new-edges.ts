/** Where the edges of a section come to lie, and what is told along its rows. */
import { distance } from '../core/distance.js';
import type { Edge, Place } from './edge.js';
import type { RowInside, SectionShape } from './section-shape.js';

/** A section in the enlarged design. */
export interface NewEdges {
  readonly a: Edge;
  readonly b: Edge;
  /** How far a short swing's end lies off its edge, from how far it did. */
  readonly off: (place: Place) => Place;
  /** How many times as long the way from count `k` to `k + 1` is: as many rows more there are. */
  readonly grown: Float64Array;
  /** Counts by which the edges go on beyond the first and the last row. */
  readonly before: number;
  readonly after: number;
  /** Distance of neighbouring rows, mm (of a column: of neighbouring points on an edge). */
  readonly spacingMm: number;
  /** The scale on which places along rows are told. */
  readonly scale: RowScale;
}

/** Where edge A is on the scale of places along rows, for a row as found and for a row as laid, mm. */
export interface RowScale {
  found(row: RowInside): number;
  laid(ax: number, ay: number, bx: number, by: number): number;
}

/** Rows each told from their own middle, as the swings of a column are. */
export const FROM_THE_MIDDLE: RowScale = {
  found: ({ ax, ay, bx, by }) => -distance(ax, ay, bx, by) / 2,
  laid: (ax, ay, bx, by) => -distance(ax, ay, bx, by) / 2,
};

/** Edges and spacing as they are. */
export function unchanged({ a, b, span }: SectionShape): NewEdges {
  return {
    a: a.line,
    b: b.line,
    off: (place) => place,
    grown: new Float64Array(span).fill(1),
    before: 0,
    after: 0,
    spacingMm: 1,
    scale: FROM_THE_MIDDLE,
  };
}

/**
 * Rows of a fill, all told from one line across them through their middle: so needle points of neighbouring rows stay beside each other.
 *
 * @param axis, newAxis direction of the rows as found and as laid
 * @param to where a place comes to lie
 */
export function sideBySide(
  rows: readonly RowInside[],
  axis: Place,
  newAxis: Place,
  to: (x: number, y: number) => Place,
): RowScale {
  let way = 0;
  const centre: Place = [0, 0];
  for (const { ax, ay, bx, by } of rows) {
    way += (bx - ax) * axis[0] + (by - ay) * axis[1];
    centre[0] += (ax + bx) / (2 * rows.length);
    centre[1] += (ay + by) / (2 * rows.length);
  }
  const along = (axis: Place, zero: Place) => {
    const unit = Math.sign(way) / Math.hypot(...axis);
    return (x: number, y: number) => ((x - zero[0]) * axis[0] + (y - zero[1]) * axis[1]) * unit;
  };
  const found = along(axis, centre);
  return { found: ({ ax, ay }) => found(ax, ay), laid: along(newAxis, to(...centre)) };
}
