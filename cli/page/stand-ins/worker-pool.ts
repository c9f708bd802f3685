/** In the place of the pool of threads, in the page: the worker does all itself. */
import { type BatchJob, workOf } from '../../batch/job.js';
import type { Workers } from '../../batch/worker-pool.js';

export const workersFor = (): number => 1;

export const workersOf = async (job: BatchJob): Promise<Workers> => ({
  work: await workOf(job),
  underWay: 1,
  end: async () => {},
});

export const threadsOf = async (job: BatchJob): Promise<Workers[]> => [await workersOf(job)];
