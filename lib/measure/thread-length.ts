import type { Sourced } from '../core/sourced.js';
import { Break, type Stitches } from '../format/stitches.js';

/** What decides how much thread a stitch takes. */
export interface ThreadUse {
  /** Thickness of what is sewn through: fabric and backing, pressed by the foot, mm. */
  readonly thicknessMm: Sourced;
  /** Bobbin thread used for each length of top thread. */
  readonly bobbinPerTop: Sourced;
}

/** Thread that a design takes, mm. */
export interface ThreadLength {
  threadMm: number;
  bobbinMm: number;
}

/**
 * Thread of both kinds together in one lockstitch (type 301 of ISO 4915): `2·l + 2·T` for a stitch of length `l`
 * through a thickness `T`, in the unit of both. Per inch of seam this is the published `C = 2 + 2·T·S` with `S`
 * stitches an inch.
 */
export const lockstitchMm = (lengthMm: number, thicknessMm: number): number => 2 * lengthMm + 2 * thicknessMm;

/**
 * Thread that the stitches take. Embroidery is not sewn with both threads at balance: the top thread is drawn
 * under, so the lockstitch's total is shared out by `bobbinPerTop`. Thread lies wherever the needle went on
 * without a trim or colour change; tails are not counted.
 */
export function threadLength(stitches: Stitches, use: ThreadUse): ThreadLength {
  const { x, y, breakBefore, count } = stitches;
  let laid = 0;
  let sewn = 0;
  let px = x[0];
  let py = y[0];
  for (let i = 1; i < count; i++) {
    const dx = x[i] - px;
    const dy = y[i] - py;
    px = x[i];
    py = y[i];
    if (breakBefore[i] >= Break.trim) continue;
    laid += Math.sqrt(dx * dx + dy * dy);
    sewn++;
  }
  return threadOfStitches(laid, sewn, use);
}

/** Thread of so many stitches that are so long together, mm. */
export function threadOfStitches(laidMm: number, sewn: number, use: ThreadUse): ThreadLength {
  const both = lockstitchMm(laidMm, use.thicknessMm.value * sewn);
  const threadMm = both / (1 + use.bobbinPerTop.value);
  return { threadMm, bobbinMm: both - threadMm };
}

/** The same color block by color block, from the first; together they are that of the whole. */
export function threadByBlock(stitches: Stitches, use: ThreadUse): ThreadLength[] {
  const { x, y, block, breakBefore, count } = stitches;
  const blocks = count === 0 ? 0 : block[count - 1] + 1;
  const laid = new Float64Array(blocks);
  const sewn = new Float64Array(blocks);
  for (let i = 1; i < count; i++) {
    if (breakBefore[i] >= Break.trim) continue;
    laid[block[i]] += Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
    sewn[block[i]]++;
  }
  return Array.from(laid, (length, k) => threadOfStitches(length, sewn[k], use));
}
