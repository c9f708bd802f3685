import { distance } from '../core/distance.js';

/** Strands (straight pieces of thread, each from one position to the next), found again by place: a grid of square cells. */
export class StrandGrid {
  private readonly cells = new Map<number, number[]>();

  /**
   * @param x, y positions, mm
   * @param strands index of the first end of each strand, the other being the next index
   * @param cellMm side of a cell
   */
  constructor(
    x: Float64Array,
    y: Float64Array,
    strands: Iterable<number>,
    private readonly cellMm: number,
  ) {
    for (const i of strands) {
      const steps = Math.max(1, Math.ceil(distance(x[i], y[i], x[i + 1], y[i + 1]) / (cellMm / 2)));
      let last = -1;
      for (let s = 0; s <= steps; s++) {
        const at = this.cellOf(
          x[i] + ((x[i + 1] - x[i]) * s) / steps,
          y[i] + ((y[i + 1] - y[i]) * s) / steps,
        );
        if (at === last) continue;
        last = at;
        const list = this.cells.get(at);
        if (list === undefined) this.cells.set(at, [i]);
        else if (list[list.length - 1] !== i) list.push(i);
      }
    }
  }

  /** Strands that pass through the cell of a place or one of the eight around it; one that passes through several comes as often. */
  *near(x: number, y: number): Generator<number> {
    const { cellMm } = this;
    for (let dx = -cellMm; dx <= cellMm; dx += cellMm)
      for (let dy = -cellMm; dy <= cellMm; dy += cellMm)
        yield* this.cells.get(this.cellOf(x + dx, y + dy)) ?? [];
  }

  private cellOf(x: number, y: number): number {
    return (Math.floor(x / this.cellMm) + 0x100000) * 0x200000 + Math.floor(y / this.cellMm) + 0x100000;
  }
}
