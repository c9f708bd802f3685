import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { LieflatError } from '../../lib/index.js';
import { fileState } from '../../lib/io/index.js';
import { badArgument } from '../bad-argument.js';
import { tooLong } from '../budget.js';
import { type BatchJob, failure, workOf } from './job.js';
import type { FileOutcome, Task } from './task.js';

/** Who does the work: this thread, or a pool of others. */
export interface Workers {
  /** Never rejects. */
  work: (task: Task) => Promise<FileOutcome>;
  /** How many tasks to have under way: one more a thread than it works on, so that none waits for the next. */
  underWay: number;
  /** Drops what is under way. */
  end: () => Promise<void>;
}

/** Below this many files starting threads takes longer than they save; working out the pucker is slow enough for fewer. */
const SMALL_BATCH = 16;
const SMALL_BATCH_ON_FABRIC = 4;
const MOST_WORKERS = 256;
/** V8 needs some room to start with, whatever a file may take. */
const LEAST_HEAP_MB = 256;
/**
 * What a thread may take over the time of a file, its own start included, before it counts as stuck. In the thread the budget ends the work; this
 * is for what no budget can end.
 */
const GRACE_SECONDS = 10;
/**
 * A third of what a process has: with half of this, what one design needs for a while already counts as old, and a thread spends a third of its
 * time on letting go of it; with twice as much, two threads that work out the pucker of large designs take 140 MB more and are no faster.
 */
const YOUNG_MB = 16;
/** What a thread runs. It lies beside the packed program; from source, where there is none, all is done in this thread. */
const THREAD = new URL('./worker.js', import.meta.url);

/**
 * How many threads to work in; 1 is this one.
 *
 * @param given what `--workers` says
 * @throws LieflatError `bad-argument`
 */
export function workersFor(given: string | undefined, files: number, onFabric: boolean): number {
  if (given === undefined)
    return files < (onFabric ? SMALL_BATCH_ON_FABRIC : SMALL_BATCH) ? 1 : availableParallelism();
  const workers = /^\d+$/.test(given) ? Number(given) : Number.NaN;
  if (!(workers >= 1 && workers <= MOST_WORKERS))
    throw badArgument(
      `--workers cannot be ${given || 'empty'}`,
      `give a whole number from 1 to ${MOST_WORKERS}`,
    );
  return workers;
}

export async function workersOf(job: BatchJob, workers: number): Promise<Workers> {
  if (workers > 1 && (await fileState(fileURLToPath(THREAD)))) return poolOf(job, workers);
  return { work: await workOf(job), underWay: 1, end: async () => {} };
}

/**
 * Threads that are asked one by one, each keeping what it knows of the files that it has worked on; this thread alone where there are none.
 * Whoever asks waits for an answer before asking the same one again.
 */
export async function threadsOf(job: BatchJob, threads: number): Promise<Workers[]> {
  const apart = threads > 1 && (await fileState(fileURLToPath(THREAD)));
  if (!apart) return [await workersOf(job, 1)];
  return Promise.all(Array.from({ length: threads }, () => poolOf(job, 1)));
}

/**
 * A pool of threads. One that dies, or does not come back from a file, is that file's error alone: another takes its place.
 *
 * @param thread the module that a thread runs
 * @param heapMb memory that a thread may fill; what a file may take if not said, so that the same files are refused in a thread and out of one
 */
export async function poolOf(
  job: BatchJob,
  threads: number,
  thread = THREAD,
  heapMb = Math.max(LEAST_HEAP_MB, job.setup.limits.bytes / 1e6),
  graceSeconds = GRACE_SECONDS,
): Promise<Workers> {
  const { limits } = job.setup;
  const through = turnstileOf(threads, 1000 * (limits.seconds + graceSeconds));
  const { Piscina } = await import('piscina');
  const pool = new Piscina({
    filename: thread.href,
    minThreads: threads,
    maxThreads: threads,
    workerData: job,
    recordTiming: false,
    resourceLimits: { maxOldGenerationSizeMb: heapMb, maxYoungGenerationSizeMb: YOUNG_MB },
  });
  // A thread that fails with no task on its hands fails for all. Racing each task against one promise of that would keep every result for as
  // long as the pool lives.
  const waiting = new Set<(error: unknown) => void>();
  let broken: { error: unknown } | undefined;
  pool.on('error', (error) => {
    broken = { error };
    for (const fail of waiting) fail(error);
  });
  const run = (task: Task, stuck: AbortSignal): Promise<FileOutcome> =>
    new Promise<FileOutcome>((done, fail) => {
      if (broken) throw broken.error;
      waiting.add(fail);
      pool
        .run(task, { signal: stuck })
        .then(done, (error) => fail(stuck.aborted ? tooLong(task.path, limits) : error))
        .finally(() => waiting.delete(fail));
    });
  return {
    work: (task) =>
      through((stuck) => run(task, stuck)).catch((error) =>
        failure(lostThread(error, task.path), task.path, job.debug),
      ),
    underWay: 2 * threads,
    end: () => pool.destroy(),
  };
}

/**
 * Lets so many tasks in at a time, in their order, each with a watch over its time. The pool is never handed more than it has threads for: it would
 * take tasks with a signal out of their order, and their time would run while they wait.
 */
function turnstileOf(threads: number, ms: number) {
  const waiting: (() => void)[] = [];
  let free = threads;
  const enter = (): Promise<void> =>
    new Promise((go) => {
      if (free > 0) {
        free--;
        go();
      } else waiting.push(go);
    });
  const leave = (): void => {
    const next = waiting.shift();
    if (next) next();
    else free++;
  };
  return async <T>(work: (stuck: AbortSignal) => Promise<T>): Promise<T> => {
    await enter();
    const stuck = new AbortController();
    const timer = setTimeout(() => stuck.abort(), ms);
    try {
      return await work(stuck.signal);
    } finally {
      clearTimeout(timer);
      leave();
    }
  };
}

function lostThread(error: unknown, path: string): unknown {
  if (!(error instanceof Error && 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY')) return error;
  return new LieflatError({
    code: 'too-large',
    place: path,
    what: 'it needs more memory than one worker may use',
    todo: 'check it alone with --workers 1, or split the design',
  });
}
