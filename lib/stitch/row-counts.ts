/** At which counts of a section as found its new rows lie: as many as keep their distance, in an area with an end on each corner of the edges. */
import { distanceToSegment } from '../core/distance.js';
import { type Edge, type EdgePoint, edgeAt, nearestCorner } from './edge.js';
import type { NewEdges } from './new-edges.js';
import type { SectionEdge, SectionShape } from './section-shape.js';

/** A corner of an edge may be missed by this, mm, before the end of a row is put on it; the ends beside it may gape and crowd by these shares, and follow by this one. */
const MISS_MM = 0.06;
const GAPE = 0.25;
const CROWD = 0.5;
const UNEVEN = 0.075;
/** A row end this near to a corner, in counts, is on it. */
const ON_CORNER = 0.02;
/** The section ends on the edge on which it ended, unless that would change the spacing by more, mm. */
const SPACING_MM = 0.025;

/** The rows of a section that is laid anew. */
export interface RowCounts {
  /** At which counts of the section as found they end on edge A and on edge B. */
  readonly ends: readonly [onA: readonly number[], onB: readonly number[]];
  /** Whether the section ends on the other edge than as found. */
  readonly crossed: boolean;
  /** How many rows there are for each of those that would keep the spacing. */
  readonly rate: number;
}

/** @param mayCross whether the section may end on the other edge */
export function countRows(
  shape: SectionShape,
  edges: NewEdges,
  joined: boolean,
  mayCross: boolean,
): RowCounts {
  const ways = new Ways(edges.grown, edges.before, edges.after);
  const { count, crossed } = countFor(ways.total, shape.span, edges.spacingMm, mayCross);
  const counts = Array.from({ length: count + 1 }, (_, row) => ways.countAt((ways.total * row) / count));
  return {
    // a swing put on a corner of its column would show in the spacing; the corner lies within half of that of one
    ends: shape.swings
      ? [counts, counts]
      : [endsOn(0, shape, edges, counts, joined), endsOn(1, shape, edges, counts, joined)],
    crossed,
    rate: count / ways.total,
  };
}

/** How many rows (or ways from row to row) there are in the length of so many: on the same edge at the end, if the spacing bears it. */
function countFor(
  total: number,
  was: number,
  spacingMm: number,
  mayCross: boolean,
): { count: number; crossed: boolean } {
  const odd = was % 2;
  const same = Math.max(odd === 0 ? 2 : 1, 2 * Math.round((total - odd) / 2) + odd);
  const nearest = Math.max(1, Math.round(total));
  const off = Math.abs(total / same - 1) * spacingMm;
  if (nearest === same || !mayCross || off <= SPACING_MM) return { count: same, crossed: false };
  return { count: nearest, crossed: true };
}

/** The way along a section in rows of the new design, over the count of rows as found. */
class Ways {
  private readonly sum: Float64Array;
  readonly total: number;

  constructor(
    grown: Float64Array,
    private readonly before: number,
    after: number,
  ) {
    this.sum = new Float64Array(grown.length + 1);
    for (let k = 0; k < grown.length; k++) this.sum[k + 1] = this.sum[k] + grown[k];
    this.total = before + this.sum[grown.length] + after;
  }

  /** The way to a count. */
  to(t: number): number {
    const { sum } = this;
    const last = sum.length - 1;
    if (t <= 0) return this.before + t;
    if (t >= last) return this.before + sum[last] + (t - last);
    const k = Math.floor(t);
    return this.before + sum[k] + (sum[k + 1] - sum[k]) * (t - k);
  }

  /** The count at the end of a way. */
  countAt(way: number): number {
    const { sum } = this;
    const last = sum.length - 1;
    const along = way - this.before;
    if (along <= 0) return along;
    if (along >= sum[last]) return last + (along - sum[last]);
    let low = 0;
    let high = last;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (sum[middle] <= along) low = middle;
      else high = middle;
    }
    return low + (along - sum[low]) / (sum[high] - sum[low]);
  }
}

/** Corners of an edge that row ends at these counts leave too far outside or inside the line through them, the worst first. */
function cornersMissed(line: Edge, own: readonly number[]): number[] {
  const missed: { t: number; byMm: number }[] = [];
  let k = 0;
  for (let j = 1; j + 1 < line.t.length; j++) {
    const t = line.t[j];
    // an edge may have been drawn closer than the rows as found: only where those end it has a corner of its own
    if (!Number.isInteger(t)) continue;
    while (k + 2 < own.length && own[k + 1] <= t) k++;
    if (k + 1 >= own.length || own[k] >= t || own[k + 1] <= t) continue;
    const byMm = toSegment(line.x[j], line.y[j], edgeAt(line, own[k]), edgeAt(line, own[k + 1]));
    if (byMm > MISS_MM) missed.push({ t, byMm });
  }
  return missed.sort((p, q) => q.byMm - p.byMm).map(({ t }) => t);
}

/** Numbers of the rows, of those at these counts, whose ends lie on an edge. */
function endsOnEdge(shape: SectionShape, counts: readonly number[], side: 0 | 1, joined: boolean): number[] {
  const edge = side === 0 ? shape.a : shape.b;
  const rows: number[] = [];
  for (let row = joined ? side : 0; row < counts.length; row += joined ? 2 : 1) {
    if (joined || offAt(edge, counts[row], row, false) === undefined) rows.push(row);
  }
  return rows;
}

/** A row end that is put on a corner, by its number among those of its edge, and how far it is moved for it, in counts. */
interface Snap {
  readonly end: number;
  readonly by: number;
}

