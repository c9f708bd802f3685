import { Break, breaksOf } from '../../format/stitches.js';
import type { Finder } from '../context.js';
import { judge, mildestEdge } from '../limits.js';
import { placeOf } from '../place-of.js';
import { isSewnIn, ownerOf } from '../spans.js';

/** Moves on the way to, or within, an object that leave a long loose thread on the face. */
export const jumpNotTrimmed: Finder = ({ stitches, objects, limits }) => {
  const { x, y } = stitches;
  const limit = limits['jump-not-trimmed'];
  const from = mildestEdge(limit);
  const worst = new Map<number | null, { stitch: number; mm: number; times: number }>();
  for (const i of breaksOf(stitches, Break.jump, Break.stop)) {
    const mm = Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
    if (!(mm > from) || isSewnIn(objects, i, mm)) continue;
    const owner = ownerOf(objects, i);
    const seen = worst.get(owner);
    if (!seen) worst.set(owner, { stitch: i, mm, times: 1 });
    else {
      seen.times++;
      if (mm > seen.mm) Object.assign(seen, { stitch: i, mm });
    }
  }
  return [...worst].flatMap(([object, { stitch, mm, times }]) => {
    const verdict = judge(limit, mm);
    if (!verdict) return [];
    return {
      code: 'jump-not-trimmed',
      ...verdict,
      object,
      ...placeOf(stitches, stitch),
      measured: mm,
      unit: 'mm',
      params: { count: times, longestMm: mm },
      fix: { do: 'ask-digitizer', objects: object === null ? [] : [object], to: 'add-trims' },
      basis: limit.basis,
    };
  });
};
