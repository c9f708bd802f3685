/**
 * An object as whoever digitized it would describe it: two edges, how many rows between them, where the needle goes down inside a row. Everything else
 * follows from that, so a change of the description is a change of the object.
 */
import { type Curve, numbersInCurve } from './curve.js';
import type { Place } from './edge.js';
import { type EdgeCurves, numbersInEdges, type Side } from './edge-curves.js';

/** The ends of rows on one edge that do not lie on it. */
export interface EndsOff {
  /** Ends that stop short of the edge at regular intervals: short stitches in a bend, rows that begin a little inside. */
  readonly short: readonly ShortEnds[];
  /** Single ends that follow no rule, by their count, mm. */
  readonly placed: readonly { readonly t: number; readonly place: Place }[];
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
   * axis at `angleDeg` from the origin, from edge A or from where the row begins.
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
  readonly inside: Inside;
  readonly odd: readonly OddRow[];
}

/** A row that does not keep to the rule for where the needle goes down inside it. */
export type OddRow =
  /** Of a staggered pattern: other distances from its ends, and the phase itself if it has one of its own, mm. */
  | { readonly row: number; readonly clearMm: readonly [atA: number, atB: number]; readonly phaseMm?: number }
  /** Of none: where the needle goes down, mm from edge A, and, where that is on no straight line, how far to the left of the row as seen from there. */
  | { readonly row: number; readonly atMm: readonly number[]; readonly asideMm?: readonly number[] };

/** Needle points that are in no section: the way from one to the next, rows too short to be one. One at each whole count of a curve. */
export interface Way {
  readonly kind: 'way';
  readonly curve: Curve;
  readonly stitches: number;
}

export interface EditableObject {
  /** In sewing order. */
  readonly parts: readonly (EditableSection | Way)[];
}

/** How many numbers a description takes. */
export function numbersIn({ parts }: EditableObject): number {
  return parts.reduce(
    (sum, part) => sum + (part.kind === 'way' ? 1 + numbersInCurve(part.curve) : numbersInSection(part)),
    0,
  );
}

function numbersInSection({ edges, off, inside, odd }: EditableSection): number {
  const rows = 1;
  return (
    rows +
    numbersInEdges(edges) +
    numbersOff(off.a) +
    numbersOff(off.b) +
    numbersInside(inside) +
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
