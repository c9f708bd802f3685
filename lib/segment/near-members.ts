import type { Bounds } from '../core/bounds.js';
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

  /** Numbers of the boxes, counted as they came, that come within `reachMm` of a box; the latest first. */
  near({ minX, minY, maxX, maxY }: Bounds, reachMm: number): number[] {
    const grown = {
      minX: minX - reachMm,
      minY: minY - reachMm,
      maxX: maxX + reachMm,
      maxY: maxY + reachMm,
    };
    const cells = cellsOf(grown);
    const candidates =
      cells === null
        ? this.boxes.map((_, member) => member)
        : new Set([...this.wide, ...cells.flatMap((cell) => this.cells.get(cell) ?? [])]);
    return [...candidates].filter((member) => overlap(this.boxes[member], grown)).sort((a, b) => b - a);
  }
}

const overlap = (a: Bounds, b: Bounds): boolean =>
  a.minX <= b.maxX && a.maxX >= b.minX && a.minY <= b.maxY && a.maxY >= b.minY;

/** Keys of the cells that a box lies over; null where they are too many. */
function cellsOf({ minX, minY, maxX, maxY }: Bounds): number[] | null {
  const cell = (v: number) => Math.floor(v / CELL_MM);
  const [left, right, low, high] = [cell(minX), cell(maxX), cell(minY), cell(maxY)];
  if ((right - left + 1) * (high - low + 1) > MOST_CELLS) return null;
  const keys: number[] = [];
  for (let j = low; j <= high; j++) for (let i = left; i <= right; i++) keys.push(i * 0x200000 + j);
  return keys;
}
