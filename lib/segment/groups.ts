/** Groups: objects that touch and are sewn one after another without a trim, usually a letter. */
import { type Bounds, grownBy, holds, overlap } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { cellKey, PlacedBoxes } from '../core/placed-boxes.js';
import { boundsOf } from '../format/extent.js';
import { Break, type Stitches } from '../format/stitches.js';
import type { StitchObject } from './objects.js';
import { FINDER } from './parameters.js';

const TOUCH_MM = FINDER.touch.value;
const STRETCH = FINDER.touchStretch.value;

/** Returns the objects with their groups numbered from 1 in sewing order. About linear in the stitches. */
export function numberGroups(stitches: Stitches, objects: readonly StitchObject[]): StitchObject[] {
  const out: StitchObject[] = [];
  let members: Member[] = [];
  let boxes = new PlacedBoxes();
  let group = 0;
  for (const object of objects) {
    const before = members[members.length - 1];
    const [first, last] = object.range;
    const member = new Member(stitches, first, last);
    const joined =
      before !== undefined &&
      !cutBetween(stitches, before.last, first) &&
      (before.touches(member) ||
        boxes.some(grownBy(member.box, TOUCH_MM), (m) => members[m].touches(member)));
    if (!joined) {
      group++;
      members = [];
      boxes = new PlacedBoxes();
    }
    members.push(member);
    boxes.add(member.box);
    out.push({ ...object, group });
  }
  return out;
}

/** Whether the thread is cut between two stitches. */
export function cutBetween(stitches: Stitches, a: number, b: number): boolean {
  for (let i = a + 1; i <= b; i++) if (stitches.breakBefore[i] >= Break.trim) return true;
  return false;
}

interface GroupStretch {
  readonly from: number;
  readonly to: number;
  readonly bounds: Bounds;
}

/** The needle points of one object. */
class Member {
  readonly box: Bounds;
  private stretches: readonly GroupStretch[] | null = null;

  constructor(
    private readonly stitches: Stitches,
    readonly first: number,
    readonly last: number,
  ) {
    this.box = boundsOf(stitches, first, last);
  }

  /** Whether any needle points of the two lie within reach, found through a hash of cells of that size. */
  touches(other: Member): boolean {
    const { x, y } = this.stitches;
    const near = this.indexesNear(other.box);
    if (near.length === 0) return false;
    // the last point in each cell, and for each point the one before it in its cell
    const cells = new Map<number, number>();
    const before = new Int32Array(near.length);
    const cell = (v: number) => Math.floor(v / TOUCH_MM);
    for (let n = 0; n < near.length; n++) {
      const k = cellKey(cell(x[near[n]]), cell(y[near[n]]));
      before[n] = cells.get(k) ?? -1;
      cells.set(k, n);
    }
    return other.indexesNear(this.box).some((i) => {
      const cx = cell(x[i]);
      const cy = cell(y[i]);
      for (let dx = -1; dx <= 1; dx++) {
        for (let dy = -1; dy <= 1; dy++) {
          for (let n = cells.get(cellKey(cx + dx, cy + dy)) ?? -1; n >= 0; n = before[n]) {
            if (distance(x[i], y[i], x[near[n]], y[near[n]]) <= TOUCH_MM) return true;
          }
        }
      }
      return false;
    });
  }

  /** Needle points that lie within reach of a box. */
  private indexesNear(box: Bounds): number[] {
    const { x, y } = this.stitches;
    this.stretches ??= this.boundStretches();
    const near: number[] = [];
    const wide = grownBy(box, TOUCH_MM);
    for (const { bounds, from, to } of this.stretches) {
      if (!overlap(bounds, wide)) continue;
      for (let i = from; i <= to; i++) if (holds(wide, x[i], y[i], 0)) near.push(i);
    }
    return near;
  }

  private boundStretches(): GroupStretch[] {
    const stretches: GroupStretch[] = [];
    for (let from = this.first; from <= this.last; from += STRETCH) {
      const to = Math.min(this.last, from + STRETCH - 1);
      stretches.push({ from, to, bounds: boundsOf(this.stitches, from, to) });
    }
    return stretches;
  }
}
