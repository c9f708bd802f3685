import {
  DEFAULT_MAX_BYTES,
  type DesignFile,
  LieflatError,
  listDesignFiles,
  readDesignFile,
} from '../lib/index.js';
import { badArgument } from './bad-argument.js';
import { errorLine } from './error-lines.js';
import { type Io, print } from './io.js';
import { pathFrom } from './settings.js';

/** The files of a batch, and whether something was in the way so far. */
export interface Batch {
  files: readonly string[];
  failed: boolean;
}

/**
 * The files that the words of the command line stand for; `-` stands for a list of paths on standard input, one a
 * line. Every word that leads nowhere is reported and the rest go on.
 */
export async function batchOf(words: readonly string[], io: Io): Promise<Batch> {
  const paths: string[] = [];
  for (const word of words) {
    if (word === '-') paths.push(...(await listedPaths(io)));
    else paths.push(word);
  }
  if (paths.length === 0) throw badArgument('the list on standard input is empty', 'write one path a line');
  const { files, errors } = await listDesignFiles(paths.map((path) => pathFrom(io, path)));
  for (const error of errors) await print(io.stderr, errorLine(error));
  return { files, failed: errors.length > 0 };
}

/** Reads one file of a batch; one that cannot be read is reported and counted, and gives null. */
export async function readOne(path: string, batch: Batch, io: Io): Promise<DesignFile | null> {
  try {
    return await readDesignFile(path, io);
  } catch (error) {
    if (!(error instanceof LieflatError)) throw error;
    await print(io.stderr, errorLine(error));
    batch.failed = true;
    return null;
  }
}

async function listedPaths(io: Io): Promise<string[]> {
  const { maxBytes = DEFAULT_MAX_BYTES } = io;
  const decoder = new TextDecoder();
  let text = '';
  let bytes = 0;
  for await (const piece of io.stdin) {
    bytes += Buffer.byteLength(piece);
    if (bytes > maxBytes) throw listTooLarge(maxBytes);
    text += typeof piece === 'string' ? piece : decoder.decode(piece, { stream: true });
  }
  return (text + decoder.decode()).split(/\r?\n/).filter((line) => line.trim() !== '');
}

function listTooLarge(maxBytes: number): LieflatError {
  return new LieflatError({
    code: 'too-large',
    place: 'standard input',
    what: `the list has more than the ${maxBytes} bytes that are read`,
    todo: 'check that it is a list of paths, or raise the limit with --max-bytes',
  });
}
