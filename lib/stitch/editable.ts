/**
 * An object as whoever digitized it would describe it: two edges, how many rows between them, where the needle goes down inside a row. Everything else
 * follows from that, so a change of the description is a change of the object.
 */
import { type Blend, numbersInBlend } from './blend.js';
import { type Curve, numbersInCurve } from './curve.js';
import type { EdgePoint } from './edge.js';
import { type EdgeCurves, numbersInEdges, type Side } from './edge-curves.js';
import { numbersInLattice, type RowLattice } from './row-lattice.js';

/** The ends of rows on one edge that do not lie on it. */
export interface EndsOff {
  /** Ends that stop short of the edge at regular intervals: short stitches in a bend, rows that begin a little inside. */
  readonly short: readonly ShortEnds[];
  /** Single ends that follow no rule, by their count, mm. */
  readonly placed: readonly { readonly t: number; readonly place: EdgePoint }[];
}

/** Every `step`-th end from count `first` on, `ends` of them, stops short of its edge, measured along its row. */
export interface ShortEnds {
  readonly first: number;
  readonly step: number;
  readonly ends: number;
  /** How far, mm, over the count. */
  readonly depth: Curve;
}

/** Where the needle goes down inside a row. */
export type Inside =
  /** Nowhere: a swing from edge to edge. */
  | { readonly kind: 'whole' }
  /**
   * At shares of the row, from edge A. A row as long as or longer than `overMm` times a number is broken so often; which shares, hangs on that and on
   * the number of the row by turns.
   */
  | {
      readonly kind: 'shares';
      readonly overMm: number;
      readonly turns: readonly (readonly (readonly number[])[])[];
    }
  /**
   * At every `stitchMm`, begun in each row at the phase whose turn it is, nowhere nearer than `clearMm` to the ends of the row. Places are told along the
   * axis at `angleDeg` (that of the lattice, where there is one) from the origin, from edge A or from where the row begins. Without phases each section has
   * its own.
   */
  | {
      readonly kind: 'staggered';
      readonly from: 'axis' | 'edge' | 'begin';
      readonly angleDeg: number;
      readonly stitchMm: number;
      readonly clearMm: number;
      readonly phasesMm: readonly number[];
      /** Added to the phase from row to row, mm. */
      readonly driftMm: number;
    }
  /** Even stitches, as few as are not longer than that. */
  | { readonly kind: 'even'; readonly stitchMm: number };

/** Rows sewn to and fro between two edges; the first begins on edge A. */
export interface EditableSection {
  readonly kind: 'section';
  /** Swings of a column, or rows of an area. */
  readonly swings: boolean;
  /**
   * Whether each row begins with the needle point that ends the one before. Then that point has a whole count, and row `k` goes from count `k` to `k + 1`;
   * else both ends of row `k` have count `k`, and a step leads over to the next row.
   */
  readonly joined: boolean;
  readonly rows: number;
  readonly edges: EdgeCurves;
  readonly off: Readonly<Record<Side, EndsOff>>;
  /** The phase of each row, mm, where the pattern of the object has none: stitches begun at random. Null for a row in which the needle goes down nowhere. */
  readonly phasesMm: readonly (number | null)[] | null;
  readonly odd: readonly OddRow[];
  readonly oddSteps: readonly OddStep[];
}

/** A row that does not keep to the rule for where the needle goes down inside it. */
export type OddRow =
  /** Of a staggered pattern: other distances from its ends, and the phase itself if it has one of its own, mm. */
  | { readonly row: number; readonly clearMm: readonly [atA: number, atB: number]; readonly phaseMm?: number }
  /** Of none: where the needle goes down, mm from edge A, and, where that is on no straight line, how far to the left of the row as seen from there. */
  | { readonly row: number; readonly atMm: readonly number[]; readonly asideMm?: readonly number[] };

/** A step over to a row that is not as few even stitches as are no longer than the object's `stepMm`: how many, and where not even at what shares of it, and how far aside, mm. */
export interface OddStep {
  readonly row: number;
  readonly stitches: number;
  readonly bent: readonly EdgePoint[];
}

