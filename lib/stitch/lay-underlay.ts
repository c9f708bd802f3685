/**
 * Lays underlay under a satin column: one continuous path of needle points that begins and ends near the first top
 * stitch, or begins at the column's other end where the thread comes in there.
 */
import type { Stitches } from '../format/stitches.js';
import { type Column, measureColumn } from '../geometry/column.js';
import type { StitchObject } from '../segment/objects.js';
import { type InnerBand, innerBand } from './inner-band.js';
import type { LaidUnderlay } from './laid-underlay.js';
import { type BandPlace, LayPath } from './underlay-path.js';
import { LAY_SETTINGS, type LaySettings } from './underlay-settings.js';

/** A kind needs its width over this share of the column. */
const WIDE_ENOUGH = 0.5;
/** Least width of the column for a kind, mm: its own stitches would lie on each other in a narrower one (our own choice). */
const LEAST_WIDTH_MM: Readonly<Record<LaidUnderlay, number>> = {
  'center-run': 0,
  'edge-run': 2.4,
  'edge-run+fill': 3.6,
  fill: 3.2,
  zigzag: 2.4,
  'double-zigzag': 2.4,
};
/** A light fill has at least three rows, no nearer to each other than this, mm; a zigzag at least so many swings. */
const FEWEST_ROWS = 3;
const LEAST_ROWS_MM = 1.1;
const FEWEST_SWINGS = 4;
const LEAST_ADVANCE_MM = 0.9;
/** Shortest run that is worth sewing, mm. */
const LEAST_RUN_MM = 1.3;
/** Where between middle and edge the thread is led to the other end: neither a center run nor an edge run, and beside both. */
const LEAD = 0.75;

/** Underlay as it was laid. */
export interface Laying {
  /** Needle points in sewing order, mm; none where the column has no room. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** What they are: a center run where the column is too narrow or too short for what was asked; null for nothing. */
  readonly laid: LaidUnderlay | null;
  /** As in an object's underlay. */
  readonly spacingMm: number | null;
}

const NOTHING: Laying = { x: new Float64Array(0), y: new Float64Array(0), laid: null, spacingMm: null };

/** A column as underlay is laid in it. */
export interface ColumnUnder {
  readonly column: Column;
  readonly band: InnerBand;
  /** The side on which its top stitching begins: 1 left, −1 right. */
  readonly home: BandSide;
}

/**
 * A satin column from the end on at which its top stitching begins: an earlier pass may lead there from where the swings that are told begin.
 *
 * @param object its top stitching; at least two swings
 * @param insetMm kept from its edges
 */
export function columnUnder(
  { x, y }: Pick<Stitches, 'x' | 'y'>,
  { from, to, range: [first] }: Pick<StitchObject, 'from' | 'to' | 'range'>,
  insetMm: number,
): ColumnUnder {
  const away = (px: Float64Array, py: Float64Array, k: number) =>
    Math.hypot(px[k] - x[first], py[k] - y[first]);
  const asTold = measureColumn(x, y, from, to);
  const { cx, cy, count, closed } = asTold;
  const column =
    closed || away(cx, cy, 0) <= away(cx, cy, count - 1)
      ? asTold
      : measureColumn(x, y, to.slice().reverse(), from.slice().reverse());
  const { leftX, leftY, rightX, rightY } = column;
  const home = away(leftX, leftY, 0) <= away(rightX, rightY, 0) ? 1 : -1;
  return { column, band: innerBand(column, insetMm), home };
}

/**
 * The needle points of an underlay under a satin column.
 *
 * @param entry where the thread comes from, mm, if it is not cut before the column: underlay begins at the end of the
 *   column that is nearer to it. At the first top stitch without it.
 */
export function layUnderlay(
  { band, home }: Pick<ColumnUnder, 'band' | 'home'>,
  kind: LaidUnderlay,
  settings: LaySettings = LAY_SETTINGS,
  entry: { readonly x: number; readonly y: number } | null = null,
): Laying {
  if (band.to - band.from < LEAST_RUN_MM) return NOTHING;
  return new UnderlayLayer(band, settings, home, entryOf(band, entry)).lay(kind);
}

/** Where the thread comes in: at the end where the top stitching begins, at the other, or round a closed column. */
type ThreadEntry = 'near' | 'far' | 'ring';

function entryOf({ cx, cy, count, closed }: InnerBand, from: { x: number; y: number } | null): ThreadEntry {
  if (closed) return 'ring';
  const to = (k: number) => Math.hypot(cx[k] - (from?.x ?? cx[0]), cy[k] - (from?.y ?? cy[0]));
  return to(count - 1) < to(0) ? 'far' : 'near';
}

type BandSide = 1 | -1;
const other = (side: BandSide): BandSide => (side === 1 ? -1 : 1);
/** The side after so many changes. */
const after = (changes: number, side: BandSide): BandSide => (changes % 2 === 0 ? side : other(side));

/** Every kind ends at the near end on the home side, where the top stitching begins (a center run in the middle). */
class UnderlayLayer {
  private readonly path: LayPath;
  private readonly near: number;
  private readonly far: number;
  private readonly length: number;

