import { emptyBounds, growBounds } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { cellKey } from '../core/placed-boxes.js';

/**
 * Strands (straight pieces of thread, each from one position to the next), found again by place: a hash table of square cells in flat
 * arrays, as a list for each cell would be most of what a small design leaves to be cleared away.
 */
export class StrandGrid {
  /** What {@link near} found last. */
  readonly found: Int32Array;
  /** Key of the cell in a slot. */
  private readonly keys: Float64Array;
  /** Last of the entries of the cell in a slot, -1 where the slot is free, and the entry before each in its cell. */
  private readonly head: Int32Array;
  private readonly next: Int32Array;
  /** Number of the strand that an entry is of, and of the question at which a strand was found last. */
  private readonly strandOf: Int32Array;
  private readonly foundAt: Int32Array;
  private asked = 0;

  /**
   * @param x, y positions, mm
   * @param strands index of the first end of each strand, the other being the next index
   * @param cellMm side of a cell
   */
  constructor(
    x: Float64Array,
    y: Float64Array,
    private readonly strands: Int32Array,
    private readonly cellMm: number,
  ) {
    const stepsOf = (i: number) =>
      Math.max(1, Math.ceil(distance(x[i], y[i], x[i + 1], y[i + 1]) / (cellMm / 2)));
    const box = emptyBounds();
    let entries = 0;
    for (let k = 0; k < strands.length; k++) {
      const i = strands[k];
      entries += stepsOf(i) + 1;
      growBounds(box, x[i], y[i]);
      growBounds(box, x[i + 1], y[i + 1]);
    }
    const cells = ((box.maxX - box.minX) / cellMm + 2) * ((box.maxY - box.minY) / cellMm + 2);
    let slots = 16;
    while (slots < 1.5 * Math.min(entries, cells)) slots *= 2;
    this.keys = new Float64Array(slots);
    this.head = new Int32Array(slots).fill(-1);
    this.next = new Int32Array(entries);
    this.strandOf = new Int32Array(entries);
    this.found = new Int32Array(strands.length);
    this.foundAt = new Int32Array(strands.length);

    let entry = 0;
    for (let k = 0; k < strands.length; k++) {
      const i = strands[k];
      const steps = stepsOf(i);
      for (let s = 0; s <= steps; s++) {
        const column = Math.floor((x[i] + ((x[i + 1] - x[i]) * s) / steps) / cellMm);
        const row = Math.floor((y[i] + ((y[i + 1] - y[i]) * s) / steps) / cellMm);
        const slot = this.slotOf(column, row);
        const last = this.head[slot];
        if (last >= 0 && this.strandOf[last] === k) continue;
        this.keys[slot] = cellKey(column, row);
        this.strandOf[entry] = k;
        this.next[entry] = last;
        this.head[slot] = entry++;
      }
    }
  }

  /**
   * Finds the strands that pass through the cell of a place or one of the eight around it.
   * @returns how many; they stand in {@link found}, each once
   */
  near(x: number, y: number): number {
    const { head, next, strands, strandOf, found, foundAt, cellMm } = this;
    const column = Math.floor(x / cellMm);
    const row = Math.floor(y / cellMm);
    this.asked++;
    let count = 0;
    for (let i = column - 1; i <= column + 1; i++) {
      for (let j = row - 1; j <= row + 1; j++) {
        for (let entry = head[this.slotOf(i, j)]; entry >= 0; entry = next[entry]) {
          const k = strandOf[entry];
          if (foundAt[k] === this.asked) continue;
          foundAt[k] = this.asked;
          found[count++] = strands[k];
        }
      }
    }
    return count;
  }

  /** Slot of a cell, or the free one where it would go. */
  private slotOf(column: number, row: number): number {
    const { head, keys } = this;
    const mask = head.length - 1;
    const key = cellKey(column, row);
    // cells of a row lie side by side, rows are thrown far apart
    let slot = (column + Math.imul(row, 0x9e3779b1)) & mask;
    while (head[slot] >= 0 && keys[slot] !== key) slot = (slot + 1) & mask;
    return slot;
  }
}
