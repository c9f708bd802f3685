/**
 * An area as a field: strands of one thread that run beside each other at an even distance, whatever way the thread takes:
 * straight rows, bent ones, a spiral, rings that follow an outline, rays.
 */
import { distance } from '../core/distance.js';
import { StrandGrid } from './strand-grid.js';

/** Strands are looked for this far to both sides, mm. */
const REACH_MM = 2.4;
/** Strands are neighbours where they point the same way within 25° (cosine). */
const PARALLEL_COS = Math.cos((25 * Math.PI) / 180);
/** A strand that lies on another is a second pass and no neighbour, mm. */
const ON_TOP_MM = 0.12;
/** Strands to each side over which a distance is evened out, as the positions of a file are rounded. */
const EVEN_OVER = 4;
/** ... as long as one distance is no more than this many times another. */
const EVEN_RATIO = 1.7;
/** Most strands that are asked for their neighbours. */
const SAMPLE = 4000;

/** So many distances are sorted without a call to the library. */
const FEW = 32;

/** All arrays have one entry a strand that was asked, evenly spread over the area. */
export interface Field {
  /** Distance to the nearest strand on the left and on the right, mm; 0 where there is none. */
  readonly leftMm: Float64Array;
  readonly rightMm: Float64Array;
  /** Distance from strand to strand around it, mm; 0 where it has no neighbour. */
  readonly spacingMm: Float64Array;
  readonly lengthMm: Float64Array;
}

/**
 * Finds the strands on both sides of each.
 *
 * @param x, y positions, mm
 * @param strands indexes of the first ends of the strands, each of which leads to the next index
 * @param goesOn told of each entry of the field when it is there; no more are filled in where it says no
 */
export function layField(
  x: Float64Array,
  y: Float64Array,
  strands: Int32Array,
  goesOn: (field: Field, k: number) => boolean = () => true,
): Field {
  const near = new NearStrands(x, y, strands);
  const stride = Math.max(1, Math.ceil(strands.length / SAMPLE));
  const n = Math.ceil(strands.length / stride);
  const field = {
    leftMm: new Float64Array(n),
    rightMm: new Float64Array(n),
    spacingMm: new Float64Array(n),
    lengthMm: new Float64Array(n),
  };
  for (let k = 0; k < n; k++) {
    const i = strands[k * stride];
    field.lengthMm[k] = distance(x[i], y[i], x[i + 1], y[i + 1]);
  }
  for (let k = 0; k < n; k++) {
    if (field.lengthMm[k] > 0) {
      near.ask(strands[k * stride]);
      field.leftMm[k] = near.left.nearest;
      field.rightMm[k] = near.right.nearest;
      field.spacingMm[k] = evenSpacing(near.left, near.right);
    }
    if (!goesOn(field, k)) break;
  }
  return field;
}

/** Mean distance from strand to strand over the nearest on both sides, as far as they lie evenly. */
function evenSpacing(left: StrandSide, right: StrandSide): number {
  const first = Math.min(left.nearest || Infinity, right.nearest || Infinity);
  if (first === Infinity) return 0;
  let sum = 0;
  let count = 0;
  for (const { offMm, lines } of [left, right]) {
    let last = 0;
    for (let k = 0; k < lines && k < EVEN_OVER; k++) {
      const gap = offMm[k] - last;
      if (gap > EVEN_RATIO * first || first > EVEN_RATIO * gap) break;
      last = offMm[k];
      count++;
    }
    sum += last;
  }
  return count > 0 ? sum / count : first;
}

/** Distances to what lies on one side of a strand; the arrays serve for one strand after another. */
class StrandSide {
  /** Nearest first once they are {@link sort sorted}, the first `lines` of them with every line once. */
  readonly offMm: Float64Array;
  lines = 0;

  constructor(most: number) {
    this.offMm = new Float64Array(most);
  }

  /** Distance to the nearest, 0 where there is none. */
  get nearest(): number {
    return this.lines > 0 ? this.offMm[0] : 0;
  }

  /** Puts the nearest first, and two passes over one line together. */
  sort(): void {
    const { offMm } = this;
    sortFirst(offMm, this.lines);
    let lines = 0;
    let before = -Infinity;
    for (let k = 0; k < this.lines; k++) {
      const off = offMm[k];
      if (off - before > ON_TOP_MM) offMm[lines++] = off;
      before = off;
    }
    this.lines = lines;
  }
}

/** Strands by place. */
class NearStrands {
  readonly left: StrandSide;
  readonly right: StrandSide;
  private readonly grid: StrandGrid;

  constructor(
    private readonly x: Float64Array,
    private readonly y: Float64Array,
    strands: Int32Array,
  ) {
    this.grid = new StrandGrid(x, y, strands, REACH_MM);
    this.left = new StrandSide(strands.length);
    this.right = new StrandSide(strands.length);
  }

  /** Finds the strands that run beside strand `i`, on both sides of its middle. */
  ask(i: number): void {
    const { x, y, grid, left, right } = this;
    const l = distance(x[i], y[i], x[i + 1], y[i + 1]);
    const ux = (x[i + 1] - x[i]) / l;
    const uy = (y[i + 1] - y[i]) / l;
    const mx = (x[i] + x[i + 1]) / 2;
    const my = (y[i] + y[i + 1]) / 2;
    left.lines = 0;
    right.lines = 0;
    const count = grid.near(mx, my);
    for (let k = 0; k < count; k++) {
      const off = this.across(grid.found[k], mx, my, ux, uy);
      if (off > ON_TOP_MM && off <= REACH_MM) left.offMm[left.lines++] = off;
      else if (off < -ON_TOP_MM && off >= -REACH_MM) right.offMm[right.lines++] = -off;
    }
    left.sort();
    right.sort();
  }

  /** Where strand `j` meets the line across a place, mm to the left of it; 0 where it does not, or runs another way. */
  private across(j: number, mx: number, my: number, ux: number, uy: number): number {
    const { x, y } = this;
    const vx = x[j + 1] - x[j];
    const vy = y[j + 1] - y[j];
    const along = ux * vx + uy * vy;
    if (along * along < PARALLEL_COS * PARALLEL_COS * (vx * vx + vy * vy) || along === 0) return 0;
    const t = ((mx - x[j]) * ux + (my - y[j]) * uy) / along;
    if (t < 0 || t >= 1) return 0;
    return (y[j] + t * vy - my) * ux - (x[j] + t * vx - mx) * uy;
  }
}

/** Sorts the first `n` values: few, as beside most strands, are put in place one by one. */
function sortFirst(values: Float64Array, n: number): void {
  if (n > FEW) {
    values.subarray(0, n).sort();
    return;
  }
  for (let k = 1; k < n; k++) {
    const value = values[k];
    let at = k;
    for (; at > 0 && values[at - 1] > value; at--) values[at] = values[at - 1];
    values[at] = value;
  }
}
