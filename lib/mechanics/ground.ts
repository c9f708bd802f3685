/** How many cells a design is worth: work follows the thread, not the empty fabric between its parts. */
import type { Bounds } from '../core/bounds.js';
import { Break, type Stitches } from '../format/stitches.js';
import { sheetAbout } from './grid.js';

/** Side of the squares in which fabric near thread is counted, mm: stitching moves the fabric about so far on each side of it. */
const SQUARE_MM = 16;
/** A stitch is followed in at most this many steps, however far it goes. */
const MOST_STEPS = 256;
/**
 * Fabric may be this many times what lies near thread before its cells grow. A solid design takes 2 to 4, a ring of letters 10,
 * two small names at the ends of a sleeve 30.
 */
const USUAL_SHARE = 40;
/** Any design may have so many cells: a quarter of a second for a solve. */
const CELLS_ALWAYS = 1 << 16;

/**
 * Cells that a design may have. Where fabric is more than {@link USUAL_SHARE} times what lies near thread, they fall with the
 * square of that excess, from `mostCells` down to what any design may have.
 */
export function cellsForGround(stitches: Stitches, bounds: Bounds, mostCells: number): number {
  const { widthMm, heightMm } = sheetAbout(bounds);
  const times = (widthMm * heightMm) / groundNearThread(stitches);
  // Without stitches there is no ground, and no telling.
  if (!(times > USUAL_SHARE)) return mostCells;
  return Math.max(CELLS_ALWAYS, mostCells * (USUAL_SHARE / times) ** 2);
}

/** Area of the squares that hold needle points or are crossed by stitches, mm². */
function groundNearThread({ x, y, breakBefore, count }: Stitches): number {
  const squares = new Set<number>();
  let last = Number.NaN;
  const touch = (px: number, py: number) => {
    const key = Math.floor(px / SQUARE_MM) * 0x4000000 + Math.floor(py / SQUARE_MM);
    if (key !== last) squares.add(key);
    last = key;
  };
  for (let i = 0; i < count; i++) {
    if (i > 0 && breakBefore[i] < Break.jump) {
      const [dx, dy] = [x[i] - x[i - 1], y[i] - y[i - 1]];
      const steps = Math.min(MOST_STEPS, Math.ceil(Math.hypot(dx, dy) / SQUARE_MM));
      for (let k = 1; k < steps; k++) touch(x[i - 1] + (k / steps) * dx, y[i - 1] + (k / steps) * dy);
    }
    touch(x[i], y[i]);
  }
  return squares.size * SQUARE_MM * SQUARE_MM;
}
