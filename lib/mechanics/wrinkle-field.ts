/** Wrinkles over the even cells of a mesh, and what a viewer sees of them. */
import { THREE } from './element-strain.js';
import type { Goods } from './goods.js';
import type { Mesh } from './mesh.js';
import type { MeshedDesign } from './meshed-design.js';
import { type Wrinkle, WrinkleLaw } from './plate-wrinkle.js';
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

/** @param strain of the fabric, three numbers an element of the mesh */
export function wrinkleFields(
  { mesh, map, open, nearest }: MeshedDesign,
  { fabric }: Goods,
  longestSpanMm: number,
  strain: Float64Array,
): WrinkleFields {
  const cells = map.nx * map.ny;
  const fields: WrinkleFields = {
    heightMm: new Float64Array(cells),
    wavelengthMm: new Float64Array(cells),
    acrossDeg: new Float64Array(cells),
    nearness: new Float64Array(cells),
  };
  const law = new WrinkleLaw(fabric, longestSpanMm);
  const one: Wrinkle = { heightMm: 0, wavelengthMm: 0, acrossDeg: 0, shortening: 0, threshold: 0 };
  const there = new Float64Array(THREE);
  for (let j = 0, cell = 0; j < map.ny; j++)
    for (let i = 0; i < map.nx; i++, cell++) {
      if (open[cell] === 0 || nearest.distance[cell] > TRIM_MM) continue;
      strainAt(mesh, strain, map.x0 + (i + 0.5) * map.cellMm, map.y0 + (j + 0.5) * map.cellMm, there);
      law.at(there[0], there[1], there[2], nearest.distance[cell], one);
      fields.heightMm[cell] = one.heightMm;
      fields.wavelengthMm[cell] = one.wavelengthMm;
      fields.acrossDeg[cell] = one.acrossDeg;
      fields.nearness[cell] = one.shortening / one.threshold;
    }
  return fields;
}

/** Strain at a place in the even part, between the middles of the four elements about it, where bilinear elements are most exact. */
function strainAt({ nx, even, evenFrom }: Mesh, strain: Float64Array, x: number, y: number, out: Float64Array): void {
  const u = (x - even.x0) / even.cellMm - 0.5;
  const v = (y - even.y0) / even.cellMm - 0.5;
  const i = Math.min(even.nx - 2, Math.max(0, Math.floor(u)));
  const j = Math.min(even.ny - 2, Math.max(0, Math.floor(v)));
  const k = THREE * ((j + evenFrom[1]) * (nx - 1) + i + evenFrom[0]);
  const up = THREE * (nx - 1);
  const a = u - i;
  const b = v - j;
  for (let c = 0; c < THREE; c++)
    out[c] =
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
