import { stat } from 'node:fs/promises';
import { basename, resolve } from 'node:path';
import { Readable } from 'node:stream';
import { setTimeout as wait } from 'node:timers/promises';
import { formatOf } from '../../lib/index.js';
import { badArgument } from '../bad-argument.js';
import { type Io, print } from '../io.js';
import { pathFrom } from '../settings.js';

/** How long neither size nor time of a file may change before it counts as whole, ms. */
const QUIET_MS = 2000;

/** Stitch files of some folders, those that are there and those that come or change, until it is stopped. */
export interface Watch {
  arrivals(stop: AbortSignal): AsyncIterable<string>;
}

/**
 * Watches folders and those under them; hidden files are left out and links not followed.
 *
 * @throws LieflatError `bad-argument` for a word that is no folder
 */
export async function watchFolders(words: readonly string[], io: Io, quietMs = QUIET_MS): Promise<Watch> {
  const folders = words.map((word) => pathFrom(io, word));
  for (const [i, folder] of folders.entries()) {
    const stats = await stat(folder).catch(() => null);
    if (!stats?.isDirectory()) throw badArgument(`--watch cannot watch ${words[i]}`, 'give folders');
  }
  const roots = new Set(folders.map((folder) => resolve(folder)));
  return {
    async *arrivals(stop) {
      // Node's own watching tells of folders within folders on some systems alone.
      const { watch } = await import('chokidar');
      const whole = new Readable({ objectMode: true, read() {} });
      const waiting = new Set<string>();
      /** When the files that were handed over had been changed. */
      const seen = new Map<string, string>();
      const arrived = async (path: string): Promise<void> => {
        if (waiting.has(path)) return;
        waiting.add(path);
        const stamp = await settled(path, quietMs, stop);
        waiting.delete(path);
        if (stamp === null || stamp === seen.get(path) || stop.aborted) return;
        seen.set(path, stamp);
        whole.push(path);
      };
      const watcher = watch(folders, {
        followSymlinks: false,
        ignored: (path, stats) =>
          (!roots.has(resolve(path)) && basename(path).startsWith('.')) ||
          (stats !== undefined && !stats.isDirectory() && formatOf(path) === null),
      });
      watcher.on('add', arrived).on('change', arrived);
      watcher.on('unlink', (path) => seen.delete(path));
      watcher.on('error', (error) => {
        void print(io.stderr, `lieflat: watching: ${(error as Error).message}\n`);
      });
      const end = () => whole.push(null);
      stop.addEventListener('abort', end, { once: true });
      if (stop.aborted) end();
      try {
        yield* whole;
      } finally {
        await watcher.close();
      }
    },
  };
}

/**
 * Waits until a file is whole: not changed for a while, by its own times or by what is seen of it. An empty one is on its way for
 * longer. Returns a stamp of its state; null where it has gone, or is no plain file.
 */
async function settled(path: string, quietMs: number, stop: AbortSignal): Promise<string | null> {
  let last = '';
  let since = 0;
  for (;;) {
    const stats = await stat(path).catch(() => null);
    if (!stats?.isFile() || stop.aborted) return null;
    const now = Date.now();
    const stamp = `${stats.size} ${stats.mtimeMs}`;
    if (stamp !== last) since = now;
    last = stamp;
    const quietFor = Math.max(now - since, now - Math.max(stats.mtimeMs, stats.ctimeMs));
    if (quietFor >= (stats.size === 0 ? 5 * quietMs : quietMs)) return stamp;
    await wait(quietMs / 8, undefined, { signal: stop }).catch(() => undefined);
  }
}
