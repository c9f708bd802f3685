/** Top stitching: the patches of a thread put together to columns and filled areas. */

import { type Bounds, emptyBounds, growBounds } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import { columnFrame } from '../geometry/column-frame.js';
import { patternOf } from './fields.js';
import type { Pattern } from './objects.js';
import { FINDER } from './parameters.js';
import type { Patch } from './patches.js';
import { ColumnRegion, FillRegion, type Region } from './region.js';
import { continueRows } from './row-ends.js';
import { goOnSwinging, goOnToTip } from './tips.js';

const MOST_STRAY = FINDER.strayStitches.value;
const STRAY_WAY = FINDER.strayWay.value;

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

  /** How many swings or rows it has. */
  get ends(): number {
    return this.patches.reduce((n, { from }) => n + from.length, 0);
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

  /** Takes sections of this area that are sewn before it. */
  takeSections(before: Top): void {
    this.patches.unshift(...before.patches);
    this.first = before.first;
    this.shape = null;
    this.box = null;
  }

  /** Whether it is an area without rows. */
  get hasNoRows(): boolean {
    return this.told !== null;
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
   * Takes in the swings at the ends of a column that were lost, and those of its pointed ends.
   *
   * @param before, after stitch indexes that belong to something else
   */
  takeTips(before: number, after: number): void {
    if (this.kind !== 'satin' || this.split) return;
    for (const end of [-1, 1] as const) {
      const limit = end < 0 ? before + 1 : after - 1;
      const whole = this.outermost(end);
      this.goOn(end, goOnSwinging(this.stitches, whole.from, whole.to, end, limit, this.pitchMm));
      const tip = this.outermost(end);
      this.goOn(end, goOnToTip(this.stitches, tip.from, tip.to, end, limit));
    }
  }

  private outermost(end: -1 | 1): Patch {
    return this.patches[end < 0 ? 0 : this.patches.length - 1];
  }

  /** Adds swings to further needle points beyond one end, outward. */
  private goOn(end: -1 | 1, points: readonly number[]): void {
    if (points.length === 0) return;
    const patch = this.outermost(end);
    const { from, to } = patch;
    const more = points.length;
    const longer = { from: new Int32Array(from.length + more), to: new Int32Array(to.length + more) };
    if (end < 0) {
      longer.from.set(from, more);
      longer.to.set(to, more);
      for (let k = 0; k < more; k++) {
        longer.from[k] = points[more - 1 - k];
        longer.to[k] = k + 1 < more ? points[more - 2 - k] : from[0];
      }
      this.patches[0] = { ...patch, ...longer };
      this.first = points[more - 1];
    } else {
      longer.from.set(from);
      longer.to.set(to);
      for (let k = 0; k < more; k++) {
        longer.from[from.length + k] = k > 0 ? points[k - 1] : to[to.length - 1];
        longer.to[to.length + k] = points[k];
      }
      this.patches[this.patches.length - 1] = { ...patch, ...longer };
      this.last = points[more - 1];
    }
  }

  /**
   * Takes in what is left of the thread behind a fill, if that is a last row or two, or travel over what is sewn: it lies on the area, and is
   * too short to be a run round it.
   *
   * @param end stitch index at the end of what is left
   */
  takeStrayRows(end: number): void {
    const count = end - this.last;
    if (this.kind !== 'fill' || count < 2 || count > MOST_STRAY || !(this.region instanceof FillRegion))
      return;
    const { x, y } = this.stitches;
    let way = 0;
    for (let i = this.last; i < end; i++) {
      way += distance(x[i], y[i], x[i + 1], y[i + 1]);
      if (!this.region.isNear(x[i], y[i]) || !this.region.isNear(x[i + 1], y[i + 1])) return;
    }
    // of all shapes of an area the circle has the shortest outline
    if (way <= STRAY_WAY * 2 * Math.sqrt(Math.PI * this.region.areaMm2)) this.last = end;
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

  /** The fabric it covers; worked out when first asked for. */
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
