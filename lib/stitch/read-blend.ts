/** Reads needle points as a blend: rows that change evenly from a first line to a last one. */
import { distance } from '../core/distance.js';
import {
  type Blend,
  type BlendLines,
  type BlendNeedles,
  type DrawnPath,
  numbersInBlend,
  numbersInLines,
  pathsOf,
} from './blend.js';
import type { EdgePoint } from './edge.js';
import { fitLines, type LineMake, type RowPoint } from './fit-lines.js';
import { alongOf, anewOf } from './read-blend-needles.js';
import { type BlendRow, type PathRows, ringsIn, rowsToAndFro } from './rows-of-path.js';

/** Control points with which a line is tried, and how many lines. */
const POINTS = [1, 2, 3, 4, 6, 8, 10, 12] as const;
const POINTS_ROUND = [0, 4, 6, 8, 10, 12] as const;
const MOST_LINES = 3;
/** Lines that leave more than that of the needle points farther off than so are not looked at further, mm. */
const NEAR_MM = 0.15;
const FAR_SHARE = 0.05;
/** Fewer rows or turns are none that change evenly. */
const FEWEST_ROWS = 4;
const FEWEST_TURNS = 2.5;
/** Times that a middle is moved to where all distances agree. */
const MIDDLE_ROUNDS = 8;

/** A blend, and the number of needle points that are in it: others may follow. */
export interface BlendRead {
  readonly blend: Blend;
  readonly end: number;
}

/** The blends that needle points may be, those of few numbers first; none of more than `most`. */
export function* blendsOf(points: readonly EdgePoint[], most: number): Generator<BlendRead> {
  const toAndFro = rowsToAndFro(points);
  if (toAndFro.rows.length >= FEWEST_ROWS) yield* within(toAndFro, toAndFroBlends(toAndFro, most));
  const rings = ringsIn(points);
  if (rings.rows.length >= FEWEST_ROWS) yield* within(rings, ringBlends(rings, most));
  yield* within({ end: points.length, missing: 0 }, windingBlends(points, most));
}

function* within(
  { end, missing }: Pick<PathRows, 'end' | 'missing'>,
  blends: Generator<Blend>,
): Generator<BlendRead> {
  for (const blend of blends) yield { blend: { ...blend, missing }, end };
}

/** Lines of ever more numbers that rows lie on, with needle points. */
function* linesTried(
  lie: readonly RowPoint[],
  makes: readonly LineMake[],
  about: Omit<BlendLines, 'lines'>,
  most: number,
): Generator<BlendLines> {
  for (let count = 2; count <= MOST_LINES; count++) {
    for (const make of makes) {
      const lines = fitLines(lie, make, count);
      if (lines && numbersInLines({ ...about, lines }) <= most) yield { ...about, lines };
    }
  }
}

const withNeedles = (lines: BlendLines, needles: BlendNeedles | null, most: number): Blend[] => {
  if (needles === null) return [];
  const blend: Blend = { kind: 'blend', ...lines, needles, missing: 0 };
  return numbersInBlend(blend) <= most ? [blend] : [];
};

/** Whether nearly all needle points of rows lie on the paths of these, and how far on. */
function onPaths(
  points: readonly EdgePoint[],
  rows: readonly BlendRow[],
  paths: readonly DrawnPath[],
): number[][] | null {
  let far = 0;
  const at = rows.map(({ from, to }, row) => {
    let near = 0;
    return Array.from({ length: to - from + 1 }, (_, n) => {
      const place = placeOn(paths[row], points[from + n], near);
      near = place.piece;
      if (place.offMm > NEAR_MM) far++;
      return place.s;
    });
  });
  return far <= FAR_SHARE * points.length ? at : null;
}

/** How far a path is looked along for the next needle point, mm, but never so much of it that a ring's end comes before its beginning. */
const REACH_MM = 12;
const REACH_SHARE = 0.6;

