/** How far the goods are tacked to the backing when the top stitching pulls. */
import type { Stitches } from '../format/stitches.js';
import { CellShares, type Grid } from './grid.js';

/** Reach of one needle point over which goods and backing move as one, mm. */
export const TACK_REACH_MM = 1;

/**
 * Needle points per mm², each spread over the reach of a tack (a Gaussian of that standard deviation): points in a clump hold
 * little more goods than one of them, which is how the evenness of the tacking enters.
 */
export function tackDensity(grid: Grid, stitches: Stitches, weight: (i: number) => number): Float64Array {
  const density = new Float64Array(grid.nx * grid.ny);
  const shares = new CellShares(grid);
  const perArea = 1 / (grid.cellMm * grid.cellMm);
  for (let i = 0; i < stitches.count; i++) {
    const w = weight(i) * perArea;
    if (w === 0) continue;
    shares.place(stitches.x[i], stitches.y[i]);
    for (let q = 0; q < 4; q++) density[shares.at[q]] += w * shares.share[q];
  }
  blur(grid, density, TACK_REACH_MM);
  return density;
}

/** Engagement 0..1 of the backing: what the hoop holds anyway, and the rest as the needle points have tacked it. */
export function engagement(density: Float64Array, fullDensity: number, hooped: number): Float64Array {
  return density.map((rho) => 1 - (1 - hooped) * Math.exp(-rho / fullDensity));
}

/**
 * Part of a sheet's stiffness left between the needle holes of a line, from points per mm along it. A line of points spread by
 * the reach σ of a tack peaks at p/(σ√(2π)) per mm².
 */
export function perforated(density: Float64Array, halfPointsPerMm: number): Float64Array {
  const perMm = TACK_REACH_MM * Math.sqrt(2 * Math.PI);
  return density.map((rho) => 1 / (1 + (rho * perMm) / halfPointsPerMm));
}

/** Gaussian smoothing in place, cut off at four standard deviations; the sheet repeats itself. */
function blur(grid: Grid, field: Float64Array, sigmaMm: number): void {
  const { nx, ny } = grid;
  // Sharing a point among four cells has spread it already: variance 1/6 of a cell squared along each axis.
  const sigma = Math.sqrt(Math.max((sigmaMm / grid.cellMm) ** 2 - 1 / 6, 1e-3));
  const reach = Math.ceil(4 * sigma);
  const kernel = new Float64Array(reach + 1);
  let sum = 0;
  for (let k = 0; k <= reach; k++) {
    kernel[k] = Math.exp(-(k * k) / (2 * sigma * sigma));
    sum += k === 0 ? kernel[k] : 2 * kernel[k];
  }
  for (let k = 0; k <= reach; k++) kernel[k] /= sum;
  const out = new Float64Array(field.length);
  // Scatter from cells that hold something: most of the sheet holds nothing.
  for (let j = 0; j < ny; j++)
    for (let i = 0; i < nx; i++) {
      const value = field[j * nx + i];
      if (value === 0) continue;
      for (let k = -reach; k <= reach; k++) out[j * nx + ((i + k) & (nx - 1))] += value * kernel[Math.abs(k)];
    }
  field.fill(0);
  for (let j = 0; j < ny; j++)
    for (let i = 0; i < nx; i++) {
      const value = out[j * nx + i];
      if (value === 0) continue;
      for (let k = -reach; k <= reach; k++)
        field[((j + k) & (ny - 1)) * nx + i] += value * kernel[Math.abs(k)];
    }
}
