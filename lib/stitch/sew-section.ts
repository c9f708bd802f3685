/** Lays the rows of a section anew between its edges: as many as keep their distance, with needle points inside as found. */
import { distance } from '../core/distance.js';
import { type Edge, type EdgePoint, edgeAt } from './edge.js';
import type { RowSpan } from './inside-row.js';
import type { NewEdges } from './new-edges.js';
import { countRows, offAt, type RowCounts } from './row-counts.js';
import { latticeRow } from './row-lattice.js';
import { MovedPattern, type SectionPattern } from './section-pattern.js';
import {
  LEAST_STITCH_MM,
  ROUNDING_MM,
  type RowInside,
  type SectionEdge,
  type SectionShape,
  stitchesOver,
} from './section-shape.js';

/** How far on along its edge a row may begin to make the step over to it long enough, in counts, and the steps in which that is tried. */
const MOST_ALONG = 0.4;
const ALONG_STEP = 0.05;
/** How far out of its edge and into it a row may begin to make the step over to it long enough, mm. */
const MOST_OUT_MM = 0.06;
const MOST_IN_MM = 0.35;
/** Needle points nearer than this are one, mm. */
const SAME_MM = 0.15;
/** A row is as found where its length is, by so many mm. A row with needle points by no rule keeps them, closer or farther apart, as long as it gets no more than so many times as long. */
const AS_LONG_MM = 0.02;
const ODD_STRETCH = 1.25;
/** A stitch inside a row is parted where it is longer than the longest as found by this share. */
const LONGER = 1.2;

/** What was laid. */
export interface SewnSection {
  /** Needle points, mm. */
  readonly x: number[];
  readonly y: number[];
  /** The two ends of each row among them. */
  readonly from: number[];
  readonly to: number[];
  /** For each row the one as found, of the section, that it is like. */
  readonly like: number[];
  /** Whether it ends on the other edge than the section as found. */
  readonly crossed: boolean;
  /** Spacing of the rows, as a share of what it was. */
  readonly spacing: number;
}

/** @param pattern where the needle goes down inside rows that are not where one was found */
export function sewSection(
  shape: SectionShape,
  edges: NewEdges,
  pattern: () => SectionPattern,
  joined: boolean,
  mayCross: boolean,
): SewnSection {
  return new RowLayer(shape, edges, pattern, joined).lay(countRows(shape, edges, joined, mayCross));
}

/** A row between its edges; by which number the pattern goes in it is only worked out where it has to be known. */
type RowLaid = Omit<RowSpan, 'turn'> & { readonly turn: (row: number) => number };

interface RowPlace {
  readonly row: number;
  /** From edge b to edge a. */
  readonly back: boolean;
  readonly edge: EdgePoint;
  readonly goal: EdgePoint;
  /** Count at which it begins on its edge. */
  readonly t: number;
  /** The row as found that it is like; `asFound` too where it lies where that one did, sewn the same way, else NaN. */
  readonly like: number;
  readonly asFound: number;
}

class RowLayer {
  private readonly x: number[] = [];
  private readonly y: number[] = [];
  private moved: MovedPattern | null = null;

  constructor(
    private readonly shape: SectionShape,
    private readonly edges: NewEdges,
    private readonly pattern: () => SectionPattern,
    private readonly joined: boolean,
  ) {}

  lay({ ends: [onA, onB], crossed, rate }: RowCounts): SewnSection {
    const { shape, joined } = this;
    const from: number[] = [];
    const to: number[] = [];
    const alike: number[] = [];
    const rows = joined ? onA.length - 1 : onA.length;
    let before = -1;
    let wasAsFound = Number.NaN;
    const turn = (row: number) => this.turnOf(row, (onA[0] + onB[joined ? 1 : 0]) / 2, rate);
    for (let row = 0; row < rows; row++) {
      const place = this.placeOf(row, onA, onB);
      const { back, edge, goal, like, asFound } = place;
      const asBefore = asFound === wasAsFound + 1;
      const start = row > 0 && !joined && !asBefore ? this.clearStart(place) : edge;
      if (row > 0 && !joined) this.stepTo(start, asBefore ? shape.rows[like] : null);
      const first = row > 0 && joined ? this.x.length - 1 : this.needle(start);
      const span = { k: row, a: back ? goal : start, b: back ? start : goal, turn };
      const inside = this.inside(span, like, like === before, asFound >= 0);
      before = like;
      wasAsFound = asFound;
      for (const [x, y] of back ? inside.reverse() : inside) this.needle([x, y]);
      const last = this.needle(goal, joined);
      if (last === first) continue;
      from.push(first);
      to.push(last);
      alike.push(like);
    }
    return { x: this.x, y: this.y, from, to, like: alike, crossed, spacing: 1 / rate };
  }

