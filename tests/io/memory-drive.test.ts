import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Drive, NODE_DRIVE, useDrive } from '../../lib/io/drive.js';
import { type MemoryDrive, memoryDrive } from '../../lib/io/memory-drive.js';
import { readBytes } from '../../lib/io/read-file.js';
import { makeFolder, writeFileSafely } from '../../lib/io/write-file.js';

/** What a drive does, by the path that each operation is asked of. */
type Step =
  | { do: 'write' | 'read' | 'stat' | 'readdir' | 'realpath' | 'unlink' | 'mkdir'; at: string }
  | { do: 'rename' | 'link'; at: string; to: string };

const NAMES = ['a', 'b', 'c', 'folder', 'folder/a', 'folder/b', 'none/a', './a', 'folder/../b', 'a/x'];
const name = fc.constantFrom(...NAMES);
const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({
    do: fc.constantFrom('write' as const, 'read', 'stat', 'readdir', 'realpath', 'unlink', 'mkdir'),
    at: name,
  }),
  fc.record({ do: fc.constantFrom('rename' as const, 'link'), at: name, to: name }),
);

/** What an operation gives: what it tells, or that it was refused. */
async function outcome(drive: Drive, root: string, one: Step): Promise<unknown> {
  const at = join(root, one.at);
  try {
    switch (one.do) {
      case 'write': {
        const file = await drive.open(at, 'new');
        await drive.write(file, new TextEncoder().encode(one.at));
        await drive.write(file, Uint8Array.of(0, 255));
        await drive.fsync(file);
        await drive.close(file);
        return 'written';
      }
      case 'read': {
        const file = await drive.open(at, 'read');
        const bytes = new Uint8Array(20);
        const count = await drive.read(file, bytes, 1);
        const { kind, size } = await drive.fstat(file);
        await drive.close(file);
        return { kind, size, read: [...bytes.subarray(0, count)] };
      }
      case 'stat': {
        const { kind, size } = await drive.stat(at);
        return kind === 'file' ? { kind, size } : kind;
      }
      case 'readdir':
        return (await drive.readdir(at)).map(({ name, kind }) => `${kind} ${name}`).sort();
      case 'realpath':
        return (await drive.realpath(at)).slice(root.length);
      case 'rename':
      case 'link':
        return (await drive[one.do](at, join(root, one.to))) ?? 'done';
      default:
        return (await drive[one.do](at)) ?? 'done';
    }
  } catch (error) {
    if (!('code' in (error as Error))) throw error;
    return 'refused';
  }
}

/** Folders are not moved, opened or put in the place of one another by anything that lieflat does. */
const onFolders = ({ at, ...one }: Step, folders: ReadonlySet<string>): boolean =>
  one.do !== 'stat' &&
  one.do !== 'readdir' &&
  one.do !== 'realpath' &&
  one.do !== 'mkdir' &&
  (folders.has(join(at)) || ('to' in one && folders.has(join(one.to))));

describe('a drive in memory', () => {
  it('does what the disk does, and refuses what it refuses', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { maxLength: 25 }), async (steps) => {
        const root = mkdtempSync(join(tmpdir(), 'drive-'));
        try {
          const memory = memoryDrive();
          for (const part of root
            .split('/')
            .slice(1)
            .map((_, i, all) => all.slice(0, i + 1)))
            await memory.mkdir(`/${part.join('/')}`);
          const folders = new Set<string>();
          for (const one of steps) {
            if (onFolders(one, folders)) continue;
            const [disk, other] = [await outcome(NODE_DRIVE, root, one), await outcome(memory, root, one)];
            expect(other, JSON.stringify(one)).toEqual(disk);
            if (one.do === 'mkdir' && disk === 'done') folders.add(join(one.at));
          }
        } finally {
          rmSync(root, { recursive: true, force: true });
        }
      }),
      { numRuns: 60 },
    );
  });

  const using = async <T>(work: (drive: MemoryDrive) => Promise<T>): Promise<T> => {
    const drive = memoryDrive();
    const giveBack = useDrive(drive);
    try {
      return await work(drive);
    } finally {
      giveBack();
    }
  };

  it('holds what is written whole, and nothing of what is written on the way', async () => {
    await using(async (drive) => {
      drive.put('/in.dst', Uint8Array.of(1, 2, 3));
      await makeFolder('/done');
      await writeFileSafely('/done/out.txt', 'text', { inputs: ['/in.dst'] });
      expect([...drive.files().keys()]).toEqual(['/in.dst', '/done/out.txt']);
      expect(new TextDecoder().decode(await readBytes('/done/out.txt'))).toBe('text');
      await expect(writeFileSafely('/done/out.txt', 'new')).rejects.toMatchObject({ code: 'exists' });
      await expect(
        writeFileSafely('/in.dst', 'x', { force: true, inputs: ['/in.dst'] }),
      ).rejects.toMatchObject({ code: 'bad-argument' });
      await expect(writeFileSafely('/gone/out.txt', 'x')).rejects.toMatchObject({ code: 'unwritable' });
    });
  });

  it('tells which files were written to', async () => {
    await using(async (drive) => {
      const bytes = Uint8Array.of(1, 2, 3);
      drive.put('/as-it-was', bytes);
      drive.put('/in/a/folder', bytes);
      drive.put('/changed', bytes);
      await writeFileSafely('/changed', 'x', { force: true });
      const changed = [...drive.files()].filter(([, now]) => now !== bytes).map(([path]) => path);
      expect(changed).toEqual(['/changed']);
      expect([drive.drop('/changed'), drive.drop('/changed'), drive.drop('/in')]).toEqual([
        true,
        false,
        false,
      ]);
      for (const path of ['/', '..', 'in/a']) expect(() => drive.put(path, bytes)).toThrow('EISDIR');
    });
  });
});
