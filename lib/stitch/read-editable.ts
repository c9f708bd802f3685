/** Reads an object of a design into the description that whoever digitized it may have had. */
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import type { Blend } from './blend.js';
import type { EdgePoint } from './edge.js';
import {
  type EdgeCurves,
  fitEdges,
  fitEdgesOnLattice,
  numbersInEdges,
  placeOnEdge,
  type Side,
} from './edge-curves.js';
import {
  type EditableObject,
  type EditableSection,
  type EndsOff,
  numbersIn,
  type ShortEnds,
  type Way,
} from './editable.js';
import { findSections, isTop, type Section } from './find-sections.js';
import { fitCurve, type Nearness } from './fit-curve.js';
import type { RowSpan } from './inside-row.js';
import { blendsOf } from './read-blend.js';
import { type Row, readInside } from './read-inside.js';
import { returnsNear } from './returns.js';
import { fitLattice, numbersInLattice, type RowLattice } from './row-lattice.js';
import {
  type RowInside,
  type SectionEdge,
  type SectionShape,
  shapeOf,
  stitchesOver,
  usualStep,
} from './section-shape.js';
import { inwards, rowEnds, sewEditable, stepsTold } from './sew-editable.js';

/** At most this many numbers for each stitch, but {@link ALWAYS_NUMBERS} always: a short letter turns as often as a long one, in fewer stitches. */
const NUMBERS_PER_STITCH = 1 / 5;
const ALWAYS_NUMBERS = 40;
/** How near edges are followed: as near as the numbers allow. The first is what rounding to the step of a file makes of a straight line. */
const NEARNESS: readonly Nearness[] = [
  { withinMm: 0.075, outliers: 0 },
  { withinMm: 0.11, outliers: 0 },
  { withinMm: 0.122, outliers: 0.015 },
  { withinMm: 0.135, outliers: 0.03 },
  { withinMm: 0.14, outliers: 0.06 },
  { withinMm: 0.145, outliers: 0.1 },
];
/** An end of a row that would lie farther off is told by itself, mm. */
const END_OFF_MM = 0.3;
const DEPTH_NEAR: Nearness = { withinMm: 0.12, outliers: 0 };
/** The same for the way from section to section, mm. */
const WAY_WITHIN_MM = 0.14;
/** Short ends that come again at so many intervals at most, and fewest that are a rule. */
const MOST_STEP = 4;
const FEWEST_SHORT = 3;

/** Why an object cannot be described. */
export type NotEditable = 'too-many-numbers' | 'sews-otherwise';

export type EditableReading =
  | { readonly editable: EditableObject; readonly sections: readonly Section[] }
  | { readonly editable: null; readonly why: NotEditable };

/** Most numbers in the description of an object of so many stitches. */
const mostNumbers = (stitches: number): number =>
  Math.max(ALWAYS_NUMBERS, Math.floor(NUMBERS_PER_STITCH * stitches));

/**
 * An object's description, if sewing it again gives the stitches back. Runs have none.
 *
 * @param found the sections of the object's top stitching, in sewing order; found anew if they are not given
 */
export function readEditable(
  stitches: Stitches,
  object: StitchObject,
  found: readonly Section[] = findSections(stitches, [object], 'all').filter(isTop),
): EditableReading {
  const sections = found.flatMap(withoutStrays);
  const [first, last] = object.range;
  const count = last - first + 1;
  const most = mostNumbers(count);
  const shapes = sections.map((section) => shapeOf(stitches, section));
  let why: NotEditable = 'too-many-numbers';
  for (const near of NEARNESS) {
    const editable = describe(stitches, object, sections, shapes, near, most);
    if (editable === null || numbersIn(editable) > most) continue;
    if (returns(stitches, object, editable)) return { editable, sections };
    why = 'sews-otherwise';
  }
  const blended = object.kind === 'fill' ? describeBlended(stitches, object, most) : null;
  return blended ? { editable: blended, sections } : { editable: null, why };
}

/** An area whose rows are no straight ones between two edges, but change evenly from a first line to a last; null where it is none. */
function describeBlended(stitches: Stitches, object: StitchObject, most: number): EditableObject | null {
  const [first, last] = object.range;
  const points = Array.from(
    { length: last - first + 1 },
    (_, k): EdgePoint => [stitches.x[first + k], stitches.y[first + k]],
  );
  for (const { blend, end } of blendsOf(points, most)) {
    const parts = partsOf(stitches, object, [{ first, last: first + end - 1, part: blend }]);
    const editable: EditableObject = { lattice: null, inside: { kind: 'whole' }, stepMm: null, ...parts };
    if (numbersIn(editable) <= most && returns(stitches, object, editable)) return editable;
  }
  return null;
}

