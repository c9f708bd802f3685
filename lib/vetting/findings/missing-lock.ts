import { COMMON_PRACTICE } from '../../core/sourced.js';
import type { Finder } from '../context.js';
import { placeOf } from '../place-of.js';
import { ThreadEnds } from '../thread-ends.js';

/** A thread that is cut and has no lock there: it pulls out. */
export const missingLock: Finder = ({ objects, stitches }) => {
  const ends = new ThreadEnds(stitches, objects);
  return objects.flatMap(({ object }) => {
    const first = ends.start(object);
    const last = object.range[1];
    const opens = !object.locks.start && ends.isFirst(first);
    const closes = !object.locks.end && ends.isLast(last);
    if (!opens && !closes) return [];
    return {
      code: 'missing-lock',
      severity: 'warn',
      object: object.id,
      ...placeOf(stitches, opens ? first : last),
      measured: opens && closes ? 2 : 1,
      limit: 0,
      unit: 'open ends',
      params: { at: opens && closes ? 'both' : opens ? 'start' : 'end' },
      fix: { do: 'ask-digitizer', objects: [object.id], to: 'add-locks' },
      basis: COMMON_PRACTICE,
    };
  });
};
