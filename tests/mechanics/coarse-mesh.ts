/**
 * The pucker worked out on a mesh so coarse that its figures are worth little, five to ten times as fast: for tests of what a command says,
 * writes and refuses, where any figures will do. With `LIEFLAT_FULL=1` the same tests run on the mesh that users have, and a thread or a
 * process that a test starts has that one always.
 */
import { afterAll, beforeAll } from 'vitest';
import { MESH_OPTIONS } from '../../lib/mechanics/mesh.js';
import { ROUGH } from '../../lib/mechanics/prepared-design.js';

/**
 * In all of the file, or of the `describe` that it stands in.
 *
 * @param cellMm larger ones are faster; where heights have to be told apart at all, of 2
 */
export function onACoarseMesh(cellMm = 3): void {
  if (process.env.LIEFLAT_FULL === '1') return;
  const before = [MESH_OPTIONS, ROUGH].map((options) => ({ options, values: { ...options } }));
  beforeAll(() => {
    for (const { options } of before) Object.assign(options, { cellMm, growth: 1.6, mapMm: cellMm / 2 });
  });
  // Test files share their modules.
  afterAll(() => {
    for (const { options, values } of before) Object.assign(options, values);
  });
}
