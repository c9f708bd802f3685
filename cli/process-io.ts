import type { Io } from './io.js';

/** The real world: this process's own streams and settings. */
export function processIo(): Io {
  const { stdout, stderr, env } = process;
  // A reader that goes away is told by the write's own callback; without a listener it would end the process.
  stdout.on('error', () => {});
  stderr.on('error', () => {});
  return {
    stdout,
    stderr,
    // Opened only by a command that reads it.
    get stdin() {
      return process.stdin;
    },
    cwd: process.cwd(),
    env,
    isTTY: stdout.isTTY === true,
    columns: stdout.columns,
  };
}
