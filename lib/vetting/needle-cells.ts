import type { Stitches } from '../format/stitches.js';

/**
 * Needle points gathered in square cells, in a hash table: its size goes by the number of points and not by how
 * far they are spread.
 *
 * `head[slot]` is the last point of a cell (−1: the slot is free), `next[point]` the one before it in the same cell
 * (−1: none), `size[slot]` their number; points are numbered along `x`, `y`. A cell is known by the place
 * of its head.
 */
export interface NeedleCells {
  readonly cellMm: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly head: Int32Array;
  readonly size: Int32Array;
  readonly next: Int32Array;
}

/** Gathers the penetrations that `members` names. */
export function gatherCells(stitches: Stitches, members: Int32Array, cellMm: number): NeedleCells {
  const n = members.length;
  let slots = 16;
  while (slots < 1.5 * n) slots *= 2;
  const x = new Float64Array(n);
  const y = new Float64Array(n);
  const cells: NeedleCells = {
    cellMm,
    x,
    y,
    head: new Int32Array(slots).fill(-1),
    size: new Int32Array(slots),
    next: new Int32Array(n),
  };
  for (let k = 0; k < n; k++) {
    x[k] = stitches.x[members[k]];
    y[k] = stitches.y[members[k]];
    const slot = slotOf(cells, Math.floor(x[k] / cellMm), Math.floor(y[k] / cellMm));
    cells.next[k] = cells.head[slot];
    cells.head[slot] = k;
    cells.size[slot]++;
  }
  return cells;
}

/** Slot of the cell (i, j), or the free slot where it would go. */
export function slotOf({ head, cellMm, x, y }: NeedleCells, i: number, j: number): number {
  const mask = head.length - 1;
  // neighbouring cells of a row share cache lines; rows are thrown far apart
  let slot = (i + Math.imul(j, 0x9e3779b1)) & mask;
  for (let h = head[slot]; h >= 0; h = head[slot]) {
    if (Math.floor(x[h] / cellMm) === i && Math.floor(y[h] / cellMm) === j) return slot;
    slot = (slot + 1) & mask;
  }
  return slot;
}
