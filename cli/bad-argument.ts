import { LieflatError, nearestName } from '../lib/index.js';

/** The error for a command line that cannot be understood. */
export function badArgument(what: string, todo: string): LieflatError {
  return new LieflatError({ code: 'bad-argument', place: 'command line', what, todo });
}

/** The error for a file to write whose name does not end as it must: `.dst or .csv`. */
export const wrongEnding = (option: string, name: string, endings: string): LieflatError =>
  badArgument(`${option} cannot be ${name}`, `give it a name that ends in ${endings}`);

/** `did you mean --format?` where a known name is near, else the fallback. */
export async function suggestion(
  given: string,
  known: readonly string[],
  prefix: string,
  fallback: string,
): Promise<string> {
  const near = await nearestName(given, known);
  return near === null ? fallback : `did you mean ${prefix}${near}?`;
}

/** The error for a file that was read and holds nothing to work on. */
export const noStitches = (path: string): LieflatError =>
  new LieflatError({
    code: 'undecodable',
    place: path,
    what: 'the file holds no stitches',
    todo: 'ask for the file again; lieflat vet shows what is in it',
  });
