/** Top stitching: the patches of a thread put together to columns and filled areas. */

import { type Bounds, emptyBounds, growBounds } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import { columnFrame } from '../geometry/column-frame.js';
import { patternOf } from './fields.js';
import type { Pattern } from './objects.js';
import type { Patch } from './patches.js';
import { ColumnRegion, FillRegion, type Region } from './region.js';
import { continueRows } from './row-ends.js';
import { goOnToTip } from './tips.js';

/** Greatest angle between the rows of two sections of one fill, cosines: 6°, and 14° where rows are short. */
const SAME_ROWS_COS = Math.cos((6 * Math.PI) / 180);
const SHORT_ROWS_COS = Math.cos((14 * Math.PI) / 180);

/** Rows that a section may lack at its ends when it is held against its neighbour. */
const ROWS_LOST = 7;
/** Most legs of a stray patch between two sections of a fill, and its greatest angle to their rows (20°, cosine). */
const FEW_ROWS = 8;
const STRAY_COS = Math.cos((20 * Math.PI) / 180);

/** Most stitches of stray rows or travel, and their way as a share of the shortest outline. */
const MOST_STRAY = 60;
const STRAY_WAY = 0.85;

/** A stretch of thread that lies under a top. */
export interface UnderPart {
  readonly first: number;
  readonly last: number;
  /** Set where the part is a patch of rows or swings; null for running stitches. */
  readonly patch: Patch | null;
  /** Lies under other tops as well. */
  readonly shared: boolean;
}

/** One piece of top stitching (or an open patch that may yet prove to be underlay). */
export class Top {
  first: number;
  last: number;
  /** Stitch ranges of underlay patches and runs found to lie under it. */
  readonly under: UnderPart[] = [];
  /** Passes over the same column that were sewn before this one. */
  readonly earlier: Patch[] = [];
  /** How often the column is sewn over, and how many times as dense all passes are as the last alone. */
  passes = 1;
  timesDense = 1;
  /** Open rows in two directions. */
  crossed = false;
  /** Caps at its ends: see the finder for foam. */
  capped = 0;
  private shape: Region | null = null;
  private box: Bounds | null = null;

  constructor(
    private readonly stitches: Stitches,
    readonly kind: 'satin' | 'fill',
    readonly patches: Patch[],
    readonly thread: number,
    /** Pattern of an area that has no rows. */
    private readonly told: Pattern | null = null,
  ) {
    this.first = patches[0].from[0];
    const end = patches[patches.length - 1];
    this.last = end.to[end.to.length - 1];
  }

  /** Leaves its last leg to nothing, or to the next top where that begins with it: a needle point belongs to one top. */
  dropLastLeg(): void {
    const end = this.patches[this.patches.length - 1];
    const legs = end.from.length - 1;
    this.patches[this.patches.length - 1] = {
      ...end,
      from: end.from.subarray(0, legs),
      to: end.to.subarray(0, legs),
    };
    this.last = end.to[legs - 1];
  }

  get from(): Int32Array {
    return join(this.patches.map((p) => p.from));
  }

  get to(): Int32Array {
    return join(this.patches.map((p) => p.to));
  }

  get pitchMm(): number {
    return this.patches.reduce((a, p) => (p.from.length > a.from.length ? p : a)).pitchMm;
  }

  /** How an area is sewn; null for a column. */
  get pattern(): Pattern | null {
    if (this.kind !== 'fill') return null;
    if (this.crossed) return 'loose';
    return this.told ?? patternOf(this.stitches, this.from, this.to, this.pitchMm);
  }

  get legMm(): number {
    return this.patches.reduce((a, p) => (p.from.length > a.from.length ? p : a)).legMm;
  }

  /** Takes a column sewn just before as passes over this one. */
  takePassesOf(before: Top): void {
    this.earlier.push(...before.earlier, ...before.patches);
    this.passes += before.passes;
    this.timesDense += (before.timesDense * this.pitchMm) / before.pitchMm;
    this.first = before.first;
  }

