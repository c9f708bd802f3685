import { type ErrorParts, LieflatError, printable } from '../lib/index.js';
import { memoryError } from '../lib/io/index.js';

/**
 * The one line that a person reads of an error, safe for a terminal.
 *
 * @param path the file at work, for an error that does not name it itself
 */
export const errorLine = (error: unknown, path?: string): string => lineOfParts(errorParts(error, path));

/** What a person reads of an error: where, what, and what to do. */
export type ErrorTold = Omit<ErrorParts, 'code'>;

/** The parts of {@link errorLine}, the place empty where nobody knows it. */
export function errorParts(error: unknown, path?: string): ErrorTold {
  const known = error instanceof LieflatError ? error : memoryError(error, path ?? 'memory');
  if (known !== null) return { place: known.place, what: known.what, todo: known.todo };
  const message = error instanceof Error ? error.message : String(error);
  return {
    place: path ?? '',
    what: `something went wrong inside lieflat (${message})`,
    todo: 'run it again with --debug and report what it prints',
  };
}

/** The line that a person reads, of its parts. */
export const lineOfParts = ({ place, what, todo }: ErrorTold): string =>
  `lieflat: ${printable(`${place === '' ? '' : `${place}: `}${what}; ${todo}`)}\n`;

/** Reads a table, and names the file of it where an error names the line alone. */
export async function inFile<T>(name: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof LieflatError) || !error.place.startsWith('line ')) throw error;
    throw new LieflatError({ ...error, place: `${name}: ${error.place}` });
  }
}

/** Where in the program an error came from, a line a call. */
export function traceOf(error: unknown): string {
  const stack = error instanceof Error ? (error.stack ?? '') : '';
  return stack
    .split('\n')
    .filter((line) => /^\s+at /.test(line))
    .map((line) => `${printable(line)}\n`)
    .join('');
}
