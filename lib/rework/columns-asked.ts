import { LieflatError } from '../core/errors.js';
import { noSuchObject } from '../segment/no-such-object.js';
import type { StitchObject } from '../segment/objects.js';

/**
 * Holds the ids of columns that a person names against what there is.
 *
 * @returns them in sewing order, each once; null where nobody names any
 * @throws LieflatError `unknown-id`, `bad-argument` for an object that is no satin column
 */
export function columnsAsked(
  objects: readonly StitchObject[],
  asked: readonly number[] | undefined,
): number[] | null {
  if (asked === undefined) return null;
  const kinds = new Map(objects.map(({ id, kind }) => [id, kind]));
  for (const id of asked) {
    const kind = kinds.get(id);
    if (kind === 'satin') continue;
    const todo = 'name satin columns by the numbers that lieflat columns lists';
    throw kind === undefined
      ? noSuchObject('--objects', id, objects.length, todo)
      : new LieflatError({
          code: 'bad-argument',
          place: '--objects',
          what: `object ${id} is a ${kind}, not a satin column`,
          todo,
        });
  }
  return [...new Set(asked)].sort((a, b) => a - b);
}
