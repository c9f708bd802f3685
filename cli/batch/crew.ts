import { existsSync } from 'node:fs';
import { availableParallelism, totalmem } from 'node:os';
import { LieflatError } from '../../lib/index.js';
import { badArgument } from '../bad-argument.js';
import { failure, type Job, workOf } from './job.js';
import type { Outcome, Task } from './task.js';

/** Who does the work: this thread, or a pool of others. */
export interface Crew {
  /** Never rejects. */
  work: (task: Task) => Promise<Outcome>;
  /** How many tasks to have under way: one more a thread than it works on, so that none waits for the next. */
  underWay: number;
  /** Drops what is under way. */
  end: () => Promise<void>;
}

/** Below this many files starting threads takes longer than they save; working out the pucker is slow enough for fewer. */
const SMALL_BATCH = 16;
const SMALL_BATCH_ON_GOODS = 4;
const MOST_WORKERS = 256;
/** Little, so that the arrays of one design are let go of soon after it: a fifth less memory, no slower. */
const YOUNG_MB = 8;
/** What a thread runs. It lies beside the packed program; from source, where there is none, all is done in this thread. */
const THREAD = new URL('./worker.js', import.meta.url);

/**
 * How many threads to work in; 1 is this one.
 *
 * @param given what `--workers` says
 * @throws LieflatError `bad-argument`
 */
export function workersFor(given: string | undefined, files: number, onGoods: boolean): number {
  if (given === undefined)
    return files < (onGoods ? SMALL_BATCH_ON_GOODS : SMALL_BATCH) ? 1 : availableParallelism();
  const workers = /^\d+$/.test(given) ? Number(given) : Number.NaN;
  if (!(workers >= 1 && workers <= MOST_WORKERS))
    throw badArgument(
      `--workers cannot be ${given || 'empty'}`,
      `give a whole number from 1 to ${MOST_WORKERS}`,
    );
  return workers;
}

export async function crewOf(job: Job, workers: number): Promise<Crew> {
  if (workers > 1 && existsSync(THREAD)) return poolOf(job, workers);
  return { work: await workOf(job), underWay: 1, end: async () => {} };
}

/**
 * A pool of threads. One that dies is that file's error alone: another takes its place.
 *
 * @param thread the module that a thread runs
 * @param heapMb memory that a thread may fill; half of the machine's is shared out if not said
 */
export async function poolOf(
  job: Job,
  threads: number,
  thread = THREAD,
  heapMb = Math.max(256, totalmem() / 2 ** 21 / threads),
): Promise<Crew> {
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
  const run = (task: Task): Promise<Outcome> =>
    new Promise<Outcome>((done, fail) => {
      if (broken) throw broken.error;
      waiting.add(fail);
      pool
        .run(task)
        .then(done, fail)
        .finally(() => waiting.delete(fail));
    });
  return {
    work: (task) => run(task).catch((error) => failure(lostThread(error, task.path), task.path, job.debug)),
    underWay: 2 * threads,
    end: () => pool.destroy(),
  };
}

function lostThread(error: unknown, path: string): unknown {
  if (!(error instanceof Error && 'code' in error && error.code === 'ERR_WORKER_OUT_OF_MEMORY')) return error;
  return new LieflatError({
    code: 'too-large',
    place: path,
    what: 'vetting it takes more memory than a thread may have',
    todo: 'vet it alone with --workers 1',
  });
}
