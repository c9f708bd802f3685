/** How much memory working out the pucker fills, told beforehand: for a budget to say no before arrays are made. */
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import { DRAWS } from './band.js';
import { meshesOf } from './prepared-design.js';

/**
 * Matrices as sewn and let go, the approximate inverse with its coarser levels, springs of every block and vectors. Measured as the most that a
 * command had resident over that of vetting the file alone (Node 20, Linux): `card` of the jacket back, 66 thousand nodes, 262 MB; `pucker` of it
 * 163 MB, of the crest, 43 thousand nodes, 119 MB, program code among it. Without code and stitches that is some 2,400 a node at most, and three
 * tenths more to be safe.
 */
const BYTES_A_NODE = 3_100;
/** Further strains, heights and spans of the cells of the map: some six of them a node. */
const BYTES_A_NODE_KEPT = 600;
/** What the needle points grip, in numbers. */
const BYTES_A_STITCH = 900;
/** Draws, drivers and the cells about an object. */
const BYTES_AN_OBJECT = 12_000 + 8 * DRAWS;

/**
 * Bytes that the risk of a design takes.
 *
 * @param threads of how many kinds it is worked out
 * @param fabrics over how many fabrics and stacks
 */
export function riskBytes(
  stitches: Stitches,
  objects: readonly StitchObject[],
  threads: number,
  fabrics: number,
): number {
  const { fine, rough } = meshesOf(stitches);
  const nodes = fine.nx * fine.ny + rough.nx * rough.ny;
  return (
    nodes * (BYTES_A_NODE * threads + BYTES_A_NODE_KEPT * fabrics) +
    BYTES_A_STITCH * stitches.count * threads +
    BYTES_AN_OBJECT * objects.length * fabrics
  );
}