/** The place of a path nearest to a point, not before piece `from`. */
function placeOn(
  { x, y, s }: DrawnPath,
  [px, py]: EdgePoint,
  from: number,
): { s: number; piece: number; offMm: number } {
  let best = { s: s[from], piece: from, offMm: Number.POSITIVE_INFINITY };
  const reach = s[from] + Math.min(REACH_MM, REACH_SHARE * s[s.length - 1]);
  for (let n = from; n + 1 < s.length && (n === from || s[n] < reach); n++) {
    const [vx, vy] = [x[n + 1] - x[n], y[n + 1] - y[n]];
    const square = vx * vx + vy * vy;
    const f = square > 0 ? Math.max(0, Math.min(1, ((px - x[n]) * vx + (py - y[n]) * vy) / square)) : 0;
    const offMm = distance(px, py, x[n] + vx * f, y[n] + vy * f);
    if (offMm < best.offMm - 1e-9) best = { s: s[n] + Math.sqrt(square) * f, piece: n, offMm };
  }
  return best;
}

function* toAndFroBlends({ points, rows }: PathRows, most: number): Generator<Blend> {
  const lie = rows.flatMap(({ from, to }, row): RowPoint[] =>
    sharesOf(points, from, to).map((share, n) => ({
      among: row / (rows.length - 1),
      share: row % 2 === 0 ? share : 1 - share,
      value: points[from + n],
    })),
  );
  const about = { way: 'to-and-fro', rows: rows.length, middle: null } as const;
  const makes = POINTS.map((points): LineMake => ({ points, closed: false }));
  for (const lines of linesTried(lie, makes, about, most)) yield* anewOn(points, rows, lines, most);
}

function* anewOn(
  points: readonly EdgePoint[],
  rows: readonly BlendRow[],
  lines: BlendLines,
  most: number,
): Generator<Blend> {
  const paths = pathsOf(lines);
  const at = onPaths(points, rows, paths);
  if (at === null) return;
  const corners = rows.map(({ from, corners }) => corners.map((i) => i - from));
  for (const needles of anewOf(paths, at, corners)) yield* withNeedles(lines, needles, most);
}

/** How far on along its row each needle point of it lies, 0 to 1. */
function sharesOf(points: readonly EdgePoint[], from: number, to: number): number[] {
  const s = [0];
  for (let i = from + 1; i <= to; i++) s.push(s[i - from - 1] + distance(...points[i - 1], ...points[i]));
  return s.map((mm) => mm / (s[s.length - 1] || 1));
}

function* ringBlends({ points, rows }: PathRows, most: number): Generator<Blend> {
  const about = { way: 'rings', rows: rows.length } as const;
  const sides = rows[0].corners.length + 1;
  if (sides > 1) {
    const lie = rows.flatMap(({ from, to, corners }, row): RowPoint[] => {
      const stops = [from, ...corners, to];
      return stops.slice(1).flatMap((end, side) =>
        sharesOf(points, stops[side], end).map((share, n) => ({
          among: row / (rows.length - 1),
          share: (side + share) / sides,
          value: points[stops[side] + n],
        })),
      );
    });
    const make: LineMake = { sides, points: sides, closed: true };
    for (const lines of linesTried(lie, [make], { ...about, middle: null }, most))
      yield* anewOn(points, rows, lines, most);
    return;
  }
  const turned = aboutMiddle(points, rows, rows.length - 1);
  const makes = POINTS_ROUND.map((points): LineMake => ({ points, closed: true }));
  for (const lines of linesTried(turned.lie, makes, { ...about, middle: turned.middle }, most))
    yield* anewOn(points, rows, lines, most);
}

