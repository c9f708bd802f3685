/** A small name on a layup that is askew in every way, as the library and a script of another method work it out (fixtures/two-layers.py). */

import type { Stitches } from '../../lib/format/stitches.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { lamina, NO_STIFFNESS, type PlaneStiffness, rotated } from '../../lib/mechanics/laminate.js';
import type { Layer, Layup } from '../../lib/mechanics/layup.js';
import { type HoopShape, MESH_OPTIONS, type MeshOptions } from '../../lib/mechanics/mesh.js';
import { type MeshedDesign, meshDesign } from '../../lib/mechanics/meshed-design.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { type ParameterValues, settingsOf } from '../../lib/mechanics/settings.js';
import { wordOf } from '../fit/words.js';

const layer = (membrane: PlaneStiffness, meanStiffness: number): Layer => ({
  membrane,
  meanStiffness,
  bending: NO_STIFFNESS,
  shrinkage: 0,
  perforates: false,
  bonded: false,
});
const sheet = layer(rotated(lamina({ along: 7, across: 5, shear: 2, poisson: 0.3 }), 20), 6);

export const CASE_LAYUP: Layup = {
  fabric: layer(rotated(lamina({ along: 0.3, across: 0.15, shear: 0.05, poisson: 0.4 }), 70), 0.2),
  sheets: [sheet],
  backing: sheet,
};
export const CASE_SETTINGS: ParameterValues = {
  ...settingsOf(PARAMETERS),
  tension: 0.12,
  bedIn: 2,
  topShare: 0.7,
  pointSpring: 12,
  fabricGrip: 40,
  ownPoints: 0.25,
  hoopForce: 0.001,
  sewnThread: 0.36,
  cutFibers: 0,
};
export const CASE_HOOP: HoopShape = { shape: 'round', widthMm: 90, heightMm: 90 };
/** Stretched in the hoop by so much besides. */
export const CASE_STRETCH = 0.01;
export const CASE_NAME = wordOf({ text: 'KIT', heightMm: 16, strokeMm: 3.6 }, 'double-zigzag');

export const caseDesign = (
  options: MeshOptions = MESH_OPTIONS,
  stitches: Stitches = CASE_NAME.stitches,
): MeshedDesign =>
  meshDesign(stitches, CASE_NAME.objects, CATALOGUE.threads['polyester-40'], CASE_HOOP, options);

/** Squares of fabric about the letters, over each of which strains are compared: their middles and half their side, mm. */
export function caseWindows({ stitches: { x, y } }: MeshedDesign): {
  places: [number, number][];
  half: number;
} {
  const low = (v: Float64Array) => v.reduce((a, b) => Math.min(a, b));
  const high = (v: Float64Array) => v.reduce((a, b) => Math.max(a, b));
  const [x0, x1, y0, y1] = [low(x), high(x), low(y), high(y)];
  const places: [number, number][] = [];
  for (const u of [0.1, 0.3, 0.5, 0.7, 0.9])
    for (const v of [y0 - 5, y1 + 5]) places.push([x0 + u * (x1 - x0), v]);
  for (const u of [x0 - 5, x1 + 5]) places.push([u, (y0 + y1) / 2]);
  return { places, half: 2 };
}
