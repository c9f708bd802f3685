import { basename, resolve } from 'node:path';
import { Readable } from 'node:stream';
import { formatOf } from '../../lib/index.js';
import { fileState, isTableOfSomethingElse, listDesignFiles } from '../../lib/io/index.js';
import { badArgument } from '../bad-argument.js';
import { type Io, print } from '../io.js';
import { pathFrom } from '../settings.js';

/** How long neither size nor time of a file may change before it counts as whole, ms. */
const QUIET_MS = 2000;
/** Stands in a name that is no UTF-8: a byte as lieflat has it, and what everybody else makes of it. */
const LONE_BYTE = /\p{Surrogate}/u;
const NO_LETTER = '\ufffd';

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
    if ((await fileState(folder))?.kind !== 'folder')
      throw badArgument(`--watch cannot watch ${words[i]}`, 'give folders');
  }
  const roots = new Set(folders.map((folder) => resolve(folder)));
  return {
    async *arrivals(stop) {
      // Node's own watching tells of folders within folders on some systems alone.
      const { watch } = await import('chokidar');
      const whole = new Readable({ objectMode: true, read() {} });
      const waiting = new Set<string>();
      const pause = pauseUntil(stop);
      /** When the files that were handed over had been changed. */
      const seen = new Map<string, string>();
      const arrived = async (path: string): Promise<void> => {
        if (waiting.has(path)) return;
        waiting.add(path);
        const stamp = await settled(path, quietMs, pause);
        waiting.delete(path);
        if (stamp === null || stamp === seen.get(path) || stop.aborted) return;
        seen.set(path, stamp);
        if (await isTableOfSomethingElse(path)) return;
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
      // Names that are no UTF-8 cannot be watched: something of such a name is looked for by its bytes.
      const bringLoneBytes = async (): Promise<void> => {
        const { files } = await listDesignFiles(folders);
        for (const path of files) if (LONE_BYTE.test(path)) void arrived(path);
      };
      watcher.on('ready', bringLoneBytes);
      watcher.on('raw', (_event, name) => {
        if (String(name).includes(NO_LETTER)) void bringLoneBytes();
      });
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
 * longer. Returns a stamp of its state; null where it has gone, is no plain file, or nobody waits any more.
 */
async function settled(path: string, quietMs: number, pause: Pause): Promise<string | null> {
  let last = '';
  let since = 0;
  for (;;) {
    const state = await fileState(path);
    if (state?.kind !== 'file') return null;
    const now = Date.now();
    const stamp = `${state.size} ${state.modifiedMs}`;
    if (stamp !== last) since = now;
    last = stamp;
    const quietFor = Math.max(now - since, now - Math.max(state.modifiedMs, state.changedMs));
    if (quietFor >= (state.size === 0 ? 5 * quietMs : quietMs)) return stamp;
    if (!(await pause(quietMs / 8))) return null;
  }
}

/** Waits for some ms; false as soon as the signal comes. However many wait, they listen to it once. */
type Pause = (ms: number) => Promise<boolean>;

function pauseUntil(stop: AbortSignal): Pause {
  const waiting = new Set<() => void>();
  stop.addEventListener('abort', () => {
    for (const end of waiting) end();
  });
  return async (ms) => {
    if (!stop.aborted)
      await new Promise<void>((resolve) => {
        const end = () => {
          clearTimeout(timer);
          waiting.delete(end);
          resolve();
        };
        const timer = setTimeout(end, ms);
        waiting.add(end);
      });
    return !stop.aborted;
  };
}
