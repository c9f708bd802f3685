import { execFileSync } from 'node:child_process';
import { link, mkdir, symlink, writeFile } from 'node:fs/promises';
import { createServer } from 'node:net';
import { dirname, join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';
import { listDesignFiles } from '../../lib/io/list-files.js';
import { temporaryFolder } from './temporary-folder.js';

const at = temporaryFolder();

async function make(...names: string[]): Promise<void> {
  for (const name of names) {
    await mkdir(dirname(at(name)), { recursive: true });
    await writeFile(at(name), name);
  }
}

/** Names found, relative to the test's folder, and places of the errors. */
async function list(...paths: string[]): Promise<{ files: string[]; errors: string[] }> {
  const { files, errors } = await listDesignFiles(paths);
  return {
    files: files.map((file) => relative(at(), file)),
    errors: errors.map(({ place }) => relative(at(), place)),
  };
}

describe('listing stitch files', () => {
  it('takes a file that is named, whatever its name', async () => {
    await make('b.dst', 'a.txt');
    expect(await list(at('b.dst'), at('a.txt'))).toEqual({ files: ['a.txt', 'b.dst'], errors: [] });
  });

  it('finds the stitch files in a folder and under it, in capitals or not, in order', async () => {
    await make(
      'z.dst',
      'sub/CREST.DST',
      'sub/deep/er/table.csv',
      'A.Csv',
      'notes.txt',
      'sub/dst',
      'x.dst.bak',
    );
    expect(await list(at())).toEqual({
      files: ['A.Csv', 'sub/CREST.DST', 'sub/deep/er/table.csv', 'z.dst'],
      errors: [],
    });
  });

  it('leaves out tables of something else in a folder, not what may be a stitch table with a fault', async () => {
    await make('a.dst');
    const tables = {
      'log.csv': 'file,fabric,stack,underlay,washes,grade\nname.dst,twill,none,as-is,0,5\n',
      'sub/customers.csv': '\ufeff"Name";"Town"\r\n"A";"B"\r\n',
      'good.csv': 'x_mm,y_mm,kind\n0,0,end\n',
      'odd.csv': 'x,y,kind\n0,0,end\n',
      'words.csv': 'no table at all\n',
    };
    await make('sub/none.txt');
    for (const [name, text] of Object.entries(tables)) await writeFile(at(name), text);
    expect((await list(at())).files).toEqual(['a.dst', 'good.csv', 'odd.csv', 'words.csv']);
    // Who names one hears what is wrong with it.
    expect((await list(at('log.csv'))).files).toEqual(['log.csv']);
  });

  it('leaves out hidden files and folders', async () => {
    await make('a.dst', '.hidden/b.dst', '._a.dst', 'sub/.git/c.dst');
    expect((await list(at())).files).toEqual(['a.dst']);
    // Unless the folder itself is named.
    expect((await list(at('.hidden'))).files).toEqual(['.hidden/b.dst']);
  });

  it('matches globs, in capitals or not, files with brackets in their names before globs', async () => {
    await make('a1.dst', 'a2.DST', 'b.dst', 'sub/a3.dst', 'a.txt', 'logo[1].dst', 'logo1.dst');
    expect((await list(at('a*.dst'))).files).toEqual(['a1.dst', 'a2.DST']);
    expect((await list(at('**/a?.dst'))).files).toEqual(['a1.dst', 'a2.DST', 'sub/a3.dst']);
    expect((await list(at('{b,a1}.dst'))).files).toEqual(['a1.dst', 'b.dst']);
    expect((await list(at('*'))).files).toEqual(['a1.dst', 'a2.DST', 'b.dst', 'logo1.dst', 'logo[1].dst']);
    expect((await list(at('logo[1].dst'))).files).toEqual(['logo[1].dst']);
  });

  it('names each file once, under the first name that led to it', async () => {
    await make('a.dst', 'sub/b.dst');
    await symlink(at('a.dst'), at('link.dst'));
    await link(at('a.dst'), at('copy.dst'));
    expect(
      (await list(at('link.dst'), at('a.dst'), at('*.dst'), at('.'), at('sub', '..', 'a.dst'))).files,
    ).toEqual(['copy.dst', 'link.dst', 'sub/b.dst']);
  });

  it('follows links to folders, each once, and circles not for ever', async () => {
    await make('sub/b.dst', 'other/c.dst');
    await symlink(at(), at('sub', 'up'));
    await symlink(at('sub'), at('sub', 'self'));
    await symlink(at('other'), at('linked'));
    const { files, errors } = await list(at());
    expect(errors).toEqual([]);
    expect(files).toHaveLength(2);
    expect(files.some((file) => file.endsWith('b.dst')) && files.some((file) => file.endsWith('c.dst'))).toBe(
      true,
    );
  });

  it('tells what leads to nothing, and goes on', async () => {
    await make('a.dst', 'empty/notes.txt');
    await symlink(at('gone'), at('dangling.dst'));
    await symlink(at('gone'), at('dangling'));
    const { files, errors } = await list(at('none.dst'), at('*.csv'), at('empty'), at());
    expect(files).toEqual(['a.dst']);
    expect(errors).toEqual(['none.dst', '*.csv', 'empty', 'dangling.dst']);
    const { errors: told } = await listDesignFiles([at('none.dst'), at('*.csv')]);
    expect(told.map(({ what }) => what)).toEqual([
      'there is no such file or folder',
      'there is no .dst or .csv file that it matches',
    ]);
  });

  it('does not wait for pipes', async () => {
    await make('a.dst');
    execFileSync('mkfifo', [at('pipe.dst')]);
    expect((await list(at())).files).toEqual(['a.dst']);
    expect((await list(at('pipe.dst'))).files).toEqual(['pipe.dst']);
  });

  it('leaves out sockets, pipes and devices, and whatever links lead to them', async () => {
    await make('a.dst', 'more/b.dst');
    execFileSync('mkfifo', [at('pipe.dst')]);
    await symlink(at('pipe.dst'), at('linked-pipe.dst'));
    await symlink('/dev/zero', at('device.dst'));
    const server = createServer();
    await new Promise<void>((resolve) => server.listen(at('socket.dst'), resolve));
    try {
      for (const word of [at(), at('*.dst'), at('**/*.dst')]) {
        const { files, errors } = await list(word);
        expect(errors).toEqual([]);
        expect(files.every((file) => ['a.dst', 'more/b.dst'].includes(file))).toBe(true);
        expect(files).toContain('a.dst');
      }
    } finally {
      server.close();
    }
  });

  it('ends in a pattern over links that lead round, too', async () => {
    await make('sub/b.dst');
    await symlink(at(), at('sub', 'up'));
    await symlink(at('sub', 'itself.dst'), at('sub', 'itself.dst'));
    const { files, errors } = await list(at('**/*.dst'), at());
    expect(files).toHaveLength(1);
    expect(errors.every((place) => place.endsWith('itself.dst'))).toBe(true);
  });

  it('names what leads to nothing once, however many words lead to it', async () => {
    await make('sub/a.dst');
    await symlink(at('gone'), at('sub', 'dangling.dst'));
    expect(await list(at(), at('sub'), at('sub', '..'), at('sub', '*.dst'))).toEqual({
      files: ['sub/a.dst'],
      errors: ['sub/dangling.dst'],
    });
  });

  it('goes into folders however deep they are, as far as a path may be long', async () => {
    const deep = Array.from({ length: 300 }, () => 'd');
    await make(join(...deep, 'a.dst'));
    expect((await list(at())).files).toEqual([join(...deep, 'a.dst')]);
  });

  it('of nothing is nothing', async () => {
    expect(await list()).toEqual({ files: [], errors: [] });
  });
});