/** A section whose rows share their ends, cut where two do not: a stray needle point lies between them. */
function withoutStrays(section: Section): Section[] {
  const { from, to, joined, row } = section;
  const starts = [0];
  if (joined) for (let k = 1; k < from.length; k++) if (from[k] !== to[k - 1]) starts.push(k);
  return starts.map((start, n) => ({
    ...section,
    from: from.slice(start, starts[n + 1]),
    to: to.slice(start, starts[n + 1]),
    row: row + start,
  }));
}

/** Null where the edges take more numbers than `most`. */
function describe(
  stitches: Stitches,
  object: StitchObject,
  sections: readonly Section[],
  shapes: readonly SectionShape[],
  near: Nearness,
  most: number,
): EditableObject | null {
  // columns have edges of their own; only rows lie on a lattice
  const grid = shapes.some(({ swings }) => !swings)
    ? fitLattice(
        shapes.map(({ a, b }) => ({ a: a.line, b: b.line })),
        near,
        most,
      )
    : null;
  const lattice = grid?.lattice ?? null;
  const sewn: Pick<EditableSection, 'swings' | 'joined' | 'rows' | 'edges' | 'off'>[] = [];
  let numbers = lattice === null ? 0 : numbersInLattice(lattice);
  for (const [n, shape] of shapes.entries()) {
    const { joined } = sections[n];
    const [a, b] = [shape.a.line, shape.b.line];
    const edges = grid
      ? fitEdgesOnLattice(a, b, grid.lattice, grid.rows[n], near, most - numbers)
      : fitEdges(a, b, near, most - numbers);
    if (edges === null) return null;
    numbers += numbersInEdges(edges);
    const rows = shape.rows.length;
    const ends = shape.rows.map(
      ({ ax, ay, bx, by }): Record<Side, EdgePoint> => ({ a: [ax, ay], b: [bx, by] }),
    );
    const off = (side: Side) => endsOff(shape[side], ends, { edges, lattice, joined }, side);
    sewn.push({ swings: shape.swings, joined, rows, edges, off: { a: off('a'), b: off('b') } });
  }
  // needle points inside are told along the rows as they will be sewn, not as they were
  const along = sewn.map((section, n) =>
    rowEnds(section, lattice).rows.map((row) => alongRow(row, shapes[n].rows[row.k])),
  );
  const { inside, own } = readInside(along, lattice?.angleDeg);
  const stepMm = usualStep(shapes.flatMap(({ rows }) => rows));
  const described = sewn.map(
    (section, n): EditableSection => ({
      kind: 'section',
      ...section,
      phasesMm: own[n].phasesMm?.map((mm, k) => (along[n][k].inside.length > 0 ? mm : null)) ?? null,
      odd: own[n].odd,
      oddSteps: section.joined ? [] : oddSteps(shapes[n].rows, stepsTold(along[n], stepMm)),
    }),
  );
  const pieces = sections.map(({ from, to }, n) => ({
    first: from[0],
    last: to[to.length - 1],
    part: described[n],
  }));
  return { lattice, inside, stepMm, ...partsOf(stitches, object, pieces) };
}

const oddSteps = (rows: readonly RowInside[], told: readonly number[]): EditableSection['oddSteps'] =>
  rows.flatMap(({ steps, bent }, row) =>
    row === 0 || (steps === told[row] && bent.length === 0) ? [] : [{ row, stitches: steps, bent }],
  );

/** What is told of some stitches of an object. */
interface ToldStretch {
  readonly first: number;
  readonly last: number;
  readonly part: EditableSection | Blend;
}

/** Pieces and what is between them, in sewing order. */
function partsOf(
  stitches: Stitches,
  { range: [first, last] }: StitchObject,
  pieces: readonly ToldStretch[],
): Pick<EditableObject, 'parts' | 'travelMm'> {
  const parts: (ToldStretch['part'] | ReadWay)[] = [];
  let at = first;
  for (const piece of pieces) {
    if (piece.first > at) parts.push(readWay(stitches, at, piece.first, at === first, false));
    parts.push(piece.part);
    at = piece.last + 1;
  }
  if (at <= last) parts.push(readWay(stitches, at, last, at === first, true));
  const ways = parts.flatMap((part) =>
    part.kind === 'way' ? [...part.legs, part.onwards ?? []].flat() : [],
  );
  // a leg of one stitch may be longer than others would be let become
  const long = ways.filter(({ stitches }) => stitches > 1).map(({ mm, stitches }) => mm / stitches);
  const travelMm =
    ways.length === 0 ? null : Math.max(...(long.length > 0 ? long : ways.map(({ mm }) => mm))) + 0.05;
  const asTold = ({ stitches, mm }: ReadLeg) => (stitches === stitchesOver(mm, travelMm!) ? null : stitches);
  return {
    travelMm,
    parts: parts.map((part) =>
      part.kind === 'way'
        ? {
            ...part,
            legs: part.legs.map((leg) => ({ to: leg.to, stitches: asTold(leg) })),
            onwards: part.onwards && { stitches: asTold(part.onwards) },
          }
        : part,
    ),
  };
}

