import '../nothing-kept.js';
import { spawn } from 'node:child_process';
import { watch } from 'node:fs';

export type Signal = 'SIGKILL' | 'SIGINT' | 'SIGTERM';

/** How a process ended: by itself with a code, or by a signal. */
export interface Ended {
  code: number | null;
  signal: NodeJS.Signals | null;
  err: string;
}

/** When a process is disturbed: so long after its start, or after a file of such a name appears in its folder. */
export interface Moment {
  afterMs: number;
  once?: RegExp;
}

/** Runs the program to its end. */
export const undisturbed = (program: string, args: readonly string[], folder: string): Promise<Ended> =>
  disturbed(program, args, folder, null);

/** Runs the program and sends it a signal on its way; what has ended by then is sent none. */
export function disturbed(
  program: string,
  args: readonly string[],
  folder: string,
  how: { signal: Signal; moment: Moment } | null,
): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [program, ...args], {
      cwd: folder,
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    let timer: NodeJS.Timeout | undefined;
    let sending = false;
    const send = (): void => {
      if (how) child.kill(how.signal);
    };
    const later = (ms: number): void => {
      sending = true;
      // A timer of Node waits a millisecond at least, in which a small file is written.
      if (ms < 1) send();
      else timer = setTimeout(send, ms);
    };
    const { once, afterMs } = how?.moment ?? { afterMs: 0 };
    const watcher = once
      ? watch(folder, (_, name) => {
          // Writing to the file and putting it in place are told of as well.
          if (sending || !name || !once.test(name)) return;
          later(afterMs);
        })
      : null;
    if (how && !once) later(afterMs);
    let err = '';
    child.stderr.on('data', (piece: Buffer) => {
      err += piece;
    });
    child.on('error', reject);
    child.on('close', (code, signal) => {
      clearTimeout(timer);
      watcher?.close();
      resolve({ code, signal, err });
    });
  });
}
