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
    onStop,
  };
}

const STOP_SIGNALS = ['SIGINT', 'SIGTERM'] as const;

function onStop(stop: () => void): () => void {
  const letGo = (): void => {
    for (const signal of STOP_SIGNALS) process.off(signal, once);
  };
  // Without a listener the next signal ends the process, as it always does.
  const once = (): void => {
    letGo();
    stop();
  };
  for (const signal of STOP_SIGNALS) process.on(signal, once);
  return letGo;
}
