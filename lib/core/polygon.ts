import { polygonArea, polygonContains, polygonHull } from 'd3-polygon';
import { squareToSegment } from './distance.js';

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

/** Whether the point lies in the ring or within `marginMm` of its outline. */
export function contains(ring: Ring, x: number, y: number, marginMm = 1e-9): boolean {
  if (ring.length >= 3 && polygonContains(ring, [x, y])) return true;
  // d3 counts a left edge as inside and a right edge as outside: every edge counts as inside here
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    if (squareToSegment(x, y, ...ring[j], ...ring[i]) <= marginMm * marginMm) return true;
  }
  return false;
}

/** The convex hull of some points as a ring; of points on a line that line. */
export function hull(points: Ring): Ring {
  // d3 gives null for fewer than three points
  return polygonHull(points) ?? points;
}
