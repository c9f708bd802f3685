/** The rows of a path that is sewn in none that are straight: to and fro, or ring by ring. */
import { distance } from '../core/distance.js';
import type { EdgePoint } from './edge.js';

/** First and last needle point of a row, and the corners between them. */
export interface BlendRow {
  readonly from: number;
  readonly to: number;
  readonly corners: readonly number[];
}

/** Two stitches go against one another where the cosine between them is less. */
const AGAINST = -0.6;
/** A step over to the next row is no longer than this, mm. */
const STEP_MM = 2;
/** A ring is closed where it comes back to within this of where it began, mm, after this many needle points at least. */
const CLOSED_MM = 0.3;
const RING_POINTS = 3;
/** Fewer needle points after the last row are none. */
const FEWEST_IN_LAST = 2;
/** The needle turns by more than this at a corner, degrees. */
const CORNER_COS = Math.cos((35 * Math.PI) / 180);

/** Cosine between the stitches from `a` to `b` and from `c` to `d`. */
function cosine(points: readonly EdgePoint[], a: number, b: number, c: number, d: number): number {
  const [px, py] = [points[b][0] - points[a][0], points[b][1] - points[a][1]];
  const [qx, qy] = [points[d][0] - points[c][0], points[d][1] - points[c][1]];
  return (px * qx + py * qy) / (Math.hypot(px, py) * Math.hypot(qx, qy) || 1);
}

/** Rows, and what is sewn beyond the last of them: `points` up to `end` are in rows, and of the last row so many needle points are `missing`. */
export interface PathRows {
  readonly points: readonly EdgePoint[];
  readonly rows: readonly BlendRow[];
  readonly end: number;
  readonly missing: number;
}

/** Rows that go one against the other, a short stitch between each two. */
export function rowsToAndFro(points: readonly EdgePoint[]): PathRows {
  const rows: BlendRow[] = [];
  let from = 0;
  for (let i = 1; i + 2 < points.length; i++) {
    if (i === from || distance(...points[i], ...points[i + 1]) > STEP_MM) continue;
    if (cosine(points, i - 1, i, i + 1, i + 2) > AGAINST) continue;
    rows.push({ from, to: i, corners: [] });
    from = i + 1;
  }
  const last = points.length - 1;
  if (last - from >= FEWEST_IN_LAST) rows.push({ from, to: last, corners: [] });
  return { points, rows, end: rows.length === 0 ? 0 : rows[rows.length - 1].to + 1, missing: 0 };
}

/** Closed rings one after another, all of as many corners; the last may lack the needle point that closes it. */
export function ringsIn(points: readonly EdgePoint[]): PathRows {
  const rings: { from: number; to: number }[] = [];
  let from = 0;
  let all = points;
  const back = (i: number) => distance(...points[i], ...points[from]);
  // a narrow ring comes near to where it began before it is there
  const isClosed = (i: number) =>
    i - from >= RING_POINTS && back(i) <= CLOSED_MM && !(i + 1 < points.length && back(i + 1) < back(i));
  for (let i = RING_POINTS; i < points.length; i++) {
    if (!isClosed(i)) continue;
    rings.push({ from, to: i });
    from = i + 1;
  }
  if (points.length - from >= RING_POINTS) {
    all = [...points, points[from]];
    rings.push({ from, to: points.length });
  }
  const missing = all.length - points.length;
  const end = rings.length === 0 ? 0 : Math.min(points.length, rings[rings.length - 1].to + 1);
  return { points: all, rows: withCorners(all, rings), end, missing };
}

function withCorners(points: readonly EdgePoint[], rings: readonly Omit<BlendRow, 'corners'>[]): BlendRow[] {
  if (rings.length === 0) return [];
  const turn = (i: number) => cosine(points, i - 1, i, i, i + 1);
  const inner = ({ from, to }: Omit<BlendRow, 'corners'>) =>
    Array.from({ length: to - from - 1 }, (_, n) => from + 1 + n);
  const longest = rings.reduce((p, q) => (q.to - q.from > p.to - p.from ? q : p));
  const corners = inner(longest).filter((i) => turn(i) < CORNER_COS).length;
  const rows = rings.map((ring): BlendRow => {
    const sharpest = inner(ring)
      .sort((p, q) => turn(p) - turn(q))
      .slice(0, corners);
    return { ...ring, corners: sharpest.sort((p, q) => p - q) };
  });
  return rows.every((row) => row.corners.length === corners) ? rows : [];
}
