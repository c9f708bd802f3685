import { type Point, stepped } from './plane.js';

/** How often a run is sewn along its line: once, there and back, or forward–back–forward stitch by stitch. */
export type RunPasses = 'single' | 'double' | 'triple';

/** Needle points of a running stitch along a path, its start included. */
export function run(path: readonly Point[], stitchMm: number, passes: RunPasses = 'single'): Point[] {
  const points = stepped(path, stitchMm);
  if (passes === 'single') return points;
  if (passes === 'double') return [...points, ...points.slice(0, -1).reverse()];
  const out = [points[0]];
  for (let i = 1; i < points.length; i++) out.push(points[i], points[i - 1], points[i]);
  return out;
}
