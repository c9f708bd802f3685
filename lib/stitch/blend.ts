/**
 * Rows that change evenly from a first line to a last one: rings that follow an outline inward, a path that winds about a middle, rows that bend alike along a
 * curve. Whoever digitizes such an area gives two lines and how far rows are to lie apart; the rows between follow.
 */
import { type Curve, curveAt, numbersInCurve, slopeAt } from './curve.js';
import { type EdgePoint, edgeAt } from './edge.js';

/** One number for each row; a line over them; or ever as much more from row to row, within a range: begun anew where that is reached. */
export type ByRow = readonly number[] | Curve | Sawtooth;

export interface Sawtooth {
  readonly least: number;
  readonly range: number;
  /** Of the first row, and from row to row, over the least. */
  readonly begin: number;
  readonly step: number;
}

/** Where the needle goes down besides the ends of rows and their corners. */
export type BlendNeedles =
  /** Anew from where each row begins and from each of its corners: first so far on, then every so often, nowhere nearer to the next corner or end than `clearMm`. */
  | {
      readonly kind: 'anew';
      readonly firstMm: ByRow;
      readonly stitchMm: ByRow;
      readonly clearMm: number;
      readonly odd: readonly OddLeg[];
    }
  /** All along the path: so far on lies each of `count` needle points, mm over its number. */
  | { readonly kind: 'along'; readonly count: number; readonly alongMm: Curve };

/** From one corner or end of a row to the next, with more needle points or fewer than the rule has: there it is a matter of a hair whether one is too near to the corner. */
export interface OddLeg {
  readonly row: number;
  readonly leg: number;
  readonly points: number;
}

export interface Blend {
  readonly kind: 'blend';
  /** To and fro; each row a closed ring by itself; or one path that winds, each turn a row. */
  readonly way: 'to-and-fro' | 'rings' | 'winding';
  /** How many; of a winding path the last turn need not be whole. */
  readonly rows: number;
  /** What lines are told from: there distance from a place, beginning in one direction (degrees, counterclockwise) and once round; null for places. */
  readonly middle: {
    readonly at: EdgePoint;
    readonly fromDeg: number;
    readonly clockwise: boolean;
  } | null;
  /** Over the share of a row, 0 to 1; evenly from the first row to the last, and each row between has its share of the two next to it. At least two. */
  readonly lines: readonly Curve[];
  readonly needles: BlendNeedles;
  /** So many needle points are not sewn of the last row: one that ends before it is closed. */
  readonly missing: number;
}

/** Where a line of a blend turns by more than this, rows have a corner, degrees: the needle goes down there. */
const CORNER_DEG = 25;
/** A row is drawn as so many straight pieces. */
const PIECES = 96;

/** How many numbers a blend takes. */
export function numbersInBlend({ needles, missing, ...lines }: Blend): number {
  return (
    numbersInLines(lines) +
    (missing > 0 ? 1 : 0) +
    (needles.kind === 'along'
      ? 1 + numbersInCurve(needles.alongMm)
      : 1 + numbersByRow(needles.firstMm) + numbersByRow(needles.stitchMm) + 3 * needles.odd.length)
  );
}

/** How many of these its rows take; a line that is closed has no need to tell where it ends. */
export function numbersInLines({ way, middle, lines }: BlendLines): number {
  const rows = 1;
  const closing = ({ start, arcs }: Curve) => (way === 'to-and-fro' || arcs.length === 0 ? 0 : start.length);
  return (
    rows +
    (middle === null ? 0 : 3) +
    lines.reduce((sum, line) => sum + numbersInCurve(line) - closing(line), 0)
  );
}

export function numbersByRow(by: ByRow): number {
  if ('arcs' in by) return numbersInCurve(by);
  return 'step' in by ? 4 : by.length;
}

export function inRow(by: ByRow, row: number): number {
  if ('arcs' in by) return curveAt(by, row)[0];
  if (!('step' in by)) return by[row];
  const on = by.begin + by.step * row;
  return by.least + on - by.range * Math.floor(on / by.range);
}

/** A path as drawn, mm: its points, and how far on each of them lies. */
export interface DrawnPath {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly s: readonly number[];
  /** Numbers of the points at which it begins, has corners, and ends. */
  readonly stops: readonly number[];
}

/** The rows of a blend, without needle points. */
export type BlendLines = Pick<Blend, 'way' | 'rows' | 'middle' | 'lines'>;

