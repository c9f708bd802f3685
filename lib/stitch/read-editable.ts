/** Reads an object of a design into the description that whoever digitized it may have had. */
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import { fitCurve, type Nearness } from './curve.js';
import type { Place } from './edge.js';
import { type EdgeCurves, fitEdges, placeOnEdge, type Side } from './edge-curves.js';
import {
  type EditableObject,
  type EditableSection,
  type EndsOff,
  numbersIn,
  type ShortEnds,
  type Way,
} from './editable.js';
import { findSections, type Section } from './find-sections.js';
import { type Row, type RowSpan, readInside } from './inside-row.js';
import { type RowInside, type SectionEdge, type SectionShape, shapeOf } from './section-shape.js';
import { inwards, rowEnds, sewEditable } from './sew-editable.js';

/** At most this many numbers for each stitch, but {@link ALWAYS_NUMBERS} always: a short letter turns as often as a long one, in fewer stitches. */
export const NUMBERS_PER_STITCH = 1 / 5;
export const ALWAYS_NUMBERS = 40;
/** So far may needle points lie from where they were when the description is sewn again, mm: this share of them, and all. */
export const MOST_WITHIN_MM = 0.15;
export const MOST_SHARE = 0.95;
export const ALL_WITHIN_MM = 0.4;
/** How near edges are followed: as near as the numbers allow. The first is what rounding to the step of a file makes of a straight line. */
const NEARNESS: readonly Nearness[] = [
  { withinMm: 0.075, outliers: 0 },
  { withinMm: 0.11, outliers: 0 },
  { withinMm: 0.135, outliers: 0.03 },
];
const DEPTH_NEAR: Nearness = { withinMm: 0.12, outliers: 0 };
/** The same for the way from section to section. */
const WAY_NEAR: Nearness = { withinMm: 0.14, outliers: 0 };
/** Short ends that come again at so many intervals at most, and fewest that are a rule. */
const MOST_STEP = 4;
const FEWEST_SHORT = 3;

/** Why an object cannot be described. */
export type NotEditable = 'too-many-numbers' | 'sews-otherwise';

export type Reading =
  | { readonly editable: EditableObject; readonly sections: readonly Section[] }
  | { readonly editable: null; readonly why: NotEditable };

/** Most numbers in the description of an object of so many stitches. */
export const mostNumbers = (stitches: number): number =>
  Math.max(ALWAYS_NUMBERS, Math.floor(NUMBERS_PER_STITCH * stitches));

/**
 * An object's description, if sewing it again gives the stitches back. Runs have none.
 *
 * @param sections those of the object's top stitching, in sewing order; found anew if they are not given
 */
export function readEditable(
  stitches: Stitches,
  object: StitchObject,
  sections: readonly Section[] = findSections(stitches, [object]).filter(({ role }) => role === 'top'),
): Reading {
  const [first, last] = object.range;
  const count = last - first + 1;
  const most = mostNumbers(count);
  const shapes = sections.map((section) => shapeOf(stitches, section));
  let why: NotEditable = 'too-many-numbers';
  for (const near of NEARNESS) {
    const described = sections.map((_, n) => describe(shapes[n], sections[n].joined, near, most));
    if (described.includes(null)) continue;
    const editable = { parts: partsOf(stitches, object, sections, described as EditableSection[]) };
    if (numbersIn(editable) > most) continue;
    if (returns(stitches, object, editable)) return { editable, sections };
    why = 'sews-otherwise';
  }
  return { editable: null, why };
}

/** The sections and what is between them, in sewing order. */
function partsOf(
  { x, y }: Stitches,
  { range: [first, last] }: StitchObject,
  sections: readonly Section[],
  described: readonly EditableSection[],
): EditableObject['parts'] {
  const parts: (EditableSection | Way)[] = [];
  const way = (from: number, end: number) => {
    if (end <= from) return;
    const counts = Array.from({ length: end - from }, (_, k) => k);
    const places = [x.subarray(from, end), y.subarray(from, end)];
    const curve = fitCurve(counts, places, WAY_NEAR)!;
    parts.push({ kind: 'way', curve, stitches: counts.length });
  };
  let at = first;
  sections.forEach(({ from, to }, n) => {
    way(at, from[0]);
    parts.push(described[n]);
    at = to[to.length - 1] + 1;
  });
  way(at, last + 1);
  return parts;
}

