import { type Budget, LieflatError } from '../lib/index.js';
import { type AnswersPlace, memoryError } from '../lib/io/index.js';
import { ownWatchdog, type Watchdog } from './watchdog.js';

/** How long the work on one file may take, and how much memory it may fill. */
export interface FileLimits {
  seconds: number;
  bytes: number;
}

/** For what only reads a design, and for what works the pucker out or makes a file anew. */
export const USUAL_SECONDS = 60;
export const USUAL_SECONDS_SLOW = 600;
export const USUAL_BYTES = 2e9;
/** Where nothing is said. */
export const USUAL_LIMITS: FileLimits = { seconds: USUAL_SECONDS, bytes: USUAL_BYTES };

/** The bounds of the work on each file, and where its answers are kept. */
export interface FileBounds {
  maxBytes: number | undefined;
  limits: FileLimits;
  answers: AnswersPlace | undefined;
}

/** As data, for a thread. */
export const boundsOf = ({
  maxBytes,
  limits = USUAL_LIMITS,
  answers,
}: {
  readonly maxBytes?: number;
  readonly limits?: FileLimits;
  readonly answers?: AnswersPlace;
}): FileBounds => ({ maxBytes, limits, answers });

/** The budget of one file, from now on. */
export function budgetOf(path: string, limits: FileLimits, watchdog: Watchdog = ownWatchdog): Budget {
  const end = watchdog.now() + 1000 * limits.seconds;
  let watched = false;
  return {
    run: (work) => {
      const left = end - watchdog.now();
      if (!(left > 0)) throw tooLong(path, limits);
      // A watchdog within a watchdog would end no sooner.
      if (watched) return work();
      watched = true;
      try {
        return watchdog.within(left, work);
      } catch (error) {
        throw isTimeout(error) ? tooLong(path, limits) : (memoryError(error, path) ?? error);
      } finally {
        watched = false;
      }
    },
    reserve: (bytes) => {
      if (bytes > limits.bytes) throw tooMuch(path, bytes, limits);
    },
  };
}

/** The line that a file gets whose time is up, in whatever thread. */
export function tooLong(path: string, { seconds }: FileLimits): LieflatError {
  return new LieflatError({
    code: 'over-budget',
    place: path,
    what: `not done within ${seconds} ${seconds === 1 ? 'second' : 'seconds'}`,
    todo: 'allow more time with --max-seconds, or split the design',
  });
}

function tooMuch(path: string, bytes: number, limits: FileLimits): LieflatError {
  return new LieflatError({
    code: 'over-budget',
    place: path,
    what: `it would take about ${megabytes(bytes)} MB of memory, more than the ${megabytes(limits.bytes)} MB it may`,
    todo: 'split the design, or allow more with --max-memory',
  });
}

const megabytes = (bytes: number): number => Math.ceil(bytes / 1e6);

const isTimeout = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && error.code === 'ERR_SCRIPT_EXECUTION_TIMEOUT';
