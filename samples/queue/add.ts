/** Puts every file of a folder into the queue: `npx tsx samples/queue/add.ts uploads`. */
import { createHash } from 'node:crypto';
import { readdir, readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { TRIES, WAIT_MS, withQueue } from './queue.js';

const [folder] = process.argv.slice(2);
if (folder === undefined) stopWith('say which folder: npx tsx samples/queue/add.ts uploads');
else await add(folder).catch(({ message }: Error) => stopWith(message));

async function add(folder: string): Promise<void> {
  const names = (await readdir(folder)).filter((name) => name.endsWith('.dst')).sort();
  const jobs = await Promise.all(names.map((name) => jobOf(resolve(join(folder, name)))));
  await withQueue(async (queue) => {
    await queue.addBulk(jobs);
    console.log(`${names.length} files from ${folder} are in the queue`);
  });
}

/** Named by the content, so that a file that is sent again, under whatever name, is one job. */
async function jobOf(path: string) {
  const hash = createHash('sha256')
    .update(await readFile(path))
    .digest('hex');
  const opts = {
    jobId: `sha256-${hash}`,
    attempts: TRIES,
    backoff: { type: 'exponential', delay: WAIT_MS },
  };
  return { name: 'vet', data: { path }, opts };
}

function stopWith(line: string): void {
  console.error(line);
  process.exitCode = 2;
}
