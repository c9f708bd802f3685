import { type Bounds, emptyBounds, growBounds, holds } from '../core/bounds.js';
import { squareToSegment } from '../core/distance.js';
import { type BoxIndex, indexBoxes } from '../core/index2d.js';
import { spreadInPlace } from '../core/stats.js';
import { Break, type Stitches } from '../format/stitches.js';
import { measureColumn } from '../geometry/column.js';
import { measureRows, type RowGeometry } from '../geometry/rows.js';
import type { StitchObject } from '../segment/objects.js';

/** Places that an object is asked about by going through all its stitches; for more an index over them pays. */
const BARE_QUERIES = 6;
/** Two needle places of a file, 0.1 mm apart, may be a hair further by the last digit of a sum, mm. */
export const HAIR_MM = 1e-9;
/** Lines of a column or fill whose spacing is sound may lie this much further apart in a place: the step of the file, mm. */
export const UNEVEN_MM = 0.1;
/**
 * A median spacing counts as what it is told as, to 0.01 mm, mm: a file's own steps move that of rows meant a thread apart by a few thousandths
 * to either side, which must not decide whether all their ground hides.
 */
const TOLD_WITHIN_MM = 0.005;

type Triangle = readonly [ax: number, ay: number, bx: number, by: number, cx: number, cy: number];

/** Four corners of the ground between two swings, in order round it. */
type Quad = readonly [...Triangle, dx: number, dy: number];

/** One object's top stitching as what hides holes beneath it. What a query needs is made when it is first needed. */
export class CoveringObject {
  /** Of its needle points; `minX` above `maxX` where it lays no thread. */
  readonly bounds: Bounds = emptyBounds();
  #queries = 0;
  #threads: BoxIndex | null = null;
  #ground: ((x: number, y: number) => boolean) | null = null;

  /** @param threadMm width that one thread covers */
  constructor(
    private readonly stitches: Stitches,
    private readonly object: StitchObject,
    private readonly threadMm: number,
  ) {
    const { x, y } = stitches;
    const [first, last] = object.range;
    if (last > first) for (let i = first; i <= last; i++) growBounds(this.bounds, x[i], y[i]);
  }

  /** Whether a thread of its top stitching passes within `reach` of the place, mm. */
  threadWithin(px: number, py: number, reach: number): boolean {
    const limit = reach + HAIR_MM;
    if (!holds(this.bounds, px, py, limit)) return false;
    return this.#anyThread(px, py, limit, (square) => square <= limit * limit);
  }

