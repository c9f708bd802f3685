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
 */
export function layField(x: Float64Array, y: Float64Array, strands: Int32Array): Field {
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
    if (field.lengthMm[k] === 0) continue;
    const right = near.beside(i, -1);
    const left = near.beside(i, 1);
    field.leftMm[k] = left[0] ?? 0;
    field.rightMm[k] = right[0] ?? 0;
    field.spacingMm[k] = evenSpacing(left, right);
  }
  return field;
}

/** Mean distance from strand to strand over the nearest on both sides, as far as they lie evenly. */
function evenSpacing(left: readonly number[], right: readonly number[]): number {
  const first = Math.min(left[0] ?? Number.POSITIVE_INFINITY, right[0] ?? Number.POSITIVE_INFINITY);
  if (first === Number.POSITIVE_INFINITY) return 0;
  let sum = 0;
  let count = 0;
  for (const side of [left, right]) {
    let last = 0;
    for (const off of side.slice(0, EVEN_OVER)) {
      const gap = off - last;
      if (gap > EVEN_RATIO * first || first > EVEN_RATIO * gap) break;
      last = off;
      count++;
    }
    sum += last;
  }
  return count > 0 ? sum / count : first;
}

/** Strands by place. */
class NearStrands {
  private readonly grid: StrandGrid;

  constructor(
    private readonly x: Float64Array,
    private readonly y: Float64Array,
    strands: Int32Array,
  ) {
    this.grid = new StrandGrid(x, y, strands, REACH_MM);
  }

  /** Distances from the middle of strand `i` to the strands on one side (1 left, -1 right) that run beside it, nearest first, mm. */
  beside(i: number, side: 1 | -1): number[] {
    const { x, y } = this;
    const l = distance(x[i], y[i], x[i + 1], y[i + 1]);
    const ux = (x[i + 1] - x[i]) / l;
    const uy = (y[i + 1] - y[i]) / l;
    const mx = (x[i] + x[i + 1]) / 2;
    const my = (y[i] + y[i + 1]) / 2;
    const found: number[] = [];
    for (const j of this.grid.near(mx, my)) {
      const off = side * this.across(j, mx, my, ux, uy);
      if (off > ON_TOP_MM && off <= REACH_MM) found.push(off);
    }
    found.sort((a, b) => a - b);
    // a strand lies in several cells, and two passes over one line are one
    return found.filter((off, k) => k === 0 || off - found[k - 1] > ON_TOP_MM);
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