function* windingBlends(points: readonly EdgePoint[], most: number): Generator<Blend> {
  const whole: BlendRow[] = [{ from: 0, to: points.length - 1, corners: [] }];
  const { lie, middle, turns } = aboutMiddle(points, whole, null);
  if (!(turns >= FEWEST_TURNS)) return;
  const about = { way: 'winding', rows: turns, middle } as const;
  const makes = POINTS_ROUND.map((points): LineMake => ({ points, closed: true }));
  for (const lines of linesTried(lie, makes, about, most)) {
    const at = onPaths(points, whole, pathsOf(lines));
    if (at !== null) yield* withNeedles(lines, alongOf(at[0], most), most);
  }
}

interface AboutMiddle {
  readonly lie: RowPoint[];
  readonly middle: NonNullable<Blend['middle']>;
  /** How often all goes round. */
  readonly turns: number;
}

/**
 * Rows as seen from their middle.
 *
 * @param last what the number of a row is a share of; null where the turns are counted on, and are that themselves
 */
function aboutMiddle(
  points: readonly EdgePoint[],
  rows: readonly BlendRow[],
  last: number | null,
): AboutMiddle {
  let at: EdgePoint = middleOf(points);
  for (let round = 0; ; round++) {
    const seen = seenFrom(points, rows, last, at);
    const lines = round === MIDDLE_ROUNDS ? null : fitLines(seen.lie, { points: 0, closed: true }, 2);
    if (lines === null) return seen;
    // what is off by as much as the cosine of the direction is off because the middle is
    let [sx, sy] = [0, 0];
    seen.lie.forEach(({ among, value }, n) => {
      const off = value[0] - lines[0].start[0] * (1 - among) - lines[1].start[0] * among;
      const [px, py] = seen.points[n];
      sx += (off * (px - at[0])) / (value[0] || 1);
      sy += (off * (py - at[1])) / (value[0] || 1);
    });
    at = [at[0] + (2 * sx) / seen.lie.length, at[1] + (2 * sy) / seen.lie.length];
  }
}

function middleOf(points: readonly EdgePoint[]): EdgePoint {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const between = (values: number[]) => (Math.min(...values) + Math.max(...values)) / 2;
  return [between(xs), between(ys)];
}

const wrapped = (turn: number): number => turn - Math.round(turn);

function seenFrom(
  points: readonly EdgePoint[],
  rows: readonly BlendRow[],
  last: number | null,
  at: EdgePoint,
): AboutMiddle & { points: EdgePoint[] } {
  const turnAt = ([x, y]: EdgePoint) => Math.atan2(y - at[1], x - at[0]) / (2 * Math.PI);
  const begins = rows.map(({ from }) => turnAt(points[from]));
  const [c, s] = begins.reduce(
    ([c, s], turn) => [c + Math.cos(2 * Math.PI * turn), s + Math.sin(2 * Math.PI * turn)],
    [0, 0],
  );
  const fromTurn = Math.atan2(s, c) / (2 * Math.PI);
  // each row counted on from where rows begin
  const counted = rows.map(({ from, to }, row) => {
    const turns = [wrapped(begins[row] - fromTurn)];
    for (let i = from + 1; i <= to; i++)
      turns.push(turns[i - from - 1] + wrapped(turnAt(points[i]) - turnAt(points[i - 1])));
    return turns;
  });
  const whole = counted.reduce((sum, turns) => sum + turns[turns.length - 1] - turns[0], 0);
  const way = whole < 0 ? -1 : 1;
  const seen: EdgePoint[] = [];
  const lie = counted.flatMap((turns, row) =>
    turns.map((turn, n): RowPoint => {
      const point = points[rows[row].from + n];
      seen.push(point);
      const value = [distance(...point, ...at)];
      const on = way * turn;
      return last === null
        ? { among: Math.max(0, Math.min(1, on / Math.abs(whole))), share: on - Math.floor(on), value }
        : { among: row / last, share: Math.max(0, Math.min(1, on)), value };
    }),
  );
  return {
    lie,
    points: seen,
    middle: { at, fromDeg: fromTurn * 360, clockwise: way < 0 },
    turns: Math.abs(whole),
  };
}
