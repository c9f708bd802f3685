/**
 * The geometry of a filled area, from the two ends of each of its rows.
 *
 * File points lie on a 0.1 mm grid, about a quarter of the usual row distance, so no figure is taken from a
 * single pair of rows: a row lies at the mean of all its needle points, the direction is the mean over all
 * rows, and the spacing is the slope of a straight line fitted through neighbouring rows of one section.
 */

import { axisDifferenceDeg, foldDeg180 } from '../core/axis.js';
import { distance } from '../core/distance.js';
import { area, contains, type Point, type Ring } from '../core/polygon.js';
import { degToRad, radToDeg } from '../core/units.js';

/** Rows on either side of a row that its spacing is fitted through. */
const FIT_REACH = 4;
/** Rows that point further than this from the rest do not count in the direction (a turn at a sharp tip). */
const STRAY_DEG = 20;
/** Sections further apart than this many row distances are not neighbours. */
const BRIDGE_REACH = 1.6;

export interface RowGeometry {
  /** Number of rows; all arrays have one entry a row. */
  readonly count: number;
  /** Row direction in [0, 180), or null where no row has a length. */
  readonly angleDeg: number | null;
  /** Unit vector along the rows. */
  readonly ux: number;
  readonly uy: number;
  /** Where the row lies at right angles to the rows, mm: along (−uy, ux). */
  readonly lateral: Float64Array;
  /** Where the row starts and ends along the rows, mm: along (ux, uy), start before end. */
  readonly start: Float64Array;
  readonly end: Float64Array;
  /** Distance to the neighbouring rows of the same section, mm. Zero where no section has two rows. */
  readonly spacingMm: Float64Array;
  /** One outline a section, then one for each strip between two sections that follow each other. */
  readonly outlines: readonly Ring[];
  readonly areaMm2: number;
  /** Length of all rows together, mm. */
  readonly lengthMm: number;
  /** Whether the point lies in the filled area: in an outline or on its edge. */
  contains(x: number, y: number): boolean;
}

/**
 * Measures the rows of a filled area.
 *
 * @param x, y stitch positions, mm
 * @param from, to stitch indexes of the two ends of each row in sewing order; the short step over to the next row may
 *   be part of a row, and is left out of every figure
 * @param sections index of the first row of each section, ascending from 0; empty is one section
 */
export function measureRows(
  x: Float64Array,
  y: Float64Array,
  from: Int32Array,
  to: Int32Array,
  sections: Int32Array,
): RowGeometry {
  const n = from.length;
  const ends = trimmedEnds(x, y, from, to, unit(direction(x, y, from, to, null)));
  const angleDeg = direction(x, y, ends.from, ends.to, direction(x, y, ends.from, ends.to, null));
  const [ux, uy] = unit(angleDeg);
  const lateral = new Float64Array(n);
  const start = new Float64Array(n);
  const end = new Float64Array(n);
  let lengthMm = 0;
  for (let r = 0; r < n; r++) {
    const a = ends.from[r];
    const b = ends.to[r];
    let sum = 0;
    for (let i = a; i <= b; i++) sum += y[i] * ux - x[i] * uy;
    lateral[r] = sum / (b - a + 1);
    const ta = x[a] * ux + y[a] * uy;
    const tb = x[b] * ux + y[b] * uy;
    start[r] = Math.min(ta, tb);
    end[r] = Math.max(ta, tb);
    lengthMm += distance(x[a], y[a], x[b], y[b]);
  }
  const firsts = sections.length > 0 ? sections : Int32Array.of(0);
  const bands: RowBand[] = [];
  for (let k = 0; k < firsts.length; k++) {
    const first = firsts[k];
    const last = (k + 1 < firsts.length ? firsts[k + 1] : n) - 1;
    if (last >= first) bands.push({ first, last, steady: isSteady(lateral, first, last) });
  }
  const spacingMm = spacings(lateral, bands);
  const frame = { ux, uy, lateral, start, end };
  const rings = bands.map((band) => outline(x, y, ends, band, frame));
  const bridges = bridge(bands, frame, spacingMm);
  const outlines = [...rings, ...bridges];
  return {
    count: n,
    angleDeg,
    ux,
    uy,
    lateral,
    start,
    end,
    spacingMm,
    outlines,
    areaMm2: outlines.reduce((sum, ring) => sum + area(ring), 0),
    lengthMm,
    contains(px, py) {
      const v = py * ux - px * uy;
      const t = px * ux + py * uy;
      for (let k = 0; k < bands.length; k++) {
        if (bands[k].steady ? inBand(bands[k], frame, t, v) : contains(rings[k], px, py)) return true;
      }
      return bridges.some((ring) => contains(ring, px, py));
    },
  };
}

