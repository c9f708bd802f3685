/**
 * Square cells over a rectangle of fabric. Value (i, j) of a field on it is at j·nx + i and
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
