/** Strains of a layer in the middles of elements, and the forces of a prestress in them. */
import { elementsOf, UNKNOWNS } from './layer-matrix.js';
import type { Mesh } from './mesh.js';

/** Where the movement of a layer stands among the unknowns of a node. */
export const FABRIC_AT = 0;
export const BACKING_AT = 2;

/** Numbers of an element: xx, yy and engineering shear xy of a strain; xx, yy, xy of a force per width. */
export const THREE = 3;

/**
 * Forces on the nodes of a layer in which every element pulls with a membrane force (N/mm): what moves an elastic sheet as the free strain
 * −A⁻¹·N would.
 */
export function addPrestress(
  force: Float64Array,
  mesh: Mesh,
  layerAt: number,
  prestress: Float64Array,
  free: Uint8Array,
): void {
  const { nx, ny, x, y } = mesh;
  for (let j = 0, k = 0; j < ny - 1; j++)
    for (let i = 0; i < nx - 1; i++, k += THREE) {
      const xx = prestress[k];
      const yy = prestress[k + 1];
      const xy = prestress[k + 2];
      if (xx === 0 && yy === 0 && xy === 0) continue;
      const w = (x[i + 1] - x[i]) / 2;
      const h = (y[j + 1] - y[j]) / 2;
      for (let c = 0; c < 4; c++) {
        const p = (j + (c >> 1)) * nx + i + (c & 1);
        if (free[p] === 0) continue;
        const sx = c & 1 ? -1 : 1;
        const sy = c & 2 ? -1 : 1;
        force[UNKNOWNS * p + layerAt] += sx * h * xx + sy * w * xy;
        force[UNKNOWNS * p + layerAt + 1] += sx * h * xy + sy * w * yy;
      }
    }
}

/** Strain of a layer in the middle of every element, three numbers each. */
export function elementStrains(mesh: Mesh, u: Float64Array, layerAt: number): Float64Array {
  const { nx, ny, x, y } = mesh;
  const out = new Float64Array(elementsOf(mesh) * THREE);
  for (let j = 0, k = 0; j < ny - 1; j++)
    for (let i = 0; i < nx - 1; i++, k += THREE) {
      const a = UNKNOWNS * (j * nx + i) + layerAt;
      const b = a + UNKNOWNS;
      const c = a + UNKNOWNS * nx;
      const d = c + UNKNOWNS;
      const w = 2 * (x[i + 1] - x[i]);
      const h = 2 * (y[j + 1] - y[j]);
      out[k] = (u[b] + u[d] - u[a] - u[c]) / w;
      out[k + 1] = (u[c + 1] + u[d + 1] - u[a + 1] - u[b + 1]) / h;
      out[k + 2] = (u[c] + u[d] - u[a] - u[b]) / h + (u[b + 1] + u[d + 1] - u[a + 1] - u[c + 1]) / w;
    }
  return out;
}
