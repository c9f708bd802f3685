import { type Io, print } from '../io.js';
import { CLEAR_LINE } from '../output.js';

/** How far a batch has come, on a line of the terminal that goes away when something else is printed. */
export interface Progress {
  /** Work on the first file begins. */
  begin(): Promise<void>;
  /** Makes room for a piece of the report that goes to the same terminal. */
  makeRoom(): Promise<void>;
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
 * @param notice what is under way where every file takes a while; it stands where no bar does
 */
export function progressOf(io: Io, total: number | null, writesOut: boolean, notice?: string): Progress {
  const nothing = async () => {};
  if (io.onNotice) return toldOf(io.onNotice, total, notice);
  const silent = { begin: nothing, makeRoom: nothing, step: nothing, clear: nothing };
  if (total === null || !io.stderr.isTTY || io.env.TERM === 'dumb') return silent;
  if (total === 1 || (io.isTTY && !writesOut))
    return notice === undefined ? silent : noticeOf(io, total, notice);
  const start = performance.now();
  let drawn = start + AFTER_MS - EVERY_MS;
  let shown = false;
  let done = 0;
  return {
    begin: nothing,
    makeRoom: nothing,
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

/** Where somebody other than a terminal listens. */
function toldOf(tell: NonNullable<Io['onNotice']>, total: number | null, notice = 'reading'): Progress {
  const nothing = async () => {};
  let done = 0;
  const told = async () => tell(notice, total === null || total < 2 ? undefined : done / total);
  const step = () => {
    done++;
    return told();
  };
  return { begin: told, makeRoom: nothing, step, clear: nothing };
}

/** `working out the pucker ...`, or `working out the pucker, 3 of 8 files done ...`, between the pieces of the report. */
function noticeOf(io: Io, total: number, notice: string): Progress {
  let shown = false;
  let done = 0;
  const show = async () => {
    shown = true;
    const far = total === 1 ? '' : `, ${done} of ${total} files done`;
    await print(io.stderr, `${notice}${far} ...`);
  };
  const clear = async () => {
    if (shown) await print(io.stderr, `\r${CLEAR_LINE}`);
    shown = false;
  };
  return {
    begin: show,
    makeRoom: clear,
    step: async () => {
      done++;
      await clear();
      if (done < total) await show();
    },
    clear,
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
