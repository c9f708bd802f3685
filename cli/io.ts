import { type AnswersPlace, fileError } from '../lib/io/index.js';
import type { FileLimits } from './budget.js';

/** Where a command writes: a stream of Node, or a list in a test. */
export interface Sink {
  /** It is a terminal. */
  readonly isTTY?: boolean;
  /** Its descriptor, where it is a stream of the process. */
  readonly fd?: number;
  write(text: string, done: (error?: Error | null) => void): unknown;
}

/** All that a command knows of the world outside, so that a test can be the world. */
export interface Io {
  stdout: Sink;
  stderr: Sink;
  stdin: AsyncIterable<string | Uint8Array>;
  cwd: string;
  env: Readonly<Record<string, string | undefined>>;
  /** Standard output is a terminal. */
  isTTY: boolean;
  /** Asks a person one thing, at a terminal: their line without its end, null where they went away. Nobody can be asked without it. */
  ask?: (prompt: string) => Promise<string | null>;
  /** Width of that terminal. */
  columns: number | undefined;
  /** The largest file that is read, where a limit was given. */
  maxBytes?: number;
  /** What the work on one file may take, where limits were given or the command has its own. */
  limits?: FileLimits;
  /** Where answers that take long can be kept from run to run; nowhere without it. */
  keeping?: () => AnswersPlace | undefined;
  /** Where they are. */
  answers?: AnswersPlace;
  /** The one folder that is written to, where one was given. */
  outDir?: string;
  /** Paths of what this run reads: no file that it writes is ever one of them. */
  inputs?: string[];
  /** Told what is being done, and how much of it is done, from 0 to 1, where it can be counted; who is no terminal learns it by this alone. */
  onNotice?: (notice: string, share?: number) => void;
  /**
   * Calls back once when the person (Ctrl-C) or the system asks to stop; asked a second time, the process ends at once. Returns what lets go
   * of it. Without it nothing is told.
   */
  onStop?: (stop: () => void) => () => void;
}

/**
 * Writes and waits until it is taken, so that a slow reader holds us up instead of filling memory.
 *
 * @returns false where the reader has gone away (`| head`): stop writing, it is no error
 */
export function print(sink: Sink, text: string): Promise<boolean> {
  return new Promise((resolve, reject) => {
    sink.write(text, (error) => {
      if (!error) resolve(true);
      else if ('code' in error && (error.code === 'EPIPE' || error.code === 'ERR_STREAM_DESTROYED'))
        resolve(false);
      else reject(fileError(error, 'standard output', 'writing'));
    });
  });
}

/** Columns to set printed reports in: the terminal's, from 40 to 80; 80 where there is none. */
export function printWidth(io: Io): number {
  return io.isTTY && io.columns ? Math.min(80, Math.max(40, io.columns)) : 80;
}
