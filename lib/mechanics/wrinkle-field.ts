/** Wrinkles over the even cells of a mesh, and what a viewer sees of them. */
import { THREE } from './element-strain.js';
import type { Goods } from './goods.js';
import type { Grid } from './grid.js';
import { intervalOf, type Mesh } from './mesh.js';
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

/**
 * Wrinkles cell by cell. The span is what is free between needle points, twice the distance to the nearest, and no more than `longestSpanMm`.
 *
 * A local span in its stead, from the length e/|∇e| on which compression falls off, was tried: percentages came nearer to what the trade says, but
 * heights then hang on the far border and the mesh (by 4 to 12 %), and performance knit comes out no better than thin one.
 *
 * @param strain of the fabric, three numbers an element of the mesh
 */
export function wrinkleFields(
  { mesh, map, open, nearest }: MeshedDesign,
  { fabric }: Goods,
  longestSpanMm: number,
  strain: Float64Array,
): WrinkleFields {
  const cells = map.nx * map.ny;
  const there = mapStrains(mesh, map, strain);
  const fields: WrinkleFields = {
    heightMm: new Float64Array(cells),
    wavelengthMm: new Float64Array(cells),
    acrossDeg: new Float64Array(cells),
    nearness: new Float64Array(cells),
  };
  const law = new WrinkleLaw(fabric);
  const one: Wrinkle = { heightMm: 0, wavelengthMm: 0, acrossDeg: 0, threshold: 0 };
  for (let cell = 0, k = 0; cell < cells; cell++, k += THREE) {
    const e = pressed(there[k], there[k + 1], there[k + 2]);
    const free = nearest.distance[cell];
    if (open[cell] === 0 || e === 0 || free === 0 || free > TRIM_MM) continue;
    law.at(there[k], there[k + 1], there[k + 2], Math.min(2 * free, longestSpanMm), one);
    fields.heightMm[cell] = one.heightMm;
    fields.wavelengthMm[cell] = one.wavelengthMm;
    fields.acrossDeg[cell] = one.acrossDeg;
    fields.nearness[cell] = e / one.threshold;
  }
  return fields;
}

/** Strains in the middles of the map's cells, three numbers each, between the middles of elements, where bilinear ones are most exact. */
function mapStrains(mesh: Mesh, { nx, ny, cellMm, x0, y0 }: Grid, strain: Float64Array): Float64Array {
  const out = new Float64Array(nx * ny * THREE);
  const alongX = betweenMiddles(mesh.x, nx, x0, cellMm);
  const alongY = betweenMiddles(mesh.y, ny, y0, cellMm);
  const up = THREE * (mesh.nx - 1);
  for (let j = 0, k = 0; j < ny; j++)
    for (let i = 0; i < nx; i++) {
      const from = THREE * (alongY.at[j] * (mesh.nx - 1) + alongX.at[i]);
      const u = alongX.part[i];
      const v = alongY.part[j];
      for (let c = from; c < from + THREE; c++)
        out[k++] =
          (1 - v) * ((1 - u) * strain[c] + u * strain[c + THREE]) +
          v * ((1 - u) * strain[c + up] + u * strain[c + up + THREE]);
    }
  return out;
}

/** Of every map cell along one axis: the last element whose middle is not beyond its own, and the part of the way to the next one. */
function betweenMiddles(
  lines: Float64Array,
  count: number,
  from: number,
  cellMm: number,
): { at: Int32Array; part: Float64Array } {
  const middles = Float64Array.from({ length: lines.length - 1 }, (_, k) => (lines[k] + lines[k + 1]) / 2);
  const at = new Int32Array(count);
  const part = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const place = from + (i + 0.5) * cellMm;
    const k = intervalOf(middles, place);
    at[i] = k;
    part[i] = Math.min(1, Math.max(0, (place - middles[k]) / (middles[k + 1] - middles[k])));
  }
  return { at, part };
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
