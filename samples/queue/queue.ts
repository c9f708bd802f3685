/** The queue in which uploads wait, and what is agreed about its jobs. */
import { type Job, Queue } from 'bullmq';
import { Redis } from 'ioredis';

export const QUEUE = 'uploads';
/** How often a file is tried before it is set aside. */
export const TRIES = 3;
/** The wait before the second try, ms; before the third it is twice as long. */
export const WAIT_MS = 1000;
/** A worker that is not heard of for so long is taken for dead, and its file goes to another, ms. */
export const LOCK_MS = 10_000;

export interface Upload {
  /** Where the file lies; every worker has to see it there. */
  path: string;
}

export const REDIS_URL = process.env.REDIS_URL ?? 'redis://127.0.0.1:6379';

/**
 * Does something with the queue and lets go of it.
 *
 * @throws Error in one line where no Redis answers
 */
export async function withQueue<T>(work: (queue: Queue<Upload>) => Promise<T>): Promise<T> {
  const redis = new Redis(REDIS_URL, {
    maxRetriesPerRequest: null,
    lazyConnect: true,
    retryStrategy: () => null,
  });
  // What goes wrong is told by what waits for an answer.
  redis.on('error', () => {});
  await redis.connect().catch(() => {
    throw new Error(`no Redis answers at ${REDIS_URL}: start redis-server, or set REDIS_URL`);
  });
  const queue = new Queue<Upload>(QUEUE, { connection: redis });
  try {
    return await work(queue);
  } finally {
    await queue.close();
    redis.disconnect();
  }
}

/** A file that failed every time; it stays until somebody takes it out. */
export interface FileSetAside {
  tries: number;
  /** In a line that names the file. */
  reason: string;
}

export const setAside = async (queue: Queue<Upload>): Promise<FileSetAside[]> =>
  (await queue.getFailed()).map(asideOf);

/** What is said of a file that is not tried again. Who died over it left no reason. */
export const asideOf = ({ data, attemptsMade, stalledCounter, failedReason }: Job<Upload>): FileSetAside =>
  stalledCounter < TRIES
    ? { tries: attemptsMade, reason: failedReason }
    : { tries: stalledCounter, reason: `${data.path}: ${stalledCounter} workers died over it` };
