import { polygonArea, polygonCentroid, polygonContains, polygonHull, polygonLength } from 'd3-polygon';

export type Point = [x: number, y: number];
/** Corners of a polygon in order, either way round; the last corner is not the first again. */
export type Ring = Point[];

/** Area, mm² of mm: positive counter-clockwise with Y up; 0 for fewer than three corners. */
export function signedArea(ring: Ring): number {
  if (ring.length < 3) return 0;
  // d3 takes Y to point down and so gives a counter-clockwise ring a negative area
  const area = -polygonArea(ring);
  return area === 0 ? 0 : area;
}

/** Area whichever way round the ring runs. */
export const area = (ring: Ring): number => Math.abs(signedArea(ring));

/** Length of the closed outline; 0 for fewer than two corners. */
export function perimeter(ring: Ring): number {
  return ring.length < 2 ? 0 : polygonLength(ring);
}

/**
 * Centre of gravity of the surface, or of the corners where the ring encloses no surface; null for no corners.
 */
export function centroid(ring: Ring): Point | null {
  if (ring.length === 0) return null;
  const box = boundsOf(ring);
  // where the surface is nothing against the box, d3 divides by (nearly) zero
  if (area(ring) > 1e-12 * (box.maxX - box.minX) * (box.maxY - box.minY)) return polygonCentroid(ring);
  let sx = 0;
  let sy = 0;
  for (const [x, y] of ring) {
    sx += x;
    sy += y;
  }
  return [sx / ring.length, sy / ring.length];
}

/** Convex hull, counter-clockwise with Y up; empty where the points span no surface. */
export function hull(points: Ring): Ring {
  const found = polygonHull(points) ?? [];
  // collinear points leave d3 a hull of two corners or a flat one
  if (found.length < 3 || area(found) === 0) return [];
  return signedArea(found) < 0 ? found.reverse() : found;
}

/** Whether the point lies in the ring or within `marginMm` of its outline. */
export function contains(ring: Ring, x: number, y: number, marginMm = 1e-9): boolean {
  if (ring.length >= 3 && polygonContains(ring, [x, y])) return true;
  // d3 counts a left edge as inside and a right edge as outside: every edge counts as inside here
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    if (distanceToSegment(x, y, ring[j], ring[i]) <= marginMm) return true;
  }
  return false;
}

function distanceToSegment(x: number, y: number, a: Point, b: Point): number {
  const vx = b[0] - a[0];
  const vy = b[1] - a[1];
  const l2 = vx * vx + vy * vy;
  const t = l2 > 0 ? Math.max(0, Math.min(1, ((x - a[0]) * vx + (y - a[1]) * vy) / l2)) : 0;
  return Math.hypot(x - a[0] - t * vx, y - a[1] - t * vy);
}

function boundsOf(ring: Ring): { minX: number; minY: number; maxX: number; maxY: number } {
  const box = { minX: Infinity, minY: Infinity, maxX: -Infinity, maxY: -Infinity };
  for (const [x, y] of ring) {
    box.minX = Math.min(box.minX, x);
    box.maxX = Math.max(box.maxX, x);
    box.minY = Math.min(box.minY, y);
    box.maxY = Math.max(box.maxY, y);
  }
  return box;
}
