import { errorLine, traceOf } from '../error-lines.js';
import type { ColumnsSetup } from './columns-job.js';
import type { FileOutcome, Task } from './task.js';
import { type VetSetup, vetWork } from './vet-job.js';

/** What to do with every file. */
export type BatchJob = ({ name: 'vet'; setup: VetSetup } | { name: 'columns'; setup: ColumnsSetup }) & {
  /** Say where in the program an error came from. */
  debug: boolean;
};

/** Makes ready for the work; an error of one file becomes its outcome, so that the others go on. */
export async function workOf(job: BatchJob): Promise<(task: Task) => Promise<FileOutcome>> {
  const work =
    job.name === 'vet'
      ? await vetWork(job.setup)
      : await (await import('./columns-job.js')).columnsWork(job.setup);
  return (task) => work(task).catch((error) => failure(error, task.path, job.debug));
}

/** An error as the outcome of a file. */
export const failure = (error: unknown, path: string, debug: boolean): FileOutcome => ({
  error: errorLine(error, path) + (debug ? traceOf(error) : ''),
});
