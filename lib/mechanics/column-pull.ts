/** How far needle points move inward after they have come down: what a ruler finds on the sewn piece. */
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import { FABRIC_AT } from './element-strain.js';
import type { MeshedDesign } from './meshed-design.js';
import type { Sewn } from './sewing.js';
import { type PointForces, pointMovement } from './thread-pull.js';

/** Movement of every needle point with the fabric since it came down, mm: blocks before its own have moved what it then went into. */
export function pointsMoved({ spread, order, stitches }: MeshedDesign, { steps }: Sewn): PointForces {
  const all = { x: new Float64Array(stitches.count), y: new Float64Array(stitches.count) };
  const one = { x: new Float64Array(stitches.count), y: new Float64Array(stitches.count) };
  steps.forEach((step, block) => {
    pointMovement(step, spread, FABRIC_AT, one);
    for (let i = 0; i < stitches.count; i++)
      if (order.point[i] <= block) {
        all.x[i] += one.x[i];
        all.y[i] += one.y[i];
      }
  });
  return all;
}

/** How much narrower an object gets along its stitches, both edges together, mm. */
export function narrowing({ x, y }: Stitches, { from, to, range }: StitchObject, moved: PointForces): number {
  const nearer = (a: number, b: number): number => {
    const dx = x[b] - x[a];
    const dy = y[b] - y[a];
    const length = Math.hypot(dx, dy);
    return length > 0 ? ((moved.x[a] - moved.x[b]) * dx + (moved.y[a] - moved.y[b]) * dy) / length : 0;
  };
  if (from.length === 0) return nearer(range[0], range[1]);
  let sum = 0;
  for (let k = 0; k < from.length; k++) sum += nearer(from[k], to[k]);
  return sum / from.length;
}
