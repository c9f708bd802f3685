/** The way of the thread under one column: its new underlay, with what leads into it and out of it, or mere travel. */
import { distance, squareToSegment } from '../core/distance.js';
import { indexBoxes } from '../core/index2d.js';
import type { Stitches } from '../format/stitches.js';
import type { Column } from '../geometry/column.js';
import type { StitchObject } from '../segment/objects.js';
import { type InnerBand, type PlaceNear, placeIn, placeNear } from './inner-band.js';
import type { LaidUnderlay } from './laid-underlay.js';
import { type ColumnUnder, columnUnder, layUnderlay } from './lay-underlay.js';
import { LayPath } from './underlay-path.js';
import { LAY_SETTINGS, type LaySettings } from './underlay-settings.js';

/** How underlay is laid under one column. */
export interface LayWay {
  readonly to: LaidUnderlay;
  readonly settings: LaySettings;
  /** What the edges have to be kept by, mm: the inset asked for; that of the settings may be larger. */
  readonly keptMm: number;
  /** Begin with locks. */
  readonly locks: boolean;
  /** Where between middle and edge the thread travels, −1 (right) to 1 (left). */
  readonly travelAt: number;
  /** Leave out the last needle point, where the way on to the top stitching is no long stitch without it. */
  readonly endsEarly: boolean;
}

/** Where between middle and edge thread travels: read neither as a center run nor as an edge run. */
const TRAVEL_AT = 0.75;

/** The way that is taken where no other is asked for. */
export const usualWay = (to: LaidUnderlay, settings: LaySettings = LAY_SETTINGS): LayWay => ({
  to,
  settings,
  keptMm: settings.insetMm,
  locks: false,
  travelAt: TRAVEL_AT,
  endsEarly: false,
});

/** Underlay as it was laid. */
export interface LaidThread {
  /** Needle points on the grid of a file; none where the column has no room. */
  readonly points: readonly NeedlePoint[];
  /** What they are: a center run where the column is too narrow or too short for what was asked; null for nothing. */
  readonly laid: LaidUnderlay | null;
  /** As in an object's underlay. */
  readonly spacingMm: number | null;
}

export type NeedlePoint = readonly [x: number, y: number];

/** Needle points lie on a grid of 0.1 mm: the band is that much narrower, so that rounding takes none out of the inset. */
const ROUNDING_MM = 0.08;
/** A point this far outside the rails still counts as under the column, mm. */
const BESIDE_MM = 0.3;
/** A needle point that comes to lie nearer to an edge than it may is moved by steps of so much along the column, or of as many shares across it, mm. */
const MOVE_MM = 0.2;
const MOST_MOVES = 8;
/** A way along the column this many times as long as the straight one leads round it. */
const ROUNDABOUT = 2.5;
/** Distances of places of a file are sums with a last digit, mm. */
const HAIR_MM = 1e-9;
/** A short stitch ends at less than this share of the way from the middle to the rail; a longer one is among so many beside it. */
const SHORT = 0.9;
const SHORT_REACH = 3;
/** Shortest stitch, mm (see G3 of the limits: a shorter one breaks thread). */
export const LEAST_STITCH_MM = 0.5;
/** A stitch may be this much longer than what was asked for. */
export const LONGER = 1.1;
/** Length of one stitch of a lock, mm, and how many go back and forth. */
const LOCK_STITCH_MM = 0.7;
const LOCK_STITCHES = 2;

const apart = (a: NeedlePoint, b: NeedlePoint): number => distance(a[0], a[1], b[0], b[1]);

export class ThreadUnder {
  private readonly column: ColumnUnder;
  /** Whether an edge of the column as it is sewn passes within so many mm of a place. */
  private readonly isNearEdge: (x: number, y: number, withinMm: number) => boolean;
  private readonly settings: LaySettings;
  private readonly first: NeedlePoint;

  constructor(
    { x, y }: Pick<Stitches, 'x' | 'y'>,
    object: Pick<StitchObject, 'from' | 'to' | 'range'>,
    private readonly way: LayWay,
  ) {
    this.settings = { ...way.settings, insetMm: way.settings.insetMm + ROUNDING_MM };
    this.column = columnUnder({ x, y }, object, this.settings.insetMm);
    this.isNearEdge = nearEdges(edgesOf(this.column.column));
    this.first = [x[object.range[0]], y[object.range[0]]];
  }

  private get band(): InnerBand {
    return this.column.band;
  }

  /** Longest stitch that is asked for, mm. */
  get longestMm(): number {
    const { to, settings } = this.way;
    if (to.includes('zigzag')) return settings.swingMm;
    return to.includes('fill') ? settings.fillStitchMm : settings.runStitchMm;
  }

