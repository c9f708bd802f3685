import type { Io } from './io.js';
import {
  type Beforehand,
  beforehand,
  type Everywhere,
  everywhere,
  type Given,
  given,
  type OptionTable,
  type Typed,
  type TypedWords,
} from './options.js';

/** Does the work and returns the exit code. */
export type Handler<A> = (args: A, io: Io) => Promise<number>;

/** One entry of the command table. */
interface CommandEntry<O extends OptionTable> {
  summary: string;
  /** More about what it takes, for its own help alone. */
  more?: string;
  /** What comes after the command's name, as the help shows it. */
  usage: string;
  /** How many words it takes after its name. */
  words: readonly [least: number, most: number];
  options: O;
  /** It works the pucker out or makes a file anew, so it may take longer with each. */
  slow?: true;
  /** One real command line. */
  example: string;
  /** Loaded only when the command is run, so that each pays for itself alone. */
  load(): Promise<Handler<TypedWords & Everywhere & Given<O>>>;
}

/** A command with what was typed after its name. */
export interface CommandJob {
  readonly slow: boolean;
  readonly words: readonly string[];
  /** What is looked at before the command does its work. */
  readonly beforehand: Beforehand;
  /**
   * @param words the job's own, by the names that they turned out to have
   * @param fabric the one that is meant by what was typed
   */
  run(io: Io, words: readonly string[], fabric: string | undefined): Promise<number>;
}

export interface Command extends Omit<CommandEntry<OptionTable>, 'load'> {
  /** The command on what was typed, which has been checked against its options. */
  job(typed: Typed, words: readonly string[]): CommandJob;
}

/** An entry of the table: the compiler holds what its handler expects against what its options give. */
export function command<const O extends OptionTable>(entry: CommandEntry<O>): Command {
  return {
    ...entry,
    job: (typed, words) => ({
      slow: entry.slow === true,
      words,
      beforehand: given(beforehand, typed),
      run: async (io, named, fabric) => {
        const handler = await entry.load();
        const meant = fabric === undefined ? typed : new Map(typed).set('fabric', [fabric]);
        return handler({ ...given(everywhere, meant), ...given(entry.options, meant), words: named }, io);
      },
    }),
  };
}

/** 0 nothing at or above `--fail-on`, 1 something was, 2 the work could not be done, 130 stopped by Ctrl-C, as shells have it. */
export const EXIT = { clean: 0, found: 1, unable: 2, stopped: 130 } as const;