/** A leg as found, with its length. */
interface ReadLeg {
  readonly to: EdgePoint;
  readonly stitches: number;
  readonly mm: number;
}

interface ReadWay extends Way {
  readonly legs: readonly ReadLeg[];
  readonly onwards: ReadLeg | null;
}

/**
 * The needle points from one to the one before `to`, or to that one at the end of an object, as few straight legs of even stitches.
 *
 * @param begins whether nothing of the object is before it
 */
function readWay({ x, y }: Stitches, from: number, to: number, begins: boolean, ends: boolean): ReadWay {
  const isEven = (a: number, b: number) => {
    for (let i = a + 1; i < b; i++) {
      const f = (i - a) / (b - a);
      if (distance(x[i], y[i], x[a] + (x[b] - x[a]) * f, y[a] + (y[b] - y[a]) * f) > WAY_WITHIN_MM)
        return false;
    }
    return true;
  };
  const legs: ReadLeg[] = [];
  for (let a = begins ? from : from - 1; a < to; ) {
    let b = a + 1;
    while (b < to && isEven(a, b + 1)) b++;
    legs.push({ stitches: b - a, to: [x[b], y[b]], mm: distance(x[a], y[a], x[b], y[b]) });
    a = b;
  }
  const onwards = ends ? null : legs.pop()!;
  return { kind: 'way', start: begins ? [x[from], y[from]] : null, legs, onwards };
}

/** A row as it will be sewn, with the needle points inside it as found. */
function alongRow(row: RowSpan, { ax, ay, bx, by, inside, aside }: RowInside): Row {
  const { a, b } = row;
  const was = distance(ax, ay, bx, by) || 1;
  const [ux, uy] = [(bx - ax) / was, (by - ay) / was];
  const length = distance(...a, ...b) || 1;
  const [vx, vy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const points = inside.map((mm, n): EdgePoint => {
    const [x, y] = [ax + ux * mm - uy * aside[n] - a[0], ay + uy * mm + ux * aside[n] - a[1]];
    return [x * vx + y * vy, y * vx - x * vy];
  });
  return { ...row, inside: points.map(([along]) => along), aside: points.map(([, aside]) => aside) };
}

/** The ends that do not lie on an edge: in groups that a rule makes, and one by one. */
function endsOff(
  { ends, off }: SectionEdge,
  rows: readonly Readonly<Record<Side, EdgePoint>>[],
  { edges, lattice, joined }: { edges: EdgeCurves; lattice: RowLattice | null; joined: boolean },
  side: Side,
): EndsOff {
  const placeOf = (n: number): EdgePoint => rows[rowAt(ends[n], rows.length, joined)][side];
  /** How far an end stops short of the edge along its row. */
  const depthOf = (n: number): number => {
    const [px, py] = placeOf(n);
    const [ex, ey] = placeOnEdge(edges, lattice, side, ends[n]);
    const [ux, uy] = inwards(edges, lattice, side, ends[n], joined);
    return (px - ex) * ux + (py - ey) * uy;
  };
  /** How far it lies beside the row that it would end. */
  const asideOf = (n: number): number => {
    const [px, py] = placeOf(n);
    const [ex, ey] = placeOnEdge(edges, lattice, side, ends[n]);
    const [ux, uy] = inwards(edges, lattice, side, ends[n], joined);
    return Math.abs((px - ex) * uy - (py - ey) * ux);
  };
  const short: ShortEnds[] = [];
  const placed: { t: number; place: EdgePoint }[] = [];
  ends.forEach((t, n) => {
    if (!off.has(n) && distance(...placeOf(n), ...placeOnEdge(edges, lattice, side, t)) > END_OFF_MM)
      placed.push({ t, place: placeOf(n) });
  });
  for (let rest = [...off.keys()].sort((p, q) => p - q); rest.length > 0; ) {
    const run = longestRun(rest);
    rest = rest.filter((n) => !run.includes(n));
    const t = run.map((n) => ends[n]);
    const depth = run.length < FEWEST_SHORT ? null : fitCurve(t, [run.map(depthOf)], DEPTH_NEAR, run.length);
    if (depth === null || run.some((n) => asideOf(n) > END_OFF_MM))
      placed.push(...run.map((n) => ({ t: ends[n], place: placeOf(n) })));
    else short.push({ first: t[0], step: t[1] - t[0], ends: t.length, depth });
  }
  return { short, placed };
}

/** The row that is asked for where an end of that count goes to. */
const rowAt = (t: number, rows: number, joined: boolean): number =>
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
  return returnsNear(was, sewn);
}