  /**
   * The needle points of new underlay.
   *
   * @param from the needle point before, null where the thread begins here
   * @param enters where the thread has come in under the column
   */
  underlay(from: NeedlePoint | null, enters: NeedlePoint): LaidThread {
    const { column, way, settings } = this;
    const begins = from && this.begins(from, enters);
    const laying = layUnderlay(column, way.to, settings, begins && { x: begins[0], y: begins[1] });
    const { laid, spacingMm } = laying;
    if (laid === null) return { points: [], laid, spacingMm };
    const points = Array.from(laying.x, (x, k): NeedlePoint => [x, laying.y[k]]);
    if (from && begins) points.unshift(...this.leadIn(from, begins, points[0]));
    points.push(...this.leadOut(points[points.length - 1]));
    const before = points[points.length - 2];
    if (way.endsEarly && before && apart(before, this.first) <= settings.fillStitchMm) points.pop();
    if (way.locks && points.length > 1) points.unshift(...lockAt(points[0], points[1]));
    const clear = points.map((point) => this.clearOfEdges(point));
    return { points: onGrid(clear, from, this.first, (point) => this.keepsInset(point)), laid, spacingMm };
  }

  /** The nearest place farther in and farther from the ends that keeps its inset; the point itself where it does, or none near by does. */
  private clearOfEdges(point: NeedlePoint): NeedlePoint {
    if (this.keepsInset(point)) return point;
    const { band } = this;
    const { s, v } = this.placeOf(point);
    const inward = Math.sign((band.from + band.to) / 2 - s);
    for (let moves = 1; moves <= MOST_MOVES; moves++) {
      for (let on = 0; on <= moves; on++) {
        const at = s + inward * on * MOVE_MM;
        const x: number[] = [];
        const y: number[] = [];
        placeIn(band, at, v * (1 - (moves - on) / MOST_MOVES), x, y);
        if (this.keepsInset([x[0], y[0]])) return [x[0], y[0]];
      }
    }
    return point;
  }

  /** Needle points of travel beneath the column, from `from` to `to`; where they lie outside, by where the thread came in and left. */
  travel(from: NeedlePoint, enters: NeedlePoint, leaves: NeedlePoint, to: NeedlePoint): NeedlePoint[] {
    const begins = this.begins(from, enters);
    const ends = this.begins(to, leaves);
    const [a, b] = [this.placeOf(begins), this.placeOf(ends)];
    const { settings, band, way } = this;
    const stitch = settings.runStitchMm;
    const points = this.pointsOf(
      new LayPath(band, settings.leastStitchMm)
        .from(begins[0], begins[1], [a.s, a.v])
        .to([a.s, way.travelAt], stitch)
        .to([b.s, way.travelAt], stitch)
        .to([b.s, b.v], stitch),
    );
    if (apart(from, begins) < LEAST_STITCH_MM) points.shift();
    if (apart(ends, to) < LEAST_STITCH_MM && points.length > 0) points.pop();
    return onGrid(points, from, to);
  }

  /** Where the thread goes on beneath the column: beside its last needle point, or else from where it comes in. */
  private begins(from: NeedlePoint, enters: NeedlePoint): NeedlePoint {
    return this.drawnIn(this.isUnder(from) ? from : enters);
  }

  /** Whether a point keeps its inset from the column's edges as they are sewn, which the band knows smoothed only. */
  keepsInset([px, py]: NeedlePoint): boolean {
    return !this.isNearEdge(px, py, this.way.keptMm - HAIR_MM);
  }

  private leadIn(from: NeedlePoint, begins: NeedlePoint, first: NeedlePoint): NeedlePoint[] {
    if (apart(begins, first) < LEAST_STITCH_MM) return [];
    const points = this.isOneSwing(begins, first) ? [begins, first] : this.path(begins, first);
    if (points.length > 1) points.pop();
    if (apart(from, begins) < LEAST_STITCH_MM) points.shift();
    return points;
  }

  /** Short stitches on to the first top stitch, where the underlay ends farther from it. */
  private leadOut(last: NeedlePoint): NeedlePoint[] {
    const { first, settings } = this;
    if (apart(last, first) <= settings.fillStitchMm || this.isOneSwing(last, first)) return [];
    return this.path(last, this.drawnIn(first)).slice(1);
  }

  /** Whether one stitch leads from one point to another, as in a ring that meets itself: the way along the column is none. */
  private isOneSwing(from: NeedlePoint, to: NeedlePoint): boolean {
    const mm = apart(from, to);
    return (
      mm <= this.settings.swingMm && Math.abs(this.placeOf(from).s - this.placeOf(to).s) > ROUNDABOUT * mm
    );
  }

  /** From one point to another in short stitches, both among them. */
  private path(begins: NeedlePoint, ends: NeedlePoint): NeedlePoint[] {
    const { band, settings } = this;
    const [a, b] = [this.placeOf(begins), this.placeOf(ends)];
    return this.pointsOf(
      new LayPath(band, settings.leastStitchMm)
        .from(begins[0], begins[1], [a.s, a.v])
        .to([b.s, b.v], settings.runStitchMm),
    );
  }

