import type { Argv, Options } from 'yargs';
import type { LieflatError } from '../lib/index.js';
import { badArgument, suggestion } from './bad-argument.js';
import type { Command } from './command.js';
import { everywhere } from './options.js';

/** What yargs is given to say where a command has too few or too many words. */
export const TOO_FEW_WORDS = 'too few words';
export const TOO_MANY_WORDS = 'too many words';

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
    const error = await explain(this.message, this.line);
    error.stack = this.stack;
    return error;
  }
}

/** The command that the line names, and what was said to it. */
interface Said {
  name: string;
  command: Command;
  options: Readonly<Record<string, Options>>;
  /** The words after the command's name. */
  words: readonly string[];
  line: Line;
}

type Explanation = (said: Said, option: string) => LieflatError | Promise<LieflatError>;

/** What yargs says, by its wording; the first group is the option that it speaks of. */
const EXPLANATIONS: readonly (readonly [RegExp, Explanation])[] = [
  [/^Unknown arguments?: ([^,]*)/, unknownOption],
  [
    /^Not enough arguments following: (.*)/,
    ({ line }, option) => {
      const typed = asTyped(option, line.argv);
      return badArgument(`${typed} needs a value`, `write it after ${typed}`);
    },
  ],
  [
    /^Argument unexpected for: (.*)/,
    ({ line }, option) =>
      badArgument(`${asTyped(option, line.argv)} takes no value`, 'leave out = and what follows it'),
  ],
  [/^Invalid values:\n {2}Argument: ([\w-]+), /, wrongChoice],
  [
    /^Missing required arguments?: ([\w-]+)/,
    ({ options }, option) => {
      const [what, todo] = String(options[option].demandOption).split('; ');
      return badArgument(what, todo);
    },
  ],
  [
    new RegExp(`^${TOO_MANY_WORDS}`),
    ({ name, command, words }) =>
      badArgument(`${name} does not know what to do with ${words[command.words[1]]}`, write(name, command)),
  ],
  [
    new RegExp(`^${TOO_FEW_WORDS}`),
    ({ name, command, words }) =>
      badArgument(
        words.length === 0
          ? `${name} was not told what to work on`
          : `${name} works on ${command.words[0]} files, not ${words.length}`,
        write(name, command),
      ),
  ],
];

async function explain(message: string, line: Line): Promise<LieflatError> {
  const afterDashes = (line.parsed?.argv['--'] ?? []) as readonly string[];
  const [name = '', ...words] = [...(line.parsed?.argv._ ?? []), ...afterDashes].map(String);
  const command = Object.hasOwn(line.commands, name) ? line.commands[name] : null;
  if (command === null) return unknownCommand(name, line);
  const said: Said = { name, command, options: { ...command.options, ...everywhere }, words, line };
  for (const [pattern, explanation] of EXPLANATIONS) {
    const found = pattern.exec(message);
    if (found) return explanation(said, found[1]);
  }
  return badArgument(message, write(name, command));
}

async function unknownCommand(name: string, { commands }: Line): Promise<LieflatError> {
  if (name === 'completion')
    return badArgument(
      'completion takes no words',
      'write lieflat completion; it goes by the shell that is running',
    );
  const known = [...Object.keys(commands), 'completion'];
  return badArgument(
    `there is no command ${name}`,
    await suggestion(name, known, '', 'lieflat --help lists the commands'),
  );
}

async function unknownOption({ name, options, line }: Said, option: string): Promise<LieflatError> {
  const known = [...Object.keys(options), 'help', 'version'];
  return badArgument(
    `${name} has no option ${asTyped(option, line.argv)}`,
    await suggestion(option, known, '--', `lieflat ${name} --help lists them`),
  );
}

async function wrongChoice({ options, line }: Said, option: string): Promise<LieflatError> {
  const given = String(line.parsed?.argv[option]);
  const choices = options[option].choices!.map(String);
  return badArgument(
    `${asTyped(option, line.argv)} cannot be ${given || 'empty'}`,
    await suggestion(given, choices, '', `choose from ${choices.join(', ')}`),
  );
}

function write(name: string, command: Command): string {
  return `write lieflat ${name} ${command.usage}`;
}

/** An option as it was typed, or as it should have been. */
function asTyped(option: string, argv: readonly string[]): string {
  const spellings = [`-${option}`, `--${option}`];
  const words = argv.map((word) => word.split('=')[0]);
  return spellings.find((spelling) => words.includes(spelling)) ?? `--${option}`;
}
