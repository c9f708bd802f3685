import { type Bounds, overlap } from '../core/bounds.js';
import { FINDER } from './parameters.js';

const CELL_MM = FINDER.memberCell.value;
const MOST_CELLS = FINDER.memberCells.value;

/** Boxes put in one after another, found again by place: a grid of bounds, so that finding does not go through all of them. */
export class NearMembers {
  private readonly boxes: Bounds[] = [];
  private readonly cells = new Map<number, number[]>();
  private readonly wide: number[] = [];

  add(box: Bounds): void {
    const member = this.boxes.length;
    this.boxes.push(box);
    const cells = cellsOf(box);
    if (cells === null) this.wide.push(member);
    else {
      for (const cell of cells) {
        const list = this.cells.get(cell);
        if (list) list.push(member);
        else this.cells.set(cell, [member]);
      }
    }
  }

  /**
   * Whether one of the boxes that come within `reachMm` of a box passes a test; the latest of a cell is asked first.
   *
   * @param passes is given the number of a box, counted as they came
   */
  some({ minX, minY, maxX, maxY }: Bounds, reachMm: number, passes: (member: number) => boolean): boolean {
    const grown = {
      minX: minX - reachMm,
      minY: minY - reachMm,
      maxX: maxX + reachMm,
      maxY: maxY + reachMm,
    };
    const asked = new Set<number>();
    const one = (member: number): boolean => {
      if (asked.has(member) || !overlap(this.boxes[member], grown)) return false;
      asked.add(member);
      return passes(member);
    };
    const cells = cellsOf(grown);
    if (cells === null) {
      for (let member = this.boxes.length - 1; member >= 0; member--) if (one(member)) return true;
      return false;
    }
    return [...cells.map((cell) => this.cells.get(cell) ?? []), this.wide].some((list) => {
      for (let k = list.length - 1; k >= 0; k--) if (one(list[k])) return true;
      return false;
    });
  }
}

/** Keys of the cells that a box lies over; null where they are too many. */
function cellsOf({ minX, minY, maxX, maxY }: Bounds): number[] | null {
  const cell = (v: number) => Math.floor(v / CELL_MM);
  const [left, right, low, high] = [cell(minX), cell(maxX), cell(minY), cell(maxY)];
  if ((right - left + 1) * (high - low + 1) > MOST_CELLS) return null;
  const keys: number[] = [];
  for (let j = low; j <= high; j++) for (let i = left; i <= right; i++) keys.push(i * 0x200000 + j);
  return keys;
}
