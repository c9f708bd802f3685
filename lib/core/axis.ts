/**
 * Axial (undirected) angles: a thread line at 10° and one at 190° are the same line. Means are taken on the
 * doubled angle (Mardia & Jupp, *Directional Statistics*, 2000, §1.1; from memory).
 */

/** Angle folded into [0, 180). */
export function foldDeg180(deg: number): number {
  const folded = deg - 180 * Math.floor(deg / 180);
  return folded >= 180 ? 0 : folded;
}

/** Smallest angle between two axes, in [0, 90]. */
export function axisDifferenceDeg(a: number, b: number): number {
  const d = foldDeg180(a - b);
  return d > 90 ? 180 - d : d;
}
