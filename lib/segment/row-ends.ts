/**
 * The first and last rows of a fill are often too short to show as rows (the tip of a leaf, the corner of a
 * square), and the row that travel leads to is lost in it. They are told by going on as the rows do: each stitch
 * stays within the next row or steps on by one, away from the rows already there.
 */
import type { Stitches } from '../format/stitches.js';
import { FINDER } from './parameters.js';

const STEP = FINDER.rowStep.value;
const ON_ROW = FINDER.onRow.value;
const BEYOND_MM = FINDER.rowBeyond.value;

/** The two rows at the end of a section where it is to be continued, the outermost last, as stitch indexes. */
export interface EndRows {
  readonly inner: readonly [from: number, to: number];
  readonly outer: readonly [from: number, to: number];
}

/**
 * Continues a section of rows outwards.
 *
 * @param start last stitch index that belongs to the section
 * @param limit last stitch index that may be taken (a lower one than `start` to go backwards)
 * @returns the last stitch index taken; `start` where nothing goes on
 */
export function continueRows(
  stitches: Stitches,
  rows: EndRows,
  pitchMm: number,
  start: number,
  limit: number,
): number {
  const { x, y } = stitches;
  const [a, b] = rows.outer;
  let ux = x[b] - x[a];
  let uy = y[b] - y[a];
  const l = Math.hypot(ux, uy);
  if (l === 0) return start;
  ux /= l;
  uy /= l;
  const along = (i: number) => x[i] * ux + y[i] * uy;
  const off = (i: number) => y[i] * ux - x[i] * uy;
  const middle = (r: readonly [number, number]) => (off(r[0]) + off(r[1])) / 2;
  const outwards = Math.sign(middle(rows.outer) - middle(rows.inner));
  if (outwards === 0) return start;
  const step = limit >= start ? 1 : -1;
  const low = Math.min(along(a), along(b)) - BEYOND_MM;
  const high = Math.max(along(a), along(b)) + BEYOND_MM;
  let at = outwards * off(start);
  let taken = start;
  let way = 0;
  let heading = 0;
  for (let i = start + step; step > 0 ? i <= limit : i >= limit; i += step) {
    const u = along(i);
    const v = outwards * off(i);
    const du = u - along(i - step);
    if (v < at - ON_ROW * pitchMm || v > at + STEP * pitchMm || u < low || u > high) break;
    if (v >= at + ON_ROW * pitchMm) {
      at = v;
      taken = i;
      way = 0;
      heading = 0;
    } else if (taken !== start && taken === i - step && heading * du >= 0) {
      // on along the row that was just reached
      taken = i;
      heading = Math.sign(du);
    } else {
      // perhaps the slow slope of a row that leads on to the next; an edge run beside the last row leads nowhere
      way += Math.abs(du);
      if (way > l + BEYOND_MM) break;
    }
  }
  return taken;
}
