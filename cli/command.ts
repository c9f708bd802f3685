import type { Options } from 'yargs';
import type { Io } from './io.js';
import type { Everywhere, Given } from './options.js';

/** The words after a command's name that are no options, in order. */
export interface Words {
  words: readonly string[];
}

/** Does the work and returns the exit code. */
export type Handler<A> = (args: A, io: Io) => Promise<number>;

/** One entry of the command table. */
export interface Command<A = never> {
  summary: string;
  /** What comes after the command's name, as the help shows it. */
  usage: string;
  /** How many words it takes after its name. */
  words: readonly [least: number, most: number];
  options: Readonly<Record<string, Options>>;
  /** It works the pucker out or makes a file anew, so it may take longer with each. */
  slow?: true;
  /** One real command line. */
  example: string;
  /** Loaded only when the command is run, so that each pays for itself alone. */
  load(): Promise<Handler<A>>;
}

/** An entry of the table: the compiler holds what its handler expects against what its options give. */
export function command<const O extends Readonly<Record<string, Options>>>(
  entry: Command<Words & Everywhere & Given<O>> & { options: O },
): Command {
  return entry;
}

/** 0 nothing at or above `--fail-on`, 1 something was, 2 the work could not be done, 130 stopped by Ctrl-C, as shells have it. */
export const EXIT = { clean: 0, found: 1, unable: 2, stopped: 130 } as const;
