import type { Argv, Options } from 'yargs';
import type { LieflatError } from '../lib/index.js';
import { badArgument, suggestion } from './bad-argument.js';
import type { Command } from './command.js';
import { everywhere } from './options.js';

/** What yargs is given to say where a command has too few or too many words. */
export const TOO_FEW_WORDS = 'too few words';
export const TOO_MANY_WORDS = 'too many words';

const ALWAYS = [...Object.keys(everywhere), 'help', 'version'];

/** The line that a mistake was made in, as far as it was understood. */
export interface Line {
  argv: readonly string[];
  commands: Readonly<Record<string, Command>>;
  parsed: Exclude<Argv['parsed'], false> | null;
}

/** A command line that yargs does not take: what is wrong is known, the way out still has to be looked for. */
export class Mistake extends Error {
  constructor(
    message: string,
    private readonly line: Line,
  ) {
    super(message);
    this.name = 'Mistake';
  }

  /** The mistake as one line for a person, with the nearest thing that would have been right. */
  async explained(): Promise<LieflatError> {
    const told = await this.told();
    told.stack = this.stack;
    return told;
  }

  private async told(): Promise<LieflatError> {
    const { argv, commands, parsed } = this.line;
    const words = [...(parsed?.argv._ ?? []), ...((parsed?.argv['--'] as string[] | undefined) ?? [])].map(
      String,
    );
    const [name = ''] = words;
    const command = Object.hasOwn(commands, name) ? commands[name] : null;
    const dashed = (option: string): string => typed(option, argv);
    const about = (pattern: RegExp): string | undefined => pattern.exec(this.message)?.[1];

    if (command === null) {
      return badArgument(
        `there is no command ${name}`,
        await suggestion(
          name,
          [...Object.keys(commands), 'completion'],
          '',
          'lieflat --help lists the commands',
        ),
      );
    }
    const options: Readonly<Record<string, Options>> = { ...command.options, ...everywhere };
    const unknown = about(/^Unknown arguments?: ([^,]*)/);
    if (unknown !== undefined) {
      return badArgument(
        `${name} has no option ${dashed(unknown)}`,
        await suggestion(
          unknown,
          [...Object.keys(command.options), ...ALWAYS],
          '--',
          `lieflat ${name} --help lists them`,
        ),
      );
    }
    const valueless = about(/^Not enough arguments following: (.*)/);
    if (valueless !== undefined) {
      return badArgument(`${dashed(valueless)} needs a value`, `write it after ${dashed(valueless)}`);
    }
    const valued = about(/^Argument unexpected for: (.*)/);
    if (valued !== undefined) {
      return badArgument(`${dashed(valued)} takes no value`, 'leave out = and what follows it');
    }
    const chosen = about(/^Invalid values:\n {2}Argument: ([\w-]+), /);
    if (chosen !== undefined) {
      const given = String(parsed?.argv[chosen]);
      const choices = options[chosen].choices!.map(String);
      return badArgument(
        `${dashed(chosen)} cannot be ${given || 'empty'}`,
        await suggestion(given, choices, '', `choose from ${choices.join(', ')}`),
      );
    }
    const missing = about(/^Missing required arguments?: ([\w-]+)/);
    if (missing !== undefined) {
      const [what, todo] = String(options[missing].demandOption).split('; ');
      return badArgument(what, todo);
    }
    const write = `write lieflat ${name} ${command.usage}`;
    const [least, most] = command.words;
    const count = words.length - 1;
    if (this.message === TOO_MANY_WORDS) {
      return badArgument(`${name} does not know what to do with ${words[most + 1]}`, write);
    }
    if (this.message === TOO_FEW_WORDS) {
      return badArgument(
        count === 0
          ? `${name} was not told what to work on`
          : `${name} works on ${least} files, not ${count}`,
        write,
      );
    }
    return badArgument(this.message, write);
  }
}

/** An option as it was typed, or as it should have been. */
function typed(name: string, argv: readonly string[]): string {
  const spellings = [`-${name}`, `--${name}`];
  const words = argv.map((word) => word.split('=')[0]);
  return spellings.find((spelling) => words.includes(spelling)) ?? `--${name}`;
}
