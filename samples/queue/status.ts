/** How far the queue has come, and which files were set aside, why: `npx tsx samples/queue/status.ts`. */
import { setAside, withQueue } from './queue.js';

await withQueue(async (queue) => {
  const { completed, failed, active, ...others } = await queue.getJobCounts();
  const waiting = Object.values(others).reduce((sum, count) => sum + count, 0);
  console.log(`${completed} done, ${waiting} waiting, ${active} under way, ${failed} set aside`);
  for (const { tries, reason } of await setAside(queue))
    console.log(`set aside after ${tries} tries: ${reason}`);
}).catch(({ message }: Error) => {
  console.error(message);
  process.exitCode = 2;
});
