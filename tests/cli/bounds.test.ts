import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../cli/commands.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

/** What each command that reads a design needs beside `crest.dst`. */
const READERS: Readonly<Record<string, readonly string[]>> = {
  vet: ['crest.dst'],
  columns: ['crest.dst'],
  pucker: ['crest.dst', '--fabric', 'denim'],
  advise: ['crest.dst', '--fabric', 'denim'],
  compare: ['plain.dst', 'crest.dst'],
  card: ['crest.dst', '--fabric', 'denim', '-o', 'card.html'],
  draw: ['crest.dst', '-o', 'crest.svg'],
  proof: ['crest.dst', '-o', 'crest.svg'],
  reply: ['crest.dst'],
  relay: ['crest.dst', '--dry-run'],
  resew: ['crest.dst', '--dry-run'],
  convert: ['crest.dst', '-o', 'crest.csv'],
};

describe('--max-bytes', () => {
  it('has a line here for every command that reads designs', () => {
    const reading = Object.entries(COMMANDS).filter(([, { usage }]) =>
      /^<(paths|file|in|before)/.test(usage),
    );
    expect(Object.keys(READERS).sort()).toEqual(reading.map(([name]) => name).sort());
  });

  it.each(Object.entries(READERS))('keeps %s from reading a larger file', async (name, args) => {
    const { folder, at } = shopFolder();
    const size = readFileSync(at('plain.dst')).length;
    const { code, out, err } = await lieflat([name, ...args, '--max-bytes', `${size}`], { cwd: folder });
    expect(code).toBe(2);
    expect(out).not.toContain('crest.dst');
    expect(err).toMatch(
      new RegExp(`^lieflat: .*crest\\.dst: the file has \\d+ bytes, more than the ${size} .*--max-bytes\n$`),
    );
  });

  it('counts for a profile and for a list of paths as well', async () => {
    const { folder, at } = shopFolder();
    writeFileSync(at('shop.json'), JSON.stringify({ accept: { grade: 4 } }).padEnd(3000));
    const profile = await lieflat(['catalog', '--profile', 'shop.json', '--max-bytes', '2kB'], {
      cwd: folder,
    });
    expect([profile.code, profile.out]).toEqual([2, '']);
    expect(profile.err).toMatch(/shop\.json: the file has 3000 bytes, more than the 2000 that are read/);
    const endless = (async function* () {
      for (;;) yield 'crest.dst\n'.repeat(100);
    })();
    const list = await lieflat(['vet', '-', '--max-bytes', '1MB'], { cwd: folder, stdin: endless });
    expect([list.code, list.out]).toEqual([2, '']);
    expect(list.err).toMatch(
      /^lieflat: standard input: the list has more than the 1000000 bytes .*--max-bytes\n$/,
    );
  });

  it.each(['0', '-1', 'many', '1e3', '', '5TB', 'NaN', '9999999999999999999'])(
    'cannot be %j',
    async (size) => {
      const { code, err } = await lieflat(['vet', 'x.dst', `--max-bytes=${size}`]);
      expect(code).toBe(2);
      expect(err).toMatch(/^lieflat: command line: --max-bytes (cannot be .*; give a size|needs a value)/);
    },
  );

  it('takes sizes in bytes, kB and MB', async () => {
    const { folder } = shopFolder();
    for (const size of ['999999', '900kB', '900 KB', '1mb', '0.5M', '1GB']) {
      const { code, err } = await lieflat(['columns', 'plain.dst', '--max-bytes', size], { cwd: folder });
      expect([size, code, err]).toEqual([size, 0, '']);
    }
  });
});

describe('--out-dir', () => {
  /** A folder for what is written, and a way out of it. */
  function shop() {
    const { folder, at } = shopFolder();
    mkdirSync(at('out'));
    mkdirSync(at('out/sub'));
    mkdirSync(at('elsewhere'));
    symlinkSync(at('elsewhere'), at('out/away'));
    writeFileSync(at('elsewhere/mine.csv'), 'mine');
    symlinkSync(at('elsewhere/mine.csv'), at('out/link.csv'));
    return { folder, at };
  }

  it('is where files go', async () => {
    const { folder, at } = shop();
    const { code, err } = await lieflat(['convert', 'crest.dst', '-o', 'crest.csv', '--out-dir', 'out'], {
      cwd: folder,
    });
    expect([code, err]).toEqual([0, expect.stringMatching(/^wrote out.crest\.csv \(/)]);
    expect(readFileSync(at('out/crest.csv'), 'utf8')).toMatch(/^x_mm,y_mm,kind/);
    for (const name of ['sub/crest.csv', 'sub/../again.csv', at('out/whole.csv')]) {
      const inside = await lieflat(['convert', 'crest.dst', '-o', name, '--out-dir', 'out'], { cwd: folder });
      expect([inside.code, inside.err]).toEqual([0, expect.stringContaining('wrote')]);
    }
    expect(readdirSync(at('out')).sort()).toEqual([
      'again.csv',
      'away',
      'crest.csv',
      'link.csv',
      'sub',
      'whole.csv',
    ]);
  });

  it.each([
    ['a step up', () => '../crest.csv'],
    ['steps up from further in', () => 'sub/../../crest.csv'],
    ['a whole path', (at: (name: string) => string) => at('crest.csv')],
    ['a folder that is a link', () => 'away/crest.csv'],
    ['a file that is a link', () => 'link.csv'],
  ])('is not left by %s', async (_, name) => {
    const { folder, at } = shop();
    const args = ['convert', 'crest.dst', '-o', name(at), '--out-dir', 'out', '--force'];
    const { code, err } = await lieflat(args, { cwd: folder });
    expect(code).toBe(2);
    expect(err).toMatch(
      /^lieflat: .*: it is not in .*out, the folder that files are written to; .*--out-dir\n$/,
    );
    expect(readdirSync(at('elsewhere'))).toEqual(['mine.csv']);
    expect(readFileSync(at('elsewhere/mine.csv'), 'utf8')).toBe('mine');
    expect(readdirSync(folder)).not.toContain('crest.csv');
  });

  it('holds for every option that names a file to write, before any work', async () => {
    const { folder, at } = shop();
    const args = ['pucker', 'broken.dst', '--fabric', 'denim', '--out-dir', 'out'];
    for (const option of ['--map', '-o']) {
      const { code, err } = await lieflat([...args, option, '../x.svg'], { cwd: folder });
      expect([code, err]).toEqual([2, expect.stringContaining('it is not in')]);
    }
    const reports = await lieflat(['vet', 'crest.dst', '-o', 'r.txt', '--out-dir', at('out')], {
      cwd: folder,
    });
    expect(reports.code).toBe(0);
    expect(readFileSync(join(at('out'), 'r.txt'), 'utf8')).toContain('crest.dst');
  });

  it('must be there', async () => {
    const { folder } = shop();
    const args = ['convert', 'crest.dst', '-o', 'crest.csv', '--out-dir', 'none'];
    const { code, err } = await lieflat(args, { cwd: folder });
    expect([code, err]).toEqual([
      2,
      expect.stringMatching(/none: the folder .* does not exist; make the folder/),
    ]);
  });
});
