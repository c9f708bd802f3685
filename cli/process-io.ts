import { isatty } from 'node:tty';
import { type AnswersPlace, pathIn, stopSignals, writeToDescriptor } from '../lib/io/index.js';
import type { Io, Sink } from './io.js';
import { packageBuild } from './version.js';

/**
 * The real world: this process's own streams and settings.
 * @param cacheFolder the folder that the system has for what programs keep to be faster
 */
export function processIo(cacheFolder: () => string | undefined = () => undefined): Io {
  const { stdout, stderr, env } = process;
  // A reader that goes away is told by the write's own callback; without a listener it would end the process.
  stdout.on('error', () => {});
  stderr.on('error', () => {});
  return {
    stdout: sinkOf(stdout, 'standard output'),
    stderr: sinkOf(stderr, 'standard error'),
    // Opened only by a command that reads it.
    stdin: { [Symbol.asyncIterator]: () => process.stdin[Symbol.asyncIterator]() },
    cwd: process.cwd(),
    env,
    isTTY: stdout.isTTY === true,
    columns: stdout.columns,
    ...(isatty(0) && stderr.isTTY && { ask }),
    onStop,
    keeping: () => keepingIn(cacheFolder),
  };
}

/** Answers are kept beside what Node compiled, as those of this program. */
function keepingIn(cacheFolder: () => string | undefined): AnswersPlace | undefined {
  const [folder, by] = [cacheFolder(), packageBuild()];
  // From source, the program may be another one the next time.
  return folder !== undefined && by !== undefined ? { folder: pathIn(folder, 'answers'), by } : undefined;
}

/** The question goes beside the report, which may be on its way through a pipe. */
async function ask(prompt: string): Promise<string | null> {
  const { createInterface } = await import('node:readline');
  const lines = createInterface({ input: process.stdin, output: process.stderr, terminal: false });
  return new Promise((resolve) => {
    let answer: string | null = null;
    lines.once('close', () => resolve(answer));
    lines.question(prompt, (line) => {
      answer = line;
      lines.close();
    });
  });
}

/** A stream of this process, written to whole where it leads to a file. */
function sinkOf(stream: NodeJS.WriteStream & { fd: number }, place: string): Sink {
  const { isTTY, fd } = stream;
  let before: Promise<unknown> = Promise.resolve();
  return {
    isTTY,
    fd,
    write: (text, done) => {
      if (isTTY) {
        stream.write(text, done);
        return;
      }
      before = before
        .then(() => writeToDescriptor(fd, text, place))
        .then((written) => (written ? done() : stream.write(text, done)), done);
    },
  };
}

/** A terminal signals all that run in it, and a program that started this one (as package runners do) passes it on: within so long it is one request, ms. */
const ONE_REQUEST_MS = 500;

function onStop(stop: () => void): () => void {
  let asked = false;
  const deaf = (): void => {
    for (const signal of stopSignals()) process.off(signal as NodeJS.Signals, listener);
  };
  const listener = (): void => {
    if (asked) return;
    asked = true;
    // Without a listener the next signal ends the process, as it always does.
    setTimeout(deaf, ONE_REQUEST_MS).unref();
    stop();
  };
  for (const signal of stopSignals()) process.on(signal as NodeJS.Signals, listener);
  // One request that comes twice must not end, with the code of a signal, what has just stopped in order.
  return () => {
    if (!asked) deaf();
  };
}
