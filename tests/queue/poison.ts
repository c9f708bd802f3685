/** A file over which every worker dies, as one that takes more memory than there is: it may not take the others with it. */
import { existsSync } from 'node:fs';
import type { Queue } from 'bullmq';
import { TRIES } from '../../samples/queue/queue.js';
import type { QueueShop } from './shop.js';
import { type Hold, until } from './until.js';

const BESIDE = 8;

/** Holds that it is set aside after so many workers, and that all that came with it is done. */
export async function holdPoison(shop: QueueShop, queue: Queue, hold: Hold): Promise<string> {
  const before = await queue.getFailed();
  // By its name it is the first to be taken.
  const poison = shop.another('a-poison.dst', 'long');
  const beside = Array.from({ length: BESIDE }, (_, n) => shop.another(`beside-${n}.dst`, 'no time'));
  await shop.start('add.ts').ended;
  for (let dead = 0; dead < TRIES; dead++) {
    const worker = shop.start('worker.ts');
    // What a dead worker had stays active until it is missed; only this count tells that the new one has it.
    await until(`worker ${dead + 1} has the poison`, async () => {
      const job = await queue.getJob(poison);
      return job?.attemptsStarted === dead + 1;
    });
    worker.kill('SIGKILL');
    await worker.ended;
  }
  const last = shop.start('worker.ts');
  await until('the poison is set aside', async () => (await queue.getJob(poison))?.finishedOn !== undefined);
  const status = await shop.start('status.ts').ended;
  last.kill('SIGTERM');
  const said = (await last.ended).text;

  const isWritten = (id: string): boolean => existsSync(shop.at(`results/${id}.json`));
  const done = beside.filter(isWritten).length;
  hold(done === BESIDE, `${done} of ${BESIDE} files beside a poison were done`);
  hold(!isWritten(poison), 'there is a report of a file over which every worker died');
  const failed = (await queue.getFailed()).map(({ id }) => id);
  hold(
    failed.length === before.length + 1 && failed.includes(poison),
    `set aside: ${failed.join(', ')} in place of the poison`,
  );
  const line = `${shop.at('uploads/a-poison.dst')}: ${TRIES} workers died over it\n`;
  hold(status.text.includes(`set aside after ${TRIES} tries: ${line}`), `status: ${status.text}`);
  hold(said.includes(`try ${TRIES} of ${TRIES}: ${line}`), `the last worker said: ${said}`);
  return `a poison: set aside after ${TRIES} dead workers, ${done} of ${BESIDE} files beside it done`;
}
