/** Needle points inside rows: where a pattern puts them, and what pattern those of rows as found follow. */
import { spreadInPlace } from '../core/stats.js';
import { degToRad } from '../core/units.js';
import type { Place } from './edge.js';
import { type Inside, numbersInOdd, numbersInside, type OddRow } from './editable.js';

/** A row between its two edges, with its number. */
export interface RowSpan {
  readonly k: number;
  readonly a: Place;
  readonly b: Place;
}

/** With the needle points inside it, mm from edge A along the row, ascending. */
export interface Row extends RowSpan {
  readonly inside: readonly number[];
  /** How far each of them lies to the left of the row as seen from A, mm. */
  readonly aside: readonly number[];
}

/** A needle point may lie this far from where its pattern has it, mm: rounding to the step of a file is half of it. */
export const NEAR_MM = 0.13;
/** Needle points no farther off the line between the ends of their row are taken to be on it, mm. */
const STRAIGHT_MM = 0.28;
/** Most turns of a pattern: longer ones are none that a person would see. */
const MOST_TURNS = 8;
/** Stitches of one length differ by no more than this, mm. */
const ALIKE_MM = 0.3;

const lengthOf = ({ a, b }: RowSpan): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/** Where a pattern puts the needle inside a row, mm from edge A, ascending; an odd row as it is told. */
export function insideOf(inside: Inside, row: RowSpan, odd?: OddRow): readonly number[] {
  if (odd && 'atMm' in odd) return odd.atMm;
  const length = lengthOf(row);
  switch (inside.kind) {
    case 'whole':
      return [];
    case 'even': {
      const parts = Math.max(1, Math.ceil(length / inside.stitchMm - 1e-6));
      return Array.from({ length: parts - 1 }, (_, n) => (length * (n + 1)) / parts);
    }
    case 'shares': {
      const turn = inside.turns[row.k % inside.turns.length];
      const broken = Math.ceil(length / inside.overMm - 1e-6) - 1;
      return (turn[broken - 1] ?? []).map((share) => share * length);
    }
    case 'staggered': {
      const { stitchMm, clearMm, phasesMm, driftMm } = inside;
      const { zero, per } = scaleOf(inside, row);
      const phase = odd?.phaseMm ?? phasesMm[row.k % phasesMm.length] + driftMm * row.k;
      const [atA, atB] = odd?.clearMm ?? [clearMm, clearMm];
      const ends = [zero + per * atA, zero + per * (length - atB)].sort((p, q) => p - q);
      const out: number[] = [];
      for (let n = Math.ceil((ends[0] - phase) / stitchMm); phase + n * stitchMm <= ends[1]; n++) {
        out.push((phase + n * stitchMm - zero) / per);
      }
      return out.sort((p, q) => p - q);
    }
  }
}

/** The scale on which places in a row are told: where edge A is on it, and how far it goes for each mm along the row. */
function scaleOf(
  { from, angleDeg }: Pick<Inside & { kind: 'staggered' }, 'from' | 'angleDeg'>,
  row: RowSpan,
): { zero: number; per: number } {
  const length = lengthOf(row) || 1;
  if (from === 'edge') return { zero: 0, per: 1 };
  if (from === 'begin') return row.k % 2 === 0 ? { zero: 0, per: 1 } : { zero: length, per: -1 };
  const [ux, uy] = [Math.cos(degToRad(angleDeg)), Math.sin(degToRad(angleDeg))];
  const { a, b } = row;
  const along = (b[0] - a[0]) * ux + (b[1] - a[1]) * uy;
  // a row that lies across the axis has no place on it
  return { zero: a[0] * ux + a[1] * uy, per: Math.abs(along) < 1e-3 * length ? 1 : along / length };
}

const keeps = (places: readonly number[], { inside }: Row): boolean =>
  places.length === inside.length && places.every((mm, n) => Math.abs(mm - inside[n]) <= NEAR_MM);

/** Whether a row of swings or stitches goes straight from end to end, as every pattern has it. */
const isStraight = ({ aside }: Row): boolean => aside.every((mm) => Math.abs(mm) <= STRAIGHT_MM);

