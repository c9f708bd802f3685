import { Break, type Stitches } from '../format/stitches.js';
import { layGrid, middleOf } from './grid.js';
import type { Bounds, DesignMeasures, ObjectMeasures } from './measures.js';

/** Side of a cell, mm. */
const CELL_MM = 2;
/** Cells that any design may have: a field of half a metre by half a metre. */
const CELLS_ALWAYS = 1 << 16;
/** An object covers a cell where the thread that it lays there would cover at least this share of it. */
const COVER_SHARE = 0.5;
/** Width that a 40-weight thread covers, mm (common practice, no source). */
const THREAD_COVER_MM = 0.4;
/** A stitch is followed in at most this many steps, however far it goes. */
const MOST_STEPS = 256;

/**
 * The place where most objects lie one over another, counting top stitching only; null where no object covers a
 * cell (lines alone). Neighbours that share an edge do not count as stacked: each has to cover half of the cell
 * by itself.
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
  const lastObject = new Int32Array(columns * rows).fill(-1);
  const laid = new Float32Array(columns * rows);
  const layers = new Uint16Array(columns * rows);
  /** Thread that covers enough of a cell, in sides of a cell. */
  const enough = (COVER_SHARE * cellMm) / THREAD_COVER_MM;
  let most = 0;
  let place = 0;
  for (let o = 0; o < objects.length; o++) {
    const [first, last] = objects[o].object.range;
    let px = (x[first] - minX) * scale;
    let py = (y[first] - minY) * scale;
    for (let k = first + 1; k <= last; k++) {
      const ax = px;
      const ay = py;
      px = (x[k] - minX) * scale;
      py = (y[k] - minY) * scale;
      if (breakBefore[k] > Break.jump) continue;
      const length = Math.sqrt((px - ax) * (px - ax) + (py - ay) * (py - ay));
      const steps = Math.min(MOST_STEPS, Math.ceil(length));
      for (let s = 0; s < steps; s++) {
        const f = (s + 0.5) / steps;
        const c = ((ay + f * (py - ay)) | 0) * columns + ((ax + f * (px - ax)) | 0);
        if (lastObject[c] !== o) {
          lastObject[c] = o;
          laid[c] = 0;
        } else if (laid[c] >= enough) {
          continue;
        }
        laid[c] += length / steps;
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
