/** Wrinkles over the even cells of a mesh, and what a viewer sees of them. */
import { THREE } from './element-strain.js';
import type { Goods } from './goods.js';
import type { Grid } from './grid.js';
import type { Mesh } from './mesh.js';
import type { MeshedDesign } from './meshed-design.js';
import { pressed, type Wrinkle, WrinkleLaw } from './plate-wrinkle.js';
import { VIEWED_MM2 } from './score.js';
import { TRIM_MM } from './sheets-in-use.js';

export interface WrinkleFields {
  /** Of the cells of the design's map, row by row from the lower left. */
  readonly heightMm: Float64Array;
  readonly wavelengthMm: Float64Array;
  /** Direction across the crests, degrees. */
  readonly acrossDeg: Float64Array;
  /** Shortening as a part of that at which wrinkles begin. */
  readonly nearness: Float64Array;
}

/** Distance either way over which the fall of the compression is taken, mm: two cells of the mesh, since a finer difference would hang on it. */
const FALL_MM = 1.6;

/**
 * Wrinkles cell by cell. The span is what is free between needle points (twice the distance to the nearest), and no longer than compression reaches:
 * e/|∇e|, the length on which it falls off, times `spanReach`. One length for all fabric and places in its stead decides every percentage.
 *
 * @param strain of the fabric, three numbers an element of the mesh
 */
export function wrinkleFields(
  { mesh, map, open, nearest }: MeshedDesign,
  { fabric }: Goods,
  spanReach: number,
  strain: Float64Array,
): WrinkleFields {
  const { nx, ny, cellMm } = map;
  const there = mapStrains(mesh, map, strain);
  const shortening = new Float64Array(nx * ny);
  for (let cell = 0, k = 0; cell < shortening.length; cell++, k += THREE)
    shortening[cell] = pressed(there[k], there[k + 1], there[k + 2]);
  const fields: WrinkleFields = {
    heightMm: new Float64Array(nx * ny),
    wavelengthMm: new Float64Array(nx * ny),
    acrossDeg: new Float64Array(nx * ny),
    nearness: new Float64Array(nx * ny),
  };
  const law = new WrinkleLaw(fabric);
  const one: Wrinkle = { heightMm: 0, wavelengthMm: 0, acrossDeg: 0, threshold: 0 };
  const step = Math.max(1, Math.round(FALL_MM / cellMm));
  for (let j = step; j < ny - step; j++)
    for (let i = step; i < nx - step; i++) {
      const cell = j * nx + i;
      const e = shortening[cell];
      if (open[cell] === 0 || e === 0 || nearest.distance[cell] > TRIM_MM) continue;
      const fall = Math.hypot(
        shortening[cell + step] - shortening[cell - step],
        shortening[cell + step * nx] - shortening[cell - step * nx],
      );
      const reach = (2 * step * cellMm * e) / fall;
      const span = Math.min(2 * nearest.distance[cell], spanReach * reach);
      const k = THREE * cell;
      law.at(there[k], there[k + 1], there[k + 2], span, one);
      fields.heightMm[cell] = one.heightMm;
      fields.wavelengthMm[cell] = one.wavelengthMm;
      fields.acrossDeg[cell] = one.acrossDeg;
      fields.nearness[cell] = e / one.threshold;
    }
  return fields;
}

/** Strains in the middles of the map's cells, three numbers each. */
function mapStrains(mesh: Mesh, { nx, ny, cellMm, x0, y0 }: Grid, strain: Float64Array): Float64Array {
  const out = new Float64Array(nx * ny * THREE);
  for (let j = 0, k = 0; j < ny; j++)
    for (let i = 0; i < nx; i++, k += THREE)
      strainAt(mesh, strain, x0 + (i + 0.5) * cellMm, y0 + (j + 0.5) * cellMm, out, k);
  return out;
}

/** Strain at a place in the even part, between the middles of the four elements about it, where bilinear elements are most exact. */
function strainAt(
  { nx, even, evenFrom }: Mesh,
  strain: Float64Array,
  x: number,
  y: number,
  out: Float64Array,
  to: number,
): void {
  const u = (x - even.x0) / even.cellMm - 0.5;
  const v = (y - even.y0) / even.cellMm - 0.5;
  const i = Math.min(even.nx - 2, Math.max(0, Math.floor(u)));
  const j = Math.min(even.ny - 2, Math.max(0, Math.floor(v)));
  const k = THREE * ((j + evenFrom[1]) * (nx - 1) + i + evenFrom[0]);
  const up = THREE * (nx - 1);
  const a = u - i;
  const b = v - j;
  for (let c = 0; c < THREE; c++)
    out[to + c] =
      (1 - b) * ((1 - a) * strain[k + c] + a * strain[k + THREE + c]) +
      b * ((1 - a) * strain[k + up + c] + a * strain[k + up + THREE + c]);
}

/**
 * Mean of a field over the highest cells that make up the patch a viewer takes in, each counted with the part of it that no thread covers. What
 * lacks to the patch counts as flat.
 */
export function worstPatchOf(values: Float64Array, open: Float64Array, cellMm: number): number {
  const order = Array.from(values.keys()).filter((cell) => values[cell] > 0 && open[cell] > 0);
  order.sort((a, b) => values[b] - values[a]);
  let left = VIEWED_MM2;
  let sum = 0;
  for (const cell of order) {
    const area = Math.min(left, open[cell] * cellMm * cellMm);
    sum += area * values[cell];
    left -= area;
    if (left <= 0) break;
  }
  return sum / VIEWED_MM2;
}
