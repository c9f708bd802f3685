/** What ends work that would not end by itself. */
import { Script } from 'node:vm';

/** A clock in ms, and what ends work that does not end by itself; a test brings its own. */
export interface Watchdog {
  now(): number;
  /** @throws Error with the code `ERR_SCRIPT_EXECUTION_TIMEOUT` after so many ms */
  within<T>(ms: number, work: () => T): T;
}

/** Where the script below finds its work: it can be handed nothing. */
const WORK = Symbol.for('lieflat.work');
const script = new Script("globalThis[Symbol.for('lieflat.work')]()", { filename: 'watchdog' });

/**
 * Node's own watchdog ends synchronous code wherever it stands, in a thread or out of one, and starts no thread of JavaScript: a
 * tenth of a millisecond.
 */
export const ownWatchdog: Watchdog = {
  // Loading `performance` takes longer than anything it would measure here.
  now: () => Number(process.hrtime.bigint()) / 1e6,
  within: <T>(ms: number, work: () => T): T => {
    const world = globalThis as unknown as Record<symbol, unknown>;
    world[WORK] = work;
    try {
      // Anything from a day on is as good as no limit to the timer.
      return script.runInThisContext({
        timeout: Math.ceil(Math.min(ms, 86_400_000)),
        displayErrors: false,
      }) as T;
    } finally {
      delete world[WORK];
    }
  },
};
