import { quickselect } from 'simple-statistics';
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import type { Grid } from './grid.js';
import { nearestPoint } from './nearest-point.js';
import { VIEWED_MM2 } from './score.js';

/** Goods about an object that are looked at with it, mm. */
export const VIEW_MARGIN_MM = 8;

/** Cells of each object and of the goods about it, by object. */
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

/**
 * What a viewer sees of a map of wrinkle heights: its mean over the worst patch, that is over the highest cells that make up the
 * viewed area. Goods outside `cells` count as flat. All cells by default.
 */
export function worstPatch(map: Float64Array, cellMm: number, cells?: Int32Array): number {
  const high: number[] = [];
  const take = (height: number) => {
    if (height > 0) high.push(height);
  };
  if (cells) for (let k = 0; k < cells.length; k++) take(map[cells[k]]);
  else for (let p = 0; p < map.length; p++) take(map[p]);
  const wanted = VIEWED_MM2 / (cellMm * cellMm);
  const whole = Math.floor(wanted);
  // The highest `whole` of them and a part of the next go in; their order does not matter.
  const rest = high.length - whole;
  if (rest > 0) quickselect(high, rest - 1);
  let sum = rest > 0 ? high[rest - 1] * (wanted - whole) : 0;
  for (let k = Math.max(0, rest); k < high.length; k++) sum += high[k];
  return sum / wanted;
}

/** Height from which a cell is among so many highest; 0 where there are fewer that wrinkle. */
export function heightOfHighest(map: Float64Array, wanted: number): number {
  const high: number[] = [];
  for (let p = 0; p < map.length; p++) if (map[p] > 0) high.push(map[p]);
  const rest = high.length - Math.ceil(wanted);
  if (rest <= 0) return 0;
  quickselect(high, rest);
  return high[rest];
}
