/** From needle points to nodes and back: forces at points, movement of points, and sewn thread as springs between them. */
import { UNKNOWNS } from './layer-matrix.js';
import type { PointSpread } from './point-spread.js';

/** One value a needle point. */
export interface PointForces {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Spreads forces at points over the nodes that they grip. */
export function addPointForces(
  force: Float64Array,
  { count, start, node, part }: PointSpread,
  at: PointForces,
  layerAt: number,
): void {
  for (let p = 0; p < count; p++) {
    const fx = at.x[p];
    const fy = at.y[p];
    if (fx === 0 && fy === 0) continue;
    for (let k = start[p]; k < start[p + 1]; k++) {
      const to = UNKNOWNS * node[k] + layerAt;
      force[to] += part[k] * fx;
      force[to + 1] += part[k] * fy;
    }
  }
}

/** Movement of every point with one layer. */
export function pointMovement(
  u: Float64Array,
  { count, start, node, part }: PointSpread,
  layerAt: number,
  out: PointForces,
): void {
  for (let p = 0; p < count; p++) {
    let x = 0;
    let y = 0;
    for (let k = start[p]; k < start[p + 1]; k++) {
      const from = UNKNOWNS * node[k] + layerAt;
      x += part[k] * u[from];
      y += part[k] * u[from + 1];
    }
    out.x[p] = x;
    out.y[p] = y;
  }
}