/** Rows that a pattern does not have as they are, each in as few numbers as it takes. */
function oddRows(rows: readonly Row[], inside: Inside): OddRow[] {
  return rows.flatMap((row) => {
    if (isStraight(row) && keeps(insideOf(inside, row), row)) return [];
    const plain: OddRow = isStraight(row)
      ? { row: row.k, atMm: row.inside }
      : { row: row.k, atMm: row.inside, asideMm: row.aside };
    if (!isStraight(row) || inside.kind !== 'staggered' || row.inside.length < 3) return [plain];
    // nothing between the ends of the row and the needle points next to them
    const half = inside.stitchMm / 2;
    const clear = (mm: number) => Math.max(0, mm - half);
    const clearMm = [clear(row.inside[0]), clear(lengthOf(row) - row.inside[row.inside.length - 1])] as const;
    const otherEnds: OddRow = { row: row.k, clearMm };
    if (keeps(insideOf(inside, row, otherEnds), row)) return [otherEnds];
    const phase = phaseOf(row, inside, inside.stitchMm);
    const ownPhase: OddRow = { row: row.k, clearMm, phaseMm: phase ?? 0 };
    return [keeps(insideOf(inside, row, ownPhase), row) ? ownPhase : plain];
  });
}

/** The pattern of some rows that takes the fewest numbers, together with the rows that do not keep to it. */
export function readInside(rows: readonly Row[]): { inside: Inside; odd: OddRow[] } {
  const patterns: Inside[] = [{ kind: 'whole' }];
  if (rows.some(({ inside }) => inside.length > 0)) {
    patterns.push(...evenOf(rows), ...sharesOf(rows), ...staggeredOf(rows));
  }
  let best: { inside: Inside; odd: OddRow[]; numbers: number } | null = null;
  for (const inside of patterns) {
    const odd = oddRows(rows, inside);
    const numbers = numbersInside(inside) + odd.reduce((sum, row) => sum + numbersInOdd(row), 0);
    if (best === null || numbers < best.numbers) best = { inside, odd, numbers };
  }
  return best!;
}

/** Even stitches: the longest that is shared by all rows is the length asked for. */
function evenOf(rows: readonly Row[]): Inside[] {
  const longest = rows.map((row) => lengthOf(row) / (row.inside.length + 1));
  return [{ kind: 'even', stitchMm: Math.max(...longest) + 1e-3 }];
}

/** Shares of the row: the length from which rows are broken, and for each number of breaks the shares by turns. */
function sharesOf(rows: readonly Row[]): Inside[] {
  const most = Math.max(...rows.map(({ inside }) => inside.length));
  const overMm = breakingLength(rows);
  return Array.from({ length: MOST_TURNS }, (_, n): Inside => {
    const turns = Array.from({ length: n + 1 }, (_, turn) =>
      Array.from({ length: most }, (_, m) => {
        const alike = rows.filter(({ k, inside }) => k % (n + 1) === turn && inside.length === m + 1);
        return alike.length === 0
          ? []
          : Array.from({ length: m + 1 }, (_, j) =>
              middle(alike.map((row) => row.inside[j] / lengthOf(row))),
            );
      }),
    );
    return { kind: 'shares', overMm, turns };
  });
}

/** The length of which one piece of a broken row is no more than: where most rows agree. */
function breakingLength(rows: readonly Row[]): number {
  const bounds = rows.flatMap((row) => {
    const [length, parts] = [lengthOf(row), row.inside.length + 1];
    const low: [number, number] = [length / parts, 1];
    return parts > 1 ? [low, [length / (parts - 1), -1] as [number, number]] : [low];
  });
  bounds.sort((p, q) => p[0] - q[0] || q[1] - p[1]);
  let agree = 0;
  let most = 0;
  let at = bounds[bounds.length - 1][0];
  bounds.forEach(([mm, way], i) => {
    agree += way;
    if (agree <= most || i + 1 === bounds.length) return;
    most = agree;
    at = (mm + bounds[i + 1][0]) / 2;
  });
  return at;
}

function staggeredOf(rows: readonly Row[]): Inside[] {
  const stitchMm = stitchOf(rows);
  if (stitchMm === null) return [];
  const angleDeg = axisOf(rows);
  return (['axis', 'edge', 'begin'] as const).flatMap((from) => {
    const phases = rows.map((row) => phaseOf(row, { from, angleDeg }, stitchMm));
    const first = turnsOf(rows, phases, stitchMm);
    return first.map(({ phasesMm, driftMm }): Inside => {
      const pattern = { kind: 'staggered', from, angleDeg, stitchMm, clearMm: 0, phasesMm, driftMm } as const;
      return { ...pattern, clearMm: clearOf(rows, pattern) };
    });
  });
}

