import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach } from 'vitest';

/** A folder of its own for every test of the file, removed after it. */
export function temporaryFolder(): (...parts: string[]) => string {
  let folder = '';
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), 'lieflat-test-'));
  });
  afterEach(async () => {
    await rm(folder, { recursive: true, force: true });
  });
  return (...parts) => join(folder, ...parts);
}
