/** A movement worked out on one mesh, carried over to another that covers the same hoop: where solving on the other one begins. */
import type { Solution } from './conjugate-gradients.js';
import { UNKNOWNS } from './layer-matrix.js';
import { type Mesh, placesOn } from './mesh.js';

/** Bilinear between the nodes of `from`; nothing at nodes of `to` that are held. */
export function carried({ movement, energy }: Solution, from: Mesh, to: Mesh, free: Uint8Array): Solution {
  const alongX = placesOn(from.x, to.x);
  const alongY = placesOn(from.y, to.y);
  const out = new Float64Array(UNKNOWNS * free.length);
  const up = UNKNOWNS * from.nx;
  for (let p = 0; p < free.length; p++) {
    if (free[p] === 0) continue;
    const i = p % to.nx;
    const j = (p - i) / to.nx;
    const a = UNKNOWNS * (alongY.at[j] * from.nx + alongX.at[i]);
    const u = alongX.part[i];
    const v = alongY.part[j];
    for (let k = 0; k < UNKNOWNS; k++)
      out[UNKNOWNS * p + k] =
        (1 - v) * ((1 - u) * movement[a + k] + u * movement[a + UNKNOWNS + k]) +
        v * ((1 - u) * movement[a + up + k] + u * movement[a + up + UNKNOWNS + k]);
  }
  return { movement: out, energy };
}
