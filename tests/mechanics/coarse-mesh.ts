/**
 * The pucker worked out on a mesh so coarse that its figures are worth little, five to ten times as fast: for tests of what a command says,
 * writes and refuses, where any figures will do. With `LIEFLAT_FULL=1` the same tests run on the mesh that users have, and a thread or a
 * process that a test starts has that one always.
 */
import { afterAll, beforeAll } from 'vitest';
import { MESH_OPTIONS } from '../../lib/mechanics/mesh.js';
import { ROUGH } from '../../lib/mechanics/prepared-design.js';
import { IN_FULL } from '../in-full.js';

/** Cells that are large enough for a word, and small enough to tell heights apart, mm. */
const LARGE_MM = 3;

/** Gives both meshes such cells; what is returned gives them back what they had. */
function coarsened(cellMm: number): () => void {
  const before = [MESH_OPTIONS, ROUGH].map((options) => ({ options, values: { ...options } }));
  for (const { options } of before) Object.assign(options, { cellMm, growth: 1.6, mapMm: cellMm / 2 });
  return () => {
    for (const { options, values } of before) Object.assign(options, values);
  };
}

/**
 * In all of the file, or of the `describe` that it stands in. Test files share their modules, so all is given back at its end.
 *
 * @param cellMm where heights have to be told apart, 2 or less
 */
export function onACoarseMesh(cellMm = LARGE_MM): void {
  if (IN_FULL) return;
  let giveBack = (): void => {};
  beforeAll(() => {
    giveBack = coarsened(cellMm);
  });
  afterAll(() => giveBack());
}

/** What `work` makes on such a mesh. */
export function coarsely<T>(work: () => T, cellMm = LARGE_MM): T {
  if (IN_FULL) return work();
  const giveBack = coarsened(cellMm);
  try {
    return work();
  } finally {
    giveBack();
  }
}
