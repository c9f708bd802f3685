/** Full solves of the model of two layers by names of the catalogue, for the fit and the list of facts. */

import { CATALOGUE } from '../../lib/materials/catalogue.js';
import type { SolveOptions } from '../../lib/mechanics/conjugate-gradients.js';
import { layupOf, type StackedSheet } from '../../lib/mechanics/layup.js';
import { type HoopShape, MESH_OPTIONS, type MeshOptions } from '../../lib/mechanics/mesh.js';
import { type MeshedDesign, meshDesign } from '../../lib/mechanics/meshed-design.js';
import { type Puckering, puckering } from '../../lib/mechanics/puckering.js';
import type { FabricTreatment } from '../../lib/mechanics/release.js';
import type { ParameterValues } from '../../lib/mechanics/settings.js';
import type { TestDesign } from '../mechanics/designs.js';

/** A round hoop of 120 mm, as for a left chest; wider designs get one of 20 mm more than they are. */
const HOOP_MM = 120;
const BESIDE_MM = 20;

export function hoopFor({ stitches: { x, y } }: TestDesign): HoopShape {
  const across = (v: Float64Array) => v.reduce((a, b) => Math.max(a, b)) - v.reduce((a, b) => Math.min(a, b));
  const diagonal = Math.hypot(across(x), across(y));
  const size = Math.max(HOOP_MM, diagonal + 2 * BESIDE_MM);
  return { shape: 'round', widthMm: size, heightMm: size };
}

export const meshed = (design: TestDesign, options: MeshOptions = MESH_OPTIONS): MeshedDesign =>
  meshDesign(design.stitches, design.objects, CATALOGUE.threads['polyester-40'], hoopFor(design), options);

export const puckeringOf = (
  design: MeshedDesign,
  fabric: string,
  stack: readonly StackedSheet[],
  settings: ParameterValues,
  treatment?: FabricTreatment,
  options?: SolveOptions,
): Puckering =>
  puckering(design, layupOf(CATALOGUE, { fabric, stack, grainDeg: 90 }), settings, treatment, options);
