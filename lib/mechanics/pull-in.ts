import type { Stitches } from '../format/stitches.js';
import type { StitchObject } from '../segment/objects.js';
import type { Displacement } from './field.js';
import { CellShares, type Grid } from './grid.js';

/** How far an object's edges move inward in sewing, and so what each edge would have to be drawn out by. mm; negative is outward. */
export interface PullIn {
  /** Along the stitches: the rails of a column, the ends of the rows of a fill, the ends of a run. */
  readonly alongStitchMm: number;
  /** At right angles to the stitches: the ends of a column, the first and last rows of a fill (of the section that moves most); 0 for a run. */
  readonly acrossStitchMm: number;
}

/** Displacement of points of the goods, mm. */
export class Movement {
  private readonly shares: CellShares;

  constructor(
    private readonly grid: Grid,
    private readonly parts: readonly Displacement[],
    private readonly factor: number,
  ) {
    this.shares = new CellShares(grid);
  }

  at(x: number, y: number): [ux: number, uy: number] {
    const { shares, grid } = this;
    shares.place(x, y, 0);
    let ux = 0;
    let uy = 0;
    // The even strain is taken about the lower left corner: only differences of movement matter.
    const dx = x - grid.x0;
    const dy = y - grid.y0;
    for (const part of this.parts) {
      const [xx, yy, xy] = part.strain;
      ux += shares.read(part.x) + xx * dx + (xy / 2) * dy;
      uy += shares.read(part.y) + yy * dy + (xy / 2) * dx;
    }
    return [this.factor * ux, this.factor * uy];
  }
}

/** Pull-in of one object from the movement of its needle points. */
export function pullIn(movement: Movement, { x, y }: Stitches, object: StitchObject): PullIn {
  const { from, to, range } = object;
  const [first, last] = range;
  if (from.length === 0)
    return { alongStitchMm: shortening(movement, x, y, first, last) / 2, acrossStitchMm: 0 };
  let total = 0;
  for (let k = 0; k < from.length; k++) total += shortening(movement, x, y, from[k], to[k]);
  const starts = object.sections.length > 0 ? object.sections : [0];
  let across = 0;
  for (let s = 0; s < starts.length; s++) {
    const end = s + 1 < starts.length ? starts[s + 1] : from.length;
    const section = betweenStitches(
      movement,
      x,
      y,
      from.subarray(starts[s], end),
      to.subarray(starts[s], end),
    );
    if (Math.abs(section) > Math.abs(across)) across = section;
  }
  return { alongStitchMm: total / from.length / 2, acrossStitchMm: across / 2 };
}

/** How much nearer two needle points come to each other. */
function shortening(movement: Movement, x: Float64Array, y: Float64Array, a: number, b: number): number {
  const dx = x[b] - x[a];
  const dy = y[b] - y[a];
  const length = Math.hypot(dx, dy);
  if (length === 0) return 0;
  const [ax, ay] = movement.at(x[a], y[a]);
  const [bx, by] = movement.at(x[b], y[b]);
  return ((ax - bx) * dx + (ay - by) * dy) / length;
}

/** Sum along a column or a section of how much nearer the middles of neighbouring stitches come, at right angles to the stitch. */
function betweenStitches(
  movement: Movement,
  x: Float64Array,
  y: Float64Array,
  from: Int32Array,
  to: Int32Array,
): number {
  let total = 0;
  const middle = (k: number): [number, number] => [(x[from[k]] + x[to[k]]) / 2, (y[from[k]] + y[to[k]]) / 2];
  let [px, py] = middle(0);
  let [pux, puy] = movement.at(px, py);
  for (let k = 1; k < from.length; k++) {
    const [mx, my] = middle(k);
    const [ux, uy] = movement.at(mx, my);
    const dx = x[to[k]] - x[from[k]];
    const dy = y[to[k]] - y[from[k]];
    const length = Math.hypot(dx, dy);
    if (length > 0) {
      const apart = ((mx - px) * -dy + (my - py) * dx) / length;
      const moved = ((ux - pux) * -dy + (uy - puy) * dx) / length;
      total -= apart < 0 ? -moved : moved;
    }
    [px, py, pux, puy] = [mx, my, ux, uy];
  }
  return total;
}
