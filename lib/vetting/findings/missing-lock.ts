import { COMMON_PRACTICE } from '../../core/sourced.js';
import type { Finder } from '../context.js';
import { placeOf } from '../place-of.js';
import { firstStitch, isCutBetween } from '../spans.js';

/** A thread that is cut and has no lock there: it pulls out. */
export const missingLock: Finder = ({ objects, stitches }) =>
  objects.flatMap(({ object }, o) => {
    const first = firstStitch(object);
    const last = object.range[1];
    const before = o > 0 ? objects[o - 1].object.range[1] : -1;
    const after = o + 1 < objects.length ? firstStitch(objects[o + 1].object) : stitches.count;
    const starts = !object.locks.start && (o === 0 || isCutBetween(stitches, before, first));
    const ends = !object.locks.end && (o + 1 === objects.length || isCutBetween(stitches, last, after));
    if (!starts && !ends) return [];
    const what = starts && ends ? 'starts and ends' : starts ? 'starts' : 'ends';
    return {
      code: 'missing-lock',
      severity: 'warn',
      object: object.id,
      ...placeOf(stitches, starts ? first : last),
      measured: starts && ends ? 2 : 1,
      limit: 0,
      unit: 'open ends',
      message: `The thread ${what} without lock stitches: it can pull out in wear and washing. Add a lock there.`,
      basis: COMMON_PRACTICE,
    };
  });
