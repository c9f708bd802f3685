import type { Arguments } from './arguments.js';
import type { Io } from './io.js';

/** An option of the command line: a flag, or one that takes a value. */
export interface OptionSpec {
  help: string;
  /** What the value is called in the help; without it the option is a flag. */
  value?: string;
  /** The only values it takes. */
  choices?: readonly string[];
  short?: string;
}

export interface CommandSpec {
  summary: string;
  /** What comes after the command's name, as the help shows it. */
  usage: string;
  /** How many words it takes after its name. */
  words: readonly [least: number, most: number];
  options: Readonly<Record<string, OptionSpec>>;
  example: string;
  /** Loaded only when the command is run, so that each pays for itself alone. */
  load(): Promise<Handler>;
}

/** Does the work and returns the exit code. */
export type Handler = (args: Arguments, io: Io) => Promise<number>;

/** 0 nothing at or above `--fail-on`, 1 something was, 2 the work could not be done. */
export const EXIT = { clean: 0, found: 1, unable: 2 } as const;
