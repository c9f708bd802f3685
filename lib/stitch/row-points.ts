/** Needle points inside a row that has got another length. Places are along the row, mm, on one scale for all rows of a section. */
export interface RowPattern {
  /** Needle points inside the row as found, ascending. */
  readonly inside: readonly number[];
  /** Usual stitch of the row, and the longest stitch of all rows, mm; infinite where swings are not to be broken. */
  readonly stitchMm: number;
  readonly longestMm: number;
  /** No stitch at the ends of the row is made shorter than this, mm. */
  readonly leastMm: number;
}

/**
 * The needle points inside a row from `start` to `end`: where they lay in the row that the pattern is of, so that the stagger from row to
 * row stays; more of them at the same distance where the row is longer, fewer where it is shorter.
 */
export function rowPoints(pattern: RowPattern, start: number, end: number): number[] {
  const { stitchMm, longestMm, leastMm } = pattern;
  const points = pattern.inside.filter((c) => c > start && c < end);
  if (points.length === 0) {
    const parts = Number.isFinite(longestMm) ? Math.ceil((end - start) / longestMm - 1e-6) : 1;
    for (let n = 1; n < parts; n++) points.push(start + ((end - start) * n) / parts);
    return points;
  }
  if (Number.isFinite(longestMm)) {
    extend(points, start, stitchMm, longestMm, leastMm);
    points.reverse();
    extend(points, end, stitchMm, longestMm, leastMm);
    points.reverse();
  }
  return clear(clear(points, start, end, pattern).reverse(), end, start, pattern).reverse();
}

/** Adds points before the first, towards `end`, until the last stitch is no longer than the longest. */
function extend(points: number[], end: number, stitchMm: number, longestMm: number, leastMm: number): void {
  const way = Math.sign(end - points[0]);
  while (Math.abs(end - points[0]) > longestMm + 1e-6) {
    const rest = Math.abs(end - points[0]) - stitchMm;
    if (rest < leastMm) {
      points.unshift((points[0] + end) / 2);
      return;
    }
    points.unshift(points[0] + way * stitchMm);
  }
}

/** Takes the first point away from `end` if it lies too near, or moves it on if the stitch would get too long without it. */
function clear(points: number[], end: number, other: number, { longestMm, leastMm }: RowPattern): number[] {
  if (points.length === 0 || Math.abs(points[0] - end) >= leastMm - 1e-9) return points;
  const next = points[1] ?? other;
  if (Math.abs(next - end) <= longestMm) return points.slice(1);
  return [(end + next) / 2, ...points.slice(1)];
}