  /** Where a row goes from and to, by the counts at which rows end on both edges. */
  private placeOf(row: number, onA: ArrayLike<number>, onB: ArrayLike<number>): RowPlace {
    const { shape, edges, joined } = this;
    const back = row % 2 === 1;
    // A row that leads on to the next ends where that one begins.
    const ta = onA[joined && back ? row + 1 : row];
    const tb = onB[joined && !back ? row + 1 : row];
    const a = this.end(shape.a, edges.a, ta, row);
    const b = this.end(shape.b, edges.b, tb, row);
    const like = Math.max(0, Math.min(shape.rows.length - 1, Math.round((ta + tb) / 2 - (joined ? 0.5 : 0))));
    const asFound =
      isWhole(ta) &&
      isWhole(tb) &&
      Math.round(Math.abs(ta - tb)) === (joined ? 1 : 0) &&
      (like - row) % 2 === 0
        ? like
        : Number.NaN;
    return { row, back, edge: back ? b : a, goal: back ? a : b, t: back ? tb : ta, like, asFound };
  }

  /** Where a row begins whose step over from the one before is not as it was found. */
  private clearStart({ row, back, edge, goal, t }: RowPlace): EdgePoint {
    const [side, line] = back ? [this.shape.b, this.edges.b] : [this.shape.a, this.edges.a];
    return this.clearOfStep(edge, goal, (on) =>
      t + on > line.t[line.t.length - 1] ? null : this.end(side, line, t + on, row),
    );
  }

  private end(edge: SectionEdge, line: Edge, t: number, row: number): EdgePoint {
    const [x, y] = edgeAt(line, t);
    const off = offAt(edge, t, row, this.joined);
    if (off === undefined) return [x, y];
    const { to } = this.edges;
    const [[ox, oy], [px, py]] = [to(0, 0), to(...off)];
    return [x + px - ox, y + py - oy];
  }

  /** Puts the needle down; where it stands already it is not put down again. Returns the number of the point. */
  private needle([px, py]: EdgePoint, always = false): number {
    const last = this.x.length - 1;
    if (!always && last >= 0 && distance(px, py, this.x[last], this.y[last]) < SAME_MM) return last;
    this.x.push(px);
    this.y.push(py);
    return last + 1;
  }

  /**
   * Where a row begins whose step over would get shorter than those as found: a little farther on along its edge; where that does not do, a
   * little off the edge; else where the row before ended.
   *
   * @param along where the edge is so many counts farther on; null beyond its end
   */
  private clearOfStep(
    edge: EdgePoint,
    [gx, gy]: EdgePoint,
    along: (on: number) => EdgePoint | null,
  ): EdgePoint {
    const last = this.x.length - 1;
    const here: EdgePoint = [this.x[last], this.y[last]];
    const least = this.shape.leastStepMm;
    const [vx, vy] = [edge[0] - here[0], edge[1] - here[1]];
    const length = distance(...edge, gx, gy);
    const square = vx * vx + vy * vy;
    if (square < SAME_MM ** 2 || length < 2 * LEAST_STITCH_MM) return edge;
    // the file may round it down
    for (const enough of [least + ROUNDING_MM, least]) {
      if (square >= enough ** 2) return edge;
      for (let on = ALONG_STEP; on <= MOST_ALONG; on += ALONG_STEP) {
        const place = along(on);
        if (place !== null && distance(...place, ...here) >= enough) return place;
      }
    }
    const [ux, uy] = [(gx - edge[0]) / length, (gy - edge[1]) / length];
    const forth = vx * ux + vy * uy;
    const root = Math.sqrt(Math.max(0, least ** 2 - square + forth * forth));
    const on = root + forth < MOST_OUT_MM ? -root - forth : root - forth;
    return on > MOST_IN_MM ? here : [edge[0] + ux * on, edge[1] + uy * on];
  }

