/** Where the needle goes down along the rows of a blend, in few numbers. */
import {
  type BlendNeedles,
  type ByRow,
  type DrawnPath,
  inRow,
  insideLeg,
  numbersByRow,
  type OddLeg,
} from './blend.js';
import { fitCurve, type Nearness } from './fit-curve.js';
import { fitSawtooth } from './fit-sawtooth.js';

const ALONG_NEAR: Nearness = { withinMm: 0.13, outliers: 0.03 };
const BY_ROW_NEAR: Nearness = { withinMm: 0.1, outliers: 0.03 };

/** All along one path. */
export function alongOf(at: readonly number[], most: number): BlendNeedles | null {
  const count = at.length;
  const alongMm = fitCurve(
    at.map((_, n) => n),
    [at],
    ALONG_NEAR,
    most,
  );
  return alongMm && { kind: 'along', count, alongMm };
}

/** The needle points between two corners or ends, mm from the first. */
interface LegPoints {
  readonly row: number;
  readonly leg: number;
  readonly length: number;
  readonly inside: readonly number[];
}

/**
 * Anew in each row: in stitches of one length, and where that does not do of a length for each row.
 *
 * @param at how far on along its path each needle point of a row lies, mm, and which of them are corners
 */
export function anewOf(
  paths: readonly DrawnPath[],
  at: readonly (readonly number[])[],
  corners: readonly (readonly number[])[],
): BlendNeedles[] {
  if (paths.some(({ stops }, row) => stops.length !== corners[row].length + 2)) return [];
  const legs = paths.flatMap((path, row) => legsOf(path, row, at[row], corners[row]));
  const one = stitchOf(legs);
  if (one === null) return [];
  const inOf = (row: number) => legs.filter((leg) => leg.row === row);
  const byRow = paths.map((_, row) => stitchOf(inOf(row)));
  const usual = legs.reduce((most, { inside }) => Math.max(most, inside.length), 1);
  const same: ByRow = { from: 0, start: [one], arcs: [] };
  const each = byRow.map((mm) => mm ?? one);
  const told = fewest(byRow, each, BY_ROW_NEAR.withinMm / usual);
  const tried = [same, told, each].filter((by, n, all) => all.indexOf(by) === n);
  return tried.map((stitchMm): BlendNeedles => {
    const lengthIn = (row: number) => inRow(stitchMm, row);
    const firsts = paths.map((_, row) => firstOf(inOf(row), lengthIn(row)));
    // a row in which the needle goes down nowhere has its first place beyond its end
    const beyond = firsts.map((mm, row) => mm ?? Math.max(...inOf(row).map(({ length }) => length)));
    const firstMm = fewest(firsts, beyond, BY_ROW_NEAR.withinMm);
    const clearMm = clearOf(legs, lengthIn, (row) => inRow(firstMm, row));
    const odd = legs.flatMap(({ row, leg, length, inside }): OddLeg[] => {
      const points = insideLeg(length, inRow(firstMm, row), lengthIn(row), clearMm).length;
      return points === inside.length ? [] : [{ row, leg, points: inside.length }];
    });
    return { kind: 'anew', firstMm, stitchMm, clearMm, odd };
  });
}

function legsOf(
  { s, stops }: DrawnPath,
  row: number,
  at: readonly number[],
  corners: readonly number[],
): LegPoints[] {
  const ends = [0, ...corners, at.length - 1];
  return stops.slice(1).map((stop, n) => {
    const from = s[stops[n]];
    const inside = at.slice(ends[n] + 1, ends[n + 1]).map((mm) => mm - from);
    return { row, leg: n, length: s[stop] - from, inside };
  });
}

function stitchOf(legs: readonly LegPoints[]): number | null {
  let [way, stitches] = [0, 0];
  for (const { inside } of legs) {
    if (inside.length < 2) continue;
    way += inside[inside.length - 1] - inside[0];
    stitches += inside.length - 1;
  }
  return stitches > 0 ? way / stitches : null;
}

/** How far on the first needle point of a row's legs lies; null where they have none. */
function firstOf(legs: readonly LegPoints[], stitchMm: number): number | null {
  const firsts = legs.flatMap(({ inside }) => inside.map((mm, n) => mm - n * stitchMm));
  return firsts.length === 0 ? null : (Math.min(...firsts) + Math.max(...firsts)) / 2;
}

/** Nearer to the end of a leg no needle point is put: where the fewest legs have one, or lack one farther off. */
function clearOf(
  legs: readonly LegPoints[],
  lengthIn: (row: number) => number,
  firstIn: (row: number) => number,
): number {
  const bounds = legs.flatMap(({ row, length, inside }): [mm: number, is: 1 | -1][] => {
    const left = inside.length === 0 ? null : length - inside[inside.length - 1];
    const missing = left === null ? length - firstIn(row) : left - lengthIn(row);
    const there: [number, 1 | -1][] = left === null ? [] : [[left, 1]];
    return missing > 0 ? [...there, [missing, -1]] : there;
  });
  bounds.sort((p, q) => p[0] - q[0]);
  let [wrong, least, at] = [0, 0, 0];
  bounds.forEach(([mm, is], n) => {
    wrong += is;
    if (wrong >= least) return;
    least = wrong;
    at = n + 1 < bounds.length ? (mm + bounds[n + 1][0]) / 2 : mm + 0.05;
  });
  return at;
}

/**
 * Numbers by row in the form that takes the fewest: a line over them, ever as much more, or each by itself.
 *
 * @param known null for rows that tell nothing
 * @param each what is told of all rows, where it is one by one
 */
function fewest(known: readonly (number | null)[], each: readonly number[], withinMm: number): ByRow {
  const near = { ...BY_ROW_NEAR, withinMm };
  const rows = known.flatMap((value, row) => (value === null ? [] : [{ row, value }]));
  if (rows.length === 0) return each;
  const values = rows.map(({ value }) => value);
  const curve = fitCurve(
    rows.map(({ row }) => row),
    [values],
    near,
    each.length,
  );
  return [curve, fitSawtooth(rows, near)].reduce<ByRow>(
    (least, by) => (by !== null && numbersByRow(by) < numbersByRow(least) ? by : least),
    each,
  );
}
