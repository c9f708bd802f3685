import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { describe, expect, it, onTestFinished } from 'vitest';
import { type Drive, NODE_DRIVE, useDrive } from '../../lib/io/drive.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { VET_CONTRACT } from '../report/contract.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

type Line = VetReport & { settings: string };

const linesOf = (text: string): Line[] =>
  text
    .split('\n')
    .filter(Boolean)
    .map((line) => JSON.parse(line) as Line);

/** A folder with as many sound and faulty designs, each with content of its own, and two files that are none. */
function archive(designs: number) {
  const shop = shopFolder();
  mkdirSync(shop.at('archive'));
  const at = (name: string) => shop.at(`archive/${name}`);
  for (let n = 0; n < designs; n++) {
    const name = `d${String(n).padStart(2, '0')}.dst`;
    copyFileSync(shop.at(n % 3 === 0 ? 'wide.dst' : 'plain.dst'), at(name));
    // Bytes after the end are a note; here they make each file one of its own.
    writeFileSync(at(name), Buffer.concat([readFileSync(at(name)), Buffer.from([n])]));
  }
  return { ...shop, archive: shop.at('archive') };
}

const VET = ['--format', 'jsonl', '--fail-on', 'never'];

describe('a report that goes on where an earlier one ended', () => {
  it('passes over what is reported there under the same settings, and says how many', async () => {
    const { at, archive: folder } = archive(5);
    await lieflat(['vet', folder, ...VET, '--out', at('report.jsonl')]);
    copyFileSync(at('crest.dst'), at('archive/new.dst'));
    const again = await lieflat(['vet', folder, ...VET, '--since', at('report.jsonl')]);
    expect(linesOf(again.out).map(({ file }) => file.path)).toEqual([at('archive/new.dst')]);
    expect(again.err).toBe('6 files: 1 to check first, 5 checked before\n');
    expect(again.code).toBe(0);
    writeFileSync(at('report-2.jsonl'), again.out);
    const both = ['--since', at('report.jsonl'), '--since', at('report-2.jsonl')];
    expect((await lieflat(['vet', folder, ...VET, ...both])).out).toBe('');
  });

  it.each([
    ['another place', ['--place', 'cuff']],
    ['another hoop', ['--hoop', '100x100']],
    ['onFabric', ['--fabric', 'denim']],
    ['a limit of its own', ['--profile', 'shop.json']],
  ])('vets again under %s', async (_, more) => {
    const { folder, at } = shopFolder();
    writeFileSync(at('shop.json'), '{"limits": {"satin-too-wide": {"warn": 6}}}');
    await lieflat(['vet', 'plain.dst', ...VET, '--out', 'report.jsonl'], { cwd: folder });
    const args = ['vet', 'plain.dst', ...VET, '--since', 'report.jsonl'];
    expect((await lieflat(args, { cwd: folder })).out).toBe('');
    const [report] = linesOf((await lieflat([...args, ...more], { cwd: folder })).out);
    const [before] = linesOf(readFileSync(at('report.jsonl'), 'utf8'));
    expect(report.file).toEqual(before.file);
    expect(report.settings).not.toBe(before.settings);
  });

  it('takes the same settings for the same, however they are written', async () => {
    const { folder, at } = shopFolder();
    writeFileSync(at('a.json'), '{"limits": {"satin-too-wide": {"warn": 6}, "satin-too-narrow": 0.9}}');
    writeFileSync(at('b.json'), '{"limits": {"satin-too-narrow": 0.9, "satin-too-wide": {"warn": 6}}}');
    const marks = new Set<string>();
    for (const more of [
      ['--profile', 'a.json', '--hoop', '100x100'],
      ['--profile', 'b.json', '--hoop', '100x100mm', '--units', 'in', '--format', 'json'],
    ]) {
      const { out } = await lieflat(['vet', 'plain.dst', ...VET, ...more], { cwd: folder });
      marks.add((JSON.parse(out) as Line).settings);
    }
    expect(marks.size).toBe(1);
    expect([...marks][0]).toMatch(/^[0-9a-f]{16}$/);
  });

  it('tolerates a last line that breaks off, and names bad lines once', async () => {
    const { at, archive: folder } = archive(4);
    const { out } = await lieflat(['vet', folder, ...VET]);
    const lines = out.split('\n');
    writeFileSync(at('cut.jsonl'), `${lines[0]}\n${lines[1]}\n${lines[2].slice(0, 200)}`);
    const cut = await lieflat(['vet', folder, ...VET, '--since', at('cut.jsonl')]);
    expect(linesOf(cut.out)).toHaveLength(2);
    expect(cut.err).toBe('4 files: 1 good to sew, 1 to check first, 2 checked before\n');
    writeFileSync(at('bad.jsonl'), `${lines[0]}\n${lines[1].slice(9)}\nhello\n${lines[2]}\n`);
    const bad = await lieflat(['vet', folder, ...VET, '--since', at('bad.jsonl')]);
    expect(linesOf(bad.out)).toHaveLength(2);
    expect(bad.err.split('\n').filter((line) => line.includes('bad.jsonl'))).toEqual([
      `lieflat: ${at('bad.jsonl')}: line 2: not a vet report, nor is 1 other line; skipped, the file is checked again`,
    ]);
    const none = await lieflat(['vet', folder, ...VET, '--since', at('crest.dst')]);
    expect([none.code, none.out]).toEqual([2, '']);
    expect(none.err.trimEnd().split('\n')).toHaveLength(1);
  });
});

