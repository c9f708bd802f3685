import { distance, type Point, stepped } from './plane.js';

/** An area to be filled: one outline and the holes in it, each a closed ring whose last point joins its first. */
export interface Area {
  readonly outline: readonly Point[];
  readonly holes: readonly (readonly Point[])[];
}

export const areaOf = (outline: readonly Point[], holes: readonly (readonly Point[])[] = []): Area => ({
  outline,
  holes,
});

export function signedArea(ring: readonly Point[]): number {
  let twice = 0;
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i];
    const b = ring[(i + 1) % ring.length];
    twice += a.x * b.y - b.x * a.y;
  }
  return twice / 2;
}

function distanceToRing(p: Point, ring: readonly Point[]): number {
  let best = Infinity;
  for (let i = 0; i < ring.length; i++) {
    const a = ring[i];
    const b = ring[(i + 1) % ring.length];
    const dx = b.x - a.x;
    const dy = b.y - a.y;
    const len2 = dx * dx + dy * dy;
    const t = len2 === 0 ? 0 : Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / len2));
    best = Math.min(best, Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy));
  }
  return best;
}

/**
 * The ring moved by `mm` to its left (inward for a counter-clockwise outline). Points that a bend would fold back to less than that
 * distance from the old ring are dropped, which leaves a clean line for the gentle shapes sewn here.
 */
export function shifted(ring: readonly Point[], mm: number): Point[] {
  const closed = stepped([...ring, ring[0]], 0.8);
  const out: Point[] = [];
  const count = closed.length - 1;
  for (let i = 0; i < count; i++) {
    const a = closed[(i + count - 1) % count];
    const b = closed[(i + 1) % count];
    const d = distance(a, b);
    if (d === 0) continue;
    const p = { x: closed[i].x - ((b.y - a.y) / d) * mm, y: closed[i].y + ((b.x - a.x) / d) * mm };
    if (distanceToRing(p, ring) >= Math.abs(mm) * 0.97) out.push(p);
  }
  return out;
}

/** The ring moved `mm` towards its own inside (negative: outwards), whichever way it turns. */
export const inward = (ring: readonly Point[], mm: number): Point[] =>
  shifted(ring, signedArea(ring) >= 0 ? mm : -mm);

/** The area drawn in by `mm` on every side. */
export const drawnIn = (area: Area, mm: number): Area => ({
  outline: inward(area.outline, mm),
  holes: area.holes.map((hole) => inward(hole, -mm)),
});
