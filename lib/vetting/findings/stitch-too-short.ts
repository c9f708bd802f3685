import { Break, type Stitches } from '../../format/stitches.js';
import type { StitchObject } from '../../segment/objects.js';
import type { Finder } from '../context.js';
import { judge, mildest } from '../limits.js';
import { placeOf } from '../place-of.js';
import { counted, inWords } from '../words.js';

/** Fewer than this many short stitches in an object are a note, whatever their share. */
const FEW = 3;

/** Stitches so short that they break thread, one finding an object. */
export const stitchTooShort: Finder = ({ stitches, objects, limits, locks }) => {
  const limit = limits['stitch-too-short'];
  const below = mildest(limit);
  return objects.flatMap(({ object, stitches: total }) => {
    const short = shortStitches(stitches, object, locks, below);
    const verdict = short.count > 0 ? judge(limit, short.mm) : null;
    if (!verdict) return [];
    const many = judge(limits['stitch-too-short-share'], (100 * short.count) / total);
    const severity = many && short.count >= FEW ? many.severity : verdict.severity;
    return {
      code: 'stitch-too-short',
      severity,
      object: object.id,
      ...placeOf(stitches, short.stitch),
      measured: short.mm,
      limit: verdict.limit,
      unit: 'mm',
      message: `${counted(short.count, 'stitch is', 'stitches are')} shorter than ${inWords(verdict.limit)}, the shortest ${inWords(short.mm)}: the needle meets its own thread and breaks it. Take the short stitches out.`,
      basis: limit.basis,
    };
  });
};

/** Number of the object's short stitches, and where the shortest ends; locks and the turns of rows left out. */
function shortStitches(
  { x, y, breakBefore }: Stitches,
  { range, kind, from }: StitchObject,
  locks: Uint8Array,
  below: number,
): { count: number; stitch: number; mm: number } {
  const below2 = below * below;
  let count = 0;
  let stitch = -1;
  let least2 = Number.POSITIVE_INFINITY;
  let row = 0;
  for (let i = range[0] + 1; i <= range[1]; i++) {
    if (breakBefore[i] !== Break.none || (locks[i] && locks[i - 1])) continue;
    const dx = x[i] - x[i - 1];
    const dy = y[i] - y[i - 1];
    const d2 = dx * dx + dy * dy;
    if (d2 >= below2) continue;
    if (kind === 'fill') {
      while (row < from.length && from[row] < i) row++;
      // the step from one row over to the next is as long as the rows are apart
      if (row < from.length && from[row] === i) continue;
    }
    count++;
    if (d2 < least2) {
      least2 = d2;
      stitch = i;
    }
  }
  return { count, stitch, mm: Math.sqrt(least2) };
}
