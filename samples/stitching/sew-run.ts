import type { Point } from './plane.js';
import { type RunPasses, run } from './run.js';
import type { Sewing } from './sewing.js';
import { Part } from './truth.js';

/** Sews a running stitch along a path from where the needle is. */
export function sewRun(
  sewing: Sewing,
  label: string,
  path: readonly Point[],
  stitchMm: number,
  passes: RunPasses,
): void {
  const piece = sewing.open({
    label,
    kind: 'run',
    underlay: [],
    underlaySpacingMm: null,
    widthMm: null,
    spacingMm: null,
    angleDeg: null,
    split: false,
    passes,
  });
  sewing.sew(run(path, stitchMm, passes), Part.top, piece);
}

/** Starts a thread, sews the run and locks, both locks on the line itself. */
export function sewLoneRun(
  sewing: Sewing,
  label: string,
  path: readonly Point[],
  stitchMm: number,
  passes: RunPasses,
): void {
  sewing.begin(path[0], path[Math.min(path.length - 1, 4)]);
  sewRun(sewing, label, path, stitchMm, passes);
  const back = passes === 'double' ? path[Math.min(path.length - 1, 4)] : path[Math.max(0, path.length - 5)];
  sewing.lock(back);
}
