import { between, distance, evenly, lengthsAlong, type Point, placeAt, stepped } from './plane.js';

/**
 * A column to be sewn in satin: two rails with as many points each, one pair for every place of the centre line,
 * which runs from the column's start to its end. `left` is to the left of that direction.
 */
export interface Column {
  readonly left: readonly Point[];
  readonly right: readonly Point[];
  readonly centre: readonly Point[];
  readonly along: readonly number[];
  readonly lengthMm: number;
  /** The end runs over the start: a ring. */
  readonly ring: boolean;
}

function columnOf(left: readonly Point[], right: readonly Point[], ring: boolean): Column {
  const centre = left.map((p, i) => between(p, right[i], 0.5));
  const along = lengthsAlong(centre);
  return { left, right, centre, along, lengthMm: along[along.length - 1], ring };
}

/** Width in mm at a place, from how upright the centre line is there (0 lies flat, 1 stands) and how far along it is (0..1). */
export type WidthRule = (upright: number, part: number) => number;

/** A column about a centre line; a ring's path has to come back to where it starts. */
export function columnAlong(path: readonly Point[], width: number | WidthRule, ring = false): Column {
  let centre = stepped(path, 0.2);
  if (ring) {
    // A ring is closed by sewing on over its first stitches.
    const overlap = stepped(centre.slice(0, 7), 0.2);
    centre = [...centre, ...overlap.slice(1)];
  }
  const left: Point[] = [];
  const right: Point[] = [];
  const last = centre.length - 1;
  for (let i = 0; i <= last; i++) {
    const a = ring && i === 0 ? centre[last - 7] : centre[Math.max(0, i - 1)];
    const b = centre[Math.min(last, i + 1)];
    const d = distance(a, b);
    const tx = (b.x - a.x) / d;
    const ty = (b.y - a.y) / d;
    const half = (typeof width === 'number' ? width : width(Math.abs(ty), i / last)) / 2;
    left.push({ x: centre[i].x - ty * half, y: centre[i].y + tx * half });
    right.push({ x: centre[i].x + ty * half, y: centre[i].y - tx * half });
  }
  return columnOf(left, right, ring);
}

/** A column between two rails that are followed at the same pace. */
export function columnBetween(left: readonly Point[], right: readonly Point[]): Column {
  const longest = Math.max(...[left, right].map((rail) => lengthsAlong(rail)[rail.length - 1]));
  const count = Math.max(4, Math.ceil(longest / 0.2));
  return columnOf(evenly(left, count), evenly(right, count), false);
}

/** The same column sewn from its other end. */
export function turnedRound(column: Column): Column {
  return columnOf([...column.right].reverse(), [...column.left].reverse(), column.ring);
}

/** The column with every point moved. */
export function columnMoved(column: Column, move: (p: Point) => Point): Column {
  return columnOf(column.left.map(move), column.right.map(move), column.ring);
}

/** Column widened by `mm` on each side, to make up for the fabric being pulled in. */
export function widened(column: Column, mm: number): Column {
  const grow = (from: Point, over: Point): Point => {
    const d = distance(from, over);
    return between(over, from, (d + mm) / d);
  };
  return columnOf(
    column.left.map((p, i) => grow(p, column.right[i])),
    column.right.map((p, i) => grow(p, column.left[i])),
    column.ring,
  );
}

/** What a column is like at one place of its length. */
export interface Across {
  readonly left: Point;
  readonly right: Point;
  readonly centre: Point;
  /** Width at right angles to the centre line, mm. */
  readonly widthMm: number;
  /** Length of each rail that goes with 1 mm of centre line. */
  readonly stretchLeft: number;
  readonly stretchRight: number;
}

export function across(column: Column, s: number): Across {
  const { left, right, centre, along, lengthMm } = column;
  const a = Math.max(0, s - 0.3);
  const b = Math.min(lengthMm, s + 0.3);
  const at = (rail: readonly Point[], t: number): Point => placeAt(rail, along, t);
  const [c0, c1] = [at(centre, a), at(centre, b)];
  const step = distance(c0, c1);
  const l = at(left, s);
  const r = at(right, s);
  const nx = -(c1.y - c0.y) / step;
  const ny = (c1.x - c0.x) / step;
  return {
    left: l,
    right: r,
    centre: at(centre, s),
    widthMm: Math.abs((l.x - r.x) * nx + (l.y - r.y) * ny),
    stretchLeft: distance(at(left, a), at(left, b)) / step,
    stretchRight: distance(at(right, a), at(right, b)) / step,
  };
}