/** Null where the edges take more numbers than `most`. */
function describe(
  shape: SectionShape,
  joined: boolean,
  near: Nearness,
  most: number,
): EditableSection | null {
  const { swings } = shape;
  const edges = fitEdges(shape.a.line, shape.b.line, near, most);
  if (edges === null) return null;
  const ends = shape.rows.map(({ ax, ay, bx, by }): Record<Side, Place> => ({ a: [ax, ay], b: [bx, by] }));
  const off = {
    a: endsOff(shape.a, ends, edges, 'a', joined),
    b: endsOff(shape.b, ends, edges, 'b', joined),
  };
  const sewn = { joined, rows: ends.length, edges, off };
  // needle points inside are told along the rows as they will be sewn, not as they were
  const rows = rowEnds(sewn).rows.map((row) => alongRow(row, shape.rows[row.k]));
  return { kind: 'section', swings, ...sewn, ...readInside(rows) };
}

/** A row as it will be sewn, with the needle points inside it as found. */
function alongRow(row: RowSpan, { ax, ay, bx, by, inside, aside }: RowInside): Row {
  const { a, b } = row;
  const was = distance(ax, ay, bx, by) || 1;
  const [ux, uy] = [(bx - ax) / was, (by - ay) / was];
  const length = distance(...a, ...b) || 1;
  const [vx, vy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const points = inside.map((mm, n): Place => {
    const [x, y] = [ax + ux * mm - uy * aside[n] - a[0], ay + uy * mm + ux * aside[n] - a[1]];
    return [x * vx + y * vy, y * vx - x * vy];
  });
  return { ...row, inside: points.map(([along]) => along), aside: points.map(([, aside]) => aside) };
}

/** The ends that do not lie on an edge: in groups that a rule makes, and one by one. */
function endsOff(
  { ends, off }: SectionEdge,
  rows: readonly Readonly<Record<Side, Place>>[],
  edges: EdgeCurves,
  side: Side,
  joined: boolean,
): EndsOff {
  const placeOf = (n: number): Place => rows[rowAt(ends[n], rows.length, joined)][side];
  /** How far an end stops short of the edge along its row. */
  const depthOf = (n: number): number => {
    const [px, py] = placeOf(n);
    const [ex, ey] = placeOnEdge(edges, side, ends[n]);
    const [ux, uy] = inwards(edges, side, ends[n], joined);
    return (px - ex) * ux + (py - ey) * uy;
  };
  const short: ShortEnds[] = [];
  const placed: { t: number; place: Place }[] = [];
  for (let rest = [...off.keys()].sort((p, q) => p - q); rest.length > 0; ) {
    const run = longestRun(rest);
    rest = rest.filter((n) => !run.includes(n));
    const t = run.map((n) => ends[n]);
    const depth = run.length < FEWEST_SHORT ? null : fitCurve(t, [run.map(depthOf)], DEPTH_NEAR, run.length);
    if (depth === null) placed.push(...run.map((n) => ({ t: ends[n], place: placeOf(n) })));
    else short.push({ first: t[0], step: t[1] - t[0], ends: t.length, depth });
  }
  return { short, placed };
}

/** The row that is asked for where an end of that count goes to. */
export const rowAt = (t: number, rows: number, joined: boolean): number =>
  Math.max(0, Math.min(rows - 1, joined && t > 0 ? t - 1 : t));

/** The longest of some ascending numbers that are evenly apart, begun with the first. */
function longestRun(numbers: readonly number[]): number[] {
  const known = new Set(numbers);
  let best = [numbers[0]];
  for (let step = 1; step <= MOST_STEP; step++) {
    const run: number[] = [];
    for (let n = numbers[0]; known.has(n); n += step) run.push(n);
    if (run.length > best.length) best = run;
  }
  return best;
}

/** Whether a description, sewn, gives the needle points of an object back: each has one near it, and none is added elsewhere. */
function returns(
  { x, y }: Stitches,
  { range: [first, last] }: StitchObject,
  editable: EditableObject,
): boolean {
  const sewn = sewEditable(editable);
  const was = { x: x.subarray(first, last + 1), y: y.subarray(first, last + 1) };
  return returnsNear(was, sewn) && returnsNear(sewn, was);
}

interface Points {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
}

/** How far the first point, in order, may be from its like: rows that get a stitch more or less shift all that follow. */
const SHIFT = 12;

/** Whether points have others near them, in about the same order: nearly all very near, and none far. */
export function returnsNear(points: Points, others: Points): boolean {
  let far = 0;
  let at = 0;
  for (let i = 0; i < points.x.length; i++) {
    let best = Number.POSITIVE_INFINITY;
    let nearest = at;
    for (let j = Math.max(0, at - SHIFT); j <= Math.min(others.x.length - 1, at + SHIFT); j++) {
      const d =
        Math.hypot(points.x[i] - others.x[j], points.y[i] - others.y[j]) + 1e-6 * Math.abs(j - at - 1);
      if (d < best) {
        best = d;
        nearest = j;
      }
    }
    if (best > ALL_WITHIN_MM) return false;
    if (best > MOST_WITHIN_MM) far++;
    at = nearest;
  }
  return far <= (1 - MOST_SHARE) * points.x.length;
}