/** One section: its rows, and whether each lies beyond the one before, so that a row can be looked up. */
interface RowBand {
  first: number;
  last: number;
  steady: boolean;
}

interface Frame {
  ux: number;
  uy: number;
  lateral: Float64Array;
  start: Float64Array;
  end: Float64Array;
}

interface SectionEnds {
  from: Int32Array;
  to: Int32Array;
}

/**
 * Mean direction of the rows on the doubled angle, longer rows counting more, in [0, 180) or null. Rows that stray
 * from `axis`, where one is given, are left out.
 */
function direction(
  x: Float64Array,
  y: Float64Array,
  from: Int32Array,
  to: Int32Array,
  axis: number | null,
): number | null {
  let c2 = 0;
  let s2 = 0;
  for (let r = 0; r < from.length; r++) {
    const vx = x[to[r]] - x[from[r]];
    const vy = y[to[r]] - y[from[r]];
    if (axis !== null && axisDifferenceDeg(radToDeg(Math.atan2(vy, vx)), axis) > STRAY_DEG) continue;
    c2 += vx * vx - vy * vy;
    s2 += 2 * vx * vy;
  }
  return c2 === 0 && s2 === 0 ? axis : foldDeg180(radToDeg(Math.atan2(s2, c2)) / 2);
}

function unit(angleDeg: number | null): [number, number] {
  const rad = degToRad(angleDeg ?? 0);
  return [Math.cos(rad), Math.sin(rad)];
}

/** The ends of the rows without the stitches at them that go across the rows rather than along. */
function trimmedEnds(
  x: Float64Array,
  y: Float64Array,
  from: Int32Array,
  to: Int32Array,
  [ux, uy]: readonly [number, number],
): SectionEnds {
  const goesAcross = (i: number) => {
    const dx = x[i + 1] - x[i];
    const dy = y[i + 1] - y[i];
    return Math.abs(dy * ux - dx * uy) > Math.abs(dx * ux + dy * uy);
  };
  const ends = { from: Int32Array.from(from), to: Int32Array.from(to) };
  for (let r = 0; r < from.length; r++) {
    let a = from[r];
    let b = to[r];
    while (b - a > 1 && goesAcross(b - 1)) b--;
    while (b - a > 1 && goesAcross(a)) a++;
    ends.from[r] = a;
    ends.to[r] = b;
  }
  return ends;
}

function isSteady(lateral: Float64Array, first: number, last: number): boolean {
  const way = Math.sign(lateral[last] - lateral[first]);
  for (let r = first + 1; r <= last; r++) if (Math.sign(lateral[r] - lateral[r - 1]) !== way) return false;
  return true;
}

