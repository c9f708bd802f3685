/** Groups: objects that touch and are sewn one after another without a trim, usually a letter. */
import { type Bounds, emptyBounds, growBounds } from '../core/bounds.js';
import { Break, type Stitches } from '../format/stitches.js';
import type { StitchObject } from './objects.js';

/** Needle points of two objects this near to each other make them touch, mm. */
const TOUCH_MM = 1;

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
  const box = boundsOf(stitches, b);
  const cells = new Set<number>();
  const key = (cx: number, cy: number) => cx * 0x200000 + cy;
  const cell = (v: number) => Math.floor(v / TOUCH_MM) + 0x100000;
  for (let i = a.range[0]; i <= a.range[1]; i++) {
    if (x[i] < box.minX - TOUCH_MM || x[i] > box.maxX + TOUCH_MM) continue;
    if (y[i] < box.minY - TOUCH_MM || y[i] > box.maxY + TOUCH_MM) continue;
    cells.add(key(cell(x[i]), cell(y[i])));
  }
  if (cells.size === 0) return false;
  for (let i = b.range[0]; i <= b.range[1]; i++) {
    const cx = cell(x[i]);
    const cy = cell(y[i]);
    for (let dx = -1; dx <= 1; dx++) {
      for (let dy = -1; dy <= 1; dy++) if (cells.has(key(cx + dx, cy + dy))) return true;
    }
  }
  return false;
}

function boundsOf({ x, y }: Stitches, object: StitchObject): Bounds {
  const box = emptyBounds();
  for (let i = object.range[0]; i <= object.range[1]; i++) growBounds(box, x[i], y[i]);
  return box;
}
