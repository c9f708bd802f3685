import { createRequire } from 'node:module';
import { EXIT } from './command.js';
import { COMMANDS, COMMON_OPTIONS } from './commands.js';
import { errorLine, traceOf } from './error-lines.js';
import { type Io, print, printWidth } from './io.js';
import { badArgument, parseCommand, suggestion } from './parse.js';

/**
 * The whole command line: picks the command, checks its arguments, does the work.
 *
 * @param argv the words after the program's name
 * @returns the exit code; never throws
 */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  try {
    return await dispatch(argv, io);
  } catch (error) {
    await print(io.stderr, errorLine(error) + (argv.includes('--debug') ? traceOf(error) : ''));
    return EXIT.unable;
  }
}

async function dispatch(argv: readonly string[], io: Io): Promise<number> {
  const [name, ...rest] = argv;
  if (name === undefined || name === '--help' || name === '-h' || name === 'help') {
    const { overview } = await import('./help.js');
    const text = overview(COMMANDS, printWidth(io));
    await print(name === undefined ? io.stderr : io.stdout, text);
    return name === undefined ? EXIT.unable : EXIT.clean;
  }
  if (name === '--version') {
    const { version } = createRequire(import.meta.url)('lieflat/package.json') as { version: string };
    await print(io.stdout, `${version}\n`);
    return EXIT.clean;
  }
  const spec = Object.hasOwn(COMMANDS, name) ? COMMANDS[name] : undefined;
  if (spec === undefined) {
    throw badArgument(
      name.startsWith('-') ? `the command comes first, not ${name}` : `there is no command ${name}`,
      await suggestion(name, Object.keys(COMMANDS), '', 'lieflat --help lists the commands'),
    );
  }
  const options = { ...spec.options, ...COMMON_OPTIONS };
  const args = await parseCommand(name, spec, options, rest);
  if (args.flag('help')) {
    const { commandHelp } = await import('./help.js');
    await print(io.stdout, commandHelp(name, spec, options, printWidth(io)));
    return EXIT.clean;
  }
  return (await spec.load())(args, io);
}
