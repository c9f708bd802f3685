import { Break, type Stitches } from '../format/stitches.js';
import { cellAt, type Grid } from './grid.js';
import type { DesignMeasures, ObjectMeasures } from './measures.js';

/** An object covers a cell where the thread that it lays there would cover at least this share of it. */
const COVER_SHARE = 0.5;
/** Width that a 40-weight thread covers, mm (common practice, no source). */
const THREAD_COVER_MM = 0.4;
/** A stitch is followed in at most this many steps, however far it goes. */
const MOST_STEPS = 256;

/**
 * The place where most objects lie one over another, counting top stitching only; null where no
 * object covers a cell (lines alone).
 * Neighbours that share an edge do not count as stacked: each has to cover half of the cell by itself.
 */
export function stackedLayers(
  stitches: Stitches,
  objects: readonly ObjectMeasures[],
  grid: Grid,
): DesignMeasures['layers'] {
  if (stitches.count === 0) return null;
  const { x, y, breakBefore } = stitches;
  const cells = grid.columns * grid.rows;
  const lastObject = new Int32Array(cells).fill(-1);
  const laid = new Float32Array(cells);
  const layers = new Uint16Array(cells);
  const enough = (COVER_SHARE * grid.cellMm * grid.cellMm) / THREAD_COVER_MM;
  let most = 0;
  let place = 0;
  for (let o = 0; o < objects.length; o++) {
    const [first, last] = objects[o].object.range;
    for (let k = first + 1; k <= last; k++) {
      if (breakBefore[k] > Break.jump) continue;
      const dx = x[k] - x[k - 1];
      const dy = y[k] - y[k - 1];
      const length = Math.sqrt(dx * dx + dy * dy);
      const steps = Math.min(MOST_STEPS, Math.ceil(length / grid.cellMm));
      const step = length / steps;
      for (let s = 0; s < steps; s++) {
        const f = (s + 0.5) / steps;
        const c = cellAt(grid, x[k - 1] + f * dx, y[k - 1] + f * dy);
        if (lastObject[c] !== o) {
          lastObject[c] = o;
          laid[c] = 0;
        } else if (laid[c] >= enough) {
          continue;
        }
        laid[c] += step;
        if (laid[c] < enough || layers[c] === 0xffff) continue;
        layers[c]++;
        if (layers[c] > most) {
          most = layers[c];
          place = c;
        }
      }
    }
  }
  if (most === 0) return null;
  const column = place % grid.columns;
  const row = (place - column) / grid.columns;
  return {
    count: most,
    x: grid.minX + (column + 0.5) * grid.cellMm,
    y: grid.minY + (row + 0.5) * grid.cellMm,
  };
}
