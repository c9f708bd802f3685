/** Points and polygons of the plane; mm, Y up. Written for the generators alone, so that they share no code with what they judge. */

export interface Vec {
  x: number;
  y: number;
}

export interface Region {
  outer: Vec[];
  holes: Vec[][];
}

export const vec = (x: number, y: number): Vec => ({ x, y });
export const between = (a: Vec, b: Vec, t: number): Vec => vec(a.x + (b.x - a.x) * t, a.y + (b.y - a.y) * t);
export const distance = (a: Vec, b: Vec): number => Math.hypot(a.x - b.x, a.y - b.y);
export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

export function turned(p: Vec, angle: number): Vec {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  return vec(p.x * c - p.y * s, p.x * s + p.y * c);
}

export function signedArea(ring: readonly Vec[]): number {
  let sum = 0;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++)
    sum += ring[j].x * ring[i].y - ring[i].x * ring[j].y;
  return sum / 2;
}

export function insideRing(p: Vec, ring: readonly Vec[]): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const a = ring[i];
    const b = ring[j];
    if (a.y > p.y !== b.y > p.y && p.x < ((b.x - a.x) * (p.y - a.y)) / (b.y - a.y) + a.x) inside = !inside;
  }
  return inside;
}

export const insideRegion = (p: Vec, region: Region): boolean =>
  insideRing(p, region.outer) && !region.holes.some((hole) => insideRing(p, hole));

/** The ring moved to the left of its own direction by `d` with mitred corners. */
export function ringOffset(ring: readonly Vec[], d: number): Vec[] {
  const n = ring.length;
  return ring.map((p, i) => {
    const a = ring[(i + n - 1) % n];
    const b = ring[(i + 1) % n];
    const l1 = distance(a, p);
    const l2 = distance(p, b);
    const n1 = vec(-(p.y - a.y) / l1, (p.x - a.x) / l1);
    const n2 = vec(-(b.y - p.y) / l2, (b.x - p.x) / l2);
    const k = d / Math.max(0.2, 1 + n1.x * n2.x + n1.y * n2.y);
    return vec(p.x + (n1.x + n2.x) * k, p.y + (n1.y + n2.y) * k);
  });
}

/** The ring moved into the region (inward for an outline, away from the hole for a hole) by `d`. */
export function inset(ring: readonly Vec[], d: number, hole = false): Vec[] {
  const ccw = signedArea(ring) > 0;
  return ringOffset(ring, ccw !== hole ? d : -d);
}

/** Penetrations along a line of points, at most `step` apart; corners kept, each leg in equal stitches. */
export function stitchAlong(points: readonly Vec[], step: number): Vec[] {
  const out: Vec[] = [points[0]];
  for (let i = 1; i < points.length; i++) {
    const n = Math.max(1, Math.ceil(distance(points[i - 1], points[i]) / step - 1e-6));
    for (let k = 1; k <= n; k++) out.push(between(points[i - 1], points[i], k / n));
  }
  return out;
}

/** Penetrations along a smooth line given by many points: even stitches by arc length, but every turn above 35° kept. */
export function stitchCurve(points: readonly Vec[], step: number): Vec[] {
  const corners = [0];
  for (let i = 1; i < points.length - 1; i++) {
    const a = Math.atan2(points[i].y - points[i - 1].y, points[i].x - points[i - 1].x);
    const b = Math.atan2(points[i + 1].y - points[i].y, points[i + 1].x - points[i].x);
    if (Math.abs(Math.atan2(Math.sin(b - a), Math.cos(b - a))) > radians(35)) corners.push(i);
  }
  corners.push(points.length - 1);
  const out: Vec[] = [points[0]];
  for (let c = 1; c < corners.length; c++) {
    const leg = points.slice(corners[c - 1], corners[c] + 1);
    const at = [0];
    for (let i = 1; i < leg.length; i++) at.push(at[i - 1] + distance(leg[i - 1], leg[i]));
    const total = at[at.length - 1];
    const n = Math.max(1, Math.round(total / step));
    let j = 1;
    for (let k = 1; k <= n; k++) {
      const s = (total * k) / n;
      while (j < at.length - 1 && at[j] < s) j++;
      out.push(between(leg[j - 1], leg[j], (s - at[j - 1]) / Math.max(1e-9, at[j] - at[j - 1])));
    }
  }
  return out;
}

export function median(values: readonly number[]): number {
  const v = [...values].sort((a, b) => a - b);
  const m = v.length >> 1;
  return v.length % 2 ? v[m] : (v[m - 1] + v[m]) / 2;
}