/** The stitch of rows that are sewn in stitches of one length; null where there is none. */
function stitchOf(rows: readonly Row[]): number | null {
  const steps = rows.flatMap(({ inside }) => inside.slice(1).map((mm, n) => mm - inside[n]));
  if (steps.length < 2) return null;
  const usual = middle(steps);
  // long ways tell the length best: rounding is shared among their stitches
  let way = 0;
  let stitches = 0;
  for (const { inside } of rows) {
    const even = inside.slice(1).every((mm, n) => Math.abs(mm - inside[n] - usual) <= ALIKE_MM);
    if (inside.length < 2 || !even) continue;
    way += inside[inside.length - 1] - inside[0];
    stitches += inside.length - 1;
  }
  return stitches > 0 ? way / stitches : null;
}

/** Direction of rows, in degrees; longer ones count more. */
function axisOf(rows: readonly Row[]): number {
  let c2 = 0;
  let s2 = 0;
  for (const { a, b } of rows) {
    const [vx, vy] = [b[0] - a[0], b[1] - a[1]];
    c2 += vx * vx - vy * vy;
    s2 += 2 * vx * vy;
  }
  return (Math.atan2(s2, c2) * 90) / Math.PI;
}

/** At what part of a stitch the needle points of a row lie, mm; null where it has none. */
function phaseOf(
  row: Row,
  scale: Pick<Inside & { kind: 'staggered' }, 'from' | 'angleDeg'>,
  stitchMm: number,
): number | null {
  if (row.inside.length === 0) return null;
  const { zero, per } = scaleOf(scale, row);
  return around(
    row.inside.map((mm) => zero + per * mm),
    stitchMm,
  );
}

/** Phases by turns, for as few turns as there are any, and each row with its own. */
function turnsOf(
  rows: readonly Row[],
  phases: readonly (number | null)[],
  stitchMm: number,
): { phasesMm: number[]; driftMm: number }[] {
  const byRow = new Map(rows.map(({ k }, n) => [k, phases[n]]));
  const out: { phasesMm: number[]; driftMm: number }[] = [];
  for (let turns = 1; turns <= MOST_TURNS; turns++) {
    const steps = rows.flatMap(({ k }) => {
      const [p, q] = [byRow.get(k), byRow.get(k + turns)];
      return p == null || q == null ? [] : [wrapped(q - p, stitchMm)];
    });
    const driftMm = steps.length === 0 ? 0 : around(steps, stitchMm, true) / turns;
    const phasesMm = Array.from({ length: turns }, (_, turn) => {
      const own = rows.flatMap(({ k }, n) => {
        const phase = phases[n];
        return k % turns === turn && phase !== null ? [phase - driftMm * k] : [];
      });
      return own.length === 0 ? 0 : around(own, stitchMm);
    });
    out.push({ phasesMm, driftMm });
  }
  const last = Math.max(...rows.map(({ k }) => k));
  out.push({ phasesMm: Array.from({ length: last + 1 }, (_, k) => byRow.get(k) ?? 0), driftMm: 0 });
  return out;
}

/** How near to the ends of rows no needle point is put: where the fewest rows have one nearer, or lack one farther off. */
function clearOf(rows: readonly Row[], pattern: Inside & { kind: 'staggered' }): number {
  const bounds: [number, number][] = [];
  for (const row of rows) {
    const length = lengthOf(row);
    for (const mm of insideOf(pattern, row)) {
      const clear = Math.min(mm, length - mm);
      const isThere = row.inside.some((at) => Math.abs(at - mm) <= NEAR_MM);
      bounds.push([clear, isThere ? 1 : -1]);
    }
  }
  // with no limit every place that is not there is wrong, and none that is
  bounds.sort((p, q) => p[0] - q[0]);
  let wrong = 0;
  let least = 0;
  let at = 0;
  bounds.forEach(([mm, way], i) => {
    wrong += way;
    if (wrong >= least) return;
    least = wrong;
    at = i + 1 < bounds.length ? (mm + bounds[i + 1][0]) / 2 : mm + 1e-3;
  });
  return at;
}

/** Middle of some values on a circle of that length, mm (direction of the mean, then the median of what is off it). */
function around(values: readonly number[], length: number, signed = false): number {
  let c = 0;
  let s = 0;
  for (const v of values) {
    c += Math.cos((2 * Math.PI * v) / length);
    s += Math.sin((2 * Math.PI * v) / length);
  }
  const mean = (Math.atan2(s, c) * length) / (2 * Math.PI);
  const exact = mean + middle(values.map((v) => wrapped(v - mean, length)));
  return signed ? wrapped(exact, length) : exact;
}

const wrapped = (v: number, length: number): number => v - length * Math.round(v / length);

const middle = (values: readonly number[]): number => spreadInPlace(Float64Array.from(values))!.median;
