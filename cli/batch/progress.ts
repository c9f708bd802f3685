import { type Io, print } from '../io.js';
import { CLEAR_LINE } from '../output.js';
import { Pace } from './pace.js';
import { WorkDone } from './work-done.js';

/** How far a batch has come, on a line of the terminal that goes away when something else is printed. */
export interface Progress {
  /** Work on the first file begins. */
  begin(): Promise<void>;
  /** Makes room for a piece of the report that goes to the same terminal. */
  makeRoom(): Promise<void>;
  /** One more file is done with. */
  step(file?: string): Promise<void>;
  /** One more file takes no work. */
  passOver(file: string): Promise<void>;
  /** Takes the line away. */
  clear(): Promise<void>;
}

const BAR = 24;
/** Drawn no more often than this, ms. */
const EVERY_MS = 100;
/** A batch that is over sooner needs none, ms. */
const AFTER_MS = 500;
/** What a file takes whatever its size, in bytes of one: to read and vet it, and to work out how it puckers. */
export const BYTES_EACH = { alone: 1_000, onFabric: 3_000 };

/** What is to be done. */
export interface Ahead {
  /** How many files there are; null where nobody knows, which draws nothing. */
  readonly total: number | null;
  /** What they are called, where each counts by its size. */
  readonly files?: readonly string[];
  /** The report goes to a file. */
  readonly writesOut: boolean;
  /** What is under way where every file takes a while; it stands where no bar does. */
  readonly notice?: string;
}

/**
 * A bar on standard error, where that is a terminal and standard output is not another stream into it; else nothing. (The bar
 * libraries at hand have had no release since 2024, and what is needed is this.)
 */
export function progressOf(io: Io, { total, files, writesOut, notice }: Ahead): Progress {
  if (io.onNotice) return toldOf(io.onNotice, total, notice);
  const silent = { begin: nothing, makeRoom: nothing, step: nothing, passOver: nothing, clear: nothing };
  if (total === null || !io.stderr.isTTY || io.env.TERM === 'dumb') return silent;
  if (total === 1 || (io.isTTY && !writesOut))
    return notice === undefined ? silent : noticeOf(io, total, notice);
  return barOf(io, total, files ? new WorkDone(files, BYTES_EACH[notice ? 'onFabric' : 'alone']) : null);
}

const nothing = async () => {};

function barOf(io: Io, total: number, work: WorkDone | null): Progress {
  const start = performance.now();
  const pace = new Pace();
  let drawn = start + AFTER_MS - EVERY_MS;
  let shown = false;
  let done = 0;
  const draw = async () => {
    done++;
    const now = performance.now();
    const part = work ? work.part : done / total;
    const leftMs = pace.leftAt(now - start, part);
    if (now - drawn < EVERY_MS) return;
    drawn = now;
    shown = true;
    await print(io.stderr, `\r${progressLine({ done, total, part, leftMs })}${CLEAR_LINE}`);
  };
  return {
    begin: async () => {
      // Nobody waits for it: what is not known yet counts as the mean.
      void work?.askSizes(() => done < total);
    },
    makeRoom: nothing,
    step: (file) => {
      if (file !== undefined) work?.done(file);
      return draw();
    },
    passOver: (file) => {
      work?.passedOver(file);
      return draw();
    },
    clear: async () => {
      if (shown) await print(io.stderr, `\r${CLEAR_LINE}`);
      shown = false;
    },
  };
}

/** Where somebody other than a terminal listens. */
function toldOf(tell: NonNullable<Io['onNotice']>, total: number | null, notice = 'reading'): Progress {
  let done = 0;
  const told = async () => tell(notice, total === null || total < 2 ? undefined : done / total);
  const step = () => {
    done++;
    return told();
  };
  return { begin: told, makeRoom: nothing, step, passOver: step, clear: nothing };
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
  const step = async () => {
    done++;
    await clear();
    if (done < total) await show();
  };
  return { begin: show, makeRoom: clear, step, passOver: step, clear };
}

/** How far a batch is. */
interface Far {
  /** Files. */
  readonly done: number;
  readonly total: number;
  /** Of the work, 0 to 1. */
  readonly part: number;
  readonly leftMs: number | null;
}

/** `[######..................] 512 of 2,000 files, about 3 min left`. */
export function progressLine({ done, total, part, leftMs }: Far): string {
  const full = Math.floor(part * BAR);
  const numbers = new Intl.NumberFormat('en');
  const files = `${numbers.format(done)} of ${numbers.format(total)} files`;
  const bar = `[${'#'.repeat(full)}${'.'.repeat(BAR - full)}] ${files}`;
  return leftMs === null ? bar : `${bar}, ${timeLeft(leftMs / 1000)} left`;
}

function timeLeft(seconds: number): string {
  if (seconds < 90) return `about ${Math.max(1, Math.round(seconds))} s`;
  if (seconds < 90 * 60) return `about ${Math.round(seconds / 60)} min`;
  return `about ${Math.round(seconds / 360) / 10} h`;
}
