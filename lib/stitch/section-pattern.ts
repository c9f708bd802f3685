/** Where the needle goes down inside the rows of sections as found, and in rows that are laid anew between other edges. */
import type { EdgePoint } from './edge.js';
import type { Inside, OddRow } from './editable.js';
import { insideOf, lengthOf, type RowSpan } from './inside-row.js';
import { type Row, readInside } from './read-inside.js';
import { type LatticeRows, latticeRow, numberRows, unitAt } from './row-lattice.js';
import type { SectionShape } from './section-shape.js';

export interface SectionPattern {
  readonly inside: Inside;
  /** The phase of each row as found, where the pattern has none, mm. */
  readonly phasesMm: readonly (number | null)[] | null;
  /** Rows as found that do not keep to the pattern. */
  readonly odd: ReadonlyMap<number, OddRow>;
  /** The numbers of its rows by which the pattern goes. */
  readonly rows: LatticeRows;
}

export const IN_ORDER: LatticeRows = { first: 0, falls: false, skips: [] };

/** The number of a row by which the pattern inside goes: a row that leads over to the next lies on the one on which it ends. */
export const turnOf = (rows: LatticeRows, joined: boolean, row: number): number =>
  latticeRow(rows, joined ? row + 1 : row);

/** The one pattern of the sections of an object, as each of them has it. */
export function patternsOf(
  sections: readonly { readonly shape: SectionShape; readonly joined: boolean }[],
): SectionPattern[] {
  const areas = sections.every(({ shape }) => !shape.swings);
  const pairs = sections.map(({ shape }) => ({ a: shape.a.line, b: shape.b.line }));
  const numbered = areas ? numberRows(pairs) : null;
  const rows = sections.map(({ shape, joined }, n) =>
    shape.rows.map(
      ({ ax, ay, bx, by, inside, aside }, k): Row => ({
        k,
        turn: turnOf(numbered?.[n] ?? IN_ORDER, joined, k),
        a: [ax, ay],
        b: [bx, by],
        inside,
        aside,
      }),
    ),
  );
  const { inside, own } = readInside(rows);
  return own.map(({ phasesMm, odd }, n) => ({
    inside,
    phasesMm,
    odd: new Map(odd.map((row) => [row.row, row])),
    rows: numbered?.[n] ?? IN_ORDER,
  }));
}

/** The pattern in a design that has been moved along the axes. */
export class MovedPattern {
  private readonly origin: EdgePoint;
  private readonly inside: Inside;

  /** @param to where a place comes to lie */
  constructor(
    readonly pattern: SectionPattern,
    to: (x: number, y: number) => EdgePoint,
  ) {
    const { inside } = pattern;
    this.origin = to(0, 0);
    if (inside.kind !== 'staggered') this.inside = inside;
    else {
      const [x, y] = to(...unitAt(inside.angleDeg));
      const angleDeg = (Math.atan2(y - this.origin[1], x - this.origin[0]) * 180) / Math.PI;
      this.inside = { ...inside, angleDeg };
    }
  }

  /**
   * Needle points inside a row, mm from edge A, ascending.
   *
   * @param like number of the row as found that it is like; `again` where the row before was like that one too
   */
  places({ a, b, ...row }: RowSpan, like: number, again: boolean): readonly number[] {
    const { inside, origin } = this;
    const here = (place: EdgePoint): EdgePoint => [place[0] - origin[0], place[1] - origin[1]];
    const span = { ...row, a: here(a), b: here(b) };
    const odd = again ? undefined : this.pattern.odd.get(like);
    const told = odd && 'atMm' in odd ? undefined : odd;
    const own = this.pattern.phasesMm?.[like];
    if (inside.kind === 'shares') return sharesOf(inside, span);
    if (inside.kind !== 'staggered' || own === undefined || own === null)
      return insideOf(inside, span, null, told);
    // a row between two that are begun at random lies as far as can be from the one it is like
    const phaseMm = told?.phaseMm ?? own + (again ? inside.stitchMm / 2 : 0);
    const clearMm = told?.clearMm ?? [inside.clearMm, inside.clearMm];
    return insideOf(inside, span, null, { row: row.k, clearMm, phaseMm });
  }
}

/** A row that is broken more often than any as found is broken evenly. */
function sharesOf(inside: Inside & { kind: 'shares' }, span: RowSpan): readonly number[] {
  const places = insideOf(inside, span, null);
  const parts = Math.ceil(lengthOf(span) / inside.overMm - 1e-6);
  if (places.length > 0 || parts < 2) return places;
  return Array.from({ length: parts - 1 }, (_, n) => (lengthOf(span) * (n + 1)) / parts);
}
