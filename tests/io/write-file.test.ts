import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmod, link, mkdir, readdir, readFile, stat, symlink, utimes, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { threadId } from 'node:worker_threads';
import { describe, expect, it } from 'vitest';
import { openFileSafely, refuseTarget, writeFileSafely } from '../../lib/io/write-file.js';
import { temporaryFolder } from './temporary-folder.js';

const at = temporaryFolder();
const NEW = Uint8Array.of(1, 2, 3);

const refused = async (write: Promise<void>, code: string, word: string): Promise<void> => {
  await expect(write).rejects.toMatchObject({
    name: 'LieflatError',
    code,
    what: expect.stringContaining(word),
  });
};
const content = async (name: string): Promise<string> => await readFile(at(name), 'utf8');

describe('writing a file', () => {
  it('writes bytes and text, and leaves nothing else behind', async () => {
    await writeFileSafely(at('a.dst'), NEW);
    await writeFileSafely(at('a.svg'), 'naïve\n');
    expect(new Uint8Array(await readFile(at('a.dst')))).toEqual(NEW);
    expect(await content('a.svg')).toBe('naïve\n');
    expect((await readdir(at())).sort()).toEqual(['a.dst', 'a.svg']);
  });

  it('replaces an existing file only by force, and keeps its permissions then', async () => {
    await writeFile(at('a.txt'), 'old');
    await chmod(at('a.txt'), 0o640);
    await refused(writeFileSafely(at('a.txt'), 'new'), 'exists', 'already');
    expect(await content('a.txt')).toBe('old');
    await writeFileSafely(at('a.txt'), 'new', { force: true });
    expect(await content('a.txt')).toBe('new');
    expect((await stat(at('a.txt'))).mode & 0o777).toBe(0o640);
    expect(await readdir(at())).toEqual(['a.txt']);
  });

  it('writes by force where there is nothing yet', async () => {
    await writeFileSafely(at('a.txt'), 'new', { force: true });
    expect(await content('a.txt')).toBe('new');
  });

  it('never replaces an input, by whatever name or link', async () => {
    await writeFile(at('in.dst'), 'in');
    await mkdir(at('sub'));
    await symlink(at('in.dst'), at('soft.dst'));
    await link(at('in.dst'), at('hard.dst'));
    for (const target of [at('in.dst'), at('soft.dst'), at('hard.dst'), at('sub', '..', 'in.dst')]) {
      const write = writeFileSafely(target, NEW, { force: true, inputs: [at('gone.dst'), at('in.dst')] });
      await refused(write, 'bad-argument', 'the file that was read');
    }
    await refused(
      writeFileSafely(at('in.dst'), NEW, { force: true, inputs: [at('soft.dst')] }),
      'bad-argument',
      'the file that was read',
    );
    expect(await content('in.dst')).toBe('in');
    await writeFileSafely(at('out.dst'), NEW, { inputs: [at('in.dst')] });
    expect((await readdir(at())).length).toBe(5);
  });

  it('follows a link to an existing file, and refuses one to nothing', async () => {
    await writeFile(at('real.txt'), 'old');
    await symlink(at('real.txt'), at('link.txt'));
    await refused(writeFileSafely(at('link.txt'), 'new'), 'exists', 'already');
    await writeFileSafely(at('link.txt'), 'new', { force: true });
    expect(await content('real.txt')).toBe('new');
    expect((await readdir(at(), { withFileTypes: true })).map((e) => e.isSymbolicLink())).toEqual([
      true,
      false,
    ]);
    await symlink(at('gone'), at('dangling.txt'));
    await refused(writeFileSafely(at('dangling.txt'), 'new', { force: true }), 'unwritable', 'symbolic link');
  });

  it('refuses folders, pipes and devices, without waiting for them', async () => {
    await mkdir(at('folder'));
    execFileSync('mkfifo', [at('pipe')]);
    await refused(writeFileSafely(at('folder'), NEW, { force: true }), 'unwritable', 'folder');
    await refused(writeFileSafely(at('pipe'), NEW, { force: true }), 'unwritable', 'pipe');
    await refused(writeFileSafely('/dev/null', NEW, { force: true }), 'unwritable', 'device');
  });

  it('says what is wrong with a place that cannot be written', async () => {
    await writeFile(at('file'), 'x');
    await refused(writeFileSafely(at('none', 'a.dst'), NEW), 'unwritable', 'folder for it does not exist');
    await refused(writeFileSafely(at('file', 'a.dst'), NEW), 'unwritable', 'not a folder');
    await refused(writeFileSafely(at('x'.repeat(300)), NEW), 'unwritable', 'too long');
    expect(await readdir(at())).toEqual(['file']);
  });

  it('can be asked beforehand, and then touches nothing', async () => {
    await writeFile(at('there.txt'), 'old');
    await mkdir(at('folder'));
    await refused(refuseTarget(at('there.txt')), 'exists', 'already');
    await refused(refuseTarget(at('folder')), 'unwritable', 'folder');
    await refused(refuseTarget(at('new/')), 'unwritable', 'folder');
    await refused(refuseTarget(at('none', 'a.dst')), 'unwritable', 'folder for it does not exist');
    const inputs = [at('there.txt')];
    await refused(refuseTarget(at('there.txt'), { force: true, inputs }), 'bad-argument', 'was read');
    await refuseTarget(at('there.txt'), { force: true });
    await refuseTarget(at('new.txt'));
    expect((await readdir(at())).sort()).toEqual(['folder', 'there.txt']);
    expect(await content('there.txt')).toBe('old');
  });

  it('removes what it had begun when it fails, and leaves the old file', async () => {
    await writeFile(at('a.txt'), 'old');
    const notContent = { length: 3 } as unknown as Uint8Array;
    await expect(writeFileSafely(at('a.txt'), notContent, { force: true })).rejects.toThrow(TypeError);
    expect(await content('a.txt')).toBe('old');
    expect(await readdir(at())).toEqual(['a.txt']);
  });

  it('removes what killed processes left, and nothing of those that run', async () => {
    const host = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);
    const dead = execFileSync(process.execPath, ['-p', 'process.pid'], { encoding: 'utf8' }).trim();
    const kept = [
      // of a process that runs, of another thread of this one, of another computer, and of nobody
      `.lieflat-${host}-${process.ppid}-0-0.part`,
      `.lieflat-${host}-${process.pid}-99-0.part`,
      `.lieflat-00000000-${dead}-0-0.part`,
      '.lieflat-notes.part',
      'a.txt.part',
    ];
    const left = [`.lieflat-${host}-${dead}-0-0.part`, `.lieflat-${host}-${process.pid}-0-0.part`];
    const old = `.lieflat-00000001-${dead}-0-0.part`;
    for (const name of [...kept, ...left, old]) await writeFile(at(name), 'left');
    const twoDaysAgo = Date.now() / 1000 - 2 * 24 * 3600;
    await utimes(at(old), twoDaysAgo, twoDaysAgo);
    const begun = await openFileSafely(at('begun.txt'));
    await begun.write('here');
    await writeFileSafely(at('a.txt'), 'new');
    await begun.commit();
    expect((await readdir(at())).sort()).toEqual([...kept, 'a.txt', 'begun.txt'].sort());
    expect(await content('begun.txt')).toBe('here');
  });

  it('gives up on a folder full of unfinished files', async () => {
    const host = createHash('sha256').update(hostname()).digest('hex').slice(0, 8);
    const name = (n: number) => at(`.lieflat-${host}-${process.pid}-${threadId}-${n}.part`);
    await Promise.all(Array.from({ length: 1000 }, (_, n) => writeFile(name(n), '')));
    await refused(writeFileSafely(at('b.txt'), 'new'), 'unwritable', 'unfinished');
  });

  it("sets aside what is not whole, in nobody's place", async () => {
    await writeFile(at('a.txt'), 'old');
    await writeFile(at('a.txt.part'), 'older part');
    const aside = async (options: object) => {
      const file = await openFileSafely(at('a.txt'), { force: true, ...options });
      await file.write('part');
      const name = await file.setAside();
      await file.discard();
      return name;
    };
    // An input is no place for it, even by force.
    expect(await aside({ inputs: [at('a.txt.part')] })).toBe(at('a.txt.2.part'));
    expect(await content('a.txt.part')).toBe('older part');
    expect(await aside({})).toBe(at('a.txt.part'));
    expect(await content('a.txt.part')).toBe('part');
    expect(await content('a.txt')).toBe('old');
    expect((await readdir(at())).sort()).toEqual(['a.txt', 'a.txt.2.part', 'a.txt.part']);
  });

  it('of many at once in one folder, loses none', async () => {
    for (let round = 0; round < 20; round++) {
      const names = Array.from({ length: 30 }, (_, n) => `${round}-${n}.txt`);
      await Promise.all(names.map((name) => writeFileSafely(at(name), name)));
      for (const name of names) expect(await content(name)).toBe(name);
    }
    expect(await readdir(at())).toHaveLength(600);
  });

  it('of two at once to the same new name, one wins and the other is told', async () => {
    const writes = await Promise.allSettled([
      writeFileSafely(at('a.txt'), 'one'),
      writeFileSafely(at('a.txt'), 'two'),
    ]);
    const lost = writes.filter((result) => result.status === 'rejected');
    expect(lost).toHaveLength(1);
    expect((lost[0] as PromiseRejectedResult).reason).toMatchObject({ code: 'exists' });
    expect(['one', 'two']).toContain(await content('a.txt'));
    expect(await readdir(at())).toEqual(['a.txt']);
  });
});
