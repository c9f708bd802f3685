/** The pattern that the needle points inside rows as found follow. */
import { spreadInPlace } from '../core/stats.js';
import { type Inside, numbersInOdd, numbersInside, type OddRow } from './editable.js';
import { insideOf, lengthOf, type RowSpan, scaleOf, turnIn } from './inside-row.js';

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
/** Of many rows so many tell which kinds of pattern are worth holding against all, and so many kinds are. */
const ROWS_TRIED = 60;
const KINDS_TRIED = 3;
/** Of many rows about so many are asked how near to their ends the needle goes down. */
const ROWS_ASKED = 300;
/** Stitches of one length differ by no more than this, mm. */
const ALIKE_MM = 0.3;

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
type SectionRows = readonly Row[];

/** Where the needle goes down inside the rows of some sections. */
export interface InsideRead {
  readonly inside: Inside;
  /** Of each section: see `EditableSection`. */
  readonly own: readonly { readonly phasesMm: readonly number[] | null; readonly odd: readonly OddRow[] }[];
  readonly numbers: number;
}

/** A pattern, with the phases that each section has of its own. */
interface PhasedPattern {
  readonly inside: Inside;
  readonly phasesMm: readonly (readonly number[])[] | null;
}

/**
 * The pattern of the rows of some sections that takes the fewest numbers, together with the rows that do not keep to it.
 *
 * @param angleDeg the direction of all rows, where that is known
 */
export function readInside(sections: readonly SectionRows[], angleDeg?: number): InsideRead {
  const mayBeFar = farAllowed(sections);
  const found = foundIn(sections, angleDeg);
  let best = null as InsideRead | null;
  for (const make of patternsTried(sections)) {
    const pattern = make(found);
    if (pattern) best = readBy(pattern, sections, mayBeFar, best?.numbers) ?? best;
  }
  return best!;
}

/** Rows, and what all kinds of pattern ask of them. */
interface Found {
  readonly sections: readonly SectionRows[];
  readonly rows: SectionRows;
  readonly stitchMm: number | null;
  readonly angleDeg: number;
}

function foundIn(sections: readonly SectionRows[], angleDeg?: number): Found {
  const rows = sections.flat();
  return { sections, rows, stitchMm: stitchOf(rows), angleDeg: angleDeg ?? axisOf(rows) };
}

/** A kind of pattern, made to agree with rows; null where they have none of that kind. */
type Make = (found: Found) => PhasedPattern | null;

/** The kinds of pattern that come into question: of many rows those that tell a stretch of them in the fewest numbers. */
function patternsTried(sections: readonly SectionRows[]): readonly Make[] {
  const rows = sections.reduce((sum, { length }) => sum + length, 0);
  if (sections.every((rows) => rows.every(({ inside }) => inside.length === 0))) return [WHOLE];
  if (rows <= 2 * ROWS_TRIED) return KINDS;
  const longest = sections.reduce((p, q) => (q.length > p.length ? q : p));
  // begun with a row that is sewn the same way as the first
  const first = 2 * Math.floor(Math.max(0, longest.length - ROWS_TRIED) / 4);
  const few = [
    longest.slice(first, first + ROWS_TRIED).map((row) => ({ ...row, k: row.k - longest[first].k })),
  ];
  const mayBeFar = farAllowed(few);
  const found = foundIn(few);
  return KINDS.flatMap((make) => {
    const pattern = make(found);
    return pattern ? [{ make, takes: readBy(pattern, few, mayBeFar)!.numbers }] : [];
  })
    .sort((p, q) => p.takes - q.takes)
    .slice(0, KINDS_TRIED)
    .map(({ make }) => make);
}

const farAllowed = (sections: readonly SectionRows[]): number =>
  Math.floor(
    FAR_SHARE *
      sections.reduce((sum, rows) => rows.reduce((sum, { inside }) => sum + inside.length + 2, sum), 0),
  );

