/** How often the thread of a run goes over the same line: a double run, a triple run, a stem with branches there and back. */
import { distance } from '../core/distance.js';
import { evenly } from '../core/evenly.js';
import { Break, type Stitches } from '../format/stitches.js';
import { StrandGrid } from '../geometry/strand-grid.js';
import { FINDER } from './parameters.js';

const CELL_MM = FINDER.lineCell.value;
const SAMPLE = FINDER.lineSample.value;

/** How many times most of the line from stitch `first` to `last` is sewn. */
export function countPasses(stitches: Stitches, first: number, last: number): number {
  const strands = new Strands(stitches, first, last);
  const counts = evenly(first, last - 1, SAMPLE)
    .map((i) => strands.over(i))
    .filter((count) => count > 0);
  return counts.sort((a, b) => a - b)[counts.length >> 1] ?? 1;
}

/** The stitches of a run, by place. */
class Strands {
  private readonly grid: StrandGrid;

  constructor(
    private readonly stitches: Stitches,
    first: number,
    last: number,
  ) {
    const { x, y, breakBefore } = stitches;
    const strands = new Int32Array(Math.max(0, last - first));
    let n = 0;
    for (let i = first; i < last; i++) if (breakBefore[i + 1] === Break.none) strands[n++] = i;
    this.grid = new StrandGrid(x, y, strands.subarray(0, n), CELL_MM);
  }

  /** How many stitches lie along the middle of a stitch, itself included; 0 where that is too short to tell. */
  over(i: number): number {
    const { x, y } = this.stitches;
    const length = distance(x[i], y[i], x[i + 1], y[i + 1]);
    if (length < FINDER.lineLeast.value) return 0;
    const ux = (x[i + 1] - x[i]) / length;
    const uy = (y[i + 1] - y[i]) / length;
    const mx = (x[i] + x[i + 1]) / 2;
    const my = (y[i] + y[i + 1]) / 2;
    const { grid } = this;
    const near = grid.near(mx, my);
    let count = 0;
    for (let k = 0; k < near; k++) if (this.liesAlong(grid.found[k], mx, my, ux, uy)) count++;
    return count;
  }

  /** Whether stitch `j` passes a place in a direction, there or back. */
  private liesAlong(j: number, mx: number, my: number, ux: number, uy: number): boolean {
    const { x, y } = this.stitches;
    const vx = x[j + 1] - x[j];
    const vy = y[j + 1] - y[j];
    const length = Math.sqrt(vx * vx + vy * vy);
    if (length === 0 || Math.abs(ux * vx + uy * vy) < FINDER.lineAlong.value * length) return false;
    const along = ((mx - x[j]) * vx + (my - y[j]) * vy) / length;
    const beside = Math.abs((mx - x[j]) * vy - (my - y[j]) * vx) / length;
    return along >= 0 && along < length && beside < FINDER.lineBeside.value;
  }
}
