import { hashOf } from '../../lib/io/index.js';
import { type Io, print } from '../io.js';
import { withBoundedConcurrency } from './bounded-concurrency.js';
import type { BatchJob } from './job.js';
import { progressOf } from './progress.js';
import type { FileDone, FileFailure, Task } from './task.js';
import { workersOf } from './worker-pool.js';

export interface Batch {
  job: BatchJob;
  /** Whether the person has asked to stop. */
  stop: AbortSignal;
  /** The files; ends early when the signal says so. */
  paths: (stop: AbortSignal) => AsyncIterable<string> | Iterable<string>;
  /** All of them; null where they show only as they come. */
  listed: readonly string[] | null;
  workers: number;
  /** Take results in the order of the files, not as they are finished. */
  ordered: boolean;
  /** Hashes of files that are passed over. */
  before?: ReadonlySet<string>;
  /** The report goes to a file, not to standard output. */
  writesOut: boolean;
  /** What is said on a terminal meanwhile, where every file takes a while. */
  notice?: string;
  /** Is told of each file that has no result. */
  unread?: (failure: FileFailure) => void;
}

/** How a batch ended. */
export interface Ended {
  done: number;
  unread: number;
  skipped: number;
  /** The person stopped it before all was done. */
  stopped: boolean;
  /** Not one file could be read: an old report is better than one of nothing. */
  fruitless: boolean;
}

/**
 * Listens for the person to ask for a stop, until it is let go of: once what was done is in place, as an end in between would lose it. One file
 * alone is better ended at once.
 */
export function listenForStop(io: Io, total: number | null): { stop: AbortSignal; letGo: () => void } {
  const asked = new AbortController();
  const letGo = total === 1 ? undefined : io.onStop?.(() => asked.abort());
  return { stop: asked.signal, letGo: () => letGo?.() };
}

/**
 * Works on every file and hands over each result; errors are printed as they come, and the rest go on. When the person asks to stop,
 * what is under way is finished and nothing new begun.
 *
 * @param take false: nobody wants more
 */
export async function runBatch(
  batch: Batch,
  io: Io,
  take: (done: FileDone) => Promise<boolean>,
): Promise<Ended> {
  const { job, paths, listed, workers, ordered, before, writesOut, notice } = batch;
  const total = listed?.length ?? null;
  const ended: Ended = { done: 0, unread: 0, skipped: 0, stopped: false, fruitless: false };
  const unwanted = new AbortController();
  const stop = AbortSignal.any([batch.stop, unwanted.signal]);
  const progress = progressOf(io, { total, files: listed ?? undefined, writesOut, notice });
  async function* tasks(): AsyncGenerator<Task> {
    let number = 0;
    for await (const path of paths(stop)) {
      if (stop.aborted) return;
      if (before && (await isAmong(before, path, io))) {
        ended.skipped++;
        await progress.passOver(path);
      } else yield { path, number: ++number };
    }
  }
  const pool = await workersOf(job, workers);
  const worked = async (task: Task) => ({ file: task.path, outcome: await pool.work(task) });
  try {
    await progress.begin();
    for await (const { file, outcome } of withBoundedConcurrency(tasks(), worked, {
      concurrency: pool.underWay,
      ordered,
    })) {
      let open = true;
      if ('error' in outcome) {
        ended.unread++;
        batch.unread?.(outcome);
        await progress.clear();
        await print(io.stderr, outcome.error);
      } else {
        ended.done++;
        await progress.makeRoom();
        open = await take(outcome);
      }
      if (!open) {
        unwanted.abort();
        break;
      }
      await progress.step(file);
    }
  } finally {
    await progress.clear();
    await pool.end();
  }
  const { done, unread, skipped } = ended;
  ended.stopped = batch.stop.aborted && total !== null && done + unread + skipped < total;
  ended.fruitless = !ended.stopped && total !== null && done + skipped === 0;
  return ended;
}

/** A file that cannot be read is among none: working on it says why. */
const isAmong = (hashes: ReadonlySet<string>, path: string, { maxBytes }: Io): Promise<boolean> =>
  hashOf(path, { maxBytes }).then(
    (hash) => hashes.has(hash),
    () => false,
  );

/**
 * `stopped after 812 of 2000 files`, and how to go on, or where what was written until then lies.
 *
 * @param aside what {@link Output.setAside} gave
 */
export const stoppedLine = (done: number, files: number, aside: string | null, wayOn = ''): string =>
  `stopped after ${done} of ${files} files${aside === null ? wayOn : `; what was done is in ${aside}`}\n`;