/** Row distance at each row: slope of the least-squares line through up to nine rows of its section. */
function spacings(lateral: Float64Array, bands: readonly RowBand[]): Float64Array {
  const out = new Float64Array(lateral.length);
  let sum = 0;
  let count = 0;
  for (const { first, last } of bands) {
    if (last === first) continue;
    for (let r = first; r <= last; r++) {
      const a = Math.max(first, Math.min(r - FIT_REACH, last - 2 * FIT_REACH));
      const b = Math.min(last, a + 2 * FIT_REACH);
      const mid = (a + b) / 2;
      let sxy = 0;
      let sxx = 0;
      for (let k = a; k <= b; k++) {
        sxy += (k - mid) * lateral[k];
        sxx += (k - mid) * (k - mid);
      }
      out[r] = Math.abs(sxy / sxx);
      sum += out[r];
      count++;
    }
  }
  // a section of a single row has no neighbour to be measured against: it is given the mean of the others
  const mean = count > 0 ? sum / count : 0;
  for (const { first, last } of bands) if (last === first) out[first] = mean;
  return out;
}

/** Outline of a section: its left ends row by row, then its right ends back. */
function outline(
  x: Float64Array,
  y: Float64Array,
  { from, to }: SectionEnds,
  { first, last }: RowBand,
  { ux, uy }: Frame,
): Ring {
  const left: Ring = [];
  const right: Ring = [];
  for (let r = first; r <= last; r++) {
    const a = from[r];
    const b = to[r];
    const forward = (x[b] - x[a]) * ux + (y[b] - y[a]) * uy >= 0;
    left.push(forward ? [x[a], y[a]] : [x[b], y[b]]);
    right.push(forward ? [x[b], y[b]] : [x[a], y[a]]);
  }
  return left.concat(right.reverse());
}

/** The strips, one row distance wide, where one section starts beyond the last row of another. */
function bridge(bands: readonly RowBand[], frame: Frame, spacingMm: Float64Array): Ring[] {
  if (bands.length < 2) return [];
  const { lateral, start, end, ux, uy } = frame;
  const tops: number[] = [];
  const bottoms: number[] = [];
  for (const { first, last } of bands) {
    const rising = lateral[last] >= lateral[first];
    tops.push(rising ? last : first);
    bottoms.push(rising ? first : last);
  }
  const byLateral = (a: number, b: number) => lateral[a] - lateral[b];
  tops.sort(byLateral);
  bottoms.sort(byLateral);
  const at = (t: number, v: number): Point => [t * ux - v * uy, t * uy + v * ux];
  const strips: Ring[] = [];
  let k = 0;
  for (const top of tops) {
    while (k < bottoms.length && lateral[bottoms[k]] <= lateral[top]) k++;
    for (let m = k; m < bottoms.length; m++) {
      const bottom = bottoms[m];
      if (lateral[bottom] - lateral[top] > BRIDGE_REACH * Math.max(spacingMm[top], spacingMm[bottom])) break;
      const a = Math.max(start[top], start[bottom]);
      const b = Math.min(end[top], end[bottom]);
      if (b > a) {
        const low = lateral[top];
        const high = lateral[bottom];
        strips.push([at(a, low), at(b, low), at(b, high), at(a, high)]);
      }
    }
  }
  return strips;
}

/** Whether the place (`t` along the rows, `v` across them) lies between two rows of the section. */
function inBand({ first, last }: RowBand, { lateral, start, end }: Frame, t: number, v: number): boolean {
  const edge = 1e-9 * (1 + Math.abs(v) + Math.abs(t));
  const rising = lateral[last] >= lateral[first];
  const low = rising ? lateral[first] : lateral[last];
  const high = rising ? lateral[last] : lateral[first];
  if (v < low - edge || v > high + edge) return false;
  // the last row, in the order of sewing, that does not lie beyond the place
  let a = first;
  let b = last;
  while (b - a > 1) {
    const mid = (a + b) >> 1;
    if (rising ? lateral[mid] <= v : lateral[mid] >= v) a = mid;
    else b = mid;
  }
  const span = lateral[b] - lateral[a];
  const f = span !== 0 ? Math.max(0, Math.min(1, (v - lateral[a]) / span)) : 0;
  const left = start[a] + f * (start[b] - start[a]);
  const right = end[a] + f * (end[b] - end[a]);
  return t >= left - edge && t <= right + edge;
}
