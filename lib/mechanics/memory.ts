/** How much memory working out the pucker fills, told beforehand: for a budget to say no before arrays are made. */
import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import { gridFor } from './prepared-design.js';

/** Fields on the grid that stand at once, each with its spectrum, while one fabric is worked out. */
const BYTES_A_CELL = 800;
/** What is kept of each further fabric: maps and movement. */
const BYTES_A_CELL_KEPT = 64;
/** Drivers, ranges and the cells about an object. */
const BYTES_AN_OBJECT = 12_000;

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
  const { nx, ny } = gridFor(stitches, objects);
  const a = threads * BYTES_A_CELL + fabrics * BYTES_A_CELL_KEPT;
  return a * nx * ny + BYTES_AN_OBJECT * objects.length * fabrics;
}
