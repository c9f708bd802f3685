import { once } from '../core/memoize.js';
import type { Stitches } from '../format/stitches.js';
import { type DesignGrid, layGrid } from './grid.js';
import type { Bounds, DesignMeasures } from './measures.js';

/** Side of a cell, mm. */
const CELL_MM = 1;
/** Cells that any design may have: a field of half a metre by half a metre. */
const CELLS_ALWAYS = 1 << 18;

/**
 * The square of two by two cells with the most needle points in it, and how many a mm² there; null without
 * stitches. `at` is the middle of its needle points, `stitch` the last of them.
 */
export function densestPlace(stitches: Stitches, bounds: Bounds): DesignMeasures['densest'] {
  const { x, y, count } = stitches;
  if (count === 0) return null;
  const grid = layGrid(bounds, CELL_MM, Math.max(CELLS_ALWAYS, count));
  const { columns, rows, cellMm } = grid;
  const { minX, minY } = grid;
  const points = new Uint32Array(columns * rows);
  for (let k = 0; k < count; k++)
    points[(((y[k] - minY) / cellMm) | 0) * columns + (((x[k] - minX) / cellMm) | 0)]++;
  let most = 0;
  let cell = 0;
  for (let j = 0; j < rows; j++) {
    const up = j + 1 < rows ? columns : 0;
    for (let i = 0; i < columns; i++) {
      const c = j * columns + i;
      const right = i + 1 < columns ? 1 : 0;
      let sum = points[c];
      if (right) sum += points[c + 1];
      if (up) sum += points[c + up];
      if (right && up) sum += points[c + up + 1];
      if (sum > most) {
        most = sum;
        cell = c;
      }
    }
  }
  const where = once(() => pointsIn(stitches, grid, cell));
  return {
    perMm2: most / (4 * cellMm * cellMm),
    get x() {
      return where().x;
    },
    get y() {
      return where().y;
    },
    get stitch() {
      return where().stitch;
    },
  };
}

/** Middle and last of the needle points in the square of cells whose lower left one is `cell`; there must be one. */
function pointsIn({ x, y, count }: Stitches, grid: DesignGrid, cell: number) {
  const { cellMm } = grid;
  const left = cell % grid.columns;
  const low = (cell - left) / grid.columns;
  let points = 0;
  let sumX = 0;
  let sumY = 0;
  let stitch = -1;
  for (let k = 0; k < count; k++) {
    const column = ((x[k] - grid.minX) / cellMm) | 0;
    if (column < left || column > left + 1) continue;
    const row = ((y[k] - grid.minY) / cellMm) | 0;
    if (row < low || row > low + 1) continue;
    stitch = k;
    points++;
    sumX += x[k];
    sumY += y[k];
  }
  return { x: sumX / points, y: sumY / points, stitch };
}
