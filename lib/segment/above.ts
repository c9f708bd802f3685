/** Finds the tops that lie near a place and are sewn later, soonest first. */
import type { Bounds } from '../core/bounds.js';
import { FINDER } from './parameters.js';
import type { Top } from './tops.js';

const CELL_MM = FINDER.aboveCell.value;
const REACH_MM = FINDER.aboveReach.value;
const MOST_CELLS = FINDER.aboveCells.value;

/** Tops put in from the last to the first, by place. */
export class Above {
  private readonly tops: Top[] = [];
  private readonly cells = new Map<number, number[]>();
  private readonly wide: number[] = [];
  /** How many boxes were asked about, and the count of them when each top was looked at last. */
  private asked = 0;
  private readonly askedAt: number[] = [];

  add(top: Top): void {
    const number = this.tops.length;
    this.tops.push(top);
    this.askedAt.push(0);
    const cells = cellsOf(top.bounds);
    if (cells === null) this.wide.push(number);
    else {
      for (const cell of cells) {
        const list = this.cells.get(cell);
        if (list) list.push(number);
        else this.cells.set(cell, [number]);
      }
    }
  }

  /** At most `most` of the tops whose box meets the box, those sewn soonest first. */
  over(box: Bounds, most: number): Top[] {
    const cells = cellsOf(box);
    const near: number[] = [];
    this.asked++;
    if (cells === null)
      for (let number = 0; number < this.tops.length; number++) this.take(number, box, near);
    else {
      this.takeLast(most, this.wide, box, near);
      for (const cell of cells) this.takeLast(most, this.cells.get(cell), box, near);
    }
    return near
      .sort((a, b) => b - a)
      .slice(0, most)
      .map((number) => this.tops[number]);
  }

  /** Takes the last of a list, as {@link take} does. */
  private takeLast(most: number, list: readonly number[] | undefined, box: Bounds, near: number[]): void {
    if (list === undefined) return;
    for (let k = Math.max(0, list.length - most); k < list.length; k++) this.take(list[k], box, near);
  }

  /** Takes a top that meets the box and was not looked at since the box was asked about. */
  private take(number: number, box: Bounds, near: number[]): void {
    if (this.askedAt[number] === this.asked) return;
    this.askedAt[number] = this.asked;
    if (meet(box, this.tops[number].bounds)) near.push(number);
  }
}

/** Whether two boxes come within reach of each other. */
const meet = (a: Bounds, b: Bounds): boolean =>
  a.minX <= b.maxX + REACH_MM &&
  a.maxX >= b.minX - REACH_MM &&
  a.minY <= b.maxY + REACH_MM &&
  a.maxY >= b.minY - REACH_MM;

/** Keys of the cells that a box lies over; null where they are too many. */
function cellsOf({ minX, minY, maxX, maxY }: Bounds): number[] | null {
  const cell = (v: number) => Math.floor(v / CELL_MM);
  const [left, right, low, high] = [
    cell(minX - REACH_MM),
    cell(maxX + REACH_MM),
    cell(minY - REACH_MM),
    cell(maxY + REACH_MM),
  ];
  if ((right - left + 1) * (high - low + 1) > MOST_CELLS) return null;
  const keys: number[] = [];
  for (let j = low; j <= high; j++) for (let i = left; i <= right; i++) keys.push(i * 0x200000 + j);
  return keys;
}
