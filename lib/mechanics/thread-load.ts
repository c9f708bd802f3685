/**
 * What the thread does: a stitch of length l and tension T pulls its two needle points together. Smeared over the goods that is a
 * membrane prestress, N* = (1/area) Σ T·l·t⊗t, which for parallel lines at spacing s is T/s along the lines.
 */
import type { Stitches } from '../format/stitches.js';
import { CellShares, type Grid, newTensorField, type TensorField } from './grid.js';

/**
 * Tension left in a stitch, N. At both needle points the thread beds into the goods, and that slack c is shared over the stitch's
 * own stretch: T0·l/EA = T·l/EA + T·c, so T = T0·l/(l + lc) with lc = EA·c.
 */
export const stitchTension = (lengthMm: number, tensionN: number, bedInMm: number): number =>
  (tensionN * lengthMm) / (lengthMm + bedInMm);

export interface ThreadRaster {
  /** N/mm. */
  readonly prestress: TensorField;
  /** Length of thread per area, 1/mm: lines of thread a mm, all directions together. */
  readonly lines: Float64Array;
}

/** Pieces into which a thread is cut are at most this part of a cell. */
const PIECE = 0.5;

/**
 * The prestress of all stitches for which `tension` gives more than nothing. `tension(length, i)` is the pull in N of the thread
 * from penetration i − 1 to i; a negative value leaves that thread out.
 */
export function rasterise(
  grid: Grid,
  stitches: Stitches,
  tension: (lengthMm: number, i: number) => number,
): ThreadRaster {
  const { x, y, count } = stitches;
  const cells = grid.nx * grid.ny;
  const prestress = newTensorField(cells);
  const lines = new Float64Array(cells);
  const shares = new CellShares(grid);
  const { at, share } = shares;
  const area = grid.cellMm * grid.cellMm;
  for (let i = 1; i < count; i++) {
    const dx = x[i] - x[i - 1];
    const dy = y[i] - y[i - 1];
    const length = Math.hypot(dx, dy);
    if (length === 0) continue;
    const pull = tension(length, i);
    if (pull < 0) continue;
    const pieces = Math.ceil(length / (PIECE * grid.cellMm));
    const perPiece = length / pieces / area;
    const c = dx / length;
    const s = dy / length;
    const xx = pull * c * c * perPiece;
    const yy = pull * s * s * perPiece;
    const xy = pull * c * s * perPiece;
    for (let k = 0; k < pieces; k++) {
      const t = (k + 0.5) / pieces;
      shares.place(x[i - 1] + t * dx, y[i - 1] + t * dy);
      for (let q = 0; q < 4; q++) {
        const p = at[q];
        const w = share[q];
        prestress.xx[p] += xx * w;
        prestress.yy[p] += yy * w;
        prestress.xy[p] += xy * w;
        lines[p] += perPiece * w;
      }
    }
  }
  return { prestress, lines };
}

/**
 * Further prestress when the thread draws in by `shrink` (a part of one) in laundering. Thread and goods share the shortening like
 * springs side by side: the goods take all of it where they are soft, none where they are stiffer than the thread. Without
 * that rule, with EA·shrink as a dead load, one dryer would pull eight times harder than the machine did, and the goods would
 * shorten by far more than the thread.
 *
 * `perTension` turns the prestress into the thread's own stiffness per width: EA/T0, 1/1, since both carry l/(l + lc).
 */
export function launderedPrestress(
  sewn: TensorField,
  perTension: number,
  shrink: number,
  goodsStiffness: number,
): TensorField {
  const cells = sewn.xx.length;
  const out = newTensorField(cells);
  for (let p = 0; p < cells; p++) {
    const thread = perTension * (sewn.xx[p] + sewn.yy[p]);
    if (thread === 0) continue;
    const factor = (perTension * shrink * goodsStiffness) / (goodsStiffness + thread);
    out.xx[p] = sewn.xx[p] * factor;
    out.yy[p] = sewn.yy[p] * factor;
    out.xy[p] = sewn.xy[p] * factor;
  }
  return out;
}
