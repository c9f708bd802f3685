import { execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { writeFileSafely } from '../../lib/io/write-file.js';
import { temporaryFolder } from './temporary-folder.js';

const at = temporaryFolder();
const WRITER = new URL('./write-large.ts', import.meta.url).pathname;
const MB = 1024 * 1024;

/** A process that writes a large file of the letter b over the one at `path`. */
const writer = (path: string) =>
  spawn(process.execPath, ['--import', import.meta.resolve('tsx'), WRITER, path], { stdio: 'ignore' });

describe('a write that does not come to its end', () => {
  it('leaves the old file whole where the process is killed, at any moment', async () => {
    let killedWithin = 0;
    // Killed once as the file begins, then later and later.
    for (const least of [1, 8 * MB, 60 * MB]) {
      writeFileSync(at('old.txt'), 'old');
      const child = writer(at('old.txt'));
      const ended = new Promise((resolve) => child.on('close', resolve));
      let over = false;
      ended.then(() => {
        over = true;
      });
      const part = (): string | undefined => readdirSync(at()).find((name) => name.endsWith('.part'));
      while (!over) {
        const begun = part();
        if (begun && (statSync(at(begun), { throwIfNoEntry: false })?.size ?? 0) >= least) break;
        await new Promise((resolve) => setTimeout(resolve, 1));
      }
      child.kill('SIGKILL');
      await ended;
      const there = readFileSync(at('old.txt'), 'utf8');
      // The whole of the old file or the whole of the new one, whatever the moment.
      expect(['old', 'b'.repeat(96 * MB)].includes(there)).toBe(true);
      if (there === 'old') killedWithin++;
    }
    expect(killedWithin).toBeGreaterThan(0);
    // What was left lying does not hinder the next.
    await writeFileSafely(at('old.txt'), 'new', { force: true });
    expect(readFileSync(at('old.txt'), 'utf8')).toBe('new');
  });

  it('says so and takes away what it had begun where the system stops it half way', () => {
    writeFileSync(at('old.txt'), 'old');
    const script = `trap "" XFSZ; ulimit -f 64; "${process.execPath}" --import "${import.meta.resolve('tsx')}" "${WRITER}" "${at('old.txt')}"`;
    const said = failing(() => execFileSync('bash', ['-c', script], { encoding: 'utf8', stdio: 'pipe' }));
    expect(said).toContain('old.txt: the file is larger than the disk allows; choose another disk');
    expect(readFileSync(at('old.txt'), 'utf8')).toBe('old');
    expect(readdirSync(at())).toEqual(['old.txt']);
  });

  it('says so on a full disk', (context) => {
    mkdirSync(at('disk'));
    try {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=64k', 'tmpfs', at('disk')], { stdio: 'pipe' });
    } catch {
      context.skip('a small disk can be mounted by root alone');
    }
    try {
      const script = `"${process.execPath}" --import "${import.meta.resolve('tsx')}" "${WRITER}" "${at('disk/new.txt')}"`;
      const said = failing(() => execFileSync('bash', ['-c', script], { encoding: 'utf8', stdio: 'pipe' }));
      expect(said).toContain('new.txt: the disk is full; make room or choose another disk');
      expect(existsSync(at('disk/new.txt'))).toBe(false);
      expect(readdirSync(at('disk'))).toEqual([]);
    } finally {
      execFileSync('umount', [at('disk')]);
    }
  });
});

/** What a program that fails says on standard error. */
function failing(run: () => unknown): string {
  try {
    run();
  } catch (error) {
    return String((error as { stderr?: string }).stderr);
  }
  throw new Error('it did not fail');
}
