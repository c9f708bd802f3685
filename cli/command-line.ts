import yargs, { type Argv, type Options } from 'yargs';
import { badArgument } from './bad-argument.js';
import type { Command, CommandJob } from './command.js';
import { idsFor } from './completions.js';
import { type Io, printWidth } from './io.js';
import { checkedJob, misshapen, type NamedCommand, unknownCommand } from './mistakes.js';
import { everywhere, type Option, type OptionTable, type Typed } from './options.js';

type Commands = Readonly<Record<string, Command>>;

/** What a command line asks for: a command to run, or a text of the parser's own (help, version, completion). */
export type Request = { job: CommandJob } | { text: string };

/** Words by which a line asks for a text and no work, whatever else is wrong with it. */
const ASKS = ['--help', '-h', '--version'];

/**
 * Reads a command line by the table of commands. The parser tells options from words; whether they may stand there is looked at here.
 *
 * @param version called only when it is asked for
 * @throws LieflatError `bad-argument` for a line that cannot be understood
 */
export async function requestOf(
  argv: readonly string[],
  commands: Commands,
  io: Io,
  version: () => string,
): Promise<Request> {
  const [name, ...rest] = argv;
  const named = Object.hasOwn(commands, name) ? { name, command: commands[name], argv } : null;
  if (!asks(argv)) {
    if (named === null && !name.startsWith('-')) await refuseName(name, rest, commands);
    const misshape = named && misshapen(named, rest);
    if (misshape) throw misshape;
  }
  let text = '';
  // Known before: the parser does not wait for what it offers.
  const offers = name === '--get-yargs-completions' ? await offersFor(argv, commands) : null;
  try {
    await parserOf(commands, io, argv, version, offers).parseAsync(argv, {}, (_error, _args, output) => {
      text = output;
    });
  } catch (thrown) {
    if (thrown instanceof LineRead && named !== null) return { job: await jobOf(named, thrown.args) };
    throw thrown;
  }
  return { text };
}

/** What the parser made of a line. */
type Args = Readonly<Record<string, unknown>>;

/** Leaves the parser with a command: one that came back would have its help set, every time, for nothing. */
class LineRead extends Error {
  constructor(readonly args: Args) {
    super('a command was read');
  }
}

/** The help that lists the commands. */
export function overview(commands: Commands, io: Io): Promise<string> {
  return parserOf(commands, io, [], () => '').getHelp();
}

const asks = (argv: readonly string[]): boolean => {
  const end = argv.indexOf('--');
  return argv.slice(0, end < 0 ? undefined : end).some((word) => ASKS.includes(word));
};

async function refuseName(name: string, rest: readonly string[], commands: Commands): Promise<void> {
  if (name !== 'completion') throw await unknownCommand(name, Object.keys(commands));
  if (rest.length > 0)
    throw badArgument(
      'completion takes no words',
      'write lieflat completion; it goes by the shell that is running',
    );
}

function jobOf(named: NamedCommand, { _, $0, ...options }: Args): Promise<CommandJob> {
  const [, ...words] = (_ as unknown[]).map(String);
  const typed: Typed = new Map(
    Object.entries(options).map(([option, value]) => [
      option,
      (Array.isArray(value) ? value : [value]) as string[],
    ]),
  );
  return checkedJob(named, typed, words);
}

/** What may stand where a shell asks for completions; null where the parser knows. */
async function offersFor(argv: readonly string[], commands: Commands): Promise<readonly string[] | null> {
  const [, , name] = argv;
  const option = argv.at(-2) ?? '';
  const { choices } = Object.hasOwn(commands, name)
    ? (commands[name].options[option.replace(/^--/, '')] ?? {})
    : {};
  return choices ?? idsFor(option);
}

/** A method of yargs that its type declarations do not have yet. */
interface UsageConfiguration {
  usageConfiguration(configuration: { 'hide-types': boolean }): Argv;
}

/** The command that a line names, or all where it names none: the parser takes its time for each. */
const offered = (commands: Commands, [name]: readonly string[]) =>
  Object.hasOwn(commands, name ?? '') ? [[name, commands[name]] as const] : Object.entries(commands);

const forParser = (options: OptionTable): Record<string, Options> =>
  Object.fromEntries(Object.entries(options).map(([name, option]) => [name, oneForParser(option)]));

/** `nargs` holds a flag to no value, and any other option to one, even one that looks like an option's letter and digits. */
const oneForParser = ({ type, describe, alias }: Option): Options => ({
  type: type === 'flag' ? 'boolean' : 'string',
  nargs: type === 'flag' ? 0 : 1,
  describe,
  ...(alias !== undefined && { alias }),
});

function parserOf(
  commands: Commands,
  io: Io,
  argv: readonly string[],
  version: () => string,
  offers: readonly string[] | null = null,
): Argv {
  const parser = (yargs() as Argv & UsageConfiguration)
    // The wording of each option says what it takes.
    .usageConfiguration({ 'hide-types': true })
    .scriptName('lieflat')
    .locale('en')
    .wrap(printWidth(io))
    .parserConfiguration({
      'boolean-negation': false,
      'camel-case-expansion': false,
      'dot-notation': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
      'short-option-groups': false,
      'strip-aliased': true,
    })
    .usage(
      '$0 reads machine-embroidery stitch files and says whether a design will lie flat.\n\nUsage: $0 <command> …',
    )
    .options(forParser(everywhere))
    .help('help', 'show this help')
    .alias('help', 'h')
    .version('version', 'show the version', argv.includes('--version') ? version() : 'not asked for')
    .nargs({ help: 0, version: 0 })
    .group([...Object.keys(everywhere), 'help', 'version'], 'With every command:')
    .epilogue(
      '$0 <command> --help explains one of them, with an example.\n\nExit codes: 0 all well, 1 something was found at or above --fail-on, 2 the work could not be done, 130 stopped by Ctrl-C.',
    )
    .fail((message, error) => {
      throw error ?? badArgument(message, 'lieflat --help shows how it is written');
    });
  for (const [name, { summary, more, usage, options, example }] of offered(commands, argv)) {
    parser.command(
      name,
      summary,
      (one) =>
        one
          .usage(`$0 ${name} ${usage}\n\n${summary}${more ? `\n\n${more}` : ''}`)
          .options(forParser(options))
          .group(Object.keys(options), 'Options:')
          .example(example, ''),
      (args) => {
        throw new LineRead(args);
      },
    );
  }
  return parser.completion(
    'completion',
    'Prints a script with which a shell completes commands, options and ids.',
    (current: string, _line: unknown, usual: () => void, done: (offered: string[]) => void) =>
      offers === null ? usual() : done(offers.filter((id) => id.startsWith(current))),
  );
}
