/**
 * Tells what underlay the thread under a filled area is: a run that follows the edge all round, rows of a light
 * fill, a zigzag. Short ways along the edge, as between two rows, and travel to where the rows begin are none.
 */
import type { Stitches } from '../format/stitches.js';
import type { UnderlayReading } from './column-underlay.js';
import type { Legs } from './legs.js';
import type { UnderlayKind } from './objects.js';
import type { Patch } from './patches.js';
import type { FillRegion } from './region.js';

/** An edge run keeps within this distance of the edge, mm. */
const EDGE_REACH_MM = 1.9;
/** Share of the shortest outline that the area can have which an edge run must follow. */
const FOLLOWS = 0.7;
/** Its end lies this near to its beginning, mm. */
const CLOSES_MM = 4;
/** Legs shorter than this are steps, not rows, mm. */
const ROW_MM = 1.6;
/** Rows run within 9° of each other (cosine), and lie at least this far apart, mm. */
const PARALLEL_COS = Math.cos((9 * Math.PI) / 180);
const ROWS_APART_MM = 0.9;
/** Fewest rows, and the share of what is no edge run that they must make up. */
const FEWEST_ROWS = 3;
const ROWS_SHARE = 0.5;

export interface UnderPart {
  readonly first: number;
  readonly last: number;
  /** Set where the part is a patch of rows or swings; null for running stitches. */
  readonly patch: Patch | null;
}

/**
 * @param parts stitch ranges under the area, in sewing order
 * @param findLegs legs of a stitch range
 */
export function readFillUnderlay(
  stitches: Stitches,
  region: FillRegion,
  parts: readonly UnderPart[],
  findLegs: (first: number, last: number) => Legs,
): UnderlayReading {
  const kinds = new Set<UnderlayKind>();
  let spacingMm: number | null = null;
  // of all shapes of an area the circle has the shortest outline
  const shortest = 2 * Math.sqrt(Math.PI * region.areaMm2);
  for (const range of joined(parts)) {
    const loop = edgeLoop(stitches, region, range.first, range.last, FOLLOWS * shortest);
    if (loop !== null) kinds.add('edge-run');
    const rows = readRows(stitches, findLegs(range.first, range.last), loop);
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
function joined(parts: readonly UnderPart[]): { first: number; last: number }[] {
  const out: { first: number; last: number }[] = [];
  for (const { first, last } of parts) {
    const before = out[out.length - 1];
    if (before !== undefined && first <= before.last + 2) before.last = Math.max(before.last, last);
    else out.push({ first, last });
  }
  return out;
}

/**
 * The longest way that keeps near the edge, comes back to where it began and is at least `least` mm long. Travel
 * along a part of the edge does not come back. One point may stray.
 */
function edgeLoop(
  stitches: Stitches,
  region: FillRegion,
  first: number,
  last: number,
  least: number,
): { first: number; last: number } | null {
  const { x, y } = stitches;
  let best: { first: number; last: number } | null = null;
  let bestLength = 0;
  // way sewn from the start of the stretch near the edge to each of its points
  let way: number[] = [];
  let start = first;
  let strayed = 0;
  for (let i = first; i <= last; i++) {
    strayed = region.nearEdge(x[i], y[i], EDGE_REACH_MM) ? 0 : strayed + 1;
    if (strayed > 1 || (strayed === 1 && way.length === 0)) {
      way = [];
      start = i + 1;
      continue;
    }
    const before = way.length === 0 ? 0 : way[way.length - 1] + Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
    way.push(before);
    for (let k = 0; k < way.length && before - way[k] >= Math.max(least, bestLength); k++) {
      if (Math.hypot(x[i] - x[start + k], y[i] - y[start + k]) > CLOSES_MM) continue;
      best = { first: start + k, last: i };
      bestLength = before - way[k];
      break;
    }
  }
  return best;
}

/** Distance between the rows among the legs outside the edge run, mm, or null where there are no rows. */
function readRows(
  stitches: Stitches,
  legs: Legs,
  loop: { first: number; last: number } | null,
): number | null {
  const { x, y } = stitches;
  const candidates: { dx: number; dy: number; l: number; mx: number; my: number }[] = [];
  let total = 0;
  for (let i = 0; i < legs.count; i++) {
    const a = legs.from[i];
    const b = legs.to[i];
    if (loop !== null && a >= loop.first && b <= loop.last) continue;
    const dx = x[b] - x[a];
    const dy = y[b] - y[a];
    const l = Math.hypot(dx, dy);
    total += l;
    if (l < ROW_MM) continue;
    candidates.push({ dx: dx / l, dy: dy / l, l, mx: (x[a] + x[b]) / 2, my: (y[a] + y[b]) / 2 });
  }
  // the direction that most of the way is sewn in; the longest legs are asked
  const asked = [...candidates].sort((p, q) => q.l - p.l).slice(0, 12);
  let rows: typeof candidates = [];
  let most = 0;
  for (const lead of asked) {
    const same = candidates.filter((c) => Math.abs(c.dx * lead.dx + c.dy * lead.dy) > PARALLEL_COS);
    const sum = same.reduce((n, c) => n + c.l, 0);
    if (sum > most) {
      most = sum;
      rows = same;
    }
  }
  if (rows.length < FEWEST_ROWS || most < ROWS_SHARE * total) return null;
  const lead = rows.reduce((p, q) => (q.l > p.l ? q : p));
  const places = rows.map((r) => r.my * lead.dx - r.mx * lead.dy).sort((p, q) => p - q);
  const gaps = places.slice(1).flatMap((v, i) => (v - places[i] > ROWS_APART_MM ? [v - places[i]] : []));
  if (gaps.length < FEWEST_ROWS - 1) return null;
  return gaps.sort((p, q) => p - q)[gaps.length >> 1];
}
