/**
 * Tells what underlay the thread under a filled area is: a run that follows the edge all round, rows of a light
 * fill, a zigzag. Short ways along the edge, as between two rows, and travel to where the rows begin are none.
 */
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import type { UnderlayReading } from './column-underlay.js';
import type { UnderlayKind } from './objects.js';
import { cosineOf, FINDER } from './parameters.js';
import type { Patch } from './patches.js';
import type { FillRegion } from './region.js';

const EDGE_REACH_MM = FINDER.edgeReach.value;
const FOLLOWS = FINDER.edgeFollows.value;
const MOST_LEAD_IN = FINDER.edgeLeadIn.value;
const HOLE_MM = FINDER.edgeHole.value;
const CLOSES_MM = FINDER.edgeCloses.value;
const ROW_MM = FINDER.underRow.value;
const BINS = FINDER.underBins.value;
const SPREAD = FINDER.underSpread.value;
const PARALLEL_COS = cosineOf(FINDER.underParallel);
const ROWS_APART_MM = FINDER.underRowsApart.value;
const FEWEST_ROWS = FINDER.underRowsFewest.value;
const ROWS_SHARE = FINDER.underRowsShare.value;
const CROSSED_SHARE = FINDER.underRowsCrossed.value;

export interface FillUnderPart {
  readonly first: number;
  readonly last: number;
  /** Set where the part is a patch of rows or swings; null for running stitches. */
  readonly patch: Patch | null;
}

/**
 * @param parts stitch ranges under the area, in sewing order
 */
export function readFillUnderlay(
  stitches: Stitches,
  region: FillRegion,
  parts: readonly FillUnderPart[],
): UnderlayReading {
  const kinds = new Set<UnderlayKind>();
  let spacingMm: number | null = null;
  // of all shapes of an area the circle has the shortest outline
  const shortest = 2 * Math.sqrt(Math.PI * region.areaMm2);
  for (const range of joined(parts)) {
    const loops = edgeLoops(stitches, region, range.first, range.last, FOLLOWS * shortest);
    if (loops.length > 0) kinds.add('edge-run');
    const rows = readRows(stitches, range.first, range.last, loops);
    if (rows !== null) {
      kinds.add('fill');
      spacingMm = rows;
    }
  }
  const zigzag = parts.find((p) => p.patch?.kind === 'swings' && !p.patch.split);
  if (zigzag?.patch && !kinds.has('fill')) {
    kinds.add('zigzag');
    spacingMm = 2 * zigzag.patch.pitchMm;
  }
  return { kinds: [...kinds], spacingMm };
}

/** Parts that follow each other stitch by stitch, as one range. */
function joined(parts: readonly FillUnderPart[]): { first: number; last: number }[] {
  const out: { first: number; last: number }[] = [];
  for (const { first, last } of parts) {
    const before = out[out.length - 1];
    if (before !== undefined && first <= before.last + 2) before.last = Math.max(before.last, last);
    else out.push({ first, last });
  }
  return out;
}

/** The way round the area, if it is at least `least` mm long, and the shorter ones round its holes. */
function edgeLoops(
  stitches: Stitches,
  region: FillRegion,
  first: number,
  last: number,
  least: number,
): { first: number; last: number }[] {
  const { x, y } = stitches;
  const near = new Uint8Array(last - first + 1);
  const way = new Float64Array(last - first + 1);
  for (let i = first; i <= last; i++) {
    near[i - first] = region.nearEdge(x[i], y[i], EDGE_REACH_MM) ? 1 : 0;
    if (i > first) way[i - first] = way[i - first - 1] + distance(x[i - 1], y[i - 1], x[i], y[i]);
  }
  const loops: { first: number; last: number }[] = [];
  const search = (a: number, b: number, atLeast: number) => {
    const loop = edgeLoop(stitches, first, near, way, a, b, atLeast);
    if (loop === null) return;
    loops.push(loop);
    const hole = Math.min(least, HOLE_MM);
    search(a, loop.first - 1, hole);
    search(loop.last + 1, b, hole);
  };
  search(first, last, least);
  return loops;
}

/**
 * The longest way from `first` to `last` that keeps near the edge, comes back to where it began and is at least
 * `least` mm long. Travel along a part of the edge does not come back. One point may stray.
 *
 * @param base stitch index of the first entry of `near` and `way`
 * @param near whether a stitch is near the edge
 * @param way length sewn up to a stitch, mm
 */
