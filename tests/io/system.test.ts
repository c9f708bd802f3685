import { mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import { afterEach, describe, expect, it } from 'vitest';
import { type Drive, NODE_DRIVE, useDrive } from '../../lib/io/drive.js';
import { nativePath, textOfList, textOfName } from '../../lib/io/name-bytes.js';
import { asNamed } from '../../lib/io/outside.js';
import { readDesignFile } from '../../lib/io/read-file.js';
import {
  actAs,
  globOf,
  pathIn,
  refusedName,
  type System,
  sameName,
  system,
  systemOf,
} from '../../lib/io/system.js';
import { writeFileSafely } from '../../lib/io/write-file.js';
import { temporaryFolder } from './temporary-folder.js';

const at = temporaryFolder();
const restore: (() => void)[] = [];
afterEach(() => {
  for (const undo of restore.splice(0).reverse()) undo();
});
const as = (other: System): void => void restore.push(actAs(other));
const on = (drive: Partial<Drive>): void => void restore.push(useDrive({ ...NODE_DRIVE, ...drive }));

const WINDOWS = systemOf('win32');
/** Windows on the disk of this test, whose paths are its own. */
const WINDOWS_HERE: System = { ...WINDOWS, path: system().path };

const failing = (code: string, times: number) => {
  let left = times;
  return async (step: () => Promise<void>) => {
    if (left-- > 0) throw Object.assign(new Error(code), { code, syscall: 'rename' });
    await step();
  };
};

describe('a file that another program holds open', () => {
  it.each(['EPERM', 'EACCES', 'EBUSY'])(
    'is replaced once it is let go of (%s), and waited for no longer than seven times',
    async (code) => {
      as(WINDOWS_HERE);
      await writeFile(at('a.txt'), 'old');
      const held = failing(code, 3);
      on({ rename: (from, to) => held(() => NODE_DRIVE.rename(from, to)) });
      await writeFileSafely(at('a.txt'), 'new', { force: true });
      expect(await readFile(at('a.txt'), 'utf8')).toBe('new');
      const forever = failing(code, 1000);
      let tries = 0;
      on({
        rename: (from, to) => {
          tries++;
          return forever(() => NODE_DRIVE.rename(from, to));
        },
      });
      await expect(writeFileSafely(at('a.txt'), 'newer', { force: true })).rejects.toMatchObject({
        code: 'unwritable',
      });
      expect(tries).toBe(8);
      expect(await readFile(at('a.txt'), 'utf8')).toBe('new');
      expect(await readdir(at())).toEqual(['a.txt']);
    },
  );

  it('is tried once where no system holds files', async () => {
    as(systemOf('linux'));
    await writeFile(at('a.txt'), 'old');
    const held = failing('EBUSY', 1);
    on({ rename: (from, to) => held(() => NODE_DRIVE.rename(from, to)) });
    await expect(writeFileSafely(at('a.txt'), 'new', { force: true })).rejects.toMatchObject({
      code: 'unwritable',
    });
    expect(await readdir(at())).toEqual(['a.txt']);
  });
});

describe('a disk without hard links', () => {
  it.each(['EISDIR', 'EPERM', 'UNKNOWN'])(
    'is written to all the same where it says %s, and nothing is replaced',
    async (code) => {
      as(WINDOWS_HERE);
      on({ link: () => Promise.reject(Object.assign(new Error(code), { code, syscall: 'link' })) });
      await writeFileSafely(at('a.txt'), 'new');
      expect(await readFile(at('a.txt'), 'utf8')).toBe('new');
      await expect(writeFileSafely(at('a.txt'), 'newer')).rejects.toMatchObject({ code: 'exists' });
      // Taken only while it was being written.
      on({
        link: async () => {
          await writeFile(at('b.txt'), 'theirs');
          throw Object.assign(new Error(code), { code, syscall: 'link' });
        },
      });
      await expect(writeFileSafely(at('b.txt'), 'ours')).rejects.toMatchObject({ code: 'exists' });
      expect(await readFile(at('b.txt'), 'utf8')).toBe('theirs');
      expect((await readdir(at())).sort()).toEqual(['a.txt', 'b.txt']);
    },
  );
});

describe('names on Windows', () => {
  it.each([
    ['con', 'device'],
    ['C:\\orders\\NUL.csv', 'device'],
    ['aux.tar.gz', 'device'],
    ['com1.dst', 'device'],
    ['lpt\u00b2.dst', 'device'],
    ['orders\\prn\\a.dst', 'device'],
    ['CONOUT$', 'device'],
    ['a.csv.', 'end of a name'],
    ['orders \\a.csv', 'end of a name'],
    ['a.dst:hidden', 'allows no :'],
    ['what?.csv', 'allows no ?'],
    ['a\u0007.csv', 'control character'],
    [`${'x'.repeat(256)}.csv`, 'too long'],
  ])('refuses %j', (name, words) => {
    as(WINDOWS);
    expect(refusedName(name)?.join()).toContain(words);
    as(systemOf('linux'));
    expect(refusedName(name)).toBeNull();
  });

  it.each([
    'console.csv',
    'com10.dst',
    'C:\\a\\b.csv',
    '..\\a.csv',
    '\\\\server\\share\\a.csv',
    '.hidden',
    'c:a.dst',
  ])('takes %j', (name) => {
    as(WINDOWS);
    expect(refusedName(name)).toBeNull();
  });

  it('is told before anything is opened, in reading and in writing', async () => {
    as({ ...WINDOWS_HERE, path: WINDOWS.path });
    const untouched = () => Promise.reject(new Error('it was touched'));
    on({ open: untouched, stat: untouched, lstat: untouched });
    await expect(readDesignFile('NUL')).rejects.toMatchObject({ what: expect.stringContaining('device') });
    await expect(writeFileSafely('aux.csv', 'x')).rejects.toMatchObject({
      what: expect.stringContaining('device'),
    });
  });
});

describe('paths', () => {
  it('are seen from a folder, by drive letters where there are any', () => {
    as(WINDOWS);
    expect(pathIn('D:\\shop', 'a.dst')).toBe('D:\\shop\\a.dst');
    expect(pathIn('D:\\shop', 'C:\\x\\a.dst')).toBe('C:\\x\\a.dst');
    expect(pathIn('D:\\shop', '\\\\server\\x\\a.dst')).toBe('\\\\server\\x\\a.dst');
    // The folder that drive E stands at, not one below D.
    expect(pathIn('D:\\shop', 'E:a.dst')).toMatch(/^E:\\/);
    expect(globOf('orders\\*.dst')).toBe('orders/*.dst');
    as(systemOf('linux'));
    expect(pathIn('/shop', 'E:a.dst')).toBe('/shop/E:a.dst');
    expect(globOf('a\\*.dst')).toBe('a\\*.dst');
  });

  it('are one name in capitals or not where the system takes them so', () => {
    as(WINDOWS);
    expect(sameName('C:\\Shop\\A.csv', 'c:\\shop\\sub\\..\\a.CSV')).toBe(true);
    as(systemOf('darwin'));
    expect(sameName('/shop/cafe\u0301.csv', '/shop/CAF\u00c9.csv')).toBe(true);
    as(systemOf('linux'));
    expect(sameName('/shop/A.csv', '/shop/a.csv')).toBe(false);
    expect(sameName('/shop/./a.csv', '/shop/a.csv')).toBe(true);
  });
});

describe('what asks to stop', () => {
  it('is what the system has for it', () => {
    expect(systemOf('linux').stopSignals).toEqual(['SIGINT', 'SIGTERM']);
    expect(systemOf('darwin').stopSignals).toEqual(['SIGINT', 'SIGTERM']);
    expect(WINDOWS.stopSignals).toEqual(['SIGINT', 'SIGBREAK']);
  });
});

describe('names that are no UTF-8', () => {
  const LATIN = Buffer.from('caf\u00e9 \u00fc.dst', 'latin1');

  it('are text and the same bytes again, whatever they are', () => {
    for (const bytes of [
      LATIN,
      Buffer.from('na\u00efve \ufffd \u{1f9f5}.dst'),
      Buffer.of(0xff, 0xc3, 0x41, 0xe2, 0x82, 0xf0),
      Buffer.of(0xed, 0xb2, 0x80),
    ]) {
      const text = textOfName(bytes);
      expect(Buffer.from(nativePath(text))).toEqual(bytes);
    }
    expect(textOfName(LATIN)).toBe('caf\udce9 \udcfc.dst');
    for (let byte = 1; byte < 256; byte++)
      expect(Buffer.from(nativePath(textOfName(Buffer.of(0x61, byte, 0x62))))).toEqual(
        Buffer.of(0x61, byte, 0x62),
      );
  });

  it('are text alone where the system has text for names', () => {
    as(WINDOWS);
    expect(nativePath('caf\udce9')).toBe('caf\udce9');
  });

  it('are found by how they read, where that is one file', async () => {
    await mkdir(at('in'));
    await writeFile(Buffer.concat([Buffer.from(at('in/')), LATIN]), 'x');
    expect(await asNamed(at('in/caf\ufffd \ufffd.dst'))).toBe(at('in/caf\udce9 \udcfc.dst'));
    await writeFile(
      Buffer.concat([Buffer.from(at('in/')), Buffer.from('caf\u00e8 \u00fc.dst', 'latin1')]),
      'x',
    );
    // Two that read the same: which one is meant nobody can tell.
    expect(await asNamed(at('in/caf\ufffd \ufffd.dst'))).toBe(at('in/caf\ufffd \ufffd.dst'));
    expect(await asNamed(at('none/caf\ufffd.dst'))).toBe(at('none/caf\ufffd.dst'));
  });
});

describe('a list that another program wrote', () => {
  it('is read in UTF-8, in UTF-16 by its mark, and on Windows in what its own tools write', () => {
    const text = 'caf\u00e9.dst\r\n';
    expect(textOfList(Buffer.from(text))).toBe(text);
    expect(textOfList(Buffer.from(`\ufeff${text}`))).toBe(text);
    expect(textOfList(Buffer.from(`\ufeff${text}`, 'utf16le'))).toBe(text);
    expect(textOfList(Buffer.from(`\ufeff${text}`, 'utf16le').swap16())).toBe(text);
    as(WINDOWS);
    expect(textOfList(Buffer.from(text))).toBe(text);
    expect(textOfList(Buffer.from(text, 'latin1'))).toBe(text);
    as(systemOf('linux'));
    expect(textOfList(Buffer.from(text, 'latin1'))).toBe('caf\udce9.dst\r\n');
  });
});
