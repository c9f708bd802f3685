import yargs, { type Argv } from 'yargs';
import type { Command } from './command.js';
import { idsFor } from './completions.js';
import { type Io, printWidth } from './io.js';
import { Mistake, TOO_FEW_WORDS, TOO_MANY_WORDS } from './mistakes.js';
import { everywhere } from './options.js';

/** What a command line asks for: a command to run, or a text of the parser's own (help, version, completion). */
export type Request = { command: Command; args: object } | { text: string };

/**
 * Reads a command line by the table of commands.
 *
 * @param version called only when it is asked for
 * @throws LieflatError `bad-argument` for a line that cannot be understood
 */
export async function requestOf(
  argv: readonly string[],
  commands: Readonly<Record<string, Command>>,
  io: Io,
  version: () => string,
): Promise<Request> {
  let text = '';
  try {
    // Known before: the parser does not wait for what it offers.
    const ids = argv[0] === '--get-yargs-completions' ? await idsFor(argv.at(-2)) : null;
    await parserOf(commands, io, argv, version, ids).parseAsync(argv, {}, (_error, _args, output) => {
      text = output;
    });
  } catch (thrown) {
    if (thrown instanceof Chosen) return thrown;
    if (thrown instanceof Mistake) throw await thrown.explained();
    throw thrown;
  }
  return { text };
}

/** The help that lists the commands. */
export function overview(commands: Readonly<Record<string, Command>>, io: Io): Promise<string> {
  return parserOf(commands, io, [], () => '').getHelp();
}

/** Leaves the parser with a command: one that came back would have its help set, every time, for nothing. */
class Chosen extends Error {
  constructor(
    readonly command: Command,
    readonly args: object,
  ) {
    super('a command was chosen');
  }
}

/** A method of yargs that its type declarations do not have yet. */
interface UsageConfiguration {
  usageConfiguration(configuration: { 'hide-types': boolean }): Argv;
}

/** The command that a line names, or all where it names none: the parser takes its time for each. */
const offered = (commands: Readonly<Record<string, Command>>, [name]: readonly string[]) =>
  Object.hasOwn(commands, name ?? '') ? [[name, commands[name]] as const] : Object.entries(commands);

function parserOf(
  commands: Readonly<Record<string, Command>>,
  io: Io,
  argv: readonly string[],
  version: () => string,
  ids: readonly string[] | null = null,
): Argv {
  // The command comes first. Where one of its options may come again, all are gathered; of the others the last counts.
  const gathered = Object.values(commands[argv[0]]?.options ?? {}).some(({ array }) => array);
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
      'duplicate-arguments-array': gathered,
      'parse-numbers': false,
      'parse-positional-numbers': false,
      'short-option-groups': false,
      'strip-aliased': true,
    })
    .usage(
      '$0 reads machine-embroidery stitch files and says whether a design will lie flat.\n\nUse: $0 <command> …',
    )
    .options(everywhere)
    .help('help', 'show this help')
    .alias('help', 'h')
    .version('version', 'show the version', argv.includes('--version') ? version() : 'not asked for')
    .nargs({ help: 0, version: 0 })
    .group([...Object.keys(everywhere), 'help', 'version'], 'With every command:')
    .epilogue(
      '$0 <command> --help explains one of them, with an example.\n\nExit codes: 0 all well, 1 something was found at or above --fail-on, 2 the work could not be done, 130 stopped by Ctrl-C.',
    )
    .demandCommand(1)
    .strictCommands()
    .strictOptions()
    .fail((message, error) => {
      if (!message) throw error;
      throw new Mistake(message, { argv, commands, parsed: parser.parsed || null });
    });
  for (const [name, command] of offered(commands, argv)) {
    const [least, most] = command.words;
    parser.command(
      name,
      command.summary,
      (one) =>
        one
          .usage(`$0 ${name} ${command.usage}\n\n${command.summary}`)
          .options(command.options)
          .group(Object.keys(command.options), 'Options:')
          .example(command.example, '')
          // Words are counted here and handed over as they are: yargs would read words with names of their own a
          // second time as options, and so lose `-` and whatever follows `--`.
          .strictCommands(false)
          .demandCommand(least, most, TOO_FEW_WORDS, TOO_MANY_WORDS),
      ({ _: [, ...words], $0, ...options }) => {
        for (const [key, given] of Object.entries(options))
          if (Array.isArray(given) && !command.options[key]?.array) options[key] = given.at(-1);
        throw new Chosen(command, { ...options, words });
      },
    );
  }
  return parser.completion(
    'completion',
    'Prints a script with which a shell completes commands, options and ids.',
    (current: string, _line: unknown, usual: () => void, done: (offered: string[]) => void) =>
      ids === null ? usual() : done(ids.filter((id) => id.startsWith(current))),
  );
}
