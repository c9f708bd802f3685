import { countUpTo } from './ascending.js';
import type { Bounds } from './bounds.js';
import { cellKey } from './placed-boxes.js';

/** Smaller boxes are looked up together, mm. */
const SMALLEST_MM = 8;
/** Most boxes of a cell that are given: more are alike only where all lie on one spot. */
export const MOST_LATER = 256;

/**
 * Boxes in sewing order, found again by size and place: those that one of them may lie within all but a part of, and the other way
 * round. However many lie on one spot, each is held against few.
 */
export class AlikeBoxes {
  /** By size, then by place. */
  private readonly cells: Map<number, number[]>[] = [];

  /**
   * @param share of either side of a box that lies within the other, at least
   * @param reachMm by which the other is grown before, at most
   */
  constructor(
    private readonly boxes: readonly Bounds[],
    private readonly share: number,
    private readonly reachMm: number,
  ) {
    boxes.forEach((box, number) => {
      const size = sizeOf(spanOf(box));
      const key = cellKey(cellOf((box.minX + box.maxX) / 2, size), cellOf((box.minY + box.maxY) / 2, size));
      this.cells[size] ??= new Map();
      const cell = this.cells[size].get(key);
      if (cell) cell.push(number);
      else this.cells[size].set(key, [number]);
    });
  }

  /** Numbers of later boxes that may be alike, all that are alike among them as long as they are not very many on one spot. */
  *after(number: number): Generator<number> {
    const box = this.boxes[number];
    const span = spanOf(box);
    const { share, reachMm } = this;
    const largest = (span + 2 * reachMm) / share;
    const smallest = share * span - 2 * reachMm;
    // Between the middles of the two: half of both, less what lies within.
    const apart = (span + largest) / 2 + reachMm - share * span;
    const [x, y] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
    for (let size = sizeOf(smallest); size <= sizeOf(largest); size++) {
      const cells = this.cells[size];
      if (cells === undefined) continue;
      for (let i = cellOf(x - apart, size); i <= cellOf(x + apart, size); i++)
        for (let j = cellOf(y - apart, size); j <= cellOf(y + apart, size); j++) {
          const cell = cells.get(cellKey(i, j));
          if (!cell) continue;
          const later = countUpTo(cell, number);
          yield* cell.slice(later, later + MOST_LATER);
        }
    }
  }
}

const spanOf = ({ minX, minY, maxX, maxY }: Bounds): number => Math.max(maxX - minX, maxY - minY);
const sizeOf = (spanMm: number): number => Math.ceil(Math.log2(Math.max(1, spanMm / SMALLEST_MM)));
/** Cells are twice as wide as the boxes whose middles lie in them may be. */
const cellOf = (mm: number, size: number): number => Math.floor(mm / (2 * SMALLEST_MM * 2 ** size));
