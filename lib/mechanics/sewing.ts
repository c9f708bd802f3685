/** A design sewn block by block in a hoop that holds both layers all round. */

import {
  conjugateGradients,
  SOLVE_OPTIONS,
  type Solution,
  type SolveOptions,
} from './conjugate-gradients.js';
import { BACKING_AT, FABRIC_AT } from './element-strain.js';
import {
  addMembrane,
  addSprings,
  addStiffness,
  applyMatrix,
  BACKING,
  clearSprings,
  elementsOf,
  type LayerMatrix,
  newLayerMatrix,
  SIX,
  UNKNOWNS,
} from './layer-matrix.js';
import type { Layup } from './layup.js';
import { freeNodes } from './mesh.js';
import type { MeshedDesign } from './meshed-design.js';
import { Multigrid } from './multigrid.js';
import type { ParameterValues } from './settings.js';
import { BLOCKS, FIRST_TOP } from './sewing-order.js';
import { backingStiffness } from './sheets-in-use.js';
import { SolveRoom } from './solve-room.js';
import { addPointForces, type PointForces } from './thread-pull.js';

/** How both layers stand in the hoop. */
export interface HeldLayers {
  /** Four unknowns a node, mm. */
  readonly movement: Float64Array;
  /** Forces by which the stretched and pressed layers themselves pull at each node, N. */
  readonly layerForces: Float64Array;
}

export interface SewnLayers extends HeldLayers {
  /** What each block adds to the movement. */
  readonly steps: readonly Solution[];
  /** What the top stitching alone does. */
  readonly top: HeldLayers;
}

/** What is nearly like the step of a block that is to be found. */
export type StepsLike = (block: number) => Solution;

/**
 * Stiffness of one needle point's hold, N/mm: what two stiff layers would have, in series with the give of the fabric about the point.
 * With one value for all fabrics nothing would set a thin knit apart from piqué.
 */
export function pointSpring({ fabric }: Layup, { pointSpring: stiff, fabricGrip }: ParameterValues): number {
  return 1 / (1 / stiff + 1 / (fabricGrip * fabric.meanStiffness));
}

/** Stiffness of the fabric, alike in every element. */
export function fabricStiffness({ mesh }: MeshedDesign, { fabric }: Layup): Float64Array {
  const six = new Float64Array(elementsOf(mesh) * SIX);
  addStiffness(six, fabric.membrane, () => 1);
  return six;
}

/**
 * Solves for every block in turn: springs of earlier blocks whole, its own in part, since they come down among its stitches.
 * @param like solving goes on from there
 */
export function sew(
  design: MeshedDesign,
  layup: Layup,
  settings: ParameterValues,
  options: SolveOptions = SOLVE_OPTIONS,
  like?: StepsLike,
): SewnLayers {
  const { mesh, hoop, springs } = design;
  const { room = new SolveRoom() } = options;
  const roomy = { ...options, room };
  const matrix = newLayerMatrix(mesh, freeNodes(mesh, hoop), room);
  addMembrane(matrix, mesh, 0, fabricStiffness(design, layup));
  if (layup.backing) addMembrane(matrix, mesh, BACKING, backingStiffness(design, layup, settings, false));
  const each = layup.backing ? pointSpring(layup, settings) : 0;
  const join = (block: number, stiffness: number) => {
    if (stiffness > 0) addSprings(matrix, springs[block], stiffness);
  };
  const apply = (u: Float64Array, out: Float64Array) => applyMatrix(matrix, u, out);
  const movement = new Float64Array(mesh.nx * mesh.ny * UNKNOWNS);
  const topMovement = new Float64Array(movement.length);
  const steps: Solution[] = [];
  let grid: Multigrid | null = null;
  for (let block = 0; block < BLOCKS; block++) {
    const force = room.float64(movement.length);
    addUnitForces(force, design, block, settings.bedIn);
    shareForces(force, layup, settings, matrix);
    join(block, settings.ownPoints * each);
    if (!grid) grid = new Multigrid(matrix, mesh, undefined, room);
    else if (each > 0) grid.springsChanged();
    const step = conjugateGradients(apply, grid.improve, force, roomy, like?.(block));
    room.giveBack(force);
    join(block, (1 - settings.ownPoints) * each);
    steps.push(step);
    for (let k = 0; k < movement.length; k++) movement[k] += step.movement[k];
    if (block >= FIRST_TOP) for (let k = 0; k < movement.length; k++) topMovement[k] += step.movement[k];
  }
  clearSprings(matrix);
  const layerForces = new Float64Array(movement.length);
  apply(movement, layerForces);
  const topForces = new Float64Array(movement.length);
  apply(topMovement, topForces);
  grid?.giveBack();
  room.giveBack(matrix.entries);
  return {
    steps,
    movement,
    layerForces,
    top: { movement: topMovement, layerForces: topForces },
  };
}

/** What thread of 1 N tension, were it long, would pull with when it is so long: the part that {@link ParameterValues.bedIn} leaves of it. */
export const partOfTension = ({ pull }: MeshedDesign, bedIn: number, i: number, length: number): number =>
  ((pull ? pull[i] : 1) * length) / (length + bedIn);

/** Adds the forces of the stitches of one block on the nodes of one layer, for a tension of 1 N: T = T0·l/(l + lc). */
function addUnitForces(force: Float64Array, design: MeshedDesign, block: number, bedIn: number): void {
  const { order, spread, stitches } = design;
  const { x, y, count } = stitches;
  const at: PointForces = {
    x: new Float64Array(count),
    y: new Float64Array(count),
  };
  for (let i = 1; i < count; i++) {
    if (order.thread[i] !== block) continue;
    const dx = x[i] - x[i - 1];
    const dy = y[i] - y[i - 1];
    const length = Math.hypot(dx, dy);
    if (length === 0) continue;
    const part = partOfTension(design, bedIn, i, length) / length;
    at.x[i - 1] += part * dx;
    at.y[i - 1] += part * dy;
    at.x[i] -= part * dx;
    at.y[i] -= part * dy;
  }
  addPointForces(force, spread, at, FABRIC_AT);
}

/** Makes of the forces on one layer those of a block: by the top thread on the fabric, by the bobbin on the backing. */
function shareForces(
  force: Float64Array,
  { backing }: Layup,
  { tension, topShare }: ParameterValues,
  { nodes, free }: LayerMatrix,
): void {
  // Without backing both threads lie on the fabric.
  const top = tension * (backing ? topShare : 1);
  const bobbin = tension - top;
  for (let m = 0; m < nodes.length; m++) {
    const k = UNKNOWNS * nodes[m];
    const [x, y] = [force[k + FABRIC_AT], force[k + FABRIC_AT + 1]];
    force[k + FABRIC_AT] = top * x;
    force[k + FABRIC_AT + 1] = top * y;
    force[k + BACKING_AT] = bobbin * x;
    force[k + BACKING_AT + 1] = bobbin * y;
  }
  for (let p = 0; p < free.length; p++) if (free[p] === 0) force.fill(0, UNKNOWNS * p, UNKNOWNS * (p + 1));
}
