import { asNamed } from '../lib/io/index.js';
import { badArgument, suggestion } from './bad-argument.js';
import { EXIT } from './command.js';
import { overview, requestOf } from './command-line.js';
import { COMMANDS } from './commands.js';
import { errorLine, traceOf } from './error-lines.js';
import { fabricMeant } from './fabric-asked.js';
import { type Io, print, type Sink } from './io.js';
import { noteInputs, refuseTargets } from './output.js';
import { keepWhatIsSaid } from './set-right.js';
import { pathFrom } from './settings.js';
import { packageVersion } from './version.js';
import { within } from './within.js';

/** Options that stand without a command; the last is how a shell asks for completions. */
const ALONE = ['--help', '-h', '--version', '--get-yargs-completions'];

/**
 * The whole command line: picks the command, checks its arguments, does the work.
 *
 * @param argv the words after the program's name
 * @returns the exit code; never throws
 */
export async function run(argv: readonly string[], io: Io): Promise<number> {
  const { sink: stderr, lost } = steadfast(io.stderr);
  const world = { ...io, stderr };
  const code = await dispatch(argv, world).catch(async (error) => {
    await print(stderr, errorLine(error) + (argv.includes('--debug') ? traceOf(error) : ''));
    return EXIT.unable;
  });
  // What should have been said was not: nobody may take that for all well.
  return lost() && code !== EXIT.stopped ? EXIT.unable : code;
}

/** Standard error that goes on where it cannot be written to; whether something was lost is asked in the end. */
function steadfast(inner: Sink): { sink: Sink; lost: () => boolean } {
  let lost = false;
  const sink: Sink = {
    isTTY: inner.isTTY,
    fd: inner.fd,
    write: (text, done) =>
      inner.write(text, (error) => {
        lost ||= error != null && !('code' in error && error.code === 'EPIPE');
        done();
      }),
  };
  return { sink, lost: () => lost };
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
  const { job } = request;
  const world = within(io, job.beforehand, job.slow);
  const words = await namedAsThere(job.words, world);
  const args = { ...job.beforehand, words };
  await noteInputs(args, world);
  await refuseTargets(args, world);
  const fabric = await fabricMeant(args, world);
  await keepWhatIsSaid(args, world);
  return job.run(world, words, fabric);
}

/** The same with the files to read named as the system has them: a word of the command line cannot hold every name. */
async function namedAsThere(words: readonly string[], io: Io): Promise<readonly string[]> {
  if (!words.some((word) => word.includes('\ufffd'))) return words;
  return Promise.all(words.map((word) => asNamed(pathFrom(io, word))));
}