  /** Takes an open area sewn just before as the other direction of this net. */
  takeOtherWay(before: Top): void {
    this.earlier.push(...before.earlier, ...before.patches);
    this.first = before.first;
    this.crossed = true;
    this.shape = null;
    this.box = null;
  }

  /** Takes a piece of the same zigzag that is sewn right after it. */
  takePiece(after: Top): void {
    this.patches.push(...after.patches);
    this.last = after.last;
    this.shape = null;
    this.box = null;
  }

  get split(): boolean {
    return this.kind === 'satin' && this.patches.some((p) => p.split);
  }

  /**
   * Takes in the short rows at both ends of a fill.
   *
   * @param before, after stitch indexes that belong to something else
   */
  takeRowEnds(before: number, after: number): void {
    if (this.kind !== 'fill' || this.told !== null) return;
    const head = this.patches[0];
    const tail = this.patches[this.patches.length - 1];
    const row = (p: Patch, i: number) => [p.from[i], p.to[i]] as const;
    const n = tail.from.length;
    this.last = continueRows(
      this.stitches,
      { inner: row(tail, n - 2), outer: row(tail, n - 1) },
      this.pitchMm,
      this.last,
      after - 1,
    );
    this.first = continueRows(
      this.stitches,
      { inner: row(head, 1), outer: row(head, 0) },
      this.pitchMm,
      this.first,
      before + 1,
    );
  }

  /**
   * Takes in the swings at the pointed ends of a column.
   *
   * @param before, after stitch indexes that belong to something else
   */
  takeTips(before: number, after: number): void {
    if (this.kind !== 'satin' || this.split) return;
    const head = this.patches[0];
    const start = goOnToTip(this.stitches, head.from, head.to, -1, before + 1).reverse();
    if (start.length > 0) {
      this.patches[0] = {
        ...head,
        from: Int32Array.from([...start, ...head.from]),
        to: Int32Array.from([...start.slice(1), head.from[0], ...head.to]),
      };
      this.first = start[0];
    }
    const tail = this.patches[this.patches.length - 1];
    const end = goOnToTip(this.stitches, tail.from, tail.to, 1, after - 1);
    if (end.length > 0) {
      this.patches[this.patches.length - 1] = {
        ...tail,
        from: Int32Array.from([...tail.from, tail.to[tail.to.length - 1], ...end.slice(0, -1)]),
        to: Int32Array.from([...tail.to, ...end]),
      };
      this.last = end[end.length - 1];
    }
  }

  /**
   * Takes in what is left of the thread at an end of a fill, if that is a last row or two, or travel over what is
   * sewn: it lies on the area, and is too short to be a run round it.
   *
   * @param other stitch index at the other end of what is left
   */
  takeStrayRows(other: number): void {
    const after = other > this.last;
    const count = after ? other - this.last : this.first - other;
    if (this.kind !== 'fill' || count < 2 || count > MOST_STRAY || !(this.region instanceof FillRegion))
      return;
    const { x, y } = this.stitches;
    const [a, b] = after ? [this.last, other] : [other, this.first];
    let way = 0;
    for (let i = a; i < b; i++) {
      way += distance(x[i], y[i], x[i + 1], y[i + 1]);
      if (!this.region.isNear(x[i], y[i]) || !this.region.isNear(x[i + 1], y[i + 1])) return;
    }
    // of all shapes of an area the circle has the shortest outline
    if (way > STRAY_WAY * 2 * Math.sqrt(Math.PI * this.region.areaMm2)) return;
    if (after) this.last = other;
    else this.first = other;
  }

  /** The box around its legs. */
  get bounds(): Bounds {
    if (this.box === null) {
      this.box = emptyBounds();
      const { x, y } = this.stitches;
      for (const { from, to } of this.patches) {
        for (let k = 0; k < from.length; k++) {
          growBounds(this.box, x[from[k]], y[from[k]]);
          growBounds(this.box, x[to[k]], y[to[k]]);
        }
      }
    }
    return this.box;
  }

