import type { Fabric } from '../materials/fabric.js';
import { type FabricClass, fabricClass } from './fabric-class.js';

/** What the shop accepts: the lowest grades that may leave it. */
export interface Accepted {
  /** As sewn. */
  readonly grade: number;
  /** After `washes` launderings. */
  readonly washedGrade: number;
  readonly washes: number;
}

/**
 * A shop that has said nothing: nothing plainly to be seen, when it is handed over and after two months of weekly washing. Our own assumption;
 * 3.5 is the grade below which pressed garments are often refused (from memory).
 */
export const USUALLY_ACCEPTED: Accepted = { grade: 3.5, washedGrade: 3.5, washes: 8 };

/** Launderings that a garment sees in use, where it is fewer than a shop asks for of the rest. Our own assumption. */
const SELDOM_WASHED: Partial<Record<FabricClass, number>> = {
  // A cap with buckram is wiped, not washed.
  'structured-cap': 0,
  'soft-cap': 3,
  rigid: 3,
};
/** Jackets, by fabric. */
const JACKETS: Readonly<Record<string, number>> = { denim: 3, softshell: 3, 'nylon-jacket': 3, leather: 0 };

/**
 * The standard for a garment: one that is seldom washed is not judged by eight launderings.
 * @param asked the launderings were asked for: they stand, but for what must not get wet
 */
export function acceptedFor(fabric: Fabric, accepted: Accepted, asked = false): Accepted {
  const usual = asked ? Infinity : (JACKETS[fabric.id] ?? SELDOM_WASHED[fabricClass(fabric)] ?? Infinity);
  const most = fabric.washable ? usual : 0;
  const washes = Math.min(accepted.washes, most);
  return washes === 0 ? { ...accepted, washes, washedGrade: accepted.grade } : { ...accepted, washes };
}
