/** Areas that are not sewn in straight rows: the paths of their thread. All neighbouring strands lie `pitch` apart. */
import type { Curve } from '../curve.js';
import { between, distance, inset, signedArea, type Vec, vec } from '../plane.js';

/** Needle points along a path, `stitch` apart, but closer where it turns so that no chord leaves it by more than 0.05 mm. */
export function along(path: readonly Vec[], stitch: number, phase = 0): Vec[] {
  const out: Vec[] = [path[0]];
  let since = phase * stitch;
  let turn = 0;
  for (let i = 1; i < path.length; i++) {
    const step = distance(path[i - 1], path[i]);
    since += step;
    if (i + 1 < path.length) {
      const a = Math.atan2(path[i].y - path[i - 1].y, path[i].x - path[i - 1].x);
      const b = Math.atan2(path[i + 1].y - path[i].y, path[i + 1].x - path[i].x);
      turn += Math.abs(Math.atan2(Math.sin(b - a), Math.cos(b - a)));
    }
    // The rise of an arc over its chord is its length times its turn, by eight.
    const rise = (distance(out[out.length - 1], path[i]) * turn) / 8;
    if (since >= stitch || rise > 0.05 * Math.max(1, stitch / 2) || i === path.length - 1) {
      out.push(path[i]);
      since = 0;
      turn = 0;
    }
  }
  return out;
}

/** From the inner radius to the outer, `pitch` a turn, and a closing turn on the outer one. */
export function spiral(inner: number, outer: number, pitch: number): Vec[] {
  const out: Vec[] = [];
  const end = ((outer - inner) / pitch) * 2 * Math.PI;
  let a = 0;
  while (a < end) {
    const r = inner + (pitch * a) / (2 * Math.PI);
    out.push(vec(r * Math.cos(a), r * Math.sin(a)));
    a += 0.12 / Math.max(0.3, r);
  }
  return out;
}

/** Rings that follow an outline inward, or outward from the innermost, each stepping over to the next. */
export function rings(outline: readonly Vec[], pitch: number, depth: number, start: number): Vec[][] {
  const out: Vec[][] = [];
  let before = Infinity;
  for (let d = 0; d <= depth; d += pitch) {
    const ring = d === 0 ? [...outline] : inset(outline, d);
    // beyond the middle a ring turns inside out, or grows again
    const area = signedArea(ring) * Math.sign(signedArea(outline));
    if (!(area > 0 && area < before)) break;
    before = area;
    const k = ((start % ring.length) + ring.length) % ring.length;
    out.push([...ring.slice(k), ...ring.slice(0, k), ring[k]]);
  }
  return out;
}

/** Needle points of corners: every leg in stitches of even length, begun at a phase of its own so that points do not line up. */
export function cornered(line: readonly Vec[], stitch: number, phase: number): Vec[] {
  const out: Vec[] = [line[0]];
  for (let i = 1; i < line.length; i++) {
    const l = distance(line[i - 1], line[i]);
    for (let s = stitch * (0.4 + 0.6 * phase); s < l - 0.6; s += stitch)
      out.push(between(line[i - 1], line[i], s / l));
    out.push(line[i]);
  }
  return out;
}

/** Rows along a curve at even distances to both sides of it, there and back. */
export function alongCurve(
  curve: Curve,
  width: number,
  pitch: number,
  stitch: number,
  phase: (row: number) => number,
): Vec[] {
  const rows = Math.floor(width / pitch);
  const out: Vec[] = [];
  for (let k = 0; k <= rows; k++) {
    const v = -width / 2 + k * pitch;
    const line: Vec[] = [];
    for (let s = 0; s <= curve.length; s += 0.2) line.push(curve.beside(s, v));
    if (k % 2) line.reverse();
    out.push(...along(line, stitch, phase(k)));
  }
  return out;
}

/** Rows straight out from a middle, there and back; every second one shorter where they would crowd. */
export function spokes(inner: number, outer: number, count: number, stitch: number, short: number): Vec[] {
  const out: Vec[] = [];
  for (let k = 0; k < count; k++) {
    const a = (2 * Math.PI * k) / count;
    const from = k % 4 === 1 || k % 4 === 2 ? inner : inner + (outer - inner) * short;
    const ray = (r: number) => vec(r * Math.cos(a), r * Math.sin(a));
    const line = k % 2 ? [ray(outer), ray(from)] : [ray(from), ray(outer)];
    out.push(...cornered(line, stitch, (k * 0.37) % 1));
  }
  return out;
}
