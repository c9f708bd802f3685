import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import type { Grid } from './grid.js';
import { nearestPoint } from './nearest-point.js';

/** Fabric about an object that are looked at with it, mm. */
export const VIEW_MARGIN_MM = 8;

/** Cells of each object and of the fabric about it, by object. */
export function objectRegions(
  grid: Grid,
  stitches: Stitches,
  objects: readonly StitchObject[],
): Int32Array[] {
  return objects.map(({ range }) => {
    const window = windowAbout(grid, stitches, range);
    const { distance } = nearestPoint(window, stitches, range);
    const i0 = Math.round((window.x0 - grid.x0) / grid.cellMm);
    const j0 = Math.round((window.y0 - grid.y0) / grid.cellMm);
    const cells: number[] = [];
    for (let j = 0, q = 0; j < window.ny; j++)
      for (let i = 0; i < window.nx; i++, q++)
        if (distance[q] <= VIEW_MARGIN_MM) cells.push((j0 + j) * grid.nx + i0 + i);
    return Int32Array.from(cells);
  });
}

/** The part of the grid about some stitches, margin included. */
function windowAbout(grid: Grid, { x, y }: Stitches, [first, last]: readonly [number, number]): Grid {
  const { cellMm, x0, y0 } = grid;
  let [minX, minY, maxX, maxY] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = first; i <= last; i++) {
    minX = Math.min(minX, x[i]);
    maxX = Math.max(maxX, x[i]);
    minY = Math.min(minY, y[i]);
    maxY = Math.max(maxY, y[i]);
  }
  const from = (low: number, origin: number) =>
    Math.max(0, Math.floor((low - VIEW_MARGIN_MM - origin) / cellMm));
  const to = (high: number, origin: number, n: number) =>
    Math.min(n, Math.ceil((high + VIEW_MARGIN_MM - origin) / cellMm));
  const i0 = from(minX, x0);
  const j0 = from(minY, y0);
  return {
    cellMm,
    nx: to(maxX, x0, grid.nx) - i0,
    ny: to(maxY, y0, grid.ny) - j0,
    x0: x0 + i0 * cellMm,
    y0: y0 + j0 * cellMm,
  };
}
