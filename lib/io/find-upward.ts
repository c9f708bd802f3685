import { stat } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';

/**
 * The nearest file of a name in a folder or any folder above it.
 *
 * @returns its path, or null where there is none
 */
export async function findUpward(name: string, from: string): Promise<string | null> {
  let folder = resolve(from);
  for (;;) {
    const path = join(folder, name);
    // A folder that may not be read is as good as one without the file.
    const stats = await stat(path).catch(() => null);
    if (stats?.isFile()) return path;
    const above = dirname(folder);
    if (above === folder) return null;
    folder = above;
  }
}
