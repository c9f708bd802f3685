/** A command that is picked and checked, done in a world that is handed in. */
import { asNamed } from '../lib/io/index.js';
import { type CommandJob, EXIT } from './command.js';
import { errorLine, traceOf } from './error-lines.js';
import { fabricMeant } from './fabric-asked.js';
import { type Io, print, type Sink } from './io.js';
import { noteInputs, refuseTargets } from './output.js';
import { keepWhatIsSaid } from './set-right.js';
import { pathFrom } from './settings.js';
import { within } from './within.js';

/**
 * Does work, and tells in one line why it could not be done.
 *
 * @param debug tell as well where in the program an error came from
 * @returns the exit code; never throws
 */
export async function told(work: (io: Io) => Promise<number>, io: Io, debug: boolean): Promise<number> {
  const { sink: stderr, lost } = steadfast(io.stderr);
  const code = await work({ ...io, stderr }).catch(async (error) => {
    await print(stderr, errorLine(error) + (debug ? traceOf(error) : ''));
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

/** Does what goes before every command, and then the command. */
export async function runJob(job: CommandJob, io: Io): Promise<number> {
  const slow = job.slow || job.beforehand.fabric !== undefined;
  const bounded = within(io, job.beforehand, slow);
  const answers = slow && !job.beforehand['no-cache'] ? io.keeping?.() : undefined;
  const world = answers ? { ...bounded, answers } : bounded;
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
