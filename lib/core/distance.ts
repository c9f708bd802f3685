/**
 * Distance of two points. Stitch lengths are far from the limits of a double, so the plain root serves; the
 * careful one of the standard library is many times slower.
 */
export function distance(ax: number, ay: number, bx: number, by: number): number {
  return Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
}
