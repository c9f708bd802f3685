/**
 * Names of files that are being written, beside their targets: `.lieflat-HOST-PROCESS-THREAD-N.part`. The name says who writes, so that what a killed
 * process left is known for such and removed by the next that writes into the folder.
 */
import { createHash } from 'node:crypto';
import { threadId } from 'node:worker_threads';
import { LieflatError } from '../core/errors.js';
import { drive } from './drive.js';
import { systemCode } from './file-errors.js';
import { isRunning, own, system } from './system.js';

/** Temporary files tried beside a target before giving up: more means a folder full of leftovers. */
const MOST = 1000;
const NAME = /^\.lieflat-([0-9a-f]{8})-(\d+)-(\d+)-(\d+)\.part$/;
/** Whether another computer's process still runs cannot be asked; no write pauses for longer than this. */
const A_DAY_MS = 24 * 60 * 60 * 1000;

/** Those that this thread has open. */
const open = new Set<string>();

let host: string | undefined;

/** A short mark of this computer, in which the numbers of processes mean what they say. */
const hostMark = (): string =>
  (host ??= createHash('sha256').update(own.hostname()).digest('hex').slice(0, 8));

/** Opens a new file under a temporary name in a folder, after whatever killed processes left there is removed. */
export async function openTemporary(
  folder: string,
  target: string,
): Promise<{ file: number; temporary: string }> {
  for (let n = 0; n < MOST; n++) {
    const name = `.lieflat-${hostMark()}-${own.pid}-${threadId}-${n}.part`;
    const temporary = system().path.join(folder, name);
    if (open.has(temporary)) continue;
    // Before the file is there: another write of this thread may look for leftovers meanwhile.
    open.add(temporary);
    try {
      const file = await drive.open(temporary, 'new');
      await removeAbandoned(folder, name, file);
      return { file, temporary };
    } catch (error) {
      open.delete(temporary);
      if (systemCode(error) !== 'EEXIST') throw error;
    }
  }
  throw new LieflatError({
    code: 'unwritable',
    place: target,
    what: 'its folder is full of unfinished files',
    todo: `remove the files .lieflat-*.part from ${folder}`,
  });
}

/** Lets go of a temporary name: it was moved or removed. */
export const closeTemporary = (temporary: string): void => {
  open.delete(temporary);
};

/** Removes what others left. What stands in the way of that is in nobody's way: the next write tries again. */
async function removeAbandoned(folder: string, except: string, file: number): Promise<void> {
  const entries = await drive.readdir(folder).catch(() => []);
  for (const { name } of entries) {
    if (name === except || !NAME.test(name)) continue;
    const path = system().path.join(folder, name);
    if (await isAbandoned(name, path, file).catch(() => false))
      await drive.unlink(path).catch(() => undefined);
  }
}

/** @param file one that was opened just now: its time is that of the disk's own clock */
async function isAbandoned(name: string, path: string, file: number): Promise<boolean> {
  const [, by, pid, thread] = NAME.exec(name)!;
  if (by !== hostMark()) {
    const [{ modifiedMs: now }, { modifiedMs }] = [await drive.fstat(file), await drive.stat(path)];
    return now - modifiedMs > A_DAY_MS;
  }
  if (Number(pid) === own.pid) return Number(thread) === threadId && !open.has(path);
  return !isRunning(Number(pid));
}