/** A place so far along a row, 0 to 1; `row` need not be whole. */
function placeOf({ way, rows, middle, lines }: BlendLines, row: number, share: number): EdgePoint {
  const last = way === 'winding' ? rows : rows - 1;
  const at = Math.max(0, Math.min(1, last > 0 ? row / last : 0)) * (lines.length - 1);
  const n = Math.min(lines.length - 2, Math.floor(at));
  const [before, after] = [curveAt(lines[n], share), curveAt(lines[n + 1], share)];
  const value = before.map((v, c) => v + (after[c] - v) * (at - n));
  if (middle === null) return [value[0], value[1]];
  const angle = (middle.fromDeg / 180 + (middle.clockwise ? -2 : 2) * share) * Math.PI;
  return [middle.at[0] + value[0] * Math.cos(angle), middle.at[1] + value[0] * Math.sin(angle)];
}

/** Shares of a row at which it has corners. */
function cornersOf({ middle, lines: [line] }: BlendLines): number[] {
  if (middle !== null) return [];
  return line.arcs.slice(0, -1).flatMap(({ to }) => {
    const [px, py] = slopeAt(line, to);
    const [qx, qy] = slopeAt(line, to + 1e-9);
    const turn = Math.atan2(px * qy - py * qx, px * qx + py * qy);
    return Math.abs(turn) > (CORNER_DEG * Math.PI) / 180 ? [to] : [];
  });
}

/** All rows as they are sewn, each from where it begins; of a winding path the whole as one. */
export function pathsOf(blend: BlendLines): DrawnPath[] {
  if (blend.way === 'winding') {
    const pieces = Math.max(1, Math.ceil(blend.rows * PIECES));
    const turns = Array.from({ length: pieces + 1 }, (_, n) => (blend.rows * n) / pieces);
    return [
      drawn(
        turns.map((turn) => placeOf(blend, turn, turn % 1)),
        [],
      ),
    ];
  }
  const corners = cornersOf(blend);
  const shares = [...new Set([...corners, ...Array.from({ length: PIECES + 1 }, (_, n) => n / PIECES)])].sort(
    (p, q) => p - q,
  );
  const stops = corners.map((share) => shares.indexOf(share));
  return Array.from({ length: blend.rows }, (_, row) => {
    const places = shares.map((share) => placeOf(blend, row, share));
    if (blend.way === 'rings' || row % 2 === 0) return drawn(places, stops);
    return drawn(places.reverse(), stops.map((n) => shares.length - 1 - n).reverse());
  });
}

function drawn(places: readonly EdgePoint[], corners: readonly number[]): DrawnPath {
  const s = [0];
  for (let n = 1; n < places.length; n++)
    s.push(s[n - 1] + Math.hypot(places[n][0] - places[n - 1][0], places[n][1] - places[n - 1][1]));
  return {
    x: places.map(([x]) => x),
    y: places.map(([, y]) => y),
    s,
    stops: [0, ...corners, places.length - 1],
  };
}

/** The needle points of a blend in sewing order, mm. */
export function sewBlend(blend: Blend): { x: number[]; y: number[] } {
  const x: number[] = [];
  const y: number[] = [];
  const paths = pathsOf(blend);
  const { needles } = blend;
  const put = (path: DrawnPath, s: number) => {
    const [px, py] = placeAt(path, s);
    x.push(px);
    y.push(py);
  };
  if (needles.kind === 'along') {
    for (let n = 0; n < needles.count; n++) put(paths[0], curveAt(needles.alongMm, n)[0]);
    return { x, y };
  }
  const { firstMm, stitchMm, clearMm, odd } = needles;
  const { missing } = blend;
  const pointsIn = new Map(odd.map(({ row, leg, points }) => [`${row} ${leg}`, points]));
  paths.forEach((path, row) => {
    put(path, 0);
    for (let leg = 0; leg + 1 < path.stops.length; leg++) {
      const [from, to] = [path.s[path.stops[leg]], path.s[path.stops[leg + 1]]];
      const [first, stitch] = [inRow(firstMm, row), inRow(stitchMm, row)];
      for (const mm of insideLeg(to - from, first, stitch, clearMm, pointsIn.get(`${row} ${leg}`)))
        put(path, from + mm);
      put(path, to);
    }
  });
  const sewn = x.length - missing;
  return { x: x.slice(0, sewn), y: y.slice(0, sewn) };
}

/**
 * Needle points between the ends of a leg of that length, mm from where it begins.
 *
 * @param points how many, where that is told
 */
export function insideLeg(
  length: number,
  first: number,
  stitch: number,
  clear: number,
  points?: number,
): number[] {
  const last = length - clear - first;
  const count = points ?? (stitch > 0 && last >= 0 ? Math.floor(last / stitch) + 1 : 0);
  return Array.from({ length: count }, (_, n) => first + n * stitch);
}

/** The place so far on along a path, mm; its ends where that is off it. */
const placeAt = ({ x, y, s }: DrawnPath, mm: number): EdgePoint =>
  edgeAt({ t: s, x, y }, Math.max(0, Math.min(s[s.length - 1], mm)));
