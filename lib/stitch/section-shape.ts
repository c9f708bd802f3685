/** What a section looks like as found: its two edges, the short swings that stop before them, the needle points inside its rows. */
import { distance } from '../core/distance.js';
import { spreadInPlace } from '../core/stats.js';
import type { Stitches } from '../format/stitches.js';
import { type Edge, type EdgePoint, edgeAt } from './edge.js';
import type { Section } from './find-sections.js';

/** How far a swing stops before the edge to be a short one, mm, and as a share of the way along the edge to one that does not. */
const SHORT_MM = 0.35;
const SHORT_SHARE = 0.8;
/** How many swings on the same edge are asked to each side: as many as usual patterns leave out between two full ones. */
const SHORT_REACH = 3;
/**
 * Every other row end along a stretch of an edge lies farther inside the line between its neighbours than this, mm, in the middle of so many to each side, where
 * those are drawn in; each of them by more than the second.
 */
const DRAWN_IN_MM = 0.16;
const DRAWN_IN_REACH = 3;
const DRAWN_IN_EACH_MM = 0.08;
/** Stitches under this break thread (common practice, no source), mm; share of the steps over of a section that tells how short they may be. */
export const LEAST_STITCH_MM = 0.5;
const USUAL_STEPS_SHARE = 0.8;
/** Rounding to the step of a file makes a stitch shorter by about so much, mm. */
export const ROUNDING_MM = 0.05;
/** Needle points of a step that lie no farther from where they would divide it evenly do so, mm. */
const UNEVEN_MM = 0.2;
/** Share of rows with needle points inside from which a longer row may get more of them. */
const BROKEN_SHARE = 0.2;

/** One edge of a section. A is the edge on which the section begins, B the other. */
export interface SectionEdge {
  /** Where the rows end, those left out that stop short or are drawn in. */
  readonly line: Edge;
  /** Count of every row end on this edge, ascending. */
  readonly ends: readonly number[];
  /** How far a row end lies off the line, by its number in `ends`; none for most. */
  readonly off: ReadonlyMap<number, EdgePoint>;
}

export interface SectionShape {
  readonly a: SectionEdge;
  readonly b: SectionEdge;
  /**
   * Rows lie at counts 0 to `span`: joined, the needle point between two rows has a whole count and the row lies between two; else
   * every row has a whole count.
   */
  readonly span: number;
  readonly rows: readonly RowInside[];
  readonly swings: boolean;
  /** No step over from row to row is to be made shorter, mm: nearly all as found are longer, or long enough for any stitch. */
  readonly leastStepMm: number;
  /** Longest stitch of all rows, mm; infinite where swings are not broken. */
  readonly longestMm: number;
  /** As few stitches as are no longer than this, mm, make most of the steps over from row to row. */
  readonly stepMm: number;
}

/** A row as found, from edge A to edge B. */
export interface RowInside {
  readonly ax: number;
  readonly ay: number;
  readonly bx: number;
  readonly by: number;
  /** Needle points inside, mm from A along the row, ascending. */
  readonly inside: readonly number[];
  /** How far each of them lies off the row, to the left as seen from A, mm. */
  readonly aside: readonly number[];
  /** Stitches of the step over from the row before. */
  readonly steps: number;
  /** Its needle points, where they do not divide it evenly: at what share of it each lies, and how far to the left of it, mm. */
  readonly bent: readonly EdgePoint[];
}

export function shapeOf({ x, y }: Pick<Stitches, 'x' | 'y'>, section: Section): SectionShape {
  const { from, to, joined, swings } = section;
  const n = from.length;
  const rows: RowInside[] = [];
  const ends: [number[], number[]] = [[], []];
  const at: [number[], number[]] = [[], []];
  const others: [number[], number[]] = [[], []];
  const put = (side: 0 | 1, t: number, i: number, other: number) => {
    ends[side].push(i);
    at[side].push(t);
    others[side].push(other);
  };
  for (let k = 0; k < n; k++) {
    const side = k % 2 === 0 ? 0 : 1;
    if (!joined || k === 0) put(side, k, from[k], to[k]);
    put(side === 0 ? 1 : 0, joined ? k + 1 : k, to[k], from[k]);
    const steps = joined || k === 0 ? 0 : Math.max(0, from[k] - to[k - 1]);
    const bent = steps > 1 ? bentStep(x, y, to[k - 1], from[k]) : [];
    rows.push({ ...rowInside(x, y, from[k], to[k], side === 1), steps, bent });
  }
  const edge = (side: 0 | 1): SectionEdge => {
    const px = ends[side].map((i) => x[i]);
    const py = ends[side].map((i) => y[i]);
    const ix = others[side].map((i) => x[i]);
    const iy = others[side].map((i) => y[i]);
    return swings && joined
      ? edgeOfSwings(at[side], px, py, ix, iy)
      : edgeOfRows(at[side], px, py, ix, iy, joined);
  };
  return shapeFrom(rows, joined, swings, { a: edge(0), b: edge(1) });
}

