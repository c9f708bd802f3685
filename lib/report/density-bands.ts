import type { Stitches } from '../format/stitches.js';
import type { Bounds } from '../measure/measures.js';
import { niceSteps } from './nice-steps.js';
import { tidy } from './svg.js';

/** Side of a counting cell at the finest, mm; coarser on designs wider than {@link MAX_CELLS} of them. */
const CELL_MM = 0.5;
const MAX_CELLS = 600;
/** Empty cells around the design, so that every band closes. */
const MARGIN_CELLS = 4;
/** Half side of the square over which points are averaged, mm: a few rows or swings. */
const REACH_MM = 0.75;

export interface DensityBand {
  /** Needle points a mm², lower and upper limit. */
  from: number;
  to: number;
  /** SVG path data in 0.1 mm, Y up. */
  path: string;
}

/**
 * Where needle points crowd: areas of equal density as nested outlines, least first. Points are counted in cells
 * and averaged twice over about 1.5 mm (two box averages make a tent), then traced by marching squares.
 */
export async function densityBands(stitches: Stitches, bounds: Bounds, most: number): Promise<DensityBand[]> {
  if (stitches.count === 0) return [];
  const { contours } = await import('d3-contour');
  const widthMm = bounds.maxX - bounds.minX;
  const heightMm = bounds.maxY - bounds.minY;
  const cell = Math.max(CELL_MM, Math.max(widthMm, heightMm) / MAX_CELLS);
  const columns = Math.ceil(widthMm / cell) + 1 + 2 * MARGIN_CELLS;
  const rows = Math.ceil(heightMm / cell) + 1 + 2 * MARGIN_CELLS;
  const originX = bounds.minX - MARGIN_CELLS * cell;
  const originY = bounds.minY - MARGIN_CELLS * cell;
  let grid = new Float64Array(columns * rows);
  for (let i = 0; i < stitches.count; i++) {
    const column = Math.floor((stitches.x[i] - originX) / cell);
    const row = Math.floor((stitches.y[i] - originY) / cell);
    grid[row * columns + column] += 1 / (cell * cell);
  }
  const reach = Math.max(1, Math.round(REACH_MM / cell));
  for (let pass = 0; pass < 2; pass++) {
    grid = boxAverage(grid, columns, rows, reach, 1, columns);
    grid = boxAverage(grid, rows, columns, reach, columns, 1);
  }
  const limits = niceSteps(
    grid.reduce((a, b) => Math.max(a, b), 0),
    most,
  );
  const bands = limits.map((to, i) => ({ from: i === 0 ? 0 : limits[i - 1], to }));
  // The lowest band starts just above nothing, else it would fill the whole picture.
  const floor = limits[0] / 4;
  const shapes = contours()
    .size([columns, rows])
    .thresholds(bands.map((band) => band.from || floor))(grid as unknown as number[]);
  return bands.map((band, i) => ({
    ...band,
    path: shapes[i].coordinates
      .flat()
      .map((ring) => {
        const points = ring.map(([gx, gy]) => {
          const px = (originX + gx * cell) * 10;
          const py = (originY + gy * cell) * 10;
          return `${tidy(Math.round(px))} ${tidy(Math.round(py))}`;
        });
        return `M${points.slice(0, -1).join('L')}Z`;
      })
      .join(''),
  }));
}

/** Running mean over `2·reach + 1` cells along one direction of a grid; outside counts as empty. */
function boxAverage(
  grid: Float64Array,
  along: number,
  lines: number,
  reach: number,
  step: number,
  lineStep: number,
): Float64Array<ArrayBuffer> {
  const out = new Float64Array(grid.length);
  const window = 2 * reach + 1;
  for (let line = 0; line < lines; line++) {
    const base = line * lineStep;
    let sum = 0;
    for (let i = -reach; i < along; i++) {
      const enters = i + reach;
      const leaves = i - reach - 1;
      if (enters < along) sum += grid[base + enters * step];
      if (leaves >= 0) sum -= grid[base + leaves * step];
      if (i >= 0) out[base + i * step] = sum / window;
    }
  }
  return out;
}
