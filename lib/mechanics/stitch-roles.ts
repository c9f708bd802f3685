import { Break, type Stitches } from '../format/stitches.js';
import type { StitchObject, StitchRange } from '../segment/objects.js';

/** What the thread that ends in a needle penetration is there for. */
export const Role = {
  /** No thread holds fabric there: a trim, or a move between objects. */
  none: 0,
  underlay: 1,
  top: 2,
} as const;

export interface StitchRoles {
  /** {@link Role} of the thread from penetration i − 1 to i. */
  readonly thread: Uint8Array;
  /** {@link Role} of penetration i as a needle point. */
  readonly point: Uint8Array;
  /** Index into the objects, or −1 for stitches that belong to none (travel, locks). */
  readonly owner: Int32Array;
}

/** Marks every penetration with its object and what it is for. Stitches of no object count as top stitching: they pull like it. */
export function stitchRoles(stitches: Stitches, objects: readonly StitchObject[]): StitchRoles {
  const { count, breakBefore } = stitches;
  const point = new Uint8Array(count).fill(Role.top);
  const owner = new Int32Array(count).fill(-1);
  const claim = ([first, last]: StitchRange, role: number, index: number) => {
    for (let i = Math.max(0, first); i <= last && i < count; i++) {
      point[i] = role;
      owner[i] = index;
    }
  };
  objects.forEach(({ underlay }, k) => {
    if (underlay.range) claim(underlay.range, Role.underlay, k);
  });
  objects.forEach(({ range }, k) => {
    claim(range, Role.top, k);
  });
  const thread = new Uint8Array(count);
  for (let i = 1; i < count; i++) {
    // A jump inside one object is a stitch too long for one record; between objects it is a loose move.
    const sewn =
      breakBefore[i] === Break.none ||
      (breakBefore[i] === Break.jump && owner[i] >= 0 && owner[i] === owner[i - 1]);
    if (sewn) thread[i] = point[i];
  }
  return { thread, point, owner };
}
