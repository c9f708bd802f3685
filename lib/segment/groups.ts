/** Groups: objects that touch and are sewn one after another without a trim, usually a letter. */
import { holds } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { boundsOf } from '../format/extent.js';
import { Break, type Stitches } from '../format/stitches.js';
import type { StitchObject } from './objects.js';

/** Needle points of two objects a millimetre apart make them touch: no distance on the 0.1 mm grid is as near to it, mm. */
const TOUCH_MM = 1.002;

/** Returns the objects with their groups numbered from 1 in sewing order. */
export function numberGroups(stitches: Stitches, objects: readonly StitchObject[]): StitchObject[] {
  const out: StitchObject[] = [];
  let members: StitchObject[] = [];
  let group = 0;
  for (const object of objects) {
    const before = members[members.length - 1];
    const joined =
      before !== undefined &&
      !cutBetween(stitches, before.range[1], object.range[0]) &&
      members.some((m) => touch(stitches, m, object));
    if (!joined) {
      group++;
      members = [];
    }
    members.push(object);
    out.push({ ...object, group });
  }
  return out;
}

function cutBetween(stitches: Stitches, a: number, b: number): boolean {
  for (let i = a + 1; i <= b; i++) if (stitches.breakBefore[i] >= Break.trim) return true;
  return false;
}

/** Whether any needle points of the two lie within reach, found through a hash of cells of that size. */
function touch(stitches: Stitches, a: StitchObject, b: StitchObject): boolean {
  const { x, y } = stitches;
  const box = boundsOf(stitches, b.range[0], b.range[1]);
  const [first, last] = a.range;
  // the last point in each cell, and for each point the one before it in its cell
  const cells = new Map<number, number>();
  const before = new Int32Array(last - first + 1);
  const key = (cx: number, cy: number) => cx * 0x200000 + cy;
  const cell = (v: number) => Math.floor(v / TOUCH_MM) + 0x100000;
  for (let i = first; i <= last; i++) {
    if (!holds(box, x[i], y[i], TOUCH_MM)) continue;
    const k = key(cell(x[i]), cell(y[i]));
    before[i - first] = cells.get(k) ?? -1;
    cells.set(k, i);
  }
  if (cells.size === 0) return false;
  for (let i = b.range[0]; i <= b.range[1]; i++) {
    const cx = cell(x[i]);
    const cy = cell(y[i]);
    for (let dx = -1; dx <= 1; dx++) {
      for (let dy = -1; dy <= 1; dy++) {
        for (let j = cells.get(key(cx + dx, cy + dy)) ?? -1; j >= 0; j = before[j - first]) {
          if (distance(x[i], y[i], x[j], y[j]) <= TOUCH_MM) return true;
        }
      }
    }
  }
  return false;
}