describe('the summary of many files', () => {
  it('stands under the text, and on standard error beside figures', async () => {
    const { archive: folder, at } = archive(12);
    copyFileSync(at('broken.dst'), at('archive/broken.dst'));
    const text = await lieflat(['vet', folder, '--fail-on', 'never']);
    expect(text.code).toBe(2);
    const count = '13 files: 8 good to sew, 4 to check first, 1 not read';
    expect(text.out.trimEnd().split('\n').at(-1)).toBe(count);
    // A line each, those to look at first.
    const verdicts = [...text.out.matchAll(/^(CHECK FIRST|GOOD TO SEW) /gm)].map(([, verdict]) => verdict);
    expect(verdicts).toEqual([...Array(4).fill('CHECK FIRST'), ...Array(8).fill('GOOD TO SEW')]);
    const figures = await lieflat(['vet', folder, '--format', 'csv', '--fail-on', 'never']);
    expect(figures.err).toContain('\nFound in most files\n');
    expect(figures.err).toMatch(/\nWidth of 16 satin columns, mm\n/);
    expect(figures.err.trimEnd().split('\n').at(-1)).toBe(count);
    const quiet = await lieflat(['vet', folder, '--format', 'csv', '--fail-on', 'never', '--quiet']);
    expect(quiet.err.trimEnd().split('\n')).toHaveLength(1);
    expect(quiet.out).toBe(figures.out);
  });

  it('goes into a file in the form of its name, refused before any work', async () => {
    const { archive: folder, at } = archive(3);
    for (const name of ['sum.html', 'sum.json', 'sum.txt'])
      expect((await lieflat(['vet', folder, ...VET, '--summary', at(name)])).err).toContain(
        `wrote ${at(name)}`,
      );
    expect(readFileSync(at('sum.html'), 'utf8')).toMatch(/^<!doctype html>.*<svg .*role="img"/s);
    expect(JSON.parse(readFileSync(at('sum.json'), 'utf8'))).toMatchObject({
      schema: 'lieflat/vet-summary@1',
      files: { vetted: 3, sound: 2, warn: 1, fail: 0, unread: 0, skipped: 0 },
    });
    expect(readFileSync(at('sum.txt'), 'utf8')).toContain('3 files: 2 good to sew, 1 to check first');
    for (const name of ['sum.html', 'sum.pdf']) {
      const { code, out } = await lieflat(['vet', folder, ...VET, '--summary', at(name)]);
      expect([code, out]).toEqual([2, '']);
    }
  });

  it('opens a page of several designs, with charts; more than a page holds are refused', async () => {
    const { archive: folder, at } = archive(3);
    const page = (await lieflat(['vet', folder, '--format', 'html'])).out;
    expect(page.indexOf('Worst first')).toBeGreaterThan(0);
    expect(page.indexOf('Worst first')).toBeLessThan(page.indexOf('id="design-1"'));
    for (let n = 0; n < 200; n++) copyFileSync(at('plain.dst'), at(`archive/copy-${n}.dst`));
    const many = await lieflat(['vet', folder, '--format', 'html', '--out', at('page.html')]);
    expect([many.code, many.err.trimEnd().split('\n').length]).toEqual([2, 1]);
    expect(many.err).toContain('--summary');
    expect(existsSync(at('page.html'))).toBe(false);
  });
});

/** Stops a run, by a drive that sees to it, once so many designs have been opened: then some are done, however fast the machine is. */
function stopAtDesign(nth: number): { onStop: (listener: () => void) => () => void } {
  let opened = 0;
  let stop = () => {};
  const drive = new Proxy(NODE_DRIVE, {
    get:
      (real, name: keyof Drive) =>
      (...args: never[]) => {
        const [path] = args as unknown as [string];
        if (name === 'open' && path.endsWith('.dst') && ++opened === nth) stop();
        return (real[name] as (...args: never[]) => Promise<unknown>)(...args);
      },
  });
  onTestFinished(useDrive(drive));
  return {
    onStop: (listener) => {
      stop = listener;
      return () => {};
    },
  };
}

