import { type Io, print } from '../io.js';
import { CLEAR_LINE } from '../output.js';

/** How far a batch has come, on a line of the terminal that goes away when something else is printed. */
export interface Progress {
  /** One more file is done with. */
  step(): Promise<void>;
  /** Takes the line away. */
  clear(): Promise<void>;
}

const BAR = 24;
/** Drawn no more often than this, ms. */
const EVERY_MS = 100;
/** A batch that is over sooner needs none, ms. */
const AFTER_MS = 500;

/**
 * A bar on standard error, where that is a terminal and standard output is not another stream into it; else nothing. (The bar
 * libraries at hand have had no release since 2024, and what is needed is this.)
 *
 * @param total how many files there are; null where nobody knows, which draws nothing
 * @param writesOut the report goes to a file
 */
export function progressOf(io: Io, total: number | null, writesOut: boolean): Progress {
  if (total === null || !io.stderr.isTTY || io.env.TERM === 'dumb' || (io.isTTY && !writesOut))
    return { step: async () => {}, clear: async () => {} };
  const start = performance.now();
  let drawn = start + AFTER_MS - EVERY_MS;
  let shown = false;
  let done = 0;
  return {
    step: async () => {
      done++;
      const now = performance.now();
      if (now - drawn < EVERY_MS) return;
      drawn = now;
      shown = true;
      await print(io.stderr, `\r${progressLine(done, total, now - start)}${CLEAR_LINE}`);
    },
    clear: async () => {
      if (shown) await print(io.stderr, `\r${CLEAR_LINE}`);
      shown = false;
    },
  };
}

/** `[######..................] 512 of 2,000 files, about 3 min left`. */
export function progressLine(done: number, total: number, elapsedMs: number): string {
  const full = Math.floor((done / total) * BAR);
  const leftSeconds = ((elapsedMs / done) * (total - done)) / 1000;
  const numbers = new Intl.NumberFormat('en');
  return `[${'#'.repeat(full)}${'.'.repeat(BAR - full)}] ${numbers.format(done)} of ${numbers.format(total)} files, ${timeLeft(leftSeconds)} left`;
}

function timeLeft(seconds: number): string {
  if (seconds < 90) return `about ${Math.max(1, Math.round(seconds))} s`;
  if (seconds < 90 * 60) return `about ${Math.round(seconds / 60)} min`;
  return `about ${Math.round(seconds / 360) / 10} h`;
}
