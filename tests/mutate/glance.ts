/** A quick look at the finder or the synthesiser with one source file changed, in a process that is kept for the next change. */
import { type ChildProcess, fork } from 'node:child_process';
import { GUARDED } from './guarded.js';
import type { Asked } from './looker.js';

/** A change that makes work endless is found by that, ms. */
const LONGEST_MS = 120_000;

export class Glance {
  private process: ChildProcess | null = null;

  constructor(private readonly longestMs = LONGEST_MS) {}

  /** Whether anything is read, or sewn, otherwise; an error, no end, and an end of the process itself count as otherwise. */
  seesChange(asked: Asked): Promise<boolean> {
    const looker = this.looker();
    return new Promise((resolve) => {
      const late = setTimeout(() => looker.kill('SIGKILL'), this.longestMs);
      const ended = (): void => {
        this.process = null;
        told(true);
      };
      const told = (is: boolean): void => {
        clearTimeout(late);
        looker.off('exit', ended).off('message', told);
        resolve(is);
      };
      looker.on('exit', ended).on('message', told);
      looker.send(asked);
    });
  }

  private looker(): ChildProcess {
    this.process ??= fork(new URL('./looker.ts', import.meta.url), [], {
      execArgv: [...GUARDED, '--import', 'tsx'],
      // what a process says as it breaks down
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
    });
    return this.process;
  }

  end(): void {
    this.process?.kill();
  }
}
