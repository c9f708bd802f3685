/** What runs in each thread of the pool. */
import { workerData } from 'node:worker_threads';
import { type BatchJob, workOf } from './job.js';
import type { FileOutcome, Task } from './task.js';

let work: Promise<(task: Task) => Promise<FileOutcome>> | undefined;

/** Does one task of the job that the thread was started for. */
export default async function workOn(task: Task): Promise<FileOutcome> {
  work ??= workOf(workerData as BatchJob);
  const outcome = await (await work)(task);
  // What is made on the way cannot leave the thread.
  return 'error' in outcome ? outcome : { ...outcome, pieces: [...outcome.pieces] };
}
