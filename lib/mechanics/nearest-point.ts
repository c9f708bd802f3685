import type { Stitches } from '../format/stitches.js';
import type { StitchRange } from '../segment/objects.js';
import type { Grid } from './grid.js';

export interface NearestPoint {
  /** Distance from the middle of each cell to the nearest needle point, mm; Infinity where there is none. */
  readonly distance: Float64Array;
  /** Stitch index of that point, −1 where there is none. */
  readonly stitch: Int32Array;
}

/**
 * Distance to the nearest needle point, by passing the nearest point on from cell to cell in two sweeps (Danielsson,
 * "Euclidean distance mapping", Comput. Graph. Image Process. 14 (1980) 227–248; from memory). Within a few tenths of a cell of
 * the true distance, and linear in the cells. The sheet does not repeat itself here, and
 * its sides need not be powers of two. `range` picks the points; all by default.
 */
export function nearestPoint(
  grid: Grid,
  stitches: Stitches,
  [first, last]: StitchRange = [0, stitches.count - 1],
): NearestPoint {
  const nearest = new NearestOfCells(grid, stitches);
  for (let i = first; i <= last; i++) nearest.offerAround(i);
  nearest.sweep(1);
  nearest.sweep(-1);
  const { distance, stitch } = nearest;
  for (let p = 0; p < distance.length; p++) distance[p] = Math.sqrt(distance[p]);
  return { distance, stitch };
}

class NearestOfCells {
  /** Square of the distance, mm². */
  readonly distance: Float64Array;
  readonly stitch: Int32Array;

  constructor(
    private readonly grid: Grid,
    private readonly stitches: Stitches,
  ) {
    this.distance = new Float64Array(grid.nx * grid.ny).fill(Infinity);
    this.stitch = new Int32Array(grid.nx * grid.ny).fill(-1);
  }

  /** Offers a point to its cell, and to the neighbors too: of two points in one cell, either may be the nearer one to what lies beyond. */
  offerAround(i: number): void {
    const { nx, ny, cellMm, x0, y0 } = this.grid;
    const a = Math.floor((this.stitches.x[i] - x0) / cellMm);
    const b = Math.floor((this.stitches.y[i] - y0) / cellMm);
    for (let v = Math.max(0, b - 1); v <= Math.min(ny - 1, b + 1); v++)
      for (let u = Math.max(0, a - 1); u <= Math.min(nx - 1, a + 1); u++)
        this.offer(v * nx + u, x0 + (u + 0.5) * cellMm, y0 + (v + 0.5) * cellMm, i);
  }

  /** Passes points on row by row, along y or against it: from the row before, and from side to side in each row. */
  sweep(way: 1 | -1): void {
    const { nx, ny, cellMm, x0, y0 } = this.grid;
    for (let b = 0, j = way === 1 ? 0 : ny - 1; b < ny; b++, j += way) {
      const cy = y0 + (j + 0.5) * cellMm;
      for (let i = 0, p = j * nx; i < nx; i++, p++) {
        const cx = x0 + (i + 0.5) * cellMm;
        if (b > 0) this.passFromRow(p, p - way * nx, i, cx, cy);
        if (i > 0) this.pass(p, p - 1, cx, cy);
      }
      for (let i = nx - 2; i >= 0; i--) this.pass(j * nx + i, j * nx + i + 1, x0 + (i + 0.5) * cellMm, cy);
    }
  }

  private passFromRow(p: number, row: number, i: number, cx: number, cy: number): void {
    this.pass(p, row, cx, cy);
    if (i > 0) this.pass(p, row - 1, cx, cy);
    if (i < this.grid.nx - 1) this.pass(p, row + 1, cx, cy);
  }

  private pass(p: number, from: number, cx: number, cy: number): void {
    if (this.stitch[from] >= 0) this.offer(p, cx, cy, this.stitch[from]);
  }

  private offer(p: number, cx: number, cy: number, i: number): void {
    const d = (this.stitches.x[i] - cx) ** 2 + (this.stitches.y[i] - cy) ** 2;
    if (d < this.distance[p]) {
      this.distance[p] = d;
      this.stitch[p] = i;
    }
  }
}
