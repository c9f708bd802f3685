import { badArgument, suggestion } from './bad-argument.js';
import { EXIT } from './command.js';
import { overview, requestOf } from './command-line.js';
import { COMMANDS } from './commands.js';
import { type Io, print } from './io.js';
import { runJob, told } from './run-job.js';
import { packageVersion } from './version.js';

/** Options that stand without a command; the last is how a shell asks for completions. */
const ALONE = ['--help', '-h', '--version', '--get-yargs-completions'];

/**
 * The whole command line: picks the command, checks its arguments, does the work.
 *
 * @param argv the words after the program's name
 * @returns the exit code; never throws
 */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  return told((world) => dispatch(argv, world), io, argv.includes('--debug'));
}

async function dispatch(argv: readonly string[], io: Io): Promise<number> {
  const [first] = argv;
  if (first === undefined) {
    await print(io.stderr, `${await overview(COMMANDS, io)}\n`);
    return EXIT.unable;
  }
  // An option before the command would take the command's name for its value.
  if (first.startsWith('-') && !ALONE.includes(first)) {
    throw badArgument(
      `the command comes first, not ${first}`,
      await suggestion(first, ALONE.slice(0, 3), '', 'lieflat --help lists the commands'),
    );
  }
  const request = await requestOf(argv, COMMANDS, io, packageVersion);
  if ('text' in request) {
    if (request.text !== '') await print(io.stdout, `${request.text}\n`);
    return EXIT.clean;
  }
  return runJob(request.job, io);
}
