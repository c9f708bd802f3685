/** Puts the patches of one thread together: what broke off goes on, and sections with the same rows are one area. */
import type { Stitches } from '../format/stitches.js';
import { cosineOf, FINDER } from './parameters.js';
import type { Patch } from './patches.js';
import { Top } from './tops.js';

const SAME_ROWS_COS = cosineOf(FINDER.sameRows);
const SHORT_ROWS_COS = cosineOf(FINDER.sameShortRows);
const END_TO_END_MM = FINDER.sectionsNear.value;

/** Puts the patches of one thread together: broken columns and the sections of a fill become one piece each. */
export function assembleTops(stitches: Stitches, patches: readonly Patch[], thread: number): Top[] {
  const tops: Top[] = [];
  for (let i = 0; i < patches.length; ) {
    const family = familyFrom(stitches, patches, i);
    if (family.some((p) => p.kind === 'rows')) {
      for (const area of areasOf(stitches, family)) tops.push(new Top(stitches, 'fill', area, thread));
    } else {
      tops.push(new Top(stitches, 'satin', family, thread));
    }
    i += family.length;
  }
  return tops;
}

/** The patch `i` and those right after it that may be more of the same: rows alike, or a column going on. */
function familyFrom(stitches: Stitches, patches: readonly Patch[], i: number): Patch[] {
  const family = [patches[i]];
  let lead = axisOf(stitches, patches[i]);
  for (let k = i + 1; k < patches.length; k++) {
    const [last, next] = [patches[k - 1], patches[k]];
    const axis = axisOf(stitches, next);
    const filled = next.kind === 'rows' || family.some((p) => p.kind === 'rows');
    const goesOn = filled
      ? sameRows(lead, axis, next.pitchMm / last.pitchMm)
      : continuesColumn(stitches, last, next);
    if (!goesOn) break;
    family.push(next);
    // the longest rows give the direction best
    if (axis.weight > lead.weight) lead = axis;
  }
  return family;
}

/** The direction of two sets of rows that can be sections of one fill; null where they cannot. */
export function sharedRows(stitches: Stitches, a: readonly Patch[], b: readonly Patch[]): Axis | null {
  const longest = (patches: readonly Patch[]) =>
    patches.reduce((p, q) => (q.from.length > p.from.length ? q : p));
  const [p, q] = [longest(a), longest(b)];
  const [one, other] = [axisOf(stitches, p), axisOf(stitches, q)];
  if (!sameRows(one, other, q.pitchMm / p.pitchMm)) return null;
  return one.weight >= other.weight ? one : other;
}

/** Whether rows of the one set lie beside rows of the other or end to end with them. */
export const touchingRows = (
  stitches: Stitches,
  a: readonly Patch[],
  b: readonly Patch[],
  axis: Axis,
): boolean => a.some((p) => b.some((q) => touches(stitches, p, q, axis)));

interface Axis {
  x: number;
  y: number;
  /** Sum of leg lengths that share the direction, mm. */
  weight: number;
  /** 1 where all legs are parallel, 0 where they point everywhere. */
  concentration: number;
  legMm: number;
}

/** Mean direction of the legs of a patch, as an axis. */
function axisOf(stitches: Stitches, patch: Patch): Axis {
  const { x, y } = stitches;
  let c = 0;
  let s = 0;
  let sum = 0;
  for (let i = 0; i < patch.from.length; i++) {
    const dx = x[patch.to[i]] - x[patch.from[i]];
    const dy = y[patch.to[i]] - y[patch.from[i]];
    const l = Math.sqrt(dx * dx + dy * dy) || 1;
    c += (dx * dx - dy * dy) / l;
    s += (2 * dx * dy) / l;
    sum += l;
  }
  const angle = Math.atan2(s, c) / 2;
  const weight = Math.hypot(c, s);
  return { x: Math.cos(angle), y: Math.sin(angle), weight, concentration: weight / sum, legMm: patch.legMm };
}

/** Whether two patches can be sections of one fill. */
function sameRows(a: Axis, b: Axis, pitchRatio: number): boolean {
  return pitchRatio >= FINDER.sectionsLess.value && pitchRatio <= FINDER.sectionsMore.value && parallel(a, b);
}