/** Rows that a pattern does not have as they are, each in as few numbers as it takes; null where those are not fewer than `most`. */
function readBy(
  { inside, phasesMm }: PhasedPattern,
  sections: readonly SectionRows[],
  mayBeFar: number,
  most = Number.POSITIVE_INFINITY,
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

/** No rule: what is told needs none. */
const WHOLE: Make = () => ({ inside: { kind: 'whole' }, phasesMm: null });

/** Even stitches: the longest that is shared by all rows is the length asked for. */
const EVEN: Make = ({ rows }) => {
  let longest = 0;
  for (const row of rows) longest = Math.max(longest, lengthOf(row) / (row.inside.length + 1));
  return { inside: { kind: 'even', stitchMm: longest + 1e-3 }, phasesMm: null };
};

/** Shares of the row: the length from which rows are broken, and for each number of breaks the shares by so many turns. */
const shares =
  (count: number): Make =>
  ({ rows }) => {
    const most = rows.reduce((most, { inside }) => Math.max(most, inside.length), 0);
    const overMm = breakingLength(rows);
    const alike = Array.from({ length: count }, () => Array.from({ length: most }, (): Row[] => []));
    for (const row of rows)
      if (row.inside.length > 0) alike[turnIn(row.turn, count)][row.inside.length - 1].push(row);
    const turns = alike.map((each) =>
      each.map((rows, m) =>
        rows.length === 0
          ? []
          : Array.from({ length: m + 1 }, (_, j) => middle(rows.map((row) => row.inside[j] / lengthOf(row)))),
      ),
    );
    return { inside: { kind: 'shares', overMm, turns }, phasesMm: null };
  };

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

/** Stitches of one length, begun in each row at the phase of its turn; with null for the count of turns each row has a phase of its own. */
const staggered =
  (from: (Inside & { kind: 'staggered' })['from'], count: number | null): Make =>
  ({ sections, rows, stitchMm, angleDeg }) => {
    if (stitchMm === null) return null;
    const phaseIn = (row: Row) => phaseOf(row, { from, angleDeg }, stitchMm);
    const base = {
      kind: 'staggered',
      from,
      angleDeg,
      stitchMm,
      clearMm: 0,
      phasesMm: [],
      driftMm: 0,
    } as const;
    const phasesMm = count === null ? sections.map((rows) => rows.map((row) => phaseIn(row) ?? 0)) : null;
    const inside = count === null ? base : { ...base, ...phasesOf(rows, rows.map(phaseIn), count, stitchMm) };
    return { inside: { ...inside, clearMm: clearOf(sections, inside, phasesMm) }, phasesMm };
  };

const TURNS = Array.from({ length: MOST_TURNS }, (_, n) => n + 1);
const KINDS: readonly Make[] = [
  WHOLE,
  EVEN,
  ...TURNS.map(shares),
  ...(['axis', 'edge', 'begin'] as const).flatMap((from) =>
    [...TURNS, null].map((count) => staggered(from, count)),
  ),
];

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

/** Phases by so many turns, and the drift from row to row. */
function phasesOf(
  rows: SectionRows,
  phases: readonly (number | null)[],
  turns: number,
  stitchMm: number,
): { phasesMm: number[]; driftMm: number } {
  const known = rows.flatMap(({ k, turn }, n) => (phases[n] === null ? [] : [{ k, turn, phase: phases[n] }]));
  // from row to row of a section, as far as they follow one another
  const steps = known.flatMap(({ k, turn, phase }, n) => {
    const other = known[n + turns];
    if (other === undefined || other.k - k !== turns) return [];
    return [wrapped((other.phase - phase) * Math.sign(other.turn - turn), stitchMm)];
  });
  return evenedOut(known, turns, steps.length === 0 ? 0 : around(steps, stitchMm, true) / turns, stitchMm);
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
  sections: readonly SectionRows[],
  pattern: Inside & { kind: 'staggered' },
  phasesMm: PhasedPattern['phasesMm'],
): number {
  const bounds: [number, number][] = [];
  const total = sections.reduce((sum, { length }) => sum + length, 0);
  const stride = Math.max(1, Math.floor(total / ROWS_ASKED));
  sections.forEach((rows, s) => {
    for (let n = 0; n < rows.length; n += stride) {
      const row = rows[n];
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
