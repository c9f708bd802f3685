import type { Bounds } from './measures.js';

/** Square cells over the bounds of a design, row by row from the lower left. */
export interface Grid {
  readonly cellMm: number;
  readonly columns: number;
  readonly rows: number;
  readonly minX: number;
  readonly minY: number;
}

/** Cells that any design may have: a field of half a metre by half a metre at 1 mm. */
const CELLS_ALWAYS = 1 << 18;

/**
 * Lays cells of `cellMm` over the bounds. A design too far spread out for its stitches (a stray point far off)
 * gets larger cells instead of more memory: never more than 262,144 cells or two a stitch, whichever is more.
 */
export function layGrid(bounds: Bounds, cellMm: number, stitches: number): Grid {
  const width = bounds.maxX - bounds.minX;
  const height = bounds.maxY - bounds.minY;
  const most = Math.max(CELLS_ALWAYS, 2 * stitches);
  let cell = Math.max(cellMm, (2 * Math.max(width, height)) / most);
  const cells = (size: number) => (Math.floor(width / size) + 1) * (Math.floor(height / size) + 1);
  while (cells(cell) > most) cell *= 1.25;
  return {
    cellMm: cell,
    columns: Math.floor(width / cell) + 1,
    rows: Math.floor(height / cell) + 1,
    minX: bounds.minX,
    minY: bounds.minY,
  };
}

/** Number of the cell that the place lies in; the place must lie in the bounds. */
export function cellAt(grid: Grid, x: number, y: number): number {
  const i = ((x - grid.minX) / grid.cellMm) | 0;
  const j = ((y - grid.minY) / grid.cellMm) | 0;
  return j * grid.columns + i;
}
