import { spreadInPlace } from '../core/stats.js';
import type { Stitches } from '../format/stitches.js';
import { measureColumn } from '../geometry/column.js';
import { measureRows } from '../geometry/rows.js';
import type { StitchObject } from '../segment/objects.js';

/** Wider than this fabric is seen between threads, however the design grows, mm: three threads (our own choice). */
const OPEN_MM = 1.2;

/**
 * Whether a column or area is sewn so openly that nothing hangs on its spacing: an edging, a zigzag that tacks cloth down, a net. Its
 * stitches are what is seen of it, one by one.
 */
export function isOpen({ x, y }: Stitches, { kind, from, to, sections }: StitchObject): boolean {
  if (kind === 'run' || from.length < 2) return false;
  const { spacingMm } =
    kind === 'satin' ? measureColumn(x, y, from, to) : measureRows(x, y, from, to, sections);
  const spread = spreadInPlace(Float64Array.from(spacingMm));
  return spread !== null && spread.median > OPEN_MM;
}