function edgeLoop(
  { x, y }: Stitches,
  base: number,
  near: Uint8Array,
  way: Float64Array,
  first: number,
  last: number,
  least: number,
): { first: number; last: number } | null {
  let best: { first: number; last: number } | null = null;
  let bestLength = least;
  let start = -1;
  let strayed = 0;
  for (let i = first; i <= last; i++) {
    strayed = near[i - base] === 1 ? 0 : strayed + 1;
    if (strayed > 1) start = -1;
    else if (start < 0 && strayed === 0) start = i;
    if (start < 0) continue;
    // a thread comes to where the way round begins along the edge, so that is not always the first point near it
    const latest = Math.min(start + MOST_LEAD_IN, i);
    for (let k = start; k < latest && way[i - base] - way[k - base] >= bestLength; k++) {
      if ((x[i] - x[k]) ** 2 + (y[i] - y[k]) ** 2 > CLOSES_MM ** 2) continue;
      best = { first: k, last: i };
      bestLength = way[i - base] - way[k - base];
      break;
    }
  }
  return best;
}

/** Distance between the rows outside the edge run, mm, or null where there are no rows. */
function readRows(
  { x, y }: Stitches,
  first: number,
  last: number,
  loops: readonly { first: number; last: number }[],
): number | null {
  const outside = (i: number) => {
    for (let k = 0; k < loops.length; k++) if (i >= loops[k].first && i < loops[k].last) return false;
    return true;
  };
  const bins = new Float64Array(BINS);
  /** Of the stitches in each bin: twice their angles, weighted by their length. */
  const [cosines, sines] = [new Float64Array(BINS), new Float64Array(BINS)];
  let total = 0;
  for (let i = first; i < last; i++) {
    const l = distance(x[i], y[i], x[i + 1], y[i + 1]);
    if (!outside(i) || l < ROW_MM / 2) continue;
    const angle = Math.atan2(y[i + 1] - y[i], x[i + 1] - x[i]);
    const bin = Math.floor((((angle / Math.PI) % 1) + 1) * BINS) % BINS;
    total += l;
    bins[bin] += l;
    cosines[bin] += l * Math.cos(2 * angle);
    sines[bin] += l * Math.sin(2 * angle);
  }
  const around = (k: number, of = bins) => {
    let sum = 0;
    for (let d = -SPREAD; d <= SPREAD; d++) sum += of[(k + d + BINS) % BINS];
    return sum;
  };
  let best = 0;
  for (let k = 1; k < BINS; k++) if (around(k) > around(best)) best = k;
  // a light fill may be sewn twice, the second time across the first
  const across = (best + BINS / 2) % BINS;
  if (around(best) < ROWS_SHARE * total && around(best) + around(across) < CROSSED_SHARE * total) return null;

  // the direction is that of the rows themselves: which of the bins around them is the fullest may hang on what little else there is
  const axis = Math.atan2(around(best, sines), around(best, cosines)) / 2;
  const [ux, uy] = [Math.cos(axis), Math.sin(axis)];
  const places: number[] = [];
  let start = -1;
  const isParallel = (i: number) =>
    Math.abs((x[i + 1] - x[i]) * ux + (y[i + 1] - y[i]) * uy) >
    PARALLEL_COS * distance(x[i], y[i], x[i + 1], y[i + 1]);
  for (let i = first; i <= last; i++) {
    const parallel = i < last && outside(i) && isParallel(i);
    if (parallel && start < 0) start = i;
    if (parallel || start < 0) continue;
    // a row ends where the thread turns off, and where it turns back beside itself
    if (distance(x[i], y[i], x[start], y[start]) >= ROW_MM) {
      places.push(((y[i] + y[start]) * ux - (x[i] + x[start]) * uy) / 2);
    }
    start = -1;
  }
  if (places.length < FEWEST_ROWS) return null;
  // numbers in an array of their own are sorted without a call for each two
  const sorted = Float64Array.from(places).sort();
  const gaps = new Float64Array(sorted.length - 1);
  let wide = 0;
  for (let k = 1; k < sorted.length; k++) {
    const gap = sorted[k] - sorted[k - 1];
    if (gap > ROWS_APART_MM) gaps[wide++] = gap;
  }
  return wide < FEWEST_ROWS - 1 ? null : gaps.subarray(0, wide).sort()[wide >> 1];
}
