/** The rows of an area as one lattice: all in one direction, numbered across it, whichever section they are in and whichever way that is sewn. */
import { spreadInPlace } from '../core/stats.js';
import { degToRad } from '../core/units.js';
import { type Curve, curveAt, numbersInCurve } from './curve.js';
import { type Edge, type EdgePoint, edgeAt } from './edge.js';
import { fitCurve, type Nearness } from './fit-curve.js';

export interface RowLattice {
  readonly angleDeg: number;
  /** How far across the direction each row lies, mm, over its number. */
  readonly across: Curve;
}

/** Where the rows of a section are on a lattice: the number of its first row, and whether the numbers rise or fall from there. */
export interface LatticeRows {
  readonly first: number;
  readonly falls: boolean;
  /** Rows left out: so many between count `after` and the next; and those sewn again, fewer than none. */
  readonly skips: readonly { readonly after: number; readonly rows: number }[];
}

export const numbersInRows = ({ skips }: LatticeRows): number => 1 + 2 * skips.length;

/** The number of the row at a count of a section. */
export function latticeRow({ first, falls, skips }: LatticeRows, t: number): number {
  let steps = t;
  for (const { after, rows } of skips) if (t > after) steps += rows * Math.min(1, t - after);
  return falls ? first - steps : first + steps;
}

export const numbersInLattice = ({ across }: RowLattice): number => 1 + numbersInCurve(across);

/** The place so far along a row of that number (which need not be whole), mm. */
export function placeOnLattice({ angleDeg, across }: RowLattice, row: number, along: number): EdgePoint {
  const [ux, uy] = unitAt(angleDeg);
  const beside = curveAt(across, row)[0];
  return [ux * along - uy * beside, uy * along + ux * beside];
}

export const unitAt = (angleDeg: number): EdgePoint => [
  Math.cos(degToRad(angleDeg)),
  Math.sin(degToRad(angleDeg)),
];

/** Ways across that lie farther off the direction than this are of rows that are none, sine (1.5°). */
const OFF_SINE = Math.sin(degToRad(1.5));

/** The two edges of a section as found. */
export interface EdgePair {
  readonly a: Edge;
  readonly b: Edge;
}

/** A row may lie this far beside its place on an even lattice, as a share of the distance of rows, to be numbered by it. */
const OFF_SHARE = 0.4;
/** So many rows may lie elsewhere: their ends are told one by one. */
const OUTLIERS = 0.05;
/** How far the place of a row is taken for that of the lattice, where rows are numbered one after another. */
const LEVEL_FOLLOWS = 0.5;

/**
 * The lattice that all sections of an area lie on, with the place of each; null where there is none: rows of several directions, or unevenly apart.
 *
 * @param most numbers that the lattice may take
 */
export function fitLattice(
  sections: readonly EdgePair[],
  near: Nearness,
  most: number,
): { lattice: RowLattice; rows: LatticeRows[] } | null {
  const angleDeg = directionOf(sections);
  const levels = sections.map((section) => levelsOf(section, angleDeg));
  const numbered = fromFirst(numberLevels(levels));
  if (numbered === null) return null;
  const known = new Map<number, number[]>();
  levels.forEach((section, s) => {
    for (const [t, v] of section) {
      const row = latticeRow(numbered[s], t);
      const list = known.get(row);
      if (list) list.push(v);
      else known.set(row, [v]);
    }
  });
  const all = [...known].sort(([p], [q]) => p - q);
  const usual = evenly(all.flatMap(([row, list]) => list.map((v) => [row, v] as const)));
  const isOn = (row: number, v: number) =>
    sections.length === 1 || Math.abs(v - usual.start - usual.step * row) <= OFF_SHARE * Math.abs(usual.step);
  const middles = all.flatMap(([row, list]): [number, number][] => {
    const on = list.filter((v) => isOn(row, v));
    return on.length === 0 ? [] : [[row, on.reduce((sum, v) => sum + v, 0) / on.length]];
  });
  const across = fitCurve(
    middles.map(([row]) => row),
    [middles.map(([, v]) => v)],
    near,
    most - 1,
  );
  return across && { lattice: { angleDeg, across }, rows: numbered };
}

/** Numbered from the first row of the first section. */
const fromFirst = (rows: readonly LatticeRows[] | null): LatticeRows[] | null =>
  rows?.map((each) => ({ ...each, first: each.first - rows[0].first })) ?? null;

/** How far across the direction the ends of the rows of a section lie, by their count: of both ends the middle where they have the same. */
function levelsOf({ a, b }: EdgePair, angleDeg: number): [t: number, v: number][] {
  const [ux, uy] = unitAt(angleDeg);
  const ends = ({ t, x, y }: Edge) => new Map(t.map((at, k) => [at, y[k] * ux - x[k] * uy]));
  const [onA, onB] = [ends(a), ends(b)];
  return [...new Set([...a.t, ...b.t])]
    .sort((p, q) => p - q)
    .map((t) => {
      const [p, q] = [onA.get(t), onB.get(t)];
      return [t, p === undefined ? q! : q === undefined ? p : (p + q) / 2];
    });
}

