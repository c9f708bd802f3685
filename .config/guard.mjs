/*
 * Loaded before all else in a process that is given changed code (--import): ends it where it takes more memory than any sound one does, or where
 * nobody waits for it any more, however busy it is.
 */
import { isMainThread, Worker } from 'node:worker_threads';

const MOST_BYTES = 3e9;
const EVERY_MS = 200;

if (isMainThread)
  new Worker(
    `const parent = process.ppid;
    setInterval(() => {
      if (process.memoryUsage.rss() > ${MOST_BYTES} || process.ppid !== parent) process.kill(process.pid, 'SIGKILL');
    }, ${EVERY_MS});`,
    { eval: true, execArgv: [] },
  ).unref();