  /** The way over to the next row, in stitches no longer than those as found. */
  private stepTo([px, py]: EdgePoint, asFound: RowInside | null): void {
    const last = this.x.length - 1;
    const [ax, ay] = [this.x[last], this.y[last]];
    if (asFound && asFound.bent.length > 0) {
      const length = distance(ax, ay, px, py) || 1;
      const [vx, vy] = [px - ax, py - ay];
      for (const [along, aside] of asFound.bent)
        this.needle([ax + vx * along - (vy / length) * aside, ay + vy * along + (vx / length) * aside]);
      return;
    }
    const parts = asFound?.steps ?? stitchesOver(distance(ax, ay, px, py), this.shape.stepMm);
    for (let n = 1; n < parts; n++) this.needle([ax + ((px - ax) * n) / parts, ay + ((py - ay) * n) / parts]);
  }

  /** The number by which the pattern goes: that of the first row where it lies among all rows of the object as laid, the others from there. */
  private turnOf(row: number, first: number, rate: number): number {
    const { rows } = this.movedPattern().pattern;
    const begin = Math.round(rate * latticeRow(rows, first + (this.joined ? 0.5 : 0)));
    return rows.falls ? begin - row : begin + row;
  }

  private movedPattern(): MovedPattern {
    this.moved ??= new MovedPattern(this.pattern(), this.edges.to);
    return this.moved;
  }

  /** Needle points inside a row: those of row `like` where it lies where that one did, else by the pattern; `again` where the row before was like that one too. */
  private inside(span: RowLaid, like: number, again: boolean, asFound: boolean): EdgePoint[] {
    const { a, b } = span;
    const row = this.shape.rows[like];
    const was = distance(row.ax, row.ay, row.bx, row.by);
    const length = distance(...a, ...b);
    if (length === 0 || was === 0) return [];
    const [vx, vy] = [b[0] - a[0], b[1] - a[1]];
    const at = (share: number, aside = 0): EdgePoint => [
      a[0] + vx * share - (vy / length) * aside,
      a[1] + vy * share + (vx / length) * aside,
    ];
    if (asFound && Math.abs(length - was) <= AS_LONG_MM)
      return row.inside.map((c, k) => at(c / was, row.aside[k]));
    const moved = this.movedPattern();
    const odd = again ? undefined : moved.pattern.odd.get(like);
    if (odd && 'atMm' in odd && length <= ODD_STRETCH * was)
      return row.inside.map((c, k) => at(c / was, asFound ? row.aside[k] : 0));
    return this.borne(moved.places({ ...span, turn: span.turn(span.k) }, like, again), length, row, was).map(
      (c) => at(c / length),
    );
  }

  /** Needle points without those too near to the ends of their row, and with others where a stitch would be too long. */
  private borne(places: readonly number[], length: number, { inside }: RowInside, was: number): number[] {
    const { longestMm, swings } = this.shape;
    const least =
      inside.length === 0
        ? LEAST_STITCH_MM
        : Math.min(LEAST_STITCH_MM, inside[0], was - inside[inside.length - 1]);
    const kept = places.filter((mm) => mm >= least && mm <= length - least);
    if (swings) return kept;
    const stops = [...kept, length];
    return stops.flatMap((to, n) => {
      const from = n === 0 ? 0 : stops[n - 1];
      const parts = to - from > LONGER * longestMm ? Math.ceil((to - from) / longestMm) : 1;
      const points = Array.from({ length: parts }, (_, k) => from + ((to - from) * (k + 1)) / parts);
      return n === kept.length ? points.slice(0, -1) : points;
    });
  }
}

const isWhole = (t: number): boolean => Math.abs(t - Math.round(t)) < 1e-6;