/** What follows from rows between two edges. */
export function shapeFrom(
  rows: readonly RowInside[],
  joined: boolean,
  swings: boolean,
  { a, b }: Pick<SectionShape, 'a' | 'b'>,
): SectionShape {
  const n = rows.length;
  const steps = stepsOver(rows)
    .filter((mm) => mm > 0)
    .sort((p, q) => p - q);
  const few = steps[Math.floor((1 - USUAL_STEPS_SHARE) * steps.length)] ?? 0;
  const broken = rows.filter(({ inside }) => inside.length > 0).length;
  const lengths = Float64Array.from(rows.flatMap(stitchesOf));
  const spread = spreadInPlace(lengths)!;
  const longestMm = !swings || broken >= BROKEN_SHARE * n ? spread.max : Number.POSITIVE_INFINITY;
  return {
    a,
    b,
    span: joined ? n : n - 1,
    rows,
    swings,
    leastStepMm: Math.min(LEAST_STITCH_MM, few - ROUNDING_MM),
    longestMm,
    stepMm: usualStep(rows) ?? longestMm,
  };
}

/** The needle points of a step over, where they do not divide it evenly. */
function bentStep(x: Float64Array, y: Float64Array, from: number, to: number): EdgePoint[] {
  const [vx, vy] = [x[to] - x[from], y[to] - y[from]];
  const square = vx * vx + vy * vy || 1;
  const points: EdgePoint[] = [];
  let off = 0;
  for (let i = from + 1; i < to; i++) {
    const [px, py] = [x[i] - x[from], y[i] - y[from]];
    const [along, aside] = [(px * vx + py * vy) / square, (vx * py - vy * px) / Math.sqrt(square)];
    points.push([along, aside]);
    off = Math.max(off, Math.hypot((along - (i - from) / (to - from)) * Math.sqrt(square), aside));
  }
  return off > UNEVEN_MM ? points : [];
}

/** How long the steps over are to each row but the first, mm: a row goes from A to B, the next one back. */
export const stepsOver = (rows: readonly Pick<RowInside, 'ax' | 'ay' | 'bx' | 'by'>[]): number[] =>
  rows
    .slice(1)
    .map(({ ax, ay, bx, by }, k) =>
      k % 2 === 0 ? distance(rows[k].bx, rows[k].by, bx, by) : distance(rows[k].ax, rows[k].ay, ax, ay),
    );

/** As few stitches as are no longer than that. */
export const stitchesOver = (mm: number, longestMm: number): number =>
  Math.max(1, Math.ceil(mm / longestMm - 1e-6));

/** The length of stitch that explains the most steps over, mm; null where each is one stitch, or none. */
export function usualStep(rows: readonly RowInside[]): number | null {
  const steps = stepsOver(rows).map((mm, k) => ({ mm, stitches: rows[k + 1].steps }));
  if (steps.every(({ stitches }) => stitches <= 1)) return null;
  const explained = (longest: number) =>
    steps.filter(({ mm, stitches }) => stitches === 0 || stitchesOver(mm, longest) === stitches).length;
  const lengths = steps.filter(({ stitches }) => stitches > 0).map(({ mm, stitches }) => mm / stitches);
  let best = 0;
  let most = -1;
  for (const mm of [...new Set(lengths)]) {
    const longest = mm + ROUNDING_MM;
    const count = explained(longest);
    if (count > most || (count === most && longest > best)) [best, most] = [longest, count];
  }
  return best;
}

function rowInside(
  x: Float64Array,
  y: Float64Array,
  from: number,
  to: number,
  back: boolean,
): Omit<RowInside, 'steps' | 'bent'> {
  const [a, b] = back ? [to, from] : [from, to];
  const length = distance(x[a], y[a], x[b], y[b]) || 1;
  const points: EdgePoint[] = [];
  for (let i = from + 1; i < to; i++) {
    const [vx, vy] = [x[i] - x[a], y[i] - y[a]];
    const along = (vx * (x[b] - x[a]) + vy * (y[b] - y[a])) / length;
    const aside = (vy * (x[b] - x[a]) - vx * (y[b] - y[a])) / length;
    if (along > 0 && along < length) points.push([along, aside]);
  }
  points.sort(([p], [q]) => p - q);
  const inside = points.map(([along]) => along);
  return {
    ax: x[a],
    ay: y[a],
    bx: x[b],
    by: y[b],
    inside,
    aside: points.map(([, aside]) => aside),
  };
}

