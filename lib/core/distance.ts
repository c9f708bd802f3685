/**
 * Distance of two points. Stitch lengths are far from the limits of a double, so the plain root serves; the
 * careful one of the standard library is many times slower.
 */
export function distance(ax: number, ay: number, bx: number, by: number): number {
  return Math.sqrt((bx - ax) * (bx - ax) + (by - ay) * (by - ay));
}

type ToSegment = (px: number, py: number, ax: number, ay: number, bx: number, by: number) => number;

/** Square of the distance from a point to a straight piece of thread between two needle points. */
export const squareToSegment: ToSegment = (px, py, ax, ay, bx, by) => {
  const vx = bx - ax;
  const vy = by - ay;
  const wx = px - ax;
  const wy = py - ay;
  const l2 = vx * vx + vy * vy;
  const t = l2 > 0 ? Math.max(0, Math.min(1, (wx * vx + wy * vy) / l2)) : 0;
  const dx = wx - t * vx;
  const dy = wy - t * vy;
  return dx * dx + dy * dy;
};

/** Distance from a point to a straight piece of thread between two needle points. */
export const distanceToSegment: ToSegment = (px, py, ax, ay, bx, by) =>
  Math.sqrt(squareToSegment(px, py, ax, ay, bx, by));
