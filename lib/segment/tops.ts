/** Top stitching: the patches of a thread put together to columns and filled areas. */

import type { Stitches } from '../format/stitches.js';
import { measureColumn } from '../geometry/column.js';
import type { Patch } from './patches.js';
import { ColumnRegion, FillRegion, type Region } from './region.js';

/** Angle between the rows of two sections of one fill, cosine (6°). */
const SAME_DIRECTION_COS = Math.cos((6 * Math.PI) / 180);

/** One piece of top stitching (or an open patch that may yet prove to be underlay). */
export class Top {
  first: number;
  last: number;
  /** Stitch ranges of underlay patches and runs found to lie under it. */
  readonly under: { first: number; last: number; patch: Patch | null }[] = [];
  private shape: Region | null = null;

  constructor(
    private readonly stitches: Stitches,
    readonly kind: 'satin' | 'fill',
    readonly patches: readonly Patch[],
    readonly thread: number,
  ) {
    this.first = patches[0].from[0];
    const end = patches[patches.length - 1];
    this.last = end.to[end.to.length - 1];
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

  get split(): boolean {
    return this.kind === 'satin' && this.patches.some((p) => p.split);
  }

  /** The goods it covers; worked out when first asked for. */
  get region(): Region {
    if (this.shape === null) {
      const { x, y } = this.stitches;
      this.shape =
        this.kind === 'satin'
          ? new ColumnRegion(measureColumn(x, y, this.from, this.to))
          : new FillRegion(x, y, this.from, this.to, this.pitchMm);
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
  let open: Patch[] = [];
  const flush = () => {
    if (open.length > 0) {
      const kind = open.some((p) => p.kind === 'rows') ? 'fill' : 'satin';
      tops.push(new Top(stitches, kind, open, thread));
    }
    open = [];
  };
  for (const patch of patches) {
    if (open.length > 0 && !belongs(stitches, open, patch)) flush();
    open.push(patch);
  }
  flush();
  return tops;
}

function belongs(stitches: Stitches, open: readonly Patch[], next: Patch): boolean {
  const last = open[open.length - 1];
  const a = direction(stitches, last);
  const b = direction(stitches, next);
  const ratio = next.pitchMm / last.pitchMm;
  if (last.kind === 'rows' || next.kind === 'rows') {
    if (Math.abs(a.x * b.x + a.y * b.y) < SAME_DIRECTION_COS || ratio < 0.72 || ratio > 1.4) return false;
    return open.some((p) => touches(stitches, p, next, a));
  }
  return continuesColumn(stitches, last, next, ratio);
}

/** Mean direction of the legs of a patch, as an axis. */
function direction(stitches: Stitches, patch: Patch): { x: number; y: number } {
  const { x, y } = stitches;
  let c = 0;
  let s = 0;
  for (let i = 0; i < patch.from.length; i++) {
    const dx = x[patch.to[i]] - x[patch.from[i]];
    const dy = y[patch.to[i]] - y[patch.from[i]];
    const l = Math.sqrt(dx * dx + dy * dy) || 1;
    c += (dx * dx - dy * dy) / l;
    s += (2 * dx * dy) / l;
  }
  const angle = Math.atan2(s, c) / 2;
  return { x: Math.cos(angle), y: Math.sin(angle) };
}

/** Whether rows of two patches with the same direction lie beside each other or end to end. */
function touches(stitches: Stitches, a: Patch, b: Patch, axis: { x: number; y: number }): boolean {
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
  const near = Math.max(1, 2 * Math.max(a.pitchMm, b.pitchMm));
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
