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
  const { nx, ny, cellMm, x0, y0 } = grid;
  const { x, y } = stitches;
  const distance = new Float64Array(nx * ny).fill(Infinity);
  const stitch = new Int32Array(nx * ny).fill(-1);
  const offer = (p: number, cx: number, cy: number, i: number) => {
    const d = (x[i] - cx) ** 2 + (y[i] - cy) ** 2;
    if (d < distance[p]) {
      distance[p] = d;
      stitch[p] = i;
    }
  };
  for (let i = first; i <= last; i++) {
    const a = Math.floor((x[i] - x0) / cellMm);
    const b = Math.floor((y[i] - y0) / cellMm);
    // To the neighbours too: of two points in one cell, either may be the nearer one to what lies beyond.
    for (let v = Math.max(0, b - 1); v <= Math.min(ny - 1, b + 1); v++)
      for (let u = Math.max(0, a - 1); u <= Math.min(nx - 1, a + 1); u++)
        offer(v * nx + u, x0 + (u + 0.5) * cellMm, y0 + (v + 0.5) * cellMm, i);
  }
  const pass = (p: number, from: number, cx: number, cy: number) => {
    if (stitch[from] >= 0) offer(p, cx, cy, stitch[from]);
  };
  for (const way of [1, -1]) {
    const startJ = way === 1 ? 0 : ny - 1;
    for (let b = 0, j = startJ; b < ny; b++, j += way) {
      const cy = y0 + (j + 0.5) * cellMm;
      const inner = b > 0;
      for (let i = 0; i < nx; i++) {
        const p = j * nx + i;
        const cx = x0 + (i + 0.5) * cellMm;
        if (inner) {
          const row = p - way * nx;
          pass(p, row, cx, cy);
          if (i > 0) pass(p, row - 1, cx, cy);
          if (i < nx - 1) pass(p, row + 1, cx, cy);
        }
        if (i > 0) pass(p, p - 1, cx, cy);
      }
      for (let i = nx - 2; i >= 0; i--) pass(j * nx + i, j * nx + i + 1, x0 + (i + 0.5) * cellMm, cy);
    }
  }
  for (let p = 0; p < distance.length; p++) distance[p] = Math.sqrt(distance[p]);
  return { distance, stitch };
}
