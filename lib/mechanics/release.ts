/**
 * What comes after sewing: the hoop lets go, the fabric springs back from the stretch that the hoop gave it, backing is cut off, and laundering
 * makes fabric, sheets and thread smaller, each by its own amount. All of it is told as what fabric far from the design does not do: it lies flat
 * there, and the far border is held.
 */
import {
  conjugateGradients,
  SOLVE_OPTIONS,
  type Solution,
  type SolveOptions,
} from './conjugate-gradients.js';
import { addPrestress, BACKING_AT, elementStrains, FABRIC_AT } from './element-strain.js';
import type { Goods, Layer } from './goods.js';
import { compliance, type Strain } from './laminate.js';
import { addMembrane, applyMatrix, BACKING, newLayerMatrix } from './layer-matrix.js';
import { freeNodes } from './mesh.js';
import type { MeshedDesign } from './meshed-design.js';
import { Multigrid } from './multigrid.js';
import { addSpring } from './point-spread.js';
import { fabricStiffness, pointSpring, type Sewn } from './sewing.js';
import type { SewingSettings } from './sewing-settings.js';
import { backingPrestress, backingStiffness } from './sheets-in-use.js';
import { ThreadSprings } from './thread-springs.js';

/** What happens to fabric and thread besides the sewing, as parts of one. */
export interface Treatment {
  /** Stretch in the hoop beyond that of careful hooping. */
  readonly hoopStretch: number;
  /** Part of the final shrinkage that has come about. */
  readonly laundered: number;
}

export interface Released {
  /** Strain of the fabric against what it is at rest, three numbers an element. */
  readonly strain: Float64Array;
  /** Movement since sewing, beside that of fabric far away. */
  readonly movement: Float64Array;
  readonly iterations: number;
  /** Part of the threads on the fabric that pull. */
  readonly taut: number;
}

/** Threads are told taut from slack so many times; after three hardly any change. */
const PASSES = 3;
/** Tolerance with which that is told; the last pass alone wants more. */
const ROUGH = 1e-2;

/** Strain that the hoop holds the fabric at: an even force both ways, and what it was stretched besides. */
export function hoopStrain({ fabric }: Goods, hoopForce: number, hoopStretch: number): Strain {
  const { s11, s12, s16, s22, s26 } = compliance(fabric.membrane);
  return [
    hoopForce * (s11 + s12) + hoopStretch,
    hoopForce * (s12 + s22) + hoopStretch,
    hoopForce * (s16 + s26),
  ];
}

export function release(
  design: MeshedDesign,
  goods: Goods,
  settings: SewingSettings,
  sewn: Sewn,
  { hoopStretch, laundered }: Treatment,
  options: SolveOptions = SOLVE_OPTIONS,
): Released {
  const { mesh, stitches, thread } = design;
  const free = freeNodes(mesh, null);
  const matrix = newLayerMatrix(mesh, free);
  const fabric = fabricStiffness(design, goods);
  const backing = backingStiffness(design, goods, settings, true);
  addMembrane(matrix, mesh, 0, fabric);
  if (goods.backing) addMembrane(matrix, mesh, BACKING, backing);
  const force = new Float64Array(sewn.movement.length);
  applyMatrix(matrix, sewn.movement, force);
  // What held the layers as sewn and does so no more: the hoop, and backing that has been cut off.
  for (let k = 0; k < force.length; k++) force[k] = sewn.layerForces[k] - force[k];

  const [exx, eyy, exy] = hoopStrain(goods, settings.hoopForce, hoopStretch);
  const shrunk = laundered * goods.fabric.shrinkage;
  /** By what the fabric gets smaller than something of its own size in the hoop that shrinks by a part of one. */
  const beyond = (shrinkage: number): Strain => {
    const more = shrunk - laundered * shrinkage;
    return [exx + more, eyy + more, exy];
  };
  if (goods.backing) {
    const excess = (sheet: Layer) => beyond(sheet.shrinkage);
    addPrestress(force, mesh, BACKING_AT, backingPrestress(design, goods, settings, excess), free);
    const each = pointSpring(goods, settings);
    for (let i = 0; i < stitches.count; i++) addSpring(matrix, mesh, stitches.x[i], stitches.y[i], each);
  }

  const pressed = beyond(thread.shrinkage.value / 100).map((v) => -v) as unknown as Strain;
  const top = goods.backing ? settings.topShare : 1;
  const layers = [{ share: top, at: FABRIC_AT, six: fabric, channel: 0 }];
  if (goods.backing) layers.push({ share: 1 - top, at: BACKING_AT, six: backing, channel: BACKING });
  const threads = layers.map(
    ({ share, at }) => new ThreadSprings(design, settings, share, at, pressed, free),
  );

  const apply = (u: Float64Array, out: Float64Array) => {
    applyMatrix(matrix, u, out);
    for (const springs of threads) springs.addTo(u, out);
  };
  let solution: Solution | undefined;
  let iterations = 0;
  for (let pass = 0; pass < PASSES; pass++) {
    const near = { ...matrix, entries: matrix.entries.slice() };
    threads.forEach((springs, k) => {
      const six = new Float64Array(fabric.length);
      springs.addMembrane(six);
      addMembrane(near, mesh, layers[k].channel, six);
    });
    const { improve } = new Multigrid(near, mesh);
    const load = force.slice();
    for (const springs of threads) springs.addChange(load);
    const last = pass === PASSES - 1;
    const tolerance = last ? options.tolerance : Math.max(options.tolerance, ROUGH);
    solution = conjugateGradients(apply, improve, load, { ...options, tolerance }, solution);
    iterations += solution.iterations;
    let changed = 0;
    for (const springs of threads) changed += springs.settle(solution.movement);
    if (changed === 0 && !last) pass = PASSES - 2;
  }
  const { movement } = solution!;
  const all = movement.map((v, k) => v + sewn.movement[k]);
  return {
    strain: elementStrains(mesh, all, FABRIC_AT),
    movement,
    iterations,
    taut: threads[0].tautShare,
  };
}