/**
 * The counts at which rows end on an edge. The first and the last of an area lie where those as found do. A corner that the rows leave too far off
 * gets the nearest row end, which goes there along the edge; its neighbours on that edge follow, less and less, so that rows fan out a
 * little instead of leaving a gap.
 */
function endsOn(
  side: 0 | 1,
  shape: SectionShape,
  { a, b }: NewEdges,
  counts: readonly number[],
  joined: boolean,
): number[] {
  const line = side === 0 ? a : b;
  const rows = counts.flatMap((_, row) => (joined && row % 2 !== side ? [] : [row]));
  const even = rows.map((row) => counts[row]);
  const onIt = new Set(endsOnEdge(shape, counts, side, joined));
  const mayLie = rows.map((row) => onIt.has(row));
  // edges that have been drawn anew begin and end alike; they have no first and last row of their own
  const asFound = joined && a.t[0] !== b.t[0];
  const last = even.length - 1;
  const own = asFound ? shifted(even, [], line.t[0] - even[0], line.t[line.t.length - 1] - even[last]) : even;
  let snapped = own;
  const snaps = snapsAlready(line, own, mayLie);
  for (const corner of cornersMissed(
    line,
    even.filter((_, k) => mayLie[k]),
  )) {
    const snap = snapTo(corner, own, mayLie, snaps);
    if (snap === null) continue;
    const tried = shifted(own, [...snaps, snap]);
    if (!isEven(own, tried)) continue;
    snaps.push(snap);
    snapped = tried;
  }
  const all = [...counts];
  rows.forEach((row, k) => {
    all[row] = snapped[k];
  });
  return all;
}

/** Row ends that lie on a corner as it is: they are not to be moved off it for the sake of another. */
function snapsAlready(line: Edge, own: readonly number[], mayLie: readonly boolean[]): Snap[] {
  const snaps: Snap[] = [];
  let k = 1;
  for (let j = 1; j + 1 < line.t.length; j++) {
    const t = line.t[j];
    while (k + 1 < own.length && own[k] < t - ON_CORNER) k++;
    if (k + 1 >= own.length || own[k] > t + ON_CORNER || !mayLie[k]) continue;
    const byMm = toSegment(line.x[j], line.y[j], edgeAt(line, line.t[j - 1]), edgeAt(line, line.t[j + 1]));
    if (byMm > MISS_MM) snaps.push({ end: k, by: t - own[k] });
  }
  return snaps;
}

/**
 * The row end nearest to a corner of those that lie on the edge, but for the first and the last; null where that is on another corner already, or they would
 * change places.
 */
function snapTo(
  t: number,
  own: readonly number[],
  mayLie: readonly boolean[],
  snaps: readonly Snap[],
): Snap | null {
  let end = -1;
  for (let k = 1; k + 1 < own.length; k++) {
    if (mayLie[k] && (end < 0 || Math.abs(own[k] - t) < Math.abs(own[end] - t))) end = k;
  }
  if (end < 0) return null;
  const clear = snaps.every(({ end: other, by }) => (end - other) * (t - own[other] - by) > 0);
  return clear ? { end, by: t - own[end] } : null;
}

/** Row ends moved onto corners, the first and the last so many counts, and those between them as far as the way there is shared out. */
function shifted(own: readonly number[], snaps: readonly Snap[], first = 0, final = 0): number[] {
  const last = own.length - 1;
  if (last === 0) return [...own];
  const usual = (own[last] - own[0]) / last;
  const set = [{ end: 0, by: first }, ...[...snaps].sort((p, q) => p.end - q.end), { end: last, by: final }];
  const reach = ({ by }: Snap) => Math.max(1, Math.ceil(Math.abs(by) / (usual * UNEVEN)));
  const nodes = set.flatMap((snap, k): Snap[] => {
    const next = set[k + 1];
    if (next === undefined) return [snap];
    const still = [snap.end + reach(snap), next.end - reach(next)];
    return still[0] <= still[1] ? [snap, ...still.map((end) => ({ end, by: 0 }))] : [snap];
  });
  let k = 0;
  return own.map((count, end) => {
    while (k + 2 < nodes.length && end > nodes[k + 1].end) k++;
    const [p, q] = [nodes[k], nodes[k + 1]];
    return count + (q.end > p.end ? p.by + ((q.by - p.by) * (end - p.end)) / (q.end - p.end) : q.by);
  });
}

/** Whether moved row ends neither gape nor crowd more than is borne. */
function isEven(own: readonly number[], moved: readonly number[]): boolean {
  return moved.every((count, k) => {
    if (k === 0) return true;
    const ratio = (count - moved[k - 1]) / Math.max(own[k] - own[k - 1], 1e-9);
    return own[k] === own[k - 1] || (ratio <= 1 + GAPE && ratio >= 1 - CROWD);
  });
}

/** How far off the edge the end of row `row` at count `t` lies, as found; undefined where it lies on the edge. */
export function offAt(
  { ends, off }: SectionEdge,
  t: number,
  row: number,
  joined: boolean,
): EdgePoint | undefined {
  if (off.size === 0) return undefined;
  if (joined) return off.get(nearestCorner({ t: ends, x: [], y: [] }, t));
  // rows that come to an edge end elsewhere than those that leave it begin: a row is held against those sewn the same way
  const side = row % 2;
  const most = ends.length - 1 - ((ends.length - 1 - side) % 2);
  return off.get(Math.max(side, Math.min(most, 2 * Math.round((t - side) / 2) + side)));
}

const toSegment = (px: number, py: number, a: EdgePoint, b: EdgePoint): number =>
  distanceToSegment(px, py, ...a, ...b);
