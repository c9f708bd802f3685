/** The trial itself: what the queue says of its jobs, and what lies in the results, after a worker was killed. */
import { readdirSync, readFileSync } from 'node:fs';
import { Queue } from 'bullmq';
import { Redis } from 'ioredis';
import { factsOf, readDesignFile, shopOf, toJson } from '../../lib/index.js';
import { TRIES } from '../../samples/queue/queue.js';
import { holdPoison } from './poison.js';
import type { QueueShop } from './shop.js';
import { type Hold, until } from './until.js';

/** What is not as it should be, a line each. */
export async function trial(shop: QueueShop): Promise<string[]> {
  const redis = new Redis(shop.url, { maxRetriesPerRequest: null });
  // Redis may still be starting.
  redis.on('error', () => {});
  const queue = new Queue('uploads', { connection: redis });
  const wrong: string[] = [];
  const hold = (right: boolean, line: string): void => {
    if (!right) wrong.push(line);
  };
  try {
    await until('Redis answers', async () => (await redis.ping()) === 'PONG');
    const added = await shop.start('add.ts').ended;
    hold(added.code === 0, `the uploads could not be added: ${added.text}`);

    const first = shop.start('worker.ts');
    await until('a worker has the big file', async () =>
      (await queue.getActive()).some(({ id }) => id === shop.big),
    );
    first.kill('SIGKILL');
    await first.ended;
    const lost = (await queue.getActive()).map(({ id }) => id);
    hold(lost.includes(shop.big), 'the worker was killed when it was done with the big file');
    const before = resultsOf(shop).length;
    // A customer who got no answer sends all of it again.
    await shop.start('add.ts').ended;

    const workers = [shop.start('worker.ts'), shop.start('worker.ts')];
    await until('nothing waits', async () => {
      const { completed, failed, ...others } = await queue.getJobCounts();
      return Object.values(others).every((count) => count === 0);
    });
    const status = await shop.start('status.ts').ended;
    for (const worker of workers) worker.kill('SIGTERM');
    await Promise.all(workers.map(({ ended }) => ended));

    await holdResults(shop, hold);
    await holdJobs(shop, queue, redis, hold);
    const failed = await queue.getFailed();
    const [{ attemptsMade, failedReason }] = failed;
    hold(failed.length === 1 && failed[0].id === shop.broken, `${failed.length} files set aside`);
    hold(attemptsMade === TRIES, `set aside after ${attemptsMade} tries`);
    hold(
      failedReason.includes('broken.dst') && !failedReason.includes('\n'),
      `no reason in one line: ${failedReason}`,
    );
    hold(status.text.includes(`set aside after ${TRIES} tries: ${failedReason}\n`), `status: ${status.text}`);
    const reports = resultsOf(shop).length;
    await holdStop(shop, queue, hold);
    const said = await holdPoison(shop, queue, hold);
    console.log(
      `${shop.good.size} files and a broken one: a worker killed over the first with ${before} done, ` +
        `${reports} reports in the end; ${status.text.trim().replaceAll('\n', '; ')}`,
    );
    console.log(said);
  } finally {
    await queue.close();
    redis.disconnect();
  }
  return wrong;
}

const resultsOf = ({ at }: QueueShop): string[] => readdirSync(at('results')).sort();

/** A report for each file that can be read and no other, each with the bytes that vetting the file alone gives. */
async function holdResults(shop: QueueShop, hold: Hold): Promise<void> {
  const expected = [...shop.good.keys()].map((id) => `${id}.json`).sort();
  const found = resultsOf(shop);
  hold(
    JSON.stringify(found) === JSON.stringify(expected),
    `${found.length} results for ${expected.length} files`,
  );
  const { vet } = shopOf();
  for (const [id, path] of shop.good) {
    if (!found.includes(`${id}.json`)) continue;
    const written = readFileSync(shop.at(`results/${id}.json`), 'utf8');
    const { file } = JSON.parse(written) as { file: { path: string } };
    // Of two files of the same content either may have been first.
    const read = await readDesignFile(path);
    const { report } = vet(read.design, { file: { ...factsOf(read), path: file.path } });
    hold(written === toJson(report), `${path}: not the report that it has alone`);
  }
}

/** Every good file was finished once, by what Redis tells of each event, and the killed one was begun twice. */
async function holdJobs(shop: QueueShop, queue: Queue, redis: Redis, hold: Hold): Promise<void> {
  const times = new Map<string, number>();
  for (const [, fields] of await redis.xrange('bull:uploads:events', '-', '+')) {
    const of = (name: string): string => fields[fields.indexOf(name) + 1];
    if (of('event') === 'completed') times.set(of('jobId'), (times.get(of('jobId')) ?? 0) + 1);
  }
  for (const [id, path] of shop.good)
    hold(times.get(id) === 1, `${path} was finished ${times.get(id) ?? 0} times`);
  hold(times.size === shop.good.size, `${times.size} jobs finished for ${shop.good.size} files`);
  const big = await queue.getJob(shop.big);
  hold((big?.attemptsStarted ?? 0) > 1, 'the file of the killed worker was not begun again');
}

/** A worker that is asked to stop over a file finishes that one. */
async function holdStop(shop: QueueShop, queue: Queue, hold: Hold): Promise<void> {
  const id = shop.another('another-banner.dst', 'long');
  await shop.start('add.ts').ended;
  const worker = shop.start('worker.ts');
  await until('a worker has the new file', async () => (await queue.getActiveCount()) > 0);
  worker.kill('SIGTERM');
  await worker.ended;
  hold((await queue.getJob(id))?.finishedOn !== undefined, 'a worker that was stopped left its file');
}
