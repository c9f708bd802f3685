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
  const folders = [resolve(from)];
  for (let above = dirname(folders[0]); above !== folders.at(-1); above = dirname(above)) folders.push(above);
  // Asked of all at once, for a question takes longer than its answer; told in their order.
  const answers = folders.map((folder, k) => {
    const path = join(folder, name);
    return drive.stat(path).then(
      ({ kind }) => ({ path: kind === 'file' ? path : null }),
      (error) => {
        const code = systemCode(error) ?? '';
        if (NOT_THERE.has(code) || (NOT_OURS.has(code) && k > 0)) return { path: null };
        return { error: fileError(error, path, 'reading') };
      },
    );
  });
  for (const answer of answers) {
    const found = await answer;
    if ('error' in found) throw found.error;
    if (found.path !== null) return found.path;
  }
  return null;
}
