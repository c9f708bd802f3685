/** Vets files from the queue, one after the other, until it is stopped: `npx tsx samples/queue/worker.ts results`. */
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { type Job, Worker } from 'bullmq';
import { Redis } from 'ioredis';
import { factsOf, readDesignFile, shopOf, toJson } from 'lieflat';
import { writeFileSafely } from 'lieflat/io';
import { asideOf, LOCK_MS, QUEUE, REDIS_URL, TRIES, type Upload } from './queue.js';

/** No upload of a stitch file is larger. */
const MOST_BYTES = 10_000_000;

const [results] = process.argv.slice(2);
if (results === undefined) {
  console.error('say where results go: npx tsx samples/queue/worker.ts results');
  process.exitCode = 2;
} else await workInto(results);

async function workInto(folder: string): Promise<void> {
  await mkdir(folder, { recursive: true });
  const shop = shopOf();
  const vetted = async ({ id, data }: Job<Upload>): Promise<void> => {
    const read = await readDesignFile(data.path, { maxBytes: MOST_BYTES });
    const { report } = shop.vet(read.design, { file: factsOf(read) });
    // Whole or not at all. Who dies after this and before the queue knows leaves the same bytes to be written again.
    await writeFileSafely(join(folder, `${id}.json`), toJson(report), { force: true });
  };
  const connection = new Redis(REDIS_URL, { maxRetriesPerRequest: null });
  const worker = new Worker<Upload>(QUEUE, vetted, {
    connection,
    lockDuration: LOCK_MS,
    stalledInterval: LOCK_MS / 2,
    // A file over which every worker dies is set aside as well.
    maxStalledCount: TRIES - 1,
  });
  let said = '';
  worker.on('error', ({ message }) => {
    if (message !== said) console.error(`${REDIS_URL}: ${message}`);
    said = message;
  });
  worker.on('failed', (job) => {
    if (!job) return;
    const { tries, reason } = asideOf(job);
    console.error(`try ${tries} of ${TRIES}: ${reason}`);
  });
  // What is under way is finished first.
  for (const signal of ['SIGINT', 'SIGTERM'] as const)
    process.once(signal, async () => {
      await worker.close();
      connection.disconnect();
    });
}