  private pointsOf({ points: { x, y } }: LayPath): NeedlePoint[] {
    return Array.from(x, (px, k): NeedlePoint => [px, y[k]]);
  }

  private placeOf([x, y]: NeedlePoint): PlaceNear {
    return placeNear(this.band, x, y);
  }

  /** Whether a point lies under the column, or so near beside it that a stitch from there does not show. */
  isUnder(point: NeedlePoint): boolean {
    return this.placeOf(point).awayMm <= this.settings.insetMm + BESIDE_MM;
  }

  private drawnIn(point: NeedlePoint): NeedlePoint {
    const { s, v } = this.placeOf(point);
    const x: number[] = [];
    const y: number[] = [];
    placeIn(this.band, s, v, x, y);
    return [x[0], y[0]];
  }
}

/** The edges of a column, each as x and y by turns: its rails, and its end swings where it is open. */
function edgesOf(column: Column): Float64Array[] {
  const { leftX, leftY, rightX, rightY, count, closed } = column;
  const end = (k: number) => Float64Array.of(leftX[k], leftY[k], rightX[k], rightY[k]);
  const rails = [railOf(column, leftX, leftY), railOf(column, rightX, rightY)];
  return closed ? rails : [...rails, end(0), end(count - 1)];
}

function nearEdges(edges: readonly Float64Array[]): (x: number, y: number, withinMm: number) => boolean {
  const ends = edges.flatMap((edge) =>
    Array.from({ length: Math.max(0, edge.length / 2 - 1) }, (_, k) => edge.subarray(2 * k, 2 * k + 4)),
  );
  const index = indexBoxes(
    ends.flatMap(([ax, ay, bx, by]) => [
      Math.min(ax, bx),
      Math.min(ay, by),
      Math.max(ax, bx),
      Math.max(ay, by),
    ]),
  );
  return (x, y, mm) =>
    index.some(x - mm, y - mm, x + mm, y + mm, (k) => {
      const [ax, ay, bx, by] = ends[k];
      return squareToSegment(x, y, ax, ay, bx, by) < mm ** 2;
    });
}

/** One rail without the ends of short stitches, which are drawn in at a bend and covered by those beside them. */
function railOf({ cx, cy, count }: Column, x: Float64Array, y: Float64Array): Float64Array {
  const out = x.map((_, k) => distance(x[k], y[k], cx[k], cy[k]));
  const rail: number[] = [];
  for (let k = 0; k < count; k++) {
    const beside = Math.max(...out.subarray(Math.max(0, k - SHORT_REACH), k + SHORT_REACH + 1));
    if (out[k] >= SHORT * beside) rail.push(x[k], y[k]);
  }
  return Float64Array.from(rail);
}

/** Back and forth along the first stitch, before it. */
function lockAt(first: NeedlePoint, next: NeedlePoint): NeedlePoint[] {
  const share = Math.min(1, LOCK_STITCH_MM / Math.max(apart(first, next), 1e-9));
  const on: NeedlePoint = [first[0] + (next[0] - first[0]) * share, first[1] + (next[1] - first[1]) * share];
  return Array.from({ length: LOCK_STITCHES }, (_, k) => (k % 2 === 0 ? first : on));
}

const GRID_MM = 0.1;

/**
 * Points on the grid of a file: each on the nearest of the four around it that leaves no stitch too short, one of those that are `better` if there is any; and the
 * last ones not where the stitch to `to` would be too short.
 */
function onGrid(
  points: readonly NeedlePoint[],
  from: NeedlePoint | null,
  to: NeedlePoint,
  better: (point: NeedlePoint) => boolean = () => true,
): NeedlePoint[] {
  const out: NeedlePoint[] = [];
  for (const point of points) {
    const before = out[out.length - 1] ?? from;
    const around = gridAround(point).sort((a, b) => apart(a, point) - apart(b, point));
    const free = around.filter((p) => before === null || apart(before, p) >= LEAST_STITCH_MM);
    const place = free.find(better) ?? free[0];
    if (place) out.push(place);
  }
  while (out.length > 1 && apart(out[out.length - 1], to) < LEAST_STITCH_MM) out.pop();
  return out;
}

function gridAround([x, y]: NeedlePoint): NeedlePoint[] {
  const at = (steps: number) => Math.round(steps) / Math.round(1 / GRID_MM);
  const xs = [Math.floor(x / GRID_MM), Math.ceil(x / GRID_MM)];
  const ys = [Math.floor(y / GRID_MM), Math.ceil(y / GRID_MM)];
  return xs.flatMap((px) => ys.map((py): NeedlePoint => [at(px), at(py)]));
}
