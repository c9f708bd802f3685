/** What the build makes, for tests that run it as users do: made anew where the sources are newer, once, whichever test asks first. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';

export const ROOT = new URL('..', import.meta.url).pathname;

/** The last that the build writes. */
const MADE = '.build/cli/page.html';
const LOCK = '.build/by-a-test';
/** A test that was killed leaves its lock. */
const LONGEST_MS = 300_000;

const writtenAt = (path: string): number =>
  statSync(join(ROOT, path), { throwIfNoEntry: false })?.mtimeMs ?? 0;

const newest = (folder: string): number =>
  Math.max(
    ...readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' }).map((name) =>
      writtenAt(join(folder, name)),
    ),
  );

const isStale = (): boolean =>
  writtenAt(MADE) < Math.max(...['lib', 'cli', '.config'].map(newest), writtenAt('package.json'));

const pause = (): void => {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 200);
};

/** Tests run in several processes: one of them builds, the others wait. Gives the packed program: the file that Node runs. */
export function builtProgram(): string {
  if (isStale())
    inTurn(
      () => isStale() && execFileSync('npm', ['run', '--silent', 'build'], { cwd: ROOT, stdio: 'pipe' }),
    );
  return join(ROOT, '.build/cli/main.js');
}

function inTurn(work: () => void): void {
  mkdirSync(join(ROOT, '.build'), { recursive: true });
  for (;;) {
    try {
      mkdirSync(join(ROOT, LOCK));
      break;
    } catch {
      if (Date.now() - writtenAt(LOCK) > LONGEST_MS)
        rmSync(join(ROOT, LOCK), { recursive: true, force: true });
      else pause();
    }
  }
  try {
    work();
  } finally {
    rmSync(join(ROOT, LOCK), { recursive: true, force: true });
  }
}
