import { LieflatError, printable } from '../lib/index.js';
import { memoryError } from '../lib/io/index.js';

/**
 * The one line that a person reads of an error, safe for a terminal.
 *
 * @param path the file at work, for an error that does not name it itself
 */
export function errorLine(error: unknown, path?: string): string {
  const known = error instanceof LieflatError ? error : memoryError(error, path ?? 'memory');
  const text =
    known !== null
      ? known.message
      : `${path === undefined ? '' : `${path}: `}something went wrong inside lieflat (${error instanceof Error ? error.message : String(error)}); run it again with --debug and report what it prints`;
  return `lieflat: ${printable(text)}\n`;
}

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
