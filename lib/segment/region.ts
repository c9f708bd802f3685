/** Whether a point lies on the fabric that an object covers. */

import { emptyBounds, growBounds } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { acrossAt, alongAt, type ColumnFrame, nodeAt } from '../geometry/column-frame.js';
import { FINDER } from './parameters.js';

export interface Region {
  contains(x: number, y: number): boolean;
}

const CELL_MM = FINDER.areaCell.value;
const MARGIN_MM = FINDER.columnMargin.value;
const BEFORE_MM = FINDER.columnBefore.value;
const BEHIND_MM = FINDER.columnBehind.value;
const CELL_ROWS = FINDER.areaCellRows.value;

const DIRECTIONS = FINDER.edgeDirections.value;

/** Directions all round, as x and y by turns. */
const ROUND = Float64Array.from({ length: 2 * DIRECTIONS }, (_, k) => {
  const angle = ((k >> 1) * 2 * Math.PI) / DIRECTIONS;
  return k % 2 === 0 ? Math.cos(angle) : Math.sin(angle);
});

/** The fabric under a satin column. */
export class ColumnRegion implements Region {
  private hint = -1;

  constructor(readonly frame: ColumnFrame) {}

  contains(x: number, y: number): boolean {
    const { frame } = this;
    const node = this.nodeAt(x, y);
    if (Math.abs(acrossAt(frame, node, x, y)) > frame.halfWidth[node] + MARGIN_MM) return false;
    if (frame.closed) return true;
    const along = alongAt(frame, node, x, y);
    return along >= -BEFORE_MM && along <= frame.lengthMm + BEHIND_MM;
  }

  /** The node of the frame beside a point. */
  nodeAt(x: number, y: number): number {
    this.hint = nodeAt(this.frame, x, y, this.hint);
    return this.hint;
  }
}

/** The fabric under a fill, as a grid on which its rows are drawn. */
export class FillRegion implements Region {
  private readonly cell: number;
  private readonly columns: number;
  private readonly rows: number;
  private readonly x0: number;
  private readonly y0: number;
  private readonly covered: Uint8Array;

  /** @param spacing distance between rows, mm; gaps of that size are closed */
  constructor(x: Float64Array, y: Float64Array, from: Int32Array, to: Int32Array, spacing: number) {
    const box = emptyBounds();
    for (let k = 0; k < from.length; k++) {
      growBounds(box, x[from[k]], y[from[k]]);
      growBounds(box, x[to[k]], y[to[k]]);
    }
    const { minX, minY, maxX, maxY } = box;
    // a cell wider than the distance between rows is met by one wherever it lies; a huge sparse area gets coarser cells
    const area = (maxX - minX + 2) * (maxY - minY + 2);
    this.cell = Math.max(
      CELL_MM,
      spacing * CELL_ROWS,
      Math.sqrt(area / (FINDER.areaCells.value * from.length + FINDER.areaCellsBesides.value)),
    );
    this.columns = Math.ceil((maxX - minX) / this.cell) + 3;
    this.rows = Math.ceil((maxY - minY) / this.cell) + 3;
    // the grid lies evenly about the middle, so that a design turned or mirrored meets the same cells
    this.x0 = (minX + maxX - this.columns * this.cell) / 2;
    this.y0 = (minY + maxY - this.rows * this.cell) / 2;
    this.covered = new Uint8Array(this.columns * this.rows);
    for (let i = 0; i < from.length; i++) this.draw(x[from[i]], y[from[i]], x[to[i]], y[to[i]]);
    this.closeGaps();
  }

  /** Rows that lead slantwise to the next leave wedges between their ends: a cell between two covered ones is too. */
  private closeGaps(): void {
    const { covered, columns } = this;
    const open = covered.slice();
    for (let k = columns + 1; k < covered.length - columns - 1; k++) {
      if (open[k] === 1) continue;
      const across = open[k - 1] & open[k + 1];
      const up = open[k - columns] & open[k + columns];
      const rising = open[k - columns - 1] & open[k + columns + 1];
      const falling = open[k - columns + 1] & open[k + columns - 1];
      covered[k] = across | up | rising | falling;
    }
  }

  private draw(ax: number, ay: number, bx: number, by: number): void {
    const { covered, columns, cell } = this;
    // three marks for two cells: at most a clipped corner is missed
    const steps = Math.max(1, Math.ceil((FINDER.areaMarks.value * distance(ax, ay, bx, by)) / cell));
    let i = (ax - this.x0) / cell;
    let j = (ay - this.y0) / cell;
    const di = (bx - ax) / cell / steps;
    const dj = (by - ay) / cell / steps;
    for (let k = 0; k <= steps; k++, i += di, j += dj) covered[(j | 0) * columns + (i | 0)] = 1;
  }

  private index(x: number, y: number): number {
    const i = Math.floor((x - this.x0) / this.cell);
    const j = Math.floor((y - this.y0) / this.cell);
    return i < 0 || j < 0 || i >= this.columns || j >= this.rows ? -1 : j * this.columns + i;
  }

  contains(x: number, y: number): boolean {
    const k = this.index(x, y);
    return k >= 0 && this.covered[k] === 1;
  }

  /** Whether a point lies in a covered cell or beside one. */
  isNear(x: number, y: number): boolean {
    const { cell, columns, rows, covered } = this;
    for (let dx = -cell; dx <= cell; dx += cell) {
      const i = Math.floor((x + dx - this.x0) / cell);
      if (i < 0 || i >= columns) continue;
      for (let dy = -cell; dy <= cell; dy += cell) {
        const j = Math.floor((y + dy - this.y0) / cell);
        if (j >= 0 && j < rows && covered[j * columns + i] === 1) return true;
      }
    }
    return false;
  }

  /** Whether the edge of the area is within `reach` mm of a point. */
  nearEdge(x: number, y: number, reach: number): boolean {
    for (let k = 0; k < ROUND.length; k += 2) {
      if (!this.contains(x + reach * ROUND[k], y + reach * ROUND[k + 1])) return true;
    }
    return false;
  }

  /** Covered area, mm². */
  get areaMm2(): number {
    let n = 0;
    for (let k = 0; k < this.covered.length; k++) n += this.covered[k];
    return n * this.cell * this.cell;
  }
}
