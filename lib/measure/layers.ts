import { Break, type Stitches } from '../format/stitches.js';
import { layGrid, middleOf } from './grid.js';
import type { Bounds, DesignMeasures, ObjectMeasures } from './measures.js';

/** Side of a cell, mm. */
const CELL_MM = 2;
/** Cells that any design may have: a field of half a metre by half a metre. */
const CELLS_ALWAYS = 1 << 16;
/** An object covers a cell where it lays at least this share of the thread with which it fills one. */
const COVER_SHARE = 0.6;
/** A stitch is followed in at most this many steps, however far it goes. */
const MOST_STEPS = 256;

/**
 * The place where most columns and fills lie one over another, counting top stitching only; null where none
 * covers a cell. Neighbours that share an edge do not count as stacked: each has to fill most of the cell by itself.
 */
export function stackedLayers(
  stitches: Stitches,
  objects: readonly ObjectMeasures[],
  bounds: Bounds,
): DesignMeasures['layers'] {
  const { x, y, breakBefore, count } = stitches;
  const grid = layGrid(bounds, CELL_MM, Math.max(CELLS_ALWAYS, count));
  const { columns, rows, minX, minY, cellMm } = grid;
  const scale = 1 / cellMm;
  /** Which object lay in a cell last, counted from 1: what nothing lies in is never written. */
  const lastObject = new Int32Array(columns * rows);
  const laid = new Float32Array(columns * rows);
  const layers = new Uint16Array(columns * rows);
  let most = 0;
  let place = 0;
  for (let o = 0; o < objects.length; o++) {
    const enough = COVER_SHARE * threadPerMm2(objects[o]) * cellMm;
    if (!(enough > 0)) continue;
    const [first, last] = objects[o].object.range;
    let px = (x[first] - minX) * scale;
    let py = (y[first] - minY) * scale;
    for (let k = first + 1; k <= last; k++) {
      const ax = px;
      const ay = py;
      px = (x[k] - minX) * scale;
      py = (y[k] - minY) * scale;
      if (breakBefore[k] >= Break.trim) continue;
      const length = Math.sqrt((px - ax) * (px - ax) + (py - ay) * (py - ay));
      const steps = Math.min(MOST_STEPS, Math.ceil(length));
      const each = length / steps;
      for (let s = 0; s < steps; s++) {
        const f = (s + 0.5) / steps;
        const c = ((ay + f * (py - ay)) | 0) * columns + ((ax + f * (px - ax)) | 0);
        if (lastObject[c] !== o + 1) {
          lastObject[c] = o + 1;
          laid[c] = 0;
        } else if (laid[c] >= enough) {
          continue;
        }
        laid[c] += each;
        if (laid[c] < enough || layers[c] === 0xffff) continue;
        layers[c]++;
        if (layers[c] > most) {
          most = layers[c];
          place = c;
        }
      }
    }
  }
  return most === 0 ? null : { count: most, ...middleOf(grid, place) };
}

/**
 * No more columns and fills than this lie one over another, told from their boxes alone: in most designs so few that nobody need look
 * closer.
 */
export function mostBoxesStacked(
  { count }: Stitches,
  objects: readonly ObjectMeasures[],
  bounds: Bounds,
): number {
  const boxes = objects.filter((object) => threadPerMm2(object) > 0).map((object) => object.bounds);
  const { columns, rows, minX, minY, cellMm } = layGrid(bounds, CELL_MM, Math.max(CELLS_ALWAYS, count));
  const scale = 1 / cellMm;
  const wide = columns + 1;
  // Each box is put down at its corners, and what adds up from the lower left is how many lie over a cell.
  const over = new Int32Array(wide * (rows + 1));
  for (const box of boxes) {
    const left = ((box.minX - minX) * scale) | 0;
    const right = (((box.maxX - minX) * scale) | 0) + 1;
    const low = (((box.minY - minY) * scale) | 0) * wide;
    const high = ((((box.maxY - minY) * scale) | 0) + 1) * wide;
    over[low + left]++;
    over[low + right]--;
    over[high + left]--;
    over[high + right]++;
  }
  let most = 0;
  for (let c = 0, row = 0; row < rows; row++) {
    let sum = 0;
    for (let i = 0; i < wide; i++, c++) {
      sum += over[c];
      // the row above goes on from the sums of this one
      const here = sum + (row > 0 ? over[c - wide] : 0);
      over[c] = here;
      if (here > most) most = here;
    }
  }
  return most;
}

/** Thread that the object lays on a filled square millimetre, mm; 0 for a line, which fills nothing. */
function threadPerMm2({ object, spacingMm }: ObjectMeasures): number {
  if (spacingMm === null || !(spacingMm.median > 0)) return 0;
  // in a column a zig and a zag share each spacing
  return (object.kind === 'satin' ? 2 : 1) / spacingMm.median;
}
