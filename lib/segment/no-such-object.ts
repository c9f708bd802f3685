import { LieflatError } from '../core/errors.js';

/** What is said where a person names an object by a number that none of a design has. */
export const noSuchObject = (place: string, id: number, count: number, todo: string): LieflatError =>
  new LieflatError({
    code: 'unknown-id',
    place,
    what: `there is no object ${id}, the design has ${count}`,
    todo,
  });
