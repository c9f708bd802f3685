import { distance } from '../../core/distance.js';
import { Break } from '../../format/stitches.js';
import type { Finder } from '../context.js';
import { FEW_STITCHES, judge, mildestEdge } from '../limits.js';
import { placeOf } from '../place-of.js';

/**
 * Long loose stitches on the face, one finding an object. A satin column that is too wide as a whole is said
 * elsewhere; here are rows, runs and slanted swings.
 */
export const stitchTooLong: Finder = ({ stitches, objects, limits }) => {
  const limit = limits['stitch-too-long'];
  const above = mildestEdge(limit);
  const { x, y, breakBefore } = stitches;
  return objects.flatMap(({ object, widthMm, stitchLengthMm }) => {
    if (!(stitchLengthMm.max > above)) return [];
    if (widthMm && !object.split && judge(limits['satin-too-wide'], widthMm.p95)) return [];
    let count = 0;
    let longest = 0;
    let stitch = -1;
    for (let i = object.range[0] + 1; i <= object.range[1]; i++) {
      if (breakBefore[i] !== Break.none) continue;
      const mm = distance(x[i - 1], y[i - 1], x[i], y[i]);
      if (!(mm > above)) continue;
      count++;
      if (mm > longest) {
        longest = mm;
        stitch = i;
      }
    }
    const verdict = judge(limit, longest);
    if (!verdict) return [];
    return {
      code: 'stitch-too-long',
      ...verdict,
      severity: count < FEW_STITCHES ? 'note' : verdict.severity,
      object: object.id,
      ...placeOf(stitches, stitch),
      measured: longest,
      unit: 'mm',
      params: { count, limitMm: verdict.limit, longestMm: longest },
      fix: { do: 'ask-digitizer', objects: [object.id], to: 'shorten-stitches' },
      basis: limit.basis,
    };
  });
};
