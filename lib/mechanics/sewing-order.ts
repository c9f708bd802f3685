/**
 * In which order thread and needle points go down, in a few blocks: each half of the underlay and each half of the top stitching of every
 * object. Objects side by side hardly see one another, so that block k of one is sewn with block k of all. Ten blocks in place of
 * four move a height by two parts of a hundred.
 */
import type { Stitches } from '../format/stitches.js';
import type { StitchObject, StitchRange } from '../segment/objects.js';
import { Role, type StitchRoles } from './stitch-roles.js';

export const BLOCKS = 4;
/** The first block of top stitching; those before are underlay. */
export const FIRST_TOP = 2;

export interface SewingOrder {
  /** Block of each needle point, and of the thread that ends there; −1 for thread where there is none. */
  readonly point: Int8Array;
  readonly thread: Int8Array;
}

export function sewingOrder(
  stitches: Stitches,
  objects: readonly StitchObject[],
  roles: StitchRoles,
): SewingOrder {
  const { count } = stitches;
  const point = new Int8Array(count);
  // Stitches of no object go with the half of the top stitching that they stand in.
  for (let i = 0; i < count; i++) point[i] = 2 * i < count ? 2 : 3;
  const halves = ([first, last]: StitchRange, role: number, block: number) => {
    for (let i = first; i <= last; i++)
      if (roles.point[i] === role) point[i] = 2 * (i - first) <= last - first ? block : block + 1;
  };
  for (const { underlay, range } of objects) {
    if (underlay.range) halves(underlay.range, Role.underlay, 0);
    halves(range, Role.top, 2);
  }
  // Underlay that no object's range holds.
  for (let i = 0; i < count; i++) if (roles.point[i] === Role.underlay && point[i] > 1) point[i] = 0;
  const thread = point.map((block, i) => (roles.thread[i] === Role.none ? -1 : block));
  return { point, thread };
}