function stitchesOf({ ax, ay, bx, by, inside }: RowInside): number[] {
  const stops = [0, ...inside, distance(ax, ay, bx, by)];
  return stops.slice(1).map((c, i) => c - stops[i]);
}

/**
 * An edge of a column, the ends of short swings told apart: those that lie well inside the line between longer ones to both sides.
 *
 * @param px, py the row ends on the edge, mm; `ix`, `iy` where the row goes to from there
 */
function edgeOfSwings(
  t: readonly number[],
  px: readonly number[],
  py: readonly number[],
  ix: readonly number[],
  iy: readonly number[],
): SectionEdge {
  const isShort = (j: number): boolean => {
    const inward = distance(px[j], py[j], ix[j], iy[j]) || 1;
    for (let l = Math.max(0, j - SHORT_REACH); l < j; l++) {
      for (let r = Math.min(t.length - 1, j + SHORT_REACH); r > j; r--) {
        const f = (t[j] - t[l]) / (t[r] - t[l]);
        const cx = px[l] + (px[r] - px[l]) * f;
        const cy = py[l] + (py[r] - py[l]) * f;
        const depth = ((px[j] - cx) * (ix[j] - px[j]) + (py[j] - cy) * (iy[j] - py[j])) / inward;
        const way = distance(px[l], py[l], px[r], py[r]) * Math.min(f, 1 - f);
        if (depth > SHORT_MM && depth > SHORT_SHARE * way) return true;
      }
    }
    return false;
  };
  const short = t.map((_, j) => isShort(j));
  const full = <T>(list: readonly T[]): T[] => list.filter((_, j) => !short[j]);
  const line = { t: full(t), x: full(px), y: full(py) };
  const off = new Map<number, EdgePoint>();
  t.forEach((at, j) => {
    if (!short[j]) return;
    const [x, y] = edgeAt(line, at);
    off.set(j, [px[j] - x, py[j] - y]);
  });
  return { line, ends: t, off };
}

/**
 * An edge of rows. Where the step over to the next row would get too short, rows end on the edge and begin a little inside it, or the other
 * way round: there the edge goes along those ends that lie farther out, and the others are told from it.
 *
 * @param px, py the row ends on the edge, mm; `ix`, `iy` where the row goes to from there
 */
function edgeOfRows(
  t: readonly number[],
  px: readonly number[],
  py: readonly number[],
  ix: readonly number[],
  iy: readonly number[],
  joined: boolean,
): SectionEdge {
  const last = t.length - 1;
  const line = { t, x: px, y: py };
  const off = new Map<number, EdgePoint>();
  if (joined || last < 2) return { line, ends: t, off };
  /** How far inside the line between its neighbours each row ends. */
  const depth = t.map((_, k) => {
    if (k === 0 || k === last) return 0;
    const dx = (px[k - 1] + px[k + 1]) / 2 - px[k];
    const dy = (py[k - 1] + py[k + 1]) / 2 - py[k];
    const [vx, vy] = [px[k] - ix[k], py[k] - iy[k]];
    return (dx * vx + dy * vy) / (Math.hypot(vx, vy) || 1);
  });
  const isDrawnIn = (k: number): boolean => {
    if (depth[k] < DRAWN_IN_EACH_MM) return false;
    const first = Math.max(1, k - DRAWN_IN_REACH);
    const end = Math.min(last, k + DRAWN_IN_REACH + 1);
    const near = Float64Array.from(depth.slice(first, end), (mm, j) =>
      (first + j - k) % 2 === 0 ? mm : -mm,
    );
    return spreadInPlace(near)!.median > DRAWN_IN_MM;
  };
  const drawnIn = t.map((_, k) => isDrawnIn(k));
  const full = <T>(list: readonly T[]): T[] => list.filter((_, k) => !drawnIn[k]);
  const outline = { t: full(t), x: full(px), y: full(py) };
  t.forEach((at, k) => {
    if (!drawnIn[k]) return;
    const [x, y] = edgeAt(outline, at);
    off.set(k, [px[k] - x, py[k] - y]);
  });
  return { line: outline, ends: t, off };
}
