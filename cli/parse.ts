import { parseArgs } from 'node:util';
import { LieflatError, nearestName } from '../lib/index.js';
import { Arguments } from './arguments.js';
import type { CommandSpec, OptionSpec } from './command.js';

/**
 * Reads the words after a command's name by its table.
 *
 * @throws LieflatError `bad-argument` with the nearest known name for an unknown option or choice, a missing
 *   value, or too few or too many words
 */
export async function parseCommand(
  name: string,
  spec: CommandSpec,
  options: Readonly<Record<string, OptionSpec>>,
  argv: readonly string[],
): Promise<Arguments> {
  const { tokens, positionals } = parseArgs({
    args: [...argv],
    options: Object.fromEntries(
      Object.entries(options).map(([option, { value, short }]) => [
        option,
        { type: value ? ('string' as const) : ('boolean' as const), ...(short && { short }) },
      ]),
    ),
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const values = new Map<string, string>();
  for (const token of tokens) {
    if (token.kind !== 'option') continue;
    const option = Object.hasOwn(options, token.name) ? options[token.name] : undefined;
    if (option === undefined) {
      throw badArgument(
        `${name} has no option ${token.rawName}`,
        await suggestion(token.name, Object.keys(options), '--', `lieflat ${name} --help lists them`),
      );
    }
    if (option.value === undefined) {
      if (token.value !== undefined) {
        throw badArgument(`--${token.name} takes no value`, `leave out =${token.value}`);
      }
      values.set(token.name, '');
      continue;
    }
    // An option that lacks its value would swallow the next option.
    if (token.value === undefined || (!token.inlineValue && /^--./.test(token.value))) {
      throw badArgument(`--${token.name} needs a value`, `write --${token.name} ${option.value}`);
    }
    if (option.choices && !option.choices.includes(token.value)) {
      throw badArgument(
        `--${token.name} cannot be ${token.value === '' ? 'empty' : token.value}`,
        await suggestion(token.value, option.choices, '', `choose from ${option.choices.join(', ')}`),
      );
    }
    values.set(token.name, token.value);
  }
  const [least, most] = spec.words;
  if (!values.has('help')) {
    if (positionals.length < least) {
      throw badArgument(
        positionals.length === 0
          ? `${name} was not told what to work on`
          : `${name} works on ${least} files, not ${positionals.length}`,
        `write lieflat ${name} ${spec.usage}`,
      );
    }
    if (positionals.length > most) {
      throw badArgument(
        `${name} does not know what to do with ${positionals[most]}`,
        `write lieflat ${name} ${spec.usage}`,
      );
    }
  }
  return new Arguments(positionals, values);
}

/** The error for a command line that cannot be understood. */
export function badArgument(what: string, todo: string): LieflatError {
  return new LieflatError({ code: 'bad-argument', place: 'command line', what, todo });
}

/** `did you mean --format?` where a known name is near, else the fallback. */
export async function suggestion(
  given: string,
  known: readonly string[],
  prefix: string,
  fallback: string,
): Promise<string> {
  const near = await nearestName(given, known);
  return near === null ? fallback : `did you mean ${prefix}${near}?`;
}