  constructor(
    private readonly band: InnerBand,
    private readonly settings: LaySettings,
    private readonly home: BandSide,
    private readonly entry: ThreadEntry,
  ) {
    this.path = new LayPath(band, settings.leastStitchMm);
    this.near = band.from;
    this.far = band.to;
    this.length = band.to - band.from;
  }

  lay(asked: LaidUnderlay): Laying {
    const laid = this.carries(asked) ? asked : 'center-run';
    const spacingMm = this.sew(laid);
    return { ...this.path.points, laid, spacingMm };
  }

  private carries(kind: LaidUnderlay): boolean {
    const { s, widthMm } = this.band;
    const within = [...widthMm].filter((_, k) => s[k] >= this.near && s[k] <= this.far);
    const wide = within.filter((width) => width >= LEAST_WIDTH_MM[kind]).length;
    if (wide < WIDE_ENOUGH * within.length) return false;
    switch (kind) {
      case 'center-run':
      case 'edge-run':
        return true;
      case 'fill':
      case 'edge-run+fill':
        return this.length * this.band.slant >= (FEWEST_ROWS - 1) * LEAST_ROWS_MM;
      case 'zigzag':
      case 'double-zigzag':
        return this.length >= FEWEST_SWINGS * LEAST_ADVANCE_MM;
    }
  }

  /** Returns the spacing of rows or of a zigzag. */
  private sew(kind: LaidUnderlay): number | null {
    const { home, entry, settings } = this;
    switch (kind) {
      case 'center-run':
        this.centreRun();
        return null;
      case 'edge-run':
        this.edgeRun();
        if (entry === 'far') this.lead(home, this.far, this.near, settings.runStitchMm);
        return null;
      case 'fill':
        return this.rows();
      case 'edge-run+fill':
        this.edgeRun();
        return this.rows();
      case 'zigzag': {
        const start = after(this.swings, home);
        if (entry === 'ring') return this.zigzag(this.near, this.far, start);
        if (entry === 'near') this.lead(start, this.near, this.far, settings.runStitchMm);
        return this.zigzag(this.far, this.near, start);
      }
      case 'double-zigzag': {
        const start = other(home);
        if (entry === 'far') this.lead(start, this.far, this.near, settings.runStitchMm);
        this.zigzag(this.near, this.far, start);
        // the way back meets the other side at every place: the two cross
        return this.zigzag(this.far, this.near, after(this.swings, home));
      }
    }
  }

  /** Out and back, the needle points of the way back between those of the way out; one way where that ends at the near end. */
  private centreRun(): void {
    const { near, far, length, settings } = this;
    const stitch = settings.runStitchMm;
    const half = length / Math.ceil(length / stitch - 1e-6) / 2;
    switch (this.entry) {
      case 'near':
        this.through(
          [
            [near, 0],
            [far, 0],
            [far - half, 0],
            [near + half, 0],
          ],
          stitch,
        );
        return;
      case 'far':
        this.through(
          [
            [far, 0],
            [near, 0],
          ],
          stitch,
        );
        return;
      case 'ring':
        this.through(
          [
            [near, 0],
            [far, 0],
          ],
          stitch,
        );
    }
  }

  /** Along one edge, across, and along the other back to the end where it began. */
  private edgeRun(): void {
    const { near, far, home } = this;
    const [a, b] = this.entry === 'far' ? [far, near] : [near, far];
    const first = this.entry === 'far' ? home : other(home);
    this.through(
      [
        [a, first],
        [b, first],
        [b, other(first)],
        [a, other(first)],
      ],
      this.settings.runStitchMm,
    );
  }

  /** Rows from edge to edge, the last beside the beginning of the top stitching. */
  private rows(): number {
    const { near, far, length, band, home, settings } = this;
    const stitch = settings.fillStitchMm;
    const apart = Math.min(settings.rowsMm / band.slant, length / (FEWEST_ROWS - 1));
    const count = Math.floor(length / apart + 1e-6) + 1;
    const margin = (length - (count - 1) * apart) / 2;
    let side = after(count, home);
    if (this.entry === 'near') this.lead(side, near, far - margin, stitch);
    for (let row = 0; row < count; row++) {
      const s = this.entry === 'ring' ? near + margin + row * apart : far - margin - row * apart;
      this.through(
        [
          [s, side],
          [s, other(side)],
        ],
        stitch,
      );
      side = other(side);
    }
    return apart * band.slant;
  }

  private get swings(): number {
    return Math.max(FEWEST_SWINGS, Math.round((2 * this.length) / this.settings.zigzagMm));
  }

  private zigzag(a: number, b: number, start: BandSide): number {
    const swings = this.swings;
    for (let k = 0; k <= swings; k++) {
      this.path.to([a + ((b - a) * k) / swings, after(k, start)], this.settings.swingMm);
    }
    return (2 * this.length) / swings;
  }

  /** The way to the other end, beside what lies there. */
  private lead(side: BandSide, a: number, b: number, stitch: number): void {
    this.through(
      [
        [a, side * LEAD],
        [b, side * LEAD],
      ],
      stitch,
    );
  }

  private through(places: readonly BandPlace[], stitch: number): void {
    for (const place of places) this.path.to(place, stitch);
  }
}