/**
 * Needle points that are in no section: legs of even stitches, straight from the needle point before. The last leads to the first needle point of what
 * follows, which is not sewn here; at the end of the object to its last.
 */
export interface Way {
  readonly kind: 'way';
  /** Where the needle first goes down, at the beginning of an object; elsewhere it comes from what is before. */
  readonly start: EdgePoint | null;
  readonly legs: readonly Leg[];
  /** The leg to what follows; null at the end of the object. */
  readonly onwards: Pick<Leg, 'stitches'> | null;
}

export interface Leg {
  readonly to: EdgePoint;
  /** How many stitches; null where those are as few as are no longer than the object's `travelMm`. */
  readonly stitches: number | null;
}

export interface EditableObject {
  /** What the rows of its sections lie on; null where they are told one by one. */
  readonly lattice: RowLattice | null;
  /** Where the needle goes down inside the rows of all of its sections. */
  readonly inside: Inside;
  /** Longest stitch of the steps over from row to row, mm; null where each is one stitch. */
  readonly stepMm: number | null;
  /** Longest stitch of ways, mm; null where there are none. */
  readonly travelMm: number | null;
  /** In sewing order. */
  readonly parts: readonly (EditableSection | Blend | Way)[];
}

/** How many numbers a description takes. */
export function numbersIn({ lattice, inside, stepMm, travelMm, parts }: EditableObject): number {
  // rows are numbered from the first one of the first section, which has no need to tell that
  const onLattice = lattice === null ? 0 : numbersInLattice(lattice) - 1;
  return parts.reduce(
    (sum, part) => sum + numbersInPart(part),
    onLattice +
      numbersInside(inside) -
      followingIn(inside, lattice) +
      (stepMm === null ? 0 : 1) +
      (travelMm === null ? 0 : 1),
  );
}

function numbersInPart(part: EditableObject['parts'][number]): number {
  switch (part.kind) {
    case 'way':
      return numbersInWay(part);
    case 'blend':
      return numbersInBlend(part);
    case 'section':
      return numbersInSection(part);
  }
}

/** Of the numbers of a pattern those that follow from something else: the axis of the lattice, and of rows that are begun at random the drift, as there is none. */
function followingIn(inside: Inside, lattice: RowLattice | null): number {
  if (inside.kind !== 'staggered') return 0;
  return (inside.from !== 'axis' || lattice !== null ? 1 : 0) + (inside.phasesMm.length === 0 ? 1 : 0);
}

const told = ({ stitches }: Pick<Leg, 'stitches'>): number => (stitches === null ? 0 : 1);
const numbersInWay = ({ start, legs, onwards }: Way): number =>
  (start === null ? 0 : 2) +
  legs.reduce((sum, leg) => sum + 2 + told(leg), 0) +
  (onwards === null ? 0 : told(onwards));

function numbersInSection({ edges, off, phasesMm, odd, oddSteps }: EditableSection): number {
  const rows = 1;
  return (
    rows +
    numbersInEdges(edges) +
    numbersOff(off.a) +
    numbersOff(off.b) +
    (phasesMm?.filter((mm) => mm !== null).length ?? 0) +
    oddSteps.reduce((sum, { bent }) => sum + 2 + 2 * bent.length, 0) +
    odd.reduce((sum, row) => sum + numbersInOdd(row), 0)
  );
}

const numbersOff = ({ short, placed }: EndsOff): number =>
  short.reduce((sum, { depth }) => sum + 3 + numbersInCurve(depth), 0) + 3 * placed.length;

/** How many numbers an odd row takes. */
export function numbersInOdd(odd: OddRow): number {
  if ('atMm' in odd) return 1 + odd.atMm.length + (odd.asideMm?.length ?? 0);
  return odd.phaseMm === undefined ? 3 : 4;
}

export function numbersInside(inside: Inside): number {
  switch (inside.kind) {
    case 'whole':
      return 0;
    case 'even':
      return 1;
    case 'shares':
      return 1 + inside.turns.flat(2).length;
    case 'staggered':
      return 4 + inside.phasesMm.length;
  }
}
