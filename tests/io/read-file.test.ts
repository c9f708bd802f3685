import { execFileSync } from 'node:child_process';
import { mkdir, symlink, truncate, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { describe, expect, it } from 'vitest';
import { encodeDesign } from '../../lib/format/decode.js';
import { fileError } from '../../lib/io/file-errors.js';
import { readDesignFile } from '../../lib/io/read-file.js';
import { designOf, rowsOf } from '../format/designs.js';
import { temporaryFolder } from './temporary-folder.js';

const at = temporaryFolder();
const DESIGN = designOf([
  [1, 2, 'stitch'],
  [3, 2, 'stitch'],
  [3, 2, 'end'],
]);

describe('reading a stitch file', () => {
  it('gives the design, the bytes, their format and their hash', async () => {
    const bytes = encodeDesign(DESIGN, 'dst');
    await writeFile(at('Crest.DST'), bytes);
    const file = await readDesignFile(at('Crest.DST'));
    expect(rowsOf(file.design)).toEqual(rowsOf(DESIGN));
    expect(file.path).toBe(at('Crest.DST'));
    expect(file.format).toBe('dst');
    expect(Buffer.compare(file.bytes, bytes)).toBe(0);
  });

  it('hashes the bytes by SHA-256, as the system does', async () => {
    await writeFile(at('crest.csv'), encodeDesign(DESIGN, 'csv'));
    const { sha256 } = await readDesignFile(at('crest.csv'));
    expect(execFileSync('sha256sum', [at('crest.csv')], { encoding: 'utf8' })).toContain(sha256);
    expect(sha256).toMatch(/^[0-9a-f]{64}$/);
  });

  it('follows a symbolic link', async () => {
    await writeFile(at('crest.csv'), encodeDesign(DESIGN, 'csv'));
    await symlink(at('crest.csv'), at('link.csv'));
    expect(rowsOf((await readDesignFile(at('link.csv'))).design)).toEqual(rowsOf(DESIGN));
  });

  it('tells the format by the content where the name tells none', async () => {
    await writeFile(at('crest'), encodeDesign(DESIGN, 'csv'));
    expect((await readDesignFile(at('crest'))).format).toBe('csv');
    await writeFile(at('notes'), 'twelve shirts');
    await expect(readDesignFile(at('notes'))).rejects.toMatchObject({
      code: 'undecodable',
      place: at('notes'),
    });
  });

  it('puts the path before the byte or line of what cannot be decoded', async () => {
    await writeFile(at('a.dst'), 'Dear customer, your shirts are ready.\n'.repeat(30));
    await expect(readDesignFile(at('a.dst'))).rejects.toMatchObject({
      code: 'undecodable',
      place: `${at('a.dst')}: byte 0`,
    });
    await writeFile(at('a.csv'), 'x_mm,y_mm,kind\n1,1,knot\n');
    await expect(readDesignFile(at('a.csv'))).rejects.toMatchObject({ place: `${at('a.csv')}: line 2` });
  });

  it('says so where a file has the name of the other format', async () => {
    await writeFile(at('a.dst'), encodeDesign(DESIGN, 'csv'));
    await expect(readDesignFile(at('a.dst'))).rejects.toThrow('it looks like a .csv file: rename it');
    await writeFile(at('a.csv'), encodeDesign(DESIGN, 'dst'));
    await expect(readDesignFile(at('a.csv'))).rejects.toThrow('it looks like a .dst file: rename it');
  });
});

describe('what is no readable file is refused with its path', () => {
  const refused = async (path: string, code: string, word: string, maxBytes?: number): Promise<void> => {
    await expect(readDesignFile(path, { maxBytes })).rejects.toMatchObject({
      name: 'LieflatError',
      code,
      place: path,
      what: expect.stringContaining(word),
    });
  };

  it('nothing there', () => refused(at('none.dst'), 'unreadable', 'no such file'));

  it('a path through a file', async () => {
    await writeFile(at('a.dst'), 'x');
    await refused(at('a.dst', 'b.dst'), 'unreadable', 'not a folder');
  });

  it('a folder', async () => {
    await mkdir(at('folder.dst'));
    await refused(at('folder.dst'), 'unreadable', 'folder');
  });

  it('an empty file', async () => {
    await writeFile(at('empty.dst'), '');
    await refused(at('empty.dst'), 'unreadable', 'empty');
  });

  it('a pipe, without waiting for it', async () => {
    execFileSync('mkfifo', [at('pipe.dst')]);
    await refused(at('pipe.dst'), 'unreadable', 'pipe');
  });

  it('a device', () => refused('/dev/zero', 'unreadable', 'device'));

  it('a socket', async () => {
    const server = createServer();
    await new Promise<void>((done) => server.listen(at('s.dst'), done));
    await refused(at('s.dst'), 'unreadable', 'socket');
    await new Promise((done) => server.close(done));
  });

  it('links in a circle, and a link to nothing', async () => {
    await symlink(at('b.dst'), at('a.dst'));
    await symlink(at('a.dst'), at('b.dst'));
    await refused(at('a.dst'), 'unreadable', 'circle');
    await symlink(at('gone'), at('c.dst'));
    await refused(at('c.dst'), 'unreadable', 'no such file');
  });

  it('a name that is too long', () => refused(at('x'.repeat(300)), 'unreadable', 'too long'));

  it('a file larger than the limit, without reading it', async () => {
    await writeFile(at('zeros.dst'), '');
    await truncate(at('zeros.dst'), 100 * 1024 * 1024);
    const before = process.memoryUsage().arrayBuffers;
    await refused(at('zeros.dst'), 'too-large', '104857600 bytes');
    expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(1024 * 1024);
    await refused(at('zeros.dst'), 'too-large', '1000', 1000);
    await expect(readDesignFile(at('zeros.dst'), { maxBytes: 1e9 })).rejects.toMatchObject({
      code: 'undecodable',
    });
  });
});

describe('answers of the operating system', () => {
  const system = (code: string): Error => Object.assign(new Error(code), { code, syscall: 'open' });

  it('each have words of their own, for reading and for writing', () => {
    for (const [code, reading, writing] of [
      ['EACCES', 'you may not read it', 'you may not write there'],
      ['ENOSPC', 'ENOSPC', 'the disk is full'],
      ['EROFS', 'EROFS', 'read-only'],
      ['EWHATEVER', 'EWHATEVER', 'EWHATEVER'],
    ]) {
      expect(fileError(system(code), 'a.dst', 'reading')).toMatchObject({
        code: 'unreadable',
        what: expect.stringContaining(reading),
      });
      expect(fileError(system(code), 'a.dst', 'writing')).toMatchObject({
        code: 'unwritable',
        what: expect.stringContaining(writing),
      });
    }
  });

  it('are not what a bug of ours throws', () => {
    const bug = new TypeError('x is not a function');
    expect(fileError(bug, 'a.dst', 'reading')).toBe(bug);
    const coded = Object.assign(new TypeError('bad'), { code: 'ERR_INVALID_ARG_TYPE' });
    expect(fileError(coded, 'a.dst', 'writing')).toBe(coded);
  });
});
