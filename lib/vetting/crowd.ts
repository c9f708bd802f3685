import type { Stitches } from '../format/stitches.js';
import { layGrid } from '../measure/grid.js';
import type { Bounds } from '../measure/measures.js';

/** Cells that any design may have, a byte each: a field of 0.3 m by 0.3 m at 0.3 mm. */
const CELLS_ALWAYS = 1 << 20;
/** A cell's byte: its points, told apart up to this number, and a mark. */
const POINTS = 0x7f;
const CROWDED = 0x80;

/**
 * Stitch indexes of the points that could be among more than `most` within a square of `sideMm`, locks left out:
 * those in blocks of two by two cells of that side that together hold more. In an ordinary design these are few, and
 * only they need to be looked at closely.
 *
 * @param locks as `markLocks` writes them
 */
export function findCrowd(
  { x, y, count }: Stitches,
  bounds: Bounds,
  locks: Uint8Array,
  sideMm: number,
  most: number,
): Int32Array {
  const { cellMm, minX, minY, columns, rows } = layGrid(bounds, sideMm, Math.max(CELLS_ALWAYS, 8 * count));
  // with a border of empty cells every cell has neighbours on all sides
  const row = columns + 2;
  const cells = new Uint8Array(row * (rows + 2));
  const scale = 1 / cellMm;
  const enough = Math.min(most, POINTS - 1);
  // of a block that holds more one cell holds a quarter: such cells are noted while the points are counted, each once
  const quarter = Math.max(1, Math.floor(enough / 4) + 1);
  const crowd = new Int32Array(count);
  let full = 0;
  for (let k = 0; k < count; k++) {
    if (locks[k] === 1) continue;
    const c = (1 + (((y[k] - minY) * scale) | 0)) * row + 1 + (((x[k] - minX) * scale) | 0);
    if (cells[c] < POINTS && ++cells[c] === quarter) crowd[full++] = c;
  }
  if (!markCrowded(cells, row, crowd.subarray(0, full), enough)) return new Int32Array(0);
  let size = 0;
  for (let k = 0; k < count; k++) {
    if (locks[k] !== 0) continue;
    const c = (1 + (((y[k] - minY) * scale) | 0)) * row + 1 + (((x[k] - minX) * scale) | 0);
    if (cells[c] & CROWDED) crowd[size++] = k;
  }
  return crowd.subarray(0, size);
}

/** Marks the blocks of two by two cells that hold more than `enough`, if a cell of `full` is one of them; whether there are any. */
function markCrowded(cells: Uint8Array, row: number, full: Int32Array, enough: number): boolean {
  let any = false;
  for (let n = 0; n < full.length; n++) {
    for (let corner = 0; corner < 4; corner++) {
      const block = full[n] - (corner & 1) - (corner & 2 ? row : 0);
      const sum =
        (cells[block] & POINTS) +
        (cells[block + 1] & POINTS) +
        (cells[block + row] & POINTS) +
        (cells[block + row + 1] & POINTS);
      if (sum <= enough) continue;
      any = true;
      cells[block] |= CROWDED;
      cells[block + 1] |= CROWDED;
      cells[block + row] |= CROWDED;
      cells[block + row + 1] |= CROWDED;
    }
  }
  return any;
}