/** Rows of a section as they lie across their direction. */
type Levels = readonly (readonly [t: number, v: number])[];

/** Numbers the rows of each section by the distance that they have in common; null where some lie elsewhere. */
export function numberRows(sections: readonly EdgePair[]): LatticeRows[] | null {
  const angleDeg = directionOf(sections);
  return numberLevels(sections.map((section) => levelsOf(section, angleDeg)));
}

function numberLevels(levels: readonly Levels[]): LatticeRows[] | null {
  if (levels.length === 1) return [{ first: 0, falls: false, skips: [] }];
  const ways = levels.flatMap((section) => section.slice(1).map(([, v], k) => Math.abs(v - section[k][1])));
  const usual = spreadInPlace(Float64Array.from(ways))?.median ?? 0;
  if (usual === 0) return null;
  const inOrder = levels.map((section) => numberSection(section, usual));
  const [longest] = [...inOrder].sort((p, q) => q.numbers.length - p.numbers.length);
  const { step, start } = evenly(longest.numbers);
  const pitch = Math.abs(step);
  const rows: LatticeRows[] = [];
  for (const { numbers, way, skips } of inOrder) {
    // the distance is the same in all: only where a section begins is its own
    const firsts = numbers.map(([n, v]) => (v - start) / pitch - way * n);
    const first = Math.round(spreadInPlace(Float64Array.from(firsts))!.median);
    const off = numbers.filter(([n, v]) => Math.abs((v - start) / pitch - first - way * n) > OFF_SHARE);
    if (off.length > Math.max(1, OUTLIERS * numbers.length)) return null;
    rows.push({ first, falls: way < 0, skips });
  }
  return rows;
}

/** Numbers the rows of one section from 0 on, in the order in which they are sewn. */
function numberSection(
  section: Levels,
  pitch: number,
): { numbers: [n: number, v: number][]; way: 1 | -1; skips: LatticeRows['skips'] } {
  const way = section[section.length - 1][1] < section[0][1] ? -1 : 1;
  const skips: { after: number; rows: number }[] = [];
  let [n, level] = [section[0][0], section[0][1]];
  const numbers: [number, number][] = [[n, level]];
  for (let k = 1; k < section.length; k++) {
    const [t, v] = section[k];
    const counts = t - section[k - 1][0];
    const steps = Math.round((way * (v - level)) / pitch);
    if (steps !== counts) skips.push({ after: section[k - 1][0], rows: steps - counts });
    n += steps;
    // a level that is followed as it goes on, not one by one: rounding must not add up
    level += way * steps * pitch + LEVEL_FOLLOWS * (v - level - way * steps * pitch);
    numbers.push([n, v]);
  }
  return { numbers, way, skips };
}

/** The distance from row to row across their direction, and where row 0 is, by least squares, mm. */
function evenly(rows: Levels): { step: number; start: number } {
  let [meanT, meanV] = [0, 0];
  for (const [t, v] of rows) {
    meanT += t / rows.length;
    meanV += v / rows.length;
  }
  let [over, under] = [0, 0];
  for (const [t, v] of rows) {
    over += (t - meanT) * (v - meanV);
    under += (t - meanT) ** 2;
  }
  const step = under > 0 ? over / under : 0;
  return { step, start: meanV - step * meanT };
}

/** The direction that the ways across from edge to edge have in common, degrees in (−90, 90]; longer ones count more, and none that lies well off the others. */
function directionOf(sections: readonly EdgePair[]): number {
  const ways: EdgePoint[] = [];
  const within = ({ t }: Edge, at: number) => at >= t[0] && at <= t[t.length - 1];
  const add = (from: Edge, to: Edge) => {
    from.t.forEach((at, k) => {
      if (!within(to, at)) return;
      const [x, y] = edgeAt(to, at);
      ways.push([from.x[k] - x, from.y[k] - y]);
    });
  };
  for (const { a, b } of sections) {
    add(a, b);
    add(b, a);
  }
  const angle = axisOf(ways);
  const [ux, uy] = unitAt(angle);
  const alike = ways.filter(([vx, vy]) => Math.abs(vy * ux - vx * uy) <= OFF_SINE * Math.hypot(vx, vy));
  return 2 * alike.length > ways.length ? axisOf(alike) : angle;
}

/** The axis of some ways, each by its length to the third power, degrees in (−90, 90]. */
function axisOf(ways: readonly EdgePoint[]): number {
  let c2 = 0;
  let s2 = 0;
  for (const [vx, vy] of ways) {
    const length = Math.hypot(vx, vy);
    c2 += (vx * vx - vy * vy) * length;
    s2 += 2 * vx * vy * length;
  }
  return (Math.atan2(s2, c2) * 90) / Math.PI;
}
