import { drive } from './drive.js';
import { fileError, systemCode } from './file-errors.js';
import { system } from './system.js';

/** What says that there is no such file; a disk that fails does not. */
const NOT_THERE = new Set(['ENOENT', 'ENOTDIR', 'ELOOP', 'ENAMETOOLONG']);
/** A folder above that may not be looked into is as good as one without the file. */
const NOT_OURS = new Set(['EACCES', 'EPERM']);

/**
 * The nearest file of a name in a folder or any folder above it.
 *
 * @returns its path, or null where there is none
 * @throws LieflatError `unreadable` where a disk fails, or the first folder may not be looked into: whether there is one is not known then
 */
export async function findUpward(name: string, from: string): Promise<string | null> {
  const { resolve, join, dirname } = system().path;
  const first = resolve(from);
  let folder = first;
  for (;;) {
    const path = join(folder, name);
    const state = await drive.stat(path).catch((error) => {
      const code = systemCode(error) ?? '';
      if (NOT_THERE.has(code) || (NOT_OURS.has(code) && folder !== first)) return null;
      throw fileError(error, path, 'reading');
    });
    if (state?.kind === 'file') return path;
    const above = dirname(folder);
    if (above === folder) return null;
    folder = above;
  }
}