  /** The goods it covers; worked out when first asked for. */
  get region(): Region {
    if (this.shape === null) {
      const { x, y } = this.stitches;
      this.shape =
        this.kind === 'satin'
          ? new ColumnRegion(columnFrame(x, y, this.from, this.to))
          : new FillRegion(
              x,
              y,
              join([...this.earlier.map((p) => p.from), this.from]),
              join([...this.earlier.map((p) => p.to), this.to]),
              this.pitchMm,
            );
    }
    return this.shape;
  }
}

function join(parts: readonly Int32Array[]): Int32Array {
  if (parts.length === 1) return parts[0];
  const out = new Int32Array(parts.reduce((n, p) => n + p.length, 0));
  let at = 0;
  for (const p of parts) {
    out.set(p, at);
    at += p.length;
  }
  return out;
}

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
  let size = 1;
  for (let k = i + 1; k < patches.length; k++) {
    const last = family[size - 1];
    const next = patches[k];
    const ratio = next.pitchMm / last.pitchMm;
    const axis = axisOf(stitches, next);
    const filled = family.some((p) => p.kind === 'rows');
    if (filled || (next.kind === 'rows' && sameRows(lead, axis, ratio))) {
      const same = sameRows(lead, axis, ratio);
      // travel beside a row can pass for a few rows of another pitch: it is passed over if the fill goes on
      if (!same && !(next.from.length <= FEW_ROWS && cosBetween(lead, axis) > STRAY_COS)) break;
      family.push(next);
      if (same) size = family.length;
      // the longest rows give the direction best
      if (same && axis.weight > lead.weight) lead = axis;
    } else if (continuesColumn(stitches, last, next, ratio)) {
      family.push(next);
      size = family.length;
    } else {
      break;
    }
  }
  return family.slice(0, size);
}

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
  return pitchRatio >= 0.72 && pitchRatio <= 1.4 && parallel(a, b);
}

/** Short rows show their direction less exactly. */
function parallel(a: Axis, b: Axis): boolean {
  if (Math.min(a.concentration, b.concentration) < 0.9) return false;
  const short = Math.min(a.legMm, b.legMm);
  return cosBetween(a, b) > (short < 4 ? SHORT_ROWS_COS : SAME_ROWS_COS);
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
  const near = Math.max(1.5, ROWS_LOST * Math.max(a.pitchMm, b.pitchMm));
  const rowsA = rowsOf(a);
  const rowsB = rowsOf(b);
  let j = 0;
  for (const row of rowsA) {
    while (j < rowsB.length && rowsB[j].v < row.v - near) j++;
    for (let k = j; k < rowsB.length && rowsB[k].v <= row.v + near; k++) {
      if (rowsB[k].low <= row.high + near && rowsB[k].high >= row.low - near) return true;
    }
  }
  return false;
}

/** Whether a column that broke off (a stray stitch between) goes on in the next patch. */
function continuesColumn(stitches: Stitches, a: Patch, b: Patch, ratio: number): boolean {
  const { x, y } = stitches;
  if (ratio < 0.45 || ratio > 2.2) return false;
  const na = a.from.length;
  const gap = b.from[0] - a.to[na - 1];
  if (gap > 3) return false;
  const mid = (p: Patch, i: number) => ({
    x: (x[p.from[i]] + x[p.to[i]]) / 2,
    y: (y[p.from[i]] + y[p.to[i]]) / 2,
  });
  const endA = mid(a, na - 1);
  const startB = mid(b, 0);
  if (Math.hypot(startB.x - endA.x, startB.y - endA.y) > 1.2) return false;
  const lead = (p: Patch, i: number, j: number) => {
    const m = mid(p, i);
    const n = mid(p, j);
    const l = Math.hypot(n.x - m.x, n.y - m.y) || 1;
    return { x: (n.x - m.x) / l, y: (n.y - m.y) / l };
  };
  const before = lead(a, Math.max(0, na - 7), na - 1);
  const after = lead(b, 0, Math.min(b.from.length - 1, 6));
  return before.x * after.x + before.y * after.y > 0.8;
}
