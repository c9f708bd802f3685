/** How far needle points move inward after they have come down: what a ruler finds on the sewn piece. */
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import { FABRIC_AT } from './element-strain.js';
import type { MeshedDesign } from './meshed-design.js';
import type { SewnLayers } from './sewing.js';
import { type PointForces, pointMovement } from './thread-pull.js';

/** Movement of every needle point with the fabric since it came down, mm: blocks before its own have moved what it then went into. */
export function pointsMoved({ spread, order, stitches }: MeshedDesign, { steps }: SewnLayers): PointForces {
  const all = { x: new Float64Array(stitches.count), y: new Float64Array(stitches.count) };
  const one = { x: new Float64Array(stitches.count), y: new Float64Array(stitches.count) };
  steps.forEach((step, block) => {
    pointMovement(step.movement, spread, FABRIC_AT, one);
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

/** How far an object's edges move inward in sewing, and so what each edge would have to be drawn out by. mm; negative is outward. */
export interface PullIn {
  /** Along the stitches: the rails of a column, the ends of the rows of a fill, the ends of a run. */
  readonly alongStitchMm: number;
  /** At right angles to the stitches: the ends of a column, the first and last rows of a fill (of the section that moves most); 0 for a run. */
  readonly acrossStitchMm: number;
}

/** Pull-in of one object from the movement of its needle points. */
export function pullIn(stitches: Stitches, object: StitchObject, moved: PointForces): PullIn {
  const { from, sections } = object;
  const alongStitchMm = narrowing(stitches, object, moved) / 2;
  const starts = from.length === 0 ? [] : sections.length > 0 ? sections : [0];
  let across = 0;
  for (let s = 0; s < starts.length; s++) {
    const section = betweenStitches(stitches, object, moved, starts[s], starts[s + 1] ?? from.length);
    if (Math.abs(section) > Math.abs(across)) across = section;
  }
  return { alongStitchMm, acrossStitchMm: across / 2 };
}

/** Sum along a column or a section of how much nearer the middles of neighboring stitches come, at right angles to the stitch. */
function betweenStitches(
  { x, y }: Stitches,
  { from, to }: StitchObject,
  moved: PointForces,
  first: number,
  end: number,
): number {
  const middle = (v: Float64Array, k: number): number => (v[from[k]] + v[to[k]]) / 2;
  let total = 0;
  for (let k = first + 1; k < end; k++) {
    const dx = x[to[k]] - x[from[k]];
    const dy = y[to[k]] - y[from[k]];
    const length = Math.hypot(dx, dy);
    if (length === 0) continue;
    const step = (v: Float64Array) => middle(v, k) - middle(v, k - 1);
    const apart = (step(x) * -dy + step(y) * dx) / length;
    const apartNow = (step(moved.x) * -dy + step(moved.y) * dx) / length;
    total -= apart < 0 ? -apartNow : apartNow;
  }
  return total;
}
