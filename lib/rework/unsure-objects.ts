import { noSuchObject } from '../segment/no-such-object.js';
import { type StitchObject, UNSURE } from '../segment/objects.js';

/**
 * Ids of objects of which it is not sure what they are: nothing is sewn anew by a guess, unless it is asked for by its id.
 *
 * @param asked ids that a person names
 * @throws LieflatError `unknown-id`
 */
export function unsureObjects(objects: readonly StitchObject[], asked: readonly number[] = []): Set<number> {
  const known = new Set(objects.map(({ id }) => id));
  const unknown = asked.find((id) => !known.has(id));
  if (unknown !== undefined)
    throw noSuchObject(
      '--objects',
      unknown,
      objects.length,
      'name objects by the numbers that lieflat columns lists',
    );
  const named = new Set(asked);
  return new Set(
    objects.flatMap(({ id, confidence }) => (confidence < UNSURE && !named.has(id) ? [id] : [])),
  );
}
