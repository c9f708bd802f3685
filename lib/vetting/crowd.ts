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
  const mark = (block: number) => {
    any = true;
    cells[block] |= CROWDED;
    cells[block + 1] |= CROWDED;
    cells[block + row] |= CROWDED;
    cells[block + row + 1] |= CROWDED;
  };
  for (let n = 0; n < full.length; n++) {
    const c = full[n];
    // each of the nine cells about it once: above and below it, and in its own row
    const [low, high] = [c - row, c + row];
    const here = cells[c] & POINTS;
    const left = here + (cells[c - 1] & POINTS);
    const right = here + (cells[c + 1] & POINTS);
    const below = cells[low] & POINTS;
    const above = cells[high] & POINTS;
    if (left + below + (cells[low - 1] & POINTS) > enough) mark(low - 1);
    if (right + below + (cells[low + 1] & POINTS) > enough) mark(low);
    if (left + above + (cells[high - 1] & POINTS) > enough) mark(c - 1);
    if (right + above + (cells[high + 1] & POINTS) > enough) mark(c);
  }
  return any;
}