/** Short rows show their direction less exactly. */
function parallel(a: Axis, b: Axis): boolean {
  if (Math.min(a.concentration, b.concentration) < FINDER.rowsAgree.value) return false;
  const short = Math.min(a.legMm, b.legMm);
  return cosBetween(a, b) > (short < FINDER.shortRows.value ? SHORT_ROWS_COS : SAME_ROWS_COS);
}

function cosBetween(a: Axis, b: Axis): number {
  return Math.abs(a.x * b.x + a.y * b.y);
}

/** Splits sections with the same rows into areas of sections that touch, each in sewing order. */
function areasOf(stitches: Stitches, family: readonly Patch[]): Patch[][] {
  const lead = family.map((p) => axisOf(stitches, p)).reduce((a, b) => (b.weight > a.weight ? b : a));
  const area = family.map((_, i) => i);
  for (let i = 0; i < family.length; i++) {
    for (let j = i + 1; j < family.length; j++) {
      if (area[i] === area[j] || !touches(stitches, family[i], family[j], lead)) continue;
      const [keep, drop] = [Math.min(area[i], area[j]), Math.max(area[i], area[j])];
      for (let k = 0; k < area.length; k++) {
        // whatever is sewn between two sections of an area belongs to it
        if (area[k] === drop || (k > Math.min(keep, i) && k < j)) area[k] = keep;
      }
    }
  }
  const areas = new Map<number, Patch[]>();
  family.forEach((p, i) => {
    const list = areas.get(area[i]);
    if (list === undefined) areas.set(area[i], [p]);
    else list.push(p);
  });
  return [...areas.values()];
}

/** Whether rows of two patches with the same direction lie beside each other or end to end. */
function touches(stitches: Stitches, a: Patch, b: Patch, axis: Axis): boolean {
  const rowsOf = (patch: Patch) => {
    const { x, y } = stitches;
    return Array.from(patch.from, (f, i) => {
      const t = patch.to[i];
      const u0 = x[f] * axis.x + y[f] * axis.y;
      const u1 = x[t] * axis.x + y[t] * axis.y;
      const v = ((y[f] + y[t]) * axis.x - (x[f] + x[t]) * axis.y) / 2;
      return { v, low: Math.min(u0, u1), high: Math.max(u0, u1) };
    }).sort((p, q) => p.v - q.v);
  };
  // the first rows of a section are often lost to the travel that leads there
  const near = Math.max(END_TO_END_MM, FINDER.rowsLost.value * Math.max(a.pitchMm, b.pitchMm));
  const rowsA = rowsOf(a);
  const rowsB = rowsOf(b);
  let j = 0;
  for (const row of rowsA) {
    while (j < rowsB.length && rowsB[j].v < row.v - near) j++;
    for (let k = j; k < rowsB.length && rowsB[k].v <= row.v + near; k++) {
      if (rowsB[k].low <= row.high + END_TO_END_MM && rowsB[k].high >= row.low - END_TO_END_MM) return true;
    }
  }
  return false;
}

/** Whether a column that broke off (a stray stitch between) goes on in the next patch. */
function continuesColumn(stitches: Stitches, a: Patch, b: Patch): boolean {
  const { x, y } = stitches;
  const ratio = b.pitchMm / a.pitchMm;
  if (ratio < FINDER.columnLess.value || ratio > FINDER.columnMore.value) return false;
  const na = a.from.length;
  const gap = b.from[0] - a.to[na - 1];
  if (gap > FINDER.columnGap.value) return false;
  const mid = (p: Patch, i: number) => ({
    x: (x[p.from[i]] + x[p.to[i]]) / 2,
    y: (y[p.from[i]] + y[p.to[i]]) / 2,
  });
  const endA = mid(a, na - 1);
  const startB = mid(b, 0);
  if (Math.hypot(startB.x - endA.x, startB.y - endA.y) > FINDER.columnApart.value) return false;
  const lead = (p: Patch, i: number, j: number) => {
    const m = mid(p, i);
    const n = mid(p, j);
    const l = Math.hypot(n.x - m.x, n.y - m.y) || 1;
    return { x: (n.x - m.x) / l, y: (n.y - m.y) / l };
  };
  const before = lead(a, Math.max(0, na - FINDER.columnSwings.value), na - 1);
  const after = lead(b, 0, Math.min(b.from.length, FINDER.columnSwings.value) - 1);
  return before.x * after.x + before.y * after.y > FINDER.columnAhead.value;
}
