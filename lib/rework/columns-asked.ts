import { LieflatError } from '../core/errors.js';
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
  for (const id of asked) {
    const kind = objects.find((object) => object.id === id)?.kind;
    if (kind === 'satin') continue;
    const todo = 'name satin columns by the numbers that lieflat columns lists';
    throw kind === undefined
      ? new LieflatError({
          code: 'unknown-id',
          place: '--objects',
          what: `there is no object ${id}, the design has ${objects.length}`,
          todo,
        })
      : new LieflatError({
          code: 'bad-argument',
          place: '--objects',
          what: `object ${id} is a ${kind}, not a satin column`,
          todo,
        });
  }
  return [...new Set(asked)].sort((a, b) => a - b);
}