  /** How far the nearest thread passes from the place, mm; infinite where none does within `reach`. */
  nearestThread(px: number, py: number, reach: number): number {
    if (!holds(this.bounds, px, py, reach)) return Number.POSITIVE_INFINITY;
    let least = Number.POSITIVE_INFINITY;
    this.#anyThread(px, py, reach, (square) => {
      if (square < least) least = square;
      return false;
    });
    return least <= reach * reach ? Math.sqrt(least) : Number.POSITIVE_INFINITY;
  }

  /**
   * Whether the place lies inside a column or fill that is sewn closely enough to hide it: the median distance of its lines is at most
   * one thread (half the spacing of a column, the spacing of a fill), and a line passes no farther from it than half of that and the step of the
   * file, which nobody sees. The second is stricter than the rule that goes by the spacing alone: a gap in sound stitching hides nothing.
   */
  encloses(px: number, py: number): boolean {
    if (this.object.kind === 'run' || !holds(this.bounds, px, py, HAIR_MM)) return false;
    this.#ground ??= this.object.kind === 'satin' ? this.#columnGround() : this.#fillGround();
    return this.#ground(px, py) && this.threadWithin(px, py, this.threadMm / 2 + UNEVEN_MM);
  }

  /** Tries the squared distances of threads near a place, until one passes. */
  #anyThread(px: number, py: number, reach: number, passes: (square: number) => boolean): boolean {
    const { x, y, breakBefore } = this.stitches;
    const [first, last] = this.object.range;
    if (this.#threads === null && this.#queries++ < BARE_QUERIES) {
      for (let i = first + 1; i <= last; i++) {
        if (breakBefore[i] >= Break.trim) continue;
        const ax = x[i - 1];
        const bx = x[i];
        if (ax < bx ? bx < px - reach || ax > px + reach : ax < px - reach || bx > px + reach) continue;
        if (passes(squareToSegment(px, py, ax, y[i - 1], bx, y[i]))) return true;
      }
      return false;
    }
    this.#threads ??= this.#indexThreads();
    return this.#threads.some(px - reach, py - reach, px + reach, py + reach, (k) => {
      const i = first + 1 + k;
      return breakBefore[i] < Break.trim && passes(squareToSegment(px, py, x[i - 1], y[i - 1], x[i], y[i]));
    });
  }

  #indexThreads(): BoxIndex {
    const { x, y } = this.stitches;
    const [first, last] = this.object.range;
    const boxes = new Float64Array(4 * (last - first));
    for (let i = first + 1, k = 0; i <= last; i++, k += 4) setBox(boxes, k, x[i - 1], y[i - 1], x[i], y[i]);
    return indexBoxes(boxes);
  }

  /** The ground between one swing of a column and the next. */
  #columnGround(): (px: number, py: number) => boolean {
    const { from, to } = this.object;
    const swings = from.length;
    if (swings < 2) return () => false;
    const { x, y } = this.stitches;
    const quad = (j: number): Quad => {
      const [a, b] = [from[j], to[j]];
      let [c, d] = [from[j + 1], to[j + 1]];
      // swings go to and fro; where two go the same way the second is taken the other way round, so that its ends follow in order
      if ((x[b] - x[a]) * (x[d] - x[c]) + (y[b] - y[a]) * (y[d] - y[c]) > 0) [c, d] = [d, c];
      return [x[a], y[a], x[b], y[b], x[c], y[c], x[d], y[d]];
    };
    let sound: ((j: number) => boolean) | null = null;
    const soundAt = (j: number) => {
      sound ??= this.#soundSwings();
      return sound(j);
    };
    let index: BoxIndex | null = null;
    let queries = 0;
    return (px, py) => {
      const inside = (j: number) => inQuad(px, py, quad(j)) && soundAt(j);
      if (index === null && queries++ < BARE_QUERIES) {
        for (let j = 0; j + 1 < swings; j++) if (inside(j)) return true;
        return false;
      }
      if (index === null) {
        const boxes = new Float64Array(4 * (swings - 1));
        for (let j = 0; j + 1 < swings; j++) setBox(boxes, 4 * j, ...quad(j));
        index = indexBoxes(boxes);
      }
      return index.some(px, py, px, py, inside);
    };
  }

  #soundSwings(): (j: number) => boolean {
    const { from, to } = this.object;
    const { spacingMm } = measureColumn(this.stitches.x, this.stitches.y, from, to);
    // a zig and a zag share each spacing
    const closest = spreadInPlace(Float64Array.from(spacingMm))!.median / 2;
    if (closest > this.threadMm + TOLD_WITHIN_MM) return () => false;
    const limit = this.threadMm + UNEVEN_MM;
    return (j) => Math.min(spacingMm[j], spacingMm[j + 1]) / 2 <= limit;
  }

  #fillGround(): (px: number, py: number) => boolean {
    const { from, to, sections } = this.object;
    if (from.length < 2) return () => false;
    let rows: RowGeometry | null = null;
    let sound = false;
    return (px, py) => {
      if (rows === null) {
        rows = measureRows(this.stitches.x, this.stitches.y, from, to, sections);
        sound = spreadInPlace(Float64Array.from(rows.spacingMm))!.median <= this.threadMm + TOLD_WITHIN_MM;
      }
      return sound && rows.contains(px, py);
    };
  }
}

/** The box around some points, given as x, y, x, y …, at a place in a list of boxes. */
function setBox(boxes: Float64Array, at: number, ...points: readonly number[]): void {
  const box = emptyBounds();
  for (let k = 0; k < points.length; k += 2) growBounds(box, points[k], points[k + 1]);
  boxes[at] = box.minX;
  boxes[at + 1] = box.minY;
  boxes[at + 2] = box.maxX;
  boxes[at + 3] = box.maxY;
}

/** Whether a point lies in either of the two triangles of a quadrilateral, or on an edge of one. */
function inQuad(px: number, py: number, [ax, ay, bx, by, cx, cy, dx, dy]: Quad): boolean {
  return inTriangle(px, py, ax, ay, bx, by, cx, cy) || inTriangle(px, py, ax, ay, cx, cy, dx, dy);
}

type InTriangle = (px: number, py: number, ...corners: Triangle) => boolean;

const inTriangle: InTriangle = (px, py, ax, ay, bx, by, cx, cy) => {
  const u = (bx - ax) * (py - ay) - (by - ay) * (px - ax);
  const v = (cx - bx) * (py - by) - (cy - by) * (px - bx);
  const w = (ax - cx) * (py - cy) - (ay - cy) * (px - cx);
  // three corners in a line hold nothing, but would take in all of that line
  const twiceArea = Math.abs(u + v + w);
  return twiceArea > HAIR_MM && ((u >= 0 && v >= 0 && w >= 0) || (u <= 0 && v <= 0 && w <= 0));
};
