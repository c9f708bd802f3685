/**
 * Sections of one filled area that are sewn on threads of their own, as round a hole: their rows lie side by side on one raster. Areas
 * that only lie beside each other have rasters of their own.
 */
import { grownBy, overlap } from '../core/bounds.js';
import { isPause, type Stitches } from '../format/stitches.js';
import { sharedRows, touchingRows } from './assemble-tops.js';
import { FINDER } from './parameters.js';
import type { Top } from './tops.js';

const INNER_POINTS = FINDER.rasterPoints.value;

interface UnitVector {
  readonly x: number;
  readonly y: number;
}

/**
 * Puts sections together that follow each other, whatever is sewn between them; each area keeps the thread of its last one. What lies on
 * both sides of a hole touches only by way of a later section: that takes all of them.
 */
export function joinSections(stitches: Stitches, tops: readonly Top[]): Top[] {
  const joined: Top[] = [];
  for (const top of tops) {
    for (const before of joined.splice(firstOf(stitches, joined, top)).reverse()) top.takeSections(before);
    joined.push(top);
  }
  return joined;
}

/** Index of the first of the last tops that another is one area with; their count where there is none. */
function firstOf(stitches: Stitches, before: readonly Top[], top: Top): number {
  let first = before.length;
  const least = Math.max(0, first - FINDER.sectionsBack.value);
  for (let k = first - 1; k >= least && mayGoOn(stitches, before[k], top); k--) {
    const goesOn = touchesIn(stitches, before[k], top) && haveOneRaster(stitches, before[k], top);
    const between = before.slice(k + 1, first);
    if (goesOn && between.every((b) => touchesIn(stitches, b, top) || touchesIn(stitches, before[k], b)))
      first = k;
  }
  return first;
}

/** Whether two tops are dense rows on threads of their own, without a stop between. */
function mayGoOn({ breakBefore }: Stitches, a: Top, b: Top): boolean {
  if (a.kind !== 'fill' || b.kind !== 'fill' || a.thread === b.thread) return false;
  if (Math.max(a.pitchMm, b.pitchMm) >= FINDER.netPitch.value || a.hasNoRows || b.hasNoRows) return false;
  for (let i = a.last + 1; i <= b.first; i++) if (isPause(breakBefore[i])) return false;
  return true;
}

/** Whether two areas touch, with rows of one direction and one distance. */
function touchesIn(stitches: Stitches, a: Top, b: Top): boolean {
  const reach = FINDER.rowsLost.value * Math.max(a.pitchMm, b.pitchMm);
  if (!overlap(grownBy(a.bounds, Math.max(reach, FINDER.sectionsNear.value)), b.bounds)) return false;
  const axis = sharedRows(stitches, a.patches, b.patches);
  return axis !== null && touchingRows(stitches, a.patches, b.patches, axis);
}

function haveOneRaster(stitches: Stitches, a: Top, b: Top): boolean {
  const along = directionOf(stitches, a, b);
  return isOneRaster(lateral(stitches, a, along), lateral(stitches, b, along), a.pitchMm);
}

/** Direction of all rows, without their outermost needle points: over a whole area a fraction of a degree is a row. */
function directionOf({ x, y }: Stitches, ...tops: readonly Top[]): UnitVector {
  let [c, s] = [0, 0];
  for (const { from, to } of tops)
    for (let k = 0; k < from.length; k++) {
      const inner = to[k] - from[k] >= INNER_POINTS ? 1 : 0;
      const dx = x[to[k] - inner] - x[from[k] + inner];
      const dy = y[to[k] - inner] - y[from[k] + inner];
      c += dx * dx - dy * dy;
      s += 2 * dx * dy;
    }
  const angle = Math.atan2(s, c) / 2;
  return { x: Math.cos(angle), y: Math.sin(angle) };
}

/** Where the rows lie at right angles to them, mm, ascending: by their needle points without the outermost, as one at an end may be a step over to the next row. */
function lateral({ x, y }: Stitches, { from, to }: Top, axis: UnitVector): Float64Array {
  return Float64Array.from(from, (f, k) => {
    const points = Float64Array.from(
      { length: to[k] - f + 1 },
      (_, i) => y[f + i] * axis.x - x[f + i] * axis.y,
    );
    const inner = points.length > INNER_POINTS ? points.sort().subarray(1, -1) : points;
    return inner.reduce((sum, v) => sum + v, 0) / inner.length;
  }).sort();
}

/** Whether the rows of two sections that lie nearest to each other are whole row distances apart. */
function isOneRaster(a: Float64Array, b: Float64Array, pitchMm: number): boolean {
  const rows = FINDER.rasterRows.value;
  const middle = (Math.max(a[0], b[0]) + Math.min(a[a.length - 1], b[b.length - 1])) / 2;
  const [p, q] = [nearest(a, middle, rows), nearest(b, middle, rows)];
  const pitch = (evenPitch(p, pitchMm) + evenPitch(q, pitchMm)) / 2;
  const [s, t] = [phase(p, pitch), phase(q, pitch)];
  if (!(pitch > 0) || Math.min(s.clear, t.clear) < FINDER.rasterClear.value) return false;
  const off = Math.abs(s.at - t.at);
  return Math.min(off, 1 - off) <= FINDER.rasterOff.value;
}

/** The so many values nearest to a place, of ascending ones. */
function nearest(values: Float64Array, place: number, count: number): Float64Array {
  let first = 0;
  while (first + count < values.length && place - values[first] > values[first + count] - place) first++;
  return values.subarray(first, Math.min(values.length, first + count));
}

/** The distance from row to row over all of them; most lie next to each other, or go on from each other beyond a hole. */
function evenPitch(rows: Float64Array, pitchMm: number): number {
  const gaps = rows.subarray(1).map((v, k) => v - rows[k]);
  const between = gaps.filter((gap) => gap > pitchMm / 2).sort();
  const usual = between[between.length >> 1] ?? 0;
  const steps = gaps.reduce((sum, gap) => sum + Math.round(gap / usual), 0);
  return usual > 0 && steps > 0 ? (rows[rows.length - 1] - rows[0]) / steps : 0;
}

/** Where rows lie on a raster, as a share of the way round, and how clearly: 1 where all lie at one place of it. */
function phase(rows: Float64Array, pitch: number): { at: number; clear: number } {
  let [c, s] = [0, 0];
  for (const v of rows) {
    const angle = (2 * Math.PI * v) / pitch;
    c += Math.cos(angle);
    s += Math.sin(angle);
  }
  return { at: Math.atan2(s, c) / (2 * Math.PI), clear: Math.hypot(c, s) / rows.length };
}
