import { type Bounds, overlap } from './bounds.js';

/** Side of a cell, mm: about a letter. */
const CELL_MM = 16;
/** Boxes over more cells than this are looked at one by one. */
const MOST_CELLS = 256;

/** Key of a square cell of the plane, for lists by place; columns and rows may be up to a million from the origin. */
export const cellKey = (column: number, row: number): number =>
  (column + 0x100000) * 0x200000 + row + 0x100000;

/**
 * Boxes put in one after another, and found again by place while more come in: a hash of cells, as an index of all of them has to know
 * them beforehand.
 */
export class PlacedBoxes {
  private readonly boxes: Bounds[] = [];
  private readonly cells = new Map<number, number[]>();
  private readonly wide: number[] = [];
  /** How many times was asked, and the count of them when each box was looked at last. */
  private asked = 0;
  private readonly askedAt: number[] = [];

  add(box: Bounds): void {
    const number = this.boxes.push(box) - 1;
    this.askedAt.push(0);
    const keys = cellsUnder(box);
    if (keys === null) this.wide.push(number);
    else {
      for (const key of keys) {
        const list = this.cells.get(key);
        if (list) list.push(number);
        else this.cells.set(key, [number]);
      }
    }
  }

  /**
   * Whether a box that has a point in common with the one given passes a test; of those in a cell the latest is asked first, and each once.
   *
   * @param passes is given the number of a box, counted from 0 as they came
   * @param most of one cell that are looked at, the latest, however many are piled up there
   */
  some(box: Bounds, passes: (number: number) => boolean, most = Infinity): boolean {
    this.asked++;
    const keys = cellsUnder(box);
    if (keys === null) {
      for (let n = this.boxes.length - 1; n >= 0; n--)
        if (overlap(this.boxes[n], box) && passes(n)) return true;
      return false;
    }
    return (
      this.anyOf(this.wide, most, box, passes) ||
      keys.some((key) => this.anyOf(this.cells.get(key) ?? [], most, box, passes))
    );
  }

  /** Whether one of the last of a list passes, of those that were not looked at since was asked. */
  private anyOf(
    list: readonly number[],
    most: number,
    box: Bounds,
    passes: (number: number) => boolean,
  ): boolean {
    const { boxes, asked, askedAt } = this;
    for (let k = list.length - 1; k >= 0 && list.length - k <= most; k--) {
      const n = list[k];
      if (askedAt[n] === asked) continue;
      askedAt[n] = asked;
      if (overlap(boxes[n], box) && passes(n)) return true;
    }
    return false;
  }
}

/** Keys of the cells that a box lies over; null where they are too many. */
function cellsUnder({ minX, minY, maxX, maxY }: Bounds): number[] | null {
  const cell = (v: number) => Math.floor(v / CELL_MM);
  const [left, right, low, high] = [cell(minX), cell(maxX), cell(minY), cell(maxY)];
  if ((right - left + 1) * (high - low + 1) > MOST_CELLS) return null;
  const keys: number[] = [];
  for (let j = low; j <= high; j++) for (let i = left; i <= right; i++) keys.push(cellKey(i, j));
  return keys;
}
