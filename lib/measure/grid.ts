import type { Bounds } from './measures.js';

/** Square cells over the bounds of a design, row by row from the lower left. */
export interface DesignGrid {
  readonly cellMm: number;
  readonly columns: number;
  readonly rows: number;
  readonly minX: number;
  readonly minY: number;
}

/**
 * Lays cells of `cellMm` over the bounds. A design too far spread out (a stray point far off) gets larger cells
 * instead of more memory: never more than `mostCells`, or two if that is more.
 */
export function layGrid(bounds: Bounds, cellMm: number, mostCells: number): DesignGrid {
  const width = bounds.maxX - bounds.minX;
  const height = bounds.maxY - bounds.minY;
  let cell = Math.max(cellMm, Math.max(width, height) / mostCells);
  while ((Math.floor(width / cell) + 1) * (Math.floor(height / cell) + 1) > Math.max(2, mostCells))
    cell *= 1.25;
  return {
    cellMm: cell,
    columns: Math.floor(width / cell) + 1,
    rows: Math.floor(height / cell) + 1,
    minX: bounds.minX,
    minY: bounds.minY,
  };
}

/** Middle of a cell. */
export function middleOf(grid: DesignGrid, cell: number): { x: number; y: number } {
  const column = cell % grid.columns;
  const row = (cell - column) / grid.columns;
  return { x: grid.minX + (column + 0.5) * grid.cellMm, y: grid.minY + (row + 0.5) * grid.cellMm };
}
