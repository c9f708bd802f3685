import { LieflatError } from '../../lib/index.js';
import { DEFAULT_MAX_BYTES, listDesignFiles, textOfList } from '../../lib/io/index.js';
import { badArgument } from '../bad-argument.js';
import { type ErrorTold, errorLine } from '../error-lines.js';
import { type Io, print } from '../io.js';
import { pathFrom } from '../settings.js';

/** The files of a batch, and how many words led nowhere, and why. */
export interface FileList {
  files: readonly string[];
  missing: number;
  faults: readonly ErrorTold[];
  /** How many files lie beside them whose endings are not read. */
  otherEndings: ReadonlyMap<string, number>;
}

/**
 * The files that the words of the command line stand for; `-` stands for a list of paths on standard input, one a
 * line, or set apart by NUL as `find -print0` does. Every word that leads nowhere is reported and the rest go on.
 */
export async function listFiles(words: readonly string[], io: Io): Promise<FileList> {
  const paths: string[] = [];
  for (const word of words) {
    if (word === '-') for (const path of await listedPaths(io)) paths.push(path);
    else paths.push(word);
  }
  if (paths.length === 0) throw badArgument('the list on standard input is empty', 'write one path a line');
  const { files, errors, otherEndings } = await listDesignFiles(paths.map((path) => pathFrom(io, path)));
  for (const error of errors) await print(io.stderr, errorLine(error));
  for (const file of files) io.inputs?.push(file);
  return { files, missing: errors.length, faults: errors, otherEndings };
}

async function listedPaths(io: Io): Promise<string[]> {
  const { maxBytes = DEFAULT_MAX_BYTES } = io;
  const pieces: Buffer[] = [];
  let bytes = 0;
  for await (const piece of io.stdin) {
    bytes += Buffer.byteLength(piece);
    if (bytes > maxBytes) throw listTooLarge(maxBytes);
    pieces.push(Buffer.from(piece as Uint8Array));
  }
  const text = textOfList(Buffer.concat(pieces));
  // No path holds a NUL, so one says how the list is set.
  return text.split(text.includes('\0') ? '\0' : /\r?\n/).filter((line) => line.trim() !== '');
}

function listTooLarge(maxBytes: number): LieflatError {
  return new LieflatError({
    code: 'too-large',
    place: 'standard input',
    what: `the list has more than the ${maxBytes} bytes that are read`,
    todo: 'check that it is a list of paths, or raise the limit with --max-bytes',
  });
}
