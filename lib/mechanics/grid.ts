import type { Bounds } from '../core/bounds.js';

/**
 * Square cells over a rectangle of goods that repeats itself on all sides. Value (i, j) of a field on it is at j·nx + i and
 * stands for the cell whose middle is (x0 + (i + ½)·cellMm, y0 + (j + ½)·cellMm).
 */
export interface Grid {
  readonly nx: number;
  readonly ny: number;
  readonly cellMm: number;
  /** Lower left corner of cell (0, 0), mm. */
  readonly x0: number;
  readonly y0: number;
}

/** A symmetric tensor at every cell. For a strain `xy` is the engineering shear γ = 2ε12; for a force it is N12. */
export interface TensorField {
  readonly xx: Float64Array;
  readonly yy: Float64Array;
  readonly xy: Float64Array;
}

export const newTensorField = (cells: number): TensorField => ({
  xx: new Float64Array(cells),
  yy: new Float64Array(cells),
  xy: new Float64Array(cells),
});

/** Shares of a point among the four cells about it, the nearer the more; they add up to one. Reused from call to call. */
export class CellShares {
  readonly at = new Int32Array(4);
  readonly share = new Float64Array(4);

  constructor(private readonly grid: Grid) {}

  /** `offset` is where in its cell a value stands: ½ for the middle, 0 for the lower left corner. */
  place(x: number, y: number, offset = 0.5): void {
    const { nx, ny, cellMm, x0, y0 } = this.grid;
    const u = (x - x0) / cellMm - offset;
    const v = (y - y0) / cellMm - offset;
    const i = Math.floor(u);
    const j = Math.floor(v);
    const fx = u - i;
    const fy = v - j;
    // nx and ny are powers of two, so the mask wraps negative indexes too.
    const i0 = i & (nx - 1);
    const i1 = (i + 1) & (nx - 1);
    const j0 = (j & (ny - 1)) * nx;
    const j1 = ((j + 1) & (ny - 1)) * nx;
    this.at[0] = j0 + i0;
    this.at[1] = j0 + i1;
    this.at[2] = j1 + i0;
    this.at[3] = j1 + i1;
    this.share[0] = (1 - fx) * (1 - fy);
    this.share[1] = fx * (1 - fy);
    this.share[2] = (1 - fx) * fy;
    this.share[3] = fx * fy;
  }

  /** Value of a field at the place last given. */
  read(field: Float64Array): number {
    const { at, share } = this;
    return (
      field[at[0]] * share[0] + field[at[1]] * share[1] + field[at[2]] * share[2] + field[at[3]] * share[3]
    );
  }
}

/** Least goods left free about a design, mm, and as a part of its larger side: the sheet repeats beyond. */
const MARGIN_MM = 18;
const MARGIN_PART = 0.25;
const SMALLEST_SIDE = 32;
const LARGEST_SIDE = 2048;

const sideFor = (lengthMm: number, cellMm: number): number =>
  Math.max(SMALLEST_SIDE, 2 ** Math.ceil(Math.log2(lengthMm / cellMm) - 1e-9));

/** The piece of fabric that is looked at with a design: its rectangle and what is left free around it, mm. */
export function sheetAbout({ minX, minY, maxX, maxY }: Bounds): { widthMm: number; heightMm: number } {
  const width = maxX - minX;
  const height = maxY - minY;
  const margin = Math.max(MARGIN_MM, MARGIN_PART * Math.max(width, height));
  return { widthMm: width + 2 * margin, heightMm: height + 2 * margin };
}

/**
 * A grid of cells of `cellMm` about a rectangle (mm), with goods left free around it; what the powers of two have over goes to the
 * goods.
 * @throws RangeError for a rectangle that is not finite, or one that would take more than 2048 cells a side.
 */
export function gridAbout(bounds: Bounds, cellMm: number): Grid {
  const { widthMm, heightMm } = sheetAbout(bounds);
  const nx = sideFor(widthMm, cellMm);
  const ny = sideFor(heightMm, cellMm);
  if (!(cellMm > 0 && nx <= LARGEST_SIDE && ny <= LARGEST_SIDE))
    throw new RangeError(
      `goods of ${widthMm} × ${heightMm} mm, margins included, in cells of ${cellMm} mm: more than ${LARGEST_SIDE} a side`,
    );
  return {
    nx,
    ny,
    cellMm,
    x0: (bounds.minX + bounds.maxX - nx * cellMm) / 2,
    y0: (bounds.minY + bounds.maxY - ny * cellMm) / 2,
  };
}