describe('a batch that is stopped', () => {
  it('keeps whole what is done, says how to go on, and exits with 130', async () => {
    const { archive: folder, at } = archive(12);
    let stop: () => void = () => {};
    const pieces: string[] = [];
    const args = ['vet', folder, ...VET];
    const stopped = await lieflat(args, {
      onStop: (listener) => {
        stop = listener;
        return () => {};
      },
      stdout: {
        write(text, done) {
          pieces.push(text);
          if (pieces.filter(Boolean).length === 4) stop();
          done();
        },
      },
    });
    expect(stopped.code).toBe(130);
    const lines = linesOf(pieces.join(''));
    expect(lines.at(-1)).toEqual({ stopped: { done: 4, of: 12 } });
    const done = lines.slice(0, -1);
    expect(done).toHaveLength(4);
    for (const report of done) VET_CONTRACT.parse(report);
    expect(stopped.err).toBe(
      'stopped after 4 of 12 files; go on with --since and the file that the report went to\n',
    );
    writeFileSync(at('report.jsonl'), pieces.join(''));
    const going = await lieflat([...args, '--since', at('report.jsonl')]);
    // The line that says it was stopped is no bad line.
    expect(going.err).not.toContain('passed over');
    const rest = linesOf(going.out);
    expect(rest).toHaveLength(8);
    expect(new Set([...done, ...rest].map(({ file }) => file.path)).size).toBe(12);
  });

  it('puts in place what it wrote to a file, and leaves no other behind', async () => {
    const { archive: folder, at, folder: whole } = archive(6);
    const { code, err } = await lieflat(['vet', folder, ...VET, '--out', at('report.jsonl')], {
      onStop: (listener) => {
        setImmediate(listener);
        return () => {};
      },
    });
    expect(code).toBe(130);
    expect(err).toContain(`go on with --since ${at('report.jsonl')}, and another -o for the rest\n`);
    const lines = linesOf(readFileSync(at('report.jsonl'), 'utf8'));
    expect(lines.at(-1)).toEqual({ stopped: { done: lines.length - 1, of: 6 } });
    expect(lines.length).toBeLessThan(6);
    expect(readdirSync(whole).filter((name) => name.includes('part'))).toEqual([]);
  });

  it.each([
    ['vet', 'csv'],
    ['vet', 'json'],
    ['vet', 'html'],
    ['vet', 'text'],
    ['columns', 'csv'],
    ['columns', 'json'],
    ['columns', 'text'],
  ])('keeps the old file of %s --format %s, and leaves the part beside it', async (command, format) => {
    const { archive: folder, at, folder: whole } = archive(6);
    const out = at('list.out');
    const args = [command, folder, '-o', out, '--format', format, '--force', '--ordered'];
    writeFileSync(out, 'old');
    const { code, err } = await lieflat(args, stopAtDesign(4));
    expect(code).toBe(130);
    expect(readFileSync(out, 'utf8')).toBe('old');
    const [size] = /\.part \((.*)\)$/m.exec(err)?.slice(1) ?? [];
    expect(err).toMatch(
      /^stopped after \d of 6 files; what was done is in [^\n]*list\.out\.part \([^\n]*\)\n$/,
    );
    expect(size).toBeDefined();
    const part = readFileSync(`${out}.part`, 'utf8');
    // It can be read for what it is.
    if (format === 'json') expect((JSON.parse(part) as unknown[]).length).toBeLessThan(6);
    if (format === 'html') expect(part).toContain('stopped after');
    if (format === 'text' && command === 'vet') expect(part).toMatch(/; stopped after \d of 6 files\n$/);
    expect(readdirSync(whole).filter((name) => name.startsWith('.'))).toEqual([]);
    // Without --force nothing is replaced, not even a part.
    rmSync(out);
    const again = await lieflat(
      args.filter((word) => word !== '--force'),
      stopAtDesign(4),
    );
    expect(again.err).toContain('list.out.2.part');
    expect(readFileSync(`${out}.part`, 'utf8')).toBe(part);
    expect(existsSync(out)).toBe(false);
  });

  it('is none where nothing was left to do', async () => {
    const { archive: folder } = archive(3);
    let stop: () => void = () => {};
    const pieces: string[] = [];
    const { code, err } = await lieflat(['vet', folder, ...VET], {
      onStop: (listener) => {
        stop = listener;
        return () => {};
      },
      stdout: {
        write(text, done) {
          if (text !== '') pieces.push(text);
          if (pieces.length === 3) stop();
          done();
        },
      },
    });
    expect([code, err]).toEqual([0, '']);
    expect(linesOf(pieces.join('')).map(({ file }) => file.format)).toEqual(['dst', 'dst', 'dst']);
  });

  it.each([
    ['vet', 'html'],
    ['vet', 'jsonl'],
    ['columns', 'csv'],
  ])('is not ended by the system before %s --format %s is in place', async (command, format) => {
    const { archive: folder, at } = archive(3);
    let inPlace: boolean | undefined;
    await lieflat([command, folder, '--format', format, '-o', at('list.out')], {
      onStop: () => () => {
        inPlace = existsSync(at('list.out'));
      },
    });
    expect(inPlace).toBe(true);
  });

  it('says in the summary that it was stopped', async () => {
    const { archive: folder, at } = archive(12);
    for (const name of ['sum.json', 'sum.txt', 'sum.html']) {
      const { code } = await lieflat(['vet', folder, ...VET, '--summary', at(name)], {
        onStop: (listener) => {
          setImmediate(listener);
          return () => {};
        },
      });
      expect(code).toBe(130);
      const text = readFileSync(at(name), 'utf8');
      if (name === 'sum.json') expect(JSON.parse(text).stopped).toMatchObject({ of: 12 });
      else expect(text).toMatch(/stopped after \d of 12 files/);
    }
    const { code } = await lieflat(['vet', folder, ...VET, '--summary', at('whole.json')]);
    expect(code).toBe(0);
    expect(JSON.parse(readFileSync(at('whole.json'), 'utf8')).stopped).toBeNull();
  });

  it('never replaces the reports that it goes on from, even with --force', async () => {
    const { archive: folder, at } = archive(2);
    writeFileSync(at('report.jsonl'), (await lieflat(['vet', folder, ...VET])).out);
    const before = readFileSync(at('report.jsonl'), 'utf8');
    const again = ['--since', at('report.jsonl'), '-o', at('report.jsonl'), '--force'];
    const { code, err } = await lieflat(['vet', folder, ...VET, ...again]);
    expect(code).toBe(2);
    expect(err).toMatch(/report\.jsonl: it is the file that was read .*; write to another name/);
    expect(readFileSync(at('report.jsonl'), 'utf8')).toBe(before);
  });
});

