/** Needle points inside rows: where a pattern puts them, and what pattern those of rows as found follow. */
import { spreadInPlace } from '../core/stats.js';
import { degToRad } from '../core/units.js';
import type { Place } from './edge.js';
import { type Inside, numbersInOdd, numbersInside, type OddRow } from './editable.js';

/** A row between its two edges, with its number in its section and the number by which patterns go (see `turnOf`). */
export interface RowSpan {
  readonly k: number;
  readonly turn: number;
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
/** So many of all needle points may lie farther off all the same, mm: what a description may do, with room to spare. */
const FAR_SHARE = 0.025;
const FAR_MM = 0.33;
/** Most turns of a pattern: longer ones are none that a person would see. */
const MOST_TURNS = 8;
/** Rounds in which a drift is made to agree with all rows. */
const DRIFT_ROUNDS = 4;
/** Stitches of one length differ by no more than this, mm. */
const ALIKE_MM = 0.3;

const lengthOf = ({ a, b }: RowSpan): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

/**
 * Where a pattern puts the needle inside a row, mm from edge A, ascending; an odd row as it is told.
 *
 * @param phasesMm of the section, where the pattern has none
 */
export function insideOf(
  inside: Inside,
  row: RowSpan,
  phasesMm: readonly number[] | null,
  odd?: OddRow,
): readonly number[] {
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
      const turn = byTurns(inside.turns, row.turn);
      const broken = Math.ceil(length / inside.overMm - 1e-6) - 1;
      return (turn[broken - 1] ?? []).map((share) => share * length);
    }
    case 'staggered': {
      const { stitchMm, clearMm, driftMm } = inside;
      const { zero, per } = scaleOf(inside, row);
      const usual = phasesMm ? phasesMm[row.k] : byTurns(inside.phasesMm, row.turn) + driftMm * row.turn;
      const phase = odd?.phaseMm ?? usual;
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

const turnIn = (turn: number, turns: number): number => ((turn % turns) + turns) % turns;
const byTurns = <T>(list: readonly T[], turn: number): T => list[turnIn(turn, list.length)];

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

/** How many needle points of a row lie farther off than is near; infinite where there are more or fewer, or one is far. */
function farIn(places: readonly number[], { inside }: Row): number {
  if (places.length !== inside.length) return Number.POSITIVE_INFINITY;
  let far = 0;
  for (let n = 0; n < places.length; n++) {
    const off = Math.abs(places[n] - inside[n]);
    if (off > FAR_MM) return Number.POSITIVE_INFINITY;
    if (off > NEAR_MM) far++;
  }
  return far;
}

/** Whether a row of swings or stitches goes straight from end to end, as every pattern has it. */
const isStraight = ({ aside }: Row): boolean => aside.every((mm) => Math.abs(mm) <= STRAIGHT_MM);

/** The rows of one section. */
type Rows = readonly Row[];

/** Where the needle goes down inside the rows of some sections. */
export interface InsideRead {
  readonly inside: Inside;
  /** Of each section: see `EditableSection`. */
  readonly own: readonly { readonly phasesMm: readonly number[] | null; readonly odd: readonly OddRow[] }[];
  readonly numbers: number;
}

/** A pattern, with the phases that each section has of its own. */
interface Pattern {
  readonly inside: Inside;
  readonly phasesMm: readonly (readonly number[])[] | null;
}

/** The pattern of the rows of some sections that takes the fewest numbers, together with the rows that do not keep to it. */
export function readInside(sections: readonly Rows[]): InsideRead {
  const rows = sections.flat();
  const patterns: Pattern[] = [{ inside: { kind: 'whole' }, phasesMm: null }];
  if (rows.some(({ inside }) => inside.length > 0)) {
    const plain = (inside: Inside): Pattern => ({ inside, phasesMm: null });
    patterns.push(...evenOf(rows).map(plain), ...sharesOf(rows).map(plain), ...staggeredOf(sections));
  }
  const mayBeFar = Math.floor(FAR_SHARE * rows.reduce((sum, { inside }) => sum + inside.length + 2, 0));
  let best = readBy(patterns[0], sections, mayBeFar, Number.POSITIVE_INFINITY)!;
  for (const pattern of patterns.slice(1)) best = readBy(pattern, sections, mayBeFar, best.numbers) ?? best;
  return best;
}

/** Rows that a pattern does not have as they are, each in as few numbers as it takes; null where those are not fewer than `most`. */
function readBy(
  { inside, phasesMm }: Pattern,
  sections: readonly Rows[],
  mayBeFar: number,
  most: number,
): InsideRead | null {
  let numbers = numbersInside(inside);
  let room = mayBeFar;
  const own: { phasesMm: readonly number[] | null; odd: OddRow[] }[] = [];
  for (const [s, rows] of sections.entries()) {
    const phases = phasesMm?.[s] ?? null;
    const odd: OddRow[] = [];
    numbers += phases?.length ?? 0;
    for (const row of rows) {
      const far = isStraight(row) ? farIn(insideOf(inside, row, phases), row) : Number.POSITIVE_INFINITY;
      if (far <= room) {
        room -= far;
        continue;
      }
      const told = oddRow(inside, row, phases);
      numbers += numbersInOdd(told);
      if (numbers >= most) return null;
      odd.push(told);
    }
    own.push({ phasesMm: phases, odd });
  }
  if (numbers >= most) return null;
  return { inside, own, numbers };
}

function oddRow(inside: Inside, row: Row, phasesMm: readonly number[] | null): OddRow {
  if (!isStraight(row)) return { row: row.k, atMm: row.inside, asideMm: row.aside };
  const plain: OddRow = { row: row.k, atMm: row.inside };
  if (inside.kind !== 'staggered' || row.inside.length < 3) return plain;
  // nothing between the ends of the row and the needle points next to them
  const half = inside.stitchMm / 2;
  const clear = (mm: number) => Math.max(0, mm - half);
  const clearMm = [clear(row.inside[0]), clear(lengthOf(row) - row.inside[row.inside.length - 1])] as const;
  const otherEnds: OddRow = { row: row.k, clearMm };
  if (farIn(insideOf(inside, row, phasesMm, otherEnds), row) === 0) return otherEnds;
  const phase = phaseOf(row, inside, inside.stitchMm);
  const ownPhase: OddRow = { row: row.k, clearMm, phaseMm: phase ?? 0 };
  return farIn(insideOf(inside, row, phasesMm, ownPhase), row) === 0 && row.inside.length > 3
    ? ownPhase
    : plain;
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
    const alike = Array.from({ length: n + 1 }, () => Array.from({ length: most }, (): Row[] => []));
    for (const row of rows)
      if (row.inside.length > 0) alike[turnIn(row.turn, n + 1)][row.inside.length - 1].push(row);
    const turns = alike.map((each) =>
      each.map((rows, m) =>
        rows.length === 0
          ? []
          : Array.from({ length: m + 1 }, (_, j) => middle(rows.map((row) => row.inside[j] / lengthOf(row)))),
      ),
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

function staggeredOf(sections: readonly Rows[]): Pattern[] {
  const rows = sections.flat();
  const stitchMm = stitchOf(rows);
  if (stitchMm === null) return [];
  const angleDeg = axisOf(rows);
  return (['axis', 'edge', 'begin'] as const).flatMap((from) => {
    const phaseIn = (row: Row) => phaseOf(row, { from, angleDeg }, stitchMm);
    const withClear = (pattern: Inside & { kind: 'staggered' }, phasesMm: Pattern['phasesMm']): Pattern => ({
      inside: { ...pattern, clearMm: clearOf(sections, pattern, phasesMm) },
      phasesMm,
    });
    const base = { kind: 'staggered', from, angleDeg, stitchMm, clearMm: 0 } as const;
    const first = turnsOf(rows, rows.map(phaseIn), stitchMm);
    const own = sections.map((rows) => rows.map((row) => phaseIn(row) ?? 0));
    return [
      ...first.map((turns) => withClear({ ...base, ...turns }, null)),
      withClear({ ...base, phasesMm: [], driftMm: 0 }, own),
    ];
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

/** Phases by turns, for as few turns as there are any. */
function turnsOf(
  rows: Rows,
  phases: readonly (number | null)[],
  stitchMm: number,
): { phasesMm: number[]; driftMm: number }[] {
  const out: { phasesMm: number[]; driftMm: number }[] = [];
  const known = rows.flatMap(({ k, turn }, n) => (phases[n] === null ? [] : [{ k, turn, phase: phases[n] }]));
  for (let turns = 1; turns <= MOST_TURNS; turns++) {
    // from row to row of a section, as far as they follow one another
    const steps = known.flatMap(({ k, turn, phase }, n) => {
      const other = known[n + turns];
      if (other === undefined || other.k - k !== turns) return [];
      return [wrapped((other.phase - phase) * Math.sign(other.turn - turn), stitchMm)];
    });
    const driftMm = steps.length === 0 ? 0 : around(steps, stitchMm, true) / turns;
    out.push(evenedOut(known, turns, driftMm, stitchMm));
  }
  return out;
}

/** The phases of so many turns, and a drift that all rows agree on: what is off by a little from row to row is off by much from first to last. */
function evenedOut(
  known: readonly { readonly turn: number; readonly phase: number }[],
  turns: number,
  drift: number,
  stitchMm: number,
): { phasesMm: number[]; driftMm: number } {
  const alike = Array.from({ length: turns }, (_, turn) =>
    known.filter((row) => turnIn(row.turn, turns) === turn),
  );
  const phasesWith = (driftMm: number) =>
    alike.map((rows) =>
      rows.length === 0
        ? 0
        : around(
            rows.map(({ turn, phase }) => phase - driftMm * turn),
            stitchMm,
          ),
    );
  let driftMm = drift;
  let phasesMm = phasesWith(driftMm);
  for (let round = 0; round < DRIFT_ROUNDS; round++) {
    let [sum, over, under] = [0, 0, 0];
    const middleTurn = known.reduce((total, { turn }) => total + turn / known.length, 0);
    for (const { turn, phase } of known) {
      const off = wrapped(phase - phasesMm[turnIn(turn, turns)] - driftMm * turn, stitchMm);
      if (Math.abs(off) > stitchMm / 4) continue;
      over += (turn - middleTurn) * off;
      under += (turn - middleTurn) ** 2;
      sum++;
    }
    if (sum < 2 || under === 0) break;
    driftMm += over / under;
    phasesMm = phasesWith(driftMm);
  }
  return { phasesMm, driftMm };
}

/** How near to the ends of rows no needle point is put: where the fewest rows have one nearer, or lack one farther off. */
function clearOf(
  sections: readonly Rows[],
  pattern: Inside & { kind: 'staggered' },
  phasesMm: Pattern['phasesMm'],
): number {
  const bounds: [number, number][] = [];
  sections.forEach((rows, s) => {
    for (const row of rows) {
      const length = lengthOf(row);
      for (const mm of insideOf(pattern, row, phasesMm?.[s] ?? null)) {
        const clear = Math.min(mm, length - mm);
        const isThere = row.inside.some((at) => Math.abs(at - mm) <= NEAR_MM);
        bounds.push([clear, isThere ? 1 : -1]);
      }
    }
  });
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
