/** What is wrong with a command line, each with the nearest thing that would have been right. */
import type { LieflatError } from '../lib/index.js';
import { badArgument, suggestion } from './bad-argument.js';
import type { Command, CommandJob } from './command.js';
import { everywhere, type Option, type OptionTable, type Typed } from './options.js';

/** The command that a line names, with the options that it may have. */
export interface NamedCommand {
  readonly name: string;
  readonly command: Command;
  readonly argv: readonly string[];
}

export async function unknownCommand(name: string, known: readonly string[]): Promise<LieflatError> {
  return badArgument(
    `there is no command ${name}`,
    await suggestion(name, [...known, 'completion'], '', 'lieflat --help lists the commands'),
  );
}

const optionsOf = ({ command }: NamedCommand): OptionTable => ({ ...command.options, ...everywhere });

/**
 * An option that lacks its value, or a flag that has one, before the line is read: a value that is missing would be the next option.
 *
 * @param words the line after the command's name
 */
export function misshapen(named: NamedCommand, words: readonly string[]): LieflatError | null {
  const options = new Map<string, Option>();
  for (const [name, option] of Object.entries(optionsOf(named)))
    for (const spelling of [name, option.alias]) if (spelling !== undefined) options.set(spelling, option);
  for (let i = 0; i < words.length && words[i] !== '--'; i++) {
    const [, typed, name, equals] = /^(--?([^=]+))(=)?/.exec(words[i]) ?? [];
    const option = options.get(name);
    if (option === undefined) continue;
    if (option.type === 'flag') {
      if (equals) return badArgument(`${typed} takes no value`, 'leave out = and what follows it');
    } else if (!equals) {
      i++;
      // A negative number and a lone hyphen are values.
      if (words[i] === undefined || /^-[^0-9]/.test(words[i]))
        return badArgument(`${typed} needs a value`, `write it after ${typed}`);
    }
  }
  return null;
}

/**
 * A command on what was read after its name.
 *
 * @throws LieflatError `bad-argument` for what may not stand there
 */
export async function checkedJob(
  named: NamedCommand,
  typed: Typed,
  words: readonly string[],
): Promise<CommandJob> {
  const mistake = await mistakeIn(named, typed, words);
  if (mistake) throw mistake;
  return named.command.job(typed, words);
}

/** What is wrong with options and words that were read; null where nothing is. */
async function mistakeIn(
  named: NamedCommand,
  typed: Typed,
  words: readonly string[],
): Promise<LieflatError | null> {
  const { name, command, argv } = named;
  const options = optionsOf(named);
  for (const option of typed.keys())
    if (!Object.hasOwn(options, option))
      return badArgument(
        `${name} has no option ${asTyped(option, argv)}`,
        await suggestion(
          option,
          [...Object.keys(options), 'help', 'version'],
          '--',
          `lieflat ${name} --help lists them`,
        ),
      );
  const [least, most] = command.words;
  const todo = `write lieflat ${name} ${command.usage}`;
  if (words.length > most) return badArgument(`${name} cannot use ${words[most]}`, todo);
  if (words.length < least)
    return badArgument(
      words.length === 0
        ? `${name} has nothing to work on`
        : `${name} needs ${least} files, not ${words.length}`,
      words.length === 0
        ? `give a file${command.usage.startsWith('<paths') ? ' or a folder' : ''}: lieflat ${name} ${command.usage}`
        : todo,
    );
  for (const [option, { choices, required }] of Object.entries(options)) {
    const last = typed.get(option)?.at(-1);
    if (last === undefined && required) return badArgument(...required);
    if (last !== undefined && choices && !choices.includes(String(last)))
      return badArgument(
        `${asTyped(option, argv)} cannot be ${last || 'empty'}`,
        await suggestion(String(last), choices, '', `choose from ${choices.join(', ')}`),
      );
  }
  return null;
}

/** An option as it was typed, or as it should have been. */
function asTyped(option: string, argv: readonly string[]): string {
  const spellings = [`-${option}`, `--${option}`];
  const words = argv.map((word) => word.split('=')[0]);
  return spellings.find((spelling) => words.includes(spelling)) ?? `--${option}`;
}