describe('a batch of which no file can be read', () => {
  it.each([
    ['vet', 'jsonl', 'broken.dst'],
    ['vet', 'html', 'broken.dst'],
    ['vet', 'csv', 'broken.dst nowhere.dst'],
    ['vet', 'text', 'nowhere.dst'],
    ['columns', 'json', 'broken.dst nowhere.dst'],
    ['columns', 'csv', 'nowhere.dst'],
  ])('leaves the old report of %s --format %s as it was: %s', async (command, format, words) => {
    const { folder, at } = shopFolder();
    writeFileSync(at('list.out'), 'old');
    const files = words.split(' ');
    const args = [command, ...files, '--format', format, '-o', 'list.out', '--force'];
    const { code, err } = await lieflat(args, { cwd: folder });
    expect(code).toBe(2);
    expect(err.match(/^lieflat: /gm)).toHaveLength(files.length);
    expect(err).not.toContain('wrote');
    expect(readFileSync(at('list.out'), 'utf8')).toBe('old');
    expect(readdirSync(folder).filter((name) => name.includes('part'))).toEqual([]);
  });
});

describe('the list of files', () => {
  it('may be set apart by NUL, so that a name may hold a line end', async () => {
    const { at } = shopFolder();
    copyFileSync(at('plain.dst'), at('two\nlines.dst'));
    const list = `${at('two\nlines.dst')}\0${at('crest.dst')}\0`;
    const { out, code } = await lieflat(['vet', '-', ...VET], {
      stdin: (async function* () {
        yield list;
      })(),
    });
    expect(code).toBe(0);
    expect(linesOf(out).map(({ file }) => file.path)).toEqual([at('crest.dst'), at('two\nlines.dst')]);
  });

  it.each(['0', '-1', '1.5', 'many', '257'])('is not worked on by %s workers', async (workers) => {
    const { at } = shopFolder();
    const { code, err } = await lieflat(['vet', at('plain.dst'), `--workers=${workers}`]);
    expect(code).toBe(2);
    expect(err).toMatch(
      /^lieflat: command line: --workers cannot be .*; give a whole number from 1 to 256\n$/,
    );
  });

  it('of columns is worked through in the same way', async () => {
    const { archive: folder } = archive(3);
    const { out, code } = await lieflat(['columns', folder, '--format', 'csv', '--workers', '1']);
    expect(code).toBe(0);
    expect(out.trimEnd().split('\r\n')).toHaveLength(1 + 4);
  });
});
