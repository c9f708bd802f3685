import { degToRad } from '../../core/units.js';
import { Break, type Stitches } from '../../format/stitches.js';
import type { StitchObject } from '../../segment/objects.js';
import type { Finder } from '../context.js';
import { FEW_STITCHES, judge, mildestEdge } from '../limits.js';
import { placeOf } from '../place-of.js';

/** Stitches so short that they break thread, one finding an object. */
export const stitchTooShort: Finder = ({ stitches, objects, limits, locks }) => {
  const limit = limits['stitch-too-short'];
  const below = mildestEdge(limit);
  return objects.flatMap(({ object, stitches: total, angleDeg, stitchLengthMm }) => {
    // nearly all that is sewn well is passed over by its shortest stitch, with room for the last digits
    if (stitchLengthMm.min > below + 1e-6) return [];
    const rowsDeg = object.kind === 'fill' ? angleDeg : null;
    const { count, stitch, least2 } = shortStitches(stitches, object, rowsDeg, locks, below);
    const mm = Math.sqrt(least2);
    const verdict = count > 0 ? judge(limit, mm) : null;
    if (!verdict) return [];
    const many = judge(limits['stitch-too-short-share'], (100 * count) / total);
    const severity = many && count >= FEW_STITCHES ? many.severity : verdict.severity;
    return {
      code: 'stitch-too-short',
      severity,
      object: object.id,
      ...placeOf(stitches, stitch),
      measured: mm,
      limit: verdict.limit,
      unit: 'mm',
      params: { count, limitMm: verdict.limit, shortestMm: mm },
      fix: { do: 'ask-digitizer', objects: [object.id], to: 'remove-short-stitches' },
      basis: limit.basis,
    };
  });
};

/**
 * Number of the object's short stitches, where the shortest ends, and the square of its length. Locks are left out, and so are, where rows
 * lie at `rowsDeg`, the steps over to the next row: they are as long as the rows are apart.
 */
function shortStitches(
  { x, y, breakBefore }: Stitches,
  { range }: StitchObject,
  rowsDeg: number | null,
  locks: Uint8Array,
  below: number,
): { count: number; stitch: number; least2: number } {
  const below2 = below * below;
  const ux = Math.cos(degToRad(rowsDeg ?? 0));
  const uy = Math.sin(degToRad(rowsDeg ?? 0));
  let count = 0;
  let stitch = -1;
  let least2 = Number.POSITIVE_INFINITY;
  for (let i = range[0] + 1; i <= range[1]; i++) {
    const dx = x[i] - x[i - 1];
    const dy = y[i] - y[i - 1];
    const d2 = dx * dx + dy * dy;
    if (d2 >= below2 || breakBefore[i] !== Break.none || (locks[i] && locks[i - 1])) continue;
    if (rowsDeg !== null && Math.abs(dy * ux - dx * uy) > Math.abs(dx * ux + dy * uy)) continue;
    count++;
    if (d2 < least2) {
      least2 = d2;
      stitch = i;
    }
  }
  return { count, stitch, least2 };
}
