import { createHash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import type { VetReport } from '../../lib/report/vet/report.js';
import { VET_CONTRACT } from '../report/contract.js';
import { lieflat, shopFolder, sinkInto } from './at-a-terminal.js';

const json = <T = VetReport>(text: string): T => JSON.parse(text) as T;

describe('lieflat vet', () => {
  it('prints one object for one file, in the promised shape', async () => {
    const { at } = shopFolder();
    const { code, out, err } = await lieflat(['vet', at('crest.dst'), '--format', 'json']);
    expect(err).toBe('');
    expect(code).toBe(0);
    const report = VET_CONTRACT.parse(json(out));
    const bytes = readFileSync(at('crest.dst'));
    expect(report.file).toEqual({
      path: at('crest.dst'),
      format: 'dst',
      bytes: bytes.length,
      sha256: createHash('sha256').update(bytes).digest('hex'),
    });
    expect(report.objects.map((o) => o.kind)).toEqual(['satin', 'satin', 'fill']);
  });

  it('prints an array for several files, and a line each where asked', async () => {
    const { at } = shopFolder();
    const several = json<VetReport[]>(
      (await lieflat(['vet', at('crest.dst'), at('plain.dst'), '--format=json'])).out,
    );
    expect(several.map((r) => VET_CONTRACT.parse(r).file.path)).toEqual([at('crest.dst'), at('plain.dst')]);
    const { out } = await lieflat(['vet', at('crest.dst'), at('plain.dst'), '--format', 'jsonl']);
    const lines = out.trimEnd().split('\n');
    expect(lines.map((line) => json(line))).toEqual(several);
  });

  it('writes each line of JSON as its file is finished', async () => {
    const { at } = shopFolder();
    const pieces: string[] = [];
    await lieflat(['vet', at('crest.dst'), at('plain.dst'), at('wide.dst'), '--format', 'jsonl'], {
      stdout: sinkInto(pieces),
    });
    expect(pieces.filter((piece) => piece !== '')).toHaveLength(3);
  });

  it('prints a table with a row an object', async () => {
    const { at } = shopFolder();
    const { out } = await lieflat(['vet', at('crest.dst'), at('plain.dst'), '--format', 'csv']);
    const rows = parse(out, { columns: true }) as Record<string, string>[];
    expect(rows.map((row) => [row.file, row.object])).toEqual([
      [at('crest.dst'), '1'],
      [at('crest.dst'), '2'],
      [at('crest.dst'), '3'],
      [at('plain.dst'), '1'],
    ]);
  });

  it.each([
    ['crest.dst', 'fail', 0],
    ['crest.dst', 'warn', 1],
    ['wide.dst', 'fail', 0],
    ['wide.dst', 'warn', 1],
    ['wide.dst', 'note', 1],
    ['plain.dst', 'warn', 0],
    ['wide.dst', 'never', 0],
  ])('of %s with --fail-on %s exits with %i', async (name, level, code) => {
    const { at } = shopFolder();
    expect((await lieflat(['vet', at(name), '--fail-on', level])).code).toBe(code);
  });

  it('fails by default on a failure: a design that does not fit its hoop', async () => {
    const { at } = shopFolder();
    const fits = await lieflat(['vet', at('crest.dst'), '--hoop', '2x2in', '--format', 'json']);
    expect(fits.code).toBe(0);
    const small = await lieflat(['vet', at('crest.dst'), '--hoop', '30x30', '--format', 'json']);
    expect(small.code).toBe(1);
    expect(json(small.out).findings.map((f) => f.code)).toContain('does-not-fit-hoop');
    expect((await lieflat(['vet', at('crest.dst'), '--hoop', '30x30mm'])).out).toMatch(/^DO NOT SEW /);
  });

  it('ends well whatever it finds with --fail-on never, as long as it can do its work', async () => {
    const { at } = shopFolder();
    const args = ['vet', at('crest.dst'), '--hoop', '30x30', '--fail-on', 'never'];
    const found = await lieflat(args);
    expect(found.code).toBe(0);
    expect(found.out).toMatch(/^DO NOT SEW /);
    expect((await lieflat([...args, at('broken.dst')])).code).toBe(2);
  });

  it('holds a design against its place', async () => {
    const { at } = shopFolder();
    const { out } = await lieflat(['vet', at('crest.dst'), '--place', 'cuff', '--format', 'json']);
    const finding = json(out).findings.find((f) => f.code === 'does-not-fit-place');
    expect(finding).toMatchObject({ unit: 'mm', object: null });
    expect(finding!.measured).toBeCloseTo(37.3, 1);
  });

  it('goes on after a bad file and then exits with 2', async () => {
    const { at } = shopFolder();
    const { code, out, err } = await lieflat([
      'vet',
      at('broken.dst'),
      at('none.dst'),
      at('wide.dst'),
      '--format',
      'jsonl',
    ]);
    expect(code).toBe(2);
    expect(json(out).file.path).toBe(at('wide.dst'));
    const lines = err.trimEnd().split('\n');
    expect(lines).toHaveLength(2);
    expect(lines.every((line) => /^lieflat: .+: .+; .+/.test(line))).toBe(true);
    expect(err).toContain(at('broken.dst'));
    expect(err).toContain(at('none.dst'));
    expect(err).not.toMatch(/^\s+at /m);
  });

  it('prints valid JSON even when no file could be read', async () => {
    const { at } = shopFolder();
    expect(json((await lieflat(['vet', at('none.dst'), '--format', 'json'])).out)).toEqual([]);
    const two = await lieflat(['vet', at('none.dst'), at('broken.dst'), at('none2.dst'), '--format', 'json']);
    expect(two.code).toBe(2);
  });

  it('takes a folder, a pattern, and a list on standard input', async () => {
    const { folder, at } = shopFolder();
    mkdirSync(at('orders'));
    symlinkSync(at('plain.dst'), at('orders/again.dst'));
    const paths = async (words: string[], stdin: string[] = []): Promise<string[]> => {
      const { out } = await lieflat(['vet', ...words, '--format', 'jsonl'], {
        stdin: (async function* () {
          yield* stdin;
        })(),
      });
      return out
        .split('\n')
        .filter(Boolean)
        .map((line) => json(line).file.path);
    };
    expect(await paths([folder])).toHaveLength(3);
    expect(await paths([`${folder}/*e.dst`])).toEqual([at('wide.dst')]);
    expect(await paths(['-'], [at('wid'), `e.dst\r\n${at('crest.dst')}\n`, '\n'])).toEqual([
      at('crest.dst'),
      at('wide.dst'),
    ]);
    const empty = await lieflat(['vet', '-']);
    expect(empty.code).toBe(2);
    expect(empty.err).toContain('empty');
  });

  it('sees paths from its working directory', async () => {
    const { folder, at } = shopFolder();
    const { out } = await lieflat(['vet', 'plain.dst', '--format', 'json'], { cwd: folder });
    expect(json(out).file.path).toBe(at('plain.dst'));
  });

  it('writes into a file whole, and replaces one only by force', async () => {
    const { folder, at } = shopFolder();
    const args = ['vet', at('crest.dst'), '--format', 'json', '--out', at('report.json')];
    const first = await lieflat(args);
    expect(first).toMatchObject({ code: 0, out: '' });
    expect(first.err).toMatch(/^wrote .*report\.json \(\d\.\d kB\)\n$/);
    expect(VET_CONTRACT.parse(json(readFileSync(at('report.json'), 'utf8'))).objects).toHaveLength(3);
    writeFileSync(at('report.json'), 'mine');
    const second = await lieflat(args);
    expect(second.code).toBe(2);
    expect(second.err).toContain('--force');
    expect(readFileSync(at('report.json'), 'utf8')).toBe('mine');
    expect((await lieflat([...args, '--force'])).code).toBe(0);
    expect(readFileSync(at('report.json'), 'utf8')).toContain('lieflat/vet@1');
    expect(readdirSync(folder).filter((name) => name.includes('part'))).toEqual([]);
  });

  it('writes what the ending of the file says, unless a format is asked for', async () => {
    const { at } = shopFolder();
    const written = async (name: string, ...more: string[]) => {
      await lieflat(['vet', at('crest.dst'), '-o', at(name), '--force', ...more]);
      return readFileSync(at(name), 'utf8');
    };
    expect(await written('list.csv')).toMatch(/^file,design_stitches,/);
    expect(await written('check.HTML')).toMatch(/^<!doctype html>/);
    expect(JSON.parse(await written('check.json')).schema).toBe('lieflat/vet@1');
    expect(await written('check.txt')).toMatch(/^(GOOD TO SEW|CHECK FIRST)/);
    expect(await written('list.csv', '--format', 'text')).toMatch(/^(GOOD TO SEW|CHECK FIRST)/);
  });

  it('writes a table of a row a file, the worst first, for a spreadsheet', async () => {
    const { folder, at } = shopFolder();
    writeFileSync(at('crest-copy.dst'), readFileSync(at('crest.dst')));
    const list = await lieflat(['vet', '.', '--summary', 'all.csv', '--fail-on', 'never'], { cwd: folder });
    const rows: Record<string, string>[] = parse(readFileSync(at('all.csv')), { columns: true });
    const [count] = /(\d+) files: .*/.exec(list.out)!;
    const of = (verdict: string) => rows.filter((row) => row.verdict === verdict).length;
    expect(count).toContain(`${of('GOOD TO SEW')} good to sew, ${of('CHECK FIRST')} to check first`);
    expect(rows.map(({ file }) => file.replace(/.*\//, ''))).toEqual(
      expect.arrayContaining(['crest.dst', 'crest-copy.dst']),
    );
    for (const { verdict, what_is_wrong: wrong } of rows)
      expect(wrong === '').toBe(verdict === 'GOOD TO SEW');
    const order = ['DO NOT SEW', 'CHECK FIRST', 'GOOD TO SEW'];
    const ranks = rows.map(({ verdict }) => order.indexOf(verdict));
    expect(ranks).toEqual(ranks.toSorted());
    const refused = await lieflat(['vet', '.', '--summary', 'all.pdf'], { cwd: folder });
    expect(refused.err).toContain('ends in .csv, .html, .json or .txt');
  });

  it('gives what could not be read a row of that table as well, with why', async () => {
    const { folder, at } = shopFolder();
    writeFileSync(at('noise.dst'), 'no stitches, in here');
    const argv = ['vet', 'crest.dst', 'noise.dst', 'gone.dst', '--summary', 'all.csv'];
    const { code, err } = await lieflat(argv, { cwd: folder });
    expect(code).toBe(2);
    const rows: Record<string, string>[] = parse(readFileSync(at('all.csv')), { columns: true });
    expect(rows.map(({ verdict }) => verdict).slice(0, 2)).toEqual(['NOT READ', 'NOT READ']);
    expect(rows.map(({ file }) => file.replace(/.*\//, ''))).toEqual(['gone.dst', 'noise.dst', 'crest.dst']);
    for (const { what_is_wrong: why, stitches, failures } of rows.slice(0, 2)) {
      expect(err).toContain(why);
      expect(why).not.toContain('byte');
      expect([stitches, failures]).toEqual(['', '']);
    }
  });

  it('has a line on the terminal for what could not be read, first, and counts what else is wrong', async () => {
    const { folder, at } = shopFolder();
    writeFileSync(at('noise.dst'), 'no stitches, in here');
    const incoming = fileURLToPath(new URL('../../samples/incoming.dst', import.meta.url));
    writeFileSync(at('incoming.dst'), readFileSync(incoming));
    const { out } = await lieflat(['vet', 'incoming.dst', 'noise.dst', 'crest.dst'], { cwd: folder });
    const all = out.split('\n');
    const lines = all.slice(all.findIndex((line) => line.startsWith('verdict')));
    expect(lines[1]).toMatch(/^NOT READ +noise\.dst/);
    const [, others] = /^DO NOT SEW +incoming\.dst .* \+(\d+)$/.exec(lines[2])!;
    const report = await lieflat(['vet', incoming, '--format', 'json', '--fail-on', 'never']);
    const { findings }: { findings: { code: string; severity: string }[] } = JSON.parse(report.out);
    const kinds = new Set(findings.filter(({ severity }) => severity !== 'note').map(({ code }) => code));
    expect(Number(others)).toBe(kinds.size - 1);
    expect(out).toContain('+ counts what else is wrong');
  });

  it('never replaces its input', async () => {
    const { at } = shopFolder();
    const before = readFileSync(at('crest.dst'));
    const { code, err } = await lieflat(['vet', at('crest.dst'), '--out', at('crest.dst'), '--force']);
    expect(code).toBe(2);
    expect(err).toContain('crest.dst');
    expect(readFileSync(at('crest.dst'))).toEqual(before);
    expect(existsSync(at('crest.dst'))).toBe(true);
  });

  it('sums up several files in one line', async () => {
    const { at } = shopFolder();
    const { out } = await lieflat(['vet', at('crest.dst'), at('plain.dst'), at('broken.dst')]);
    expect(out.trimEnd().split('\n').at(-1)).toBe('3 files: 1 good to sew, 1 to check first, 1 not read');
  });

  it('names below the count the files that go back, and no others', async () => {
    const { at, folder: cwd } = shopFolder();
    const lastOf = async (...files: string[]) =>
      (await lieflat(['vet', ...files], { cwd })).out.trimEnd().split('\n').at(-1)?.replace(`${cwd}/`, '');
    for (const name of ['crest', 'incoming', 'cap-front', 'towel-monogram'])
      copyFileSync(new URL(`../../samples/${name}.dst`, import.meta.url), at(`${name}.dst`));
    // Piled needle points are the digitizer's to spread; a heavy underlay the shop relays itself.
    expect(await lastOf('crest.dst', 'incoming.dst', 'cap-front.dst', 'towel-monogram.dst')).toBe(
      'Send back: incoming.dst and crest.dst. For the mail: lieflat reply <file>',
    );
    expect(await lastOf('crest.dst', 'cap-front.dst')).toBe(
      'Send back: crest.dst. For the mail: lieflat reply crest.dst',
    );
    expect(await lastOf('cap-front.dst', 'towel-monogram.dst')).toMatch(/^2 files: /);
  });

  it('speaks inches where asked', async () => {
    const { at } = shopFolder();
    const { out } = await lieflat(['vet', at('crest.dst'), '--units', 'in', '--objects']);
    // 20 x 37.3 mm, and a column of 5.5 mm.
    expect(out).toContain('0.79 x 1.47 in (20.0 x 37.3 mm)');
    expect(out).toMatch(/ 0\.217 /);
  });

  it('turns the lengths of what was found round where inches are asked for, and nothing else', async () => {
    const { at } = shopFolder();
    const args = ['vet', at('wide.dst'), '--fail-on', 'never'];
    // The wide column is 11 mm, 0.43 in.
    const flowing = async (more: string[]) => (await lieflat([...args, ...more])).out.replace(/\s+/g, ' ');
    expect(await flowing([])).toContain('11 mm (0.43 in) wide');
    expect(await flowing(['--units', 'in'])).toContain('0.43 in (11 mm) wide');
    expect((await lieflat([...args, '--units', 'in', '--format', 'json'])).out).toContain('11 mm (0.43 in)');
  });
});

describe('colour', () => {
  const sequence = '\u001b[';

  it('is used on a terminal alone', async () => {
    const { at } = shopFolder();
    const args = ['vet', at('crest.dst')];
    const plain = await lieflat(args);
    const coloured = await lieflat(args, { isTTY: true, columns: 100 });
    expect(plain.out).not.toContain(sequence);
    expect(coloured.out).toContain(sequence);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that is what colour is made of
    expect(coloured.out.replace(/\u001b\[\d+m/g, '')).toBe(plain.out);
  });

  it.each([{ NO_COLOR: '1' }, { TERM: 'dumb' }])('is left out with %o', async (env) => {
    const { at } = shopFolder();
    const { out } = await lieflat(['vet', at('crest.dst')], { isTTY: true, columns: 80, env });
    expect(out).not.toContain(sequence);
  });

  it('is left out of a file', async () => {
    const { at } = shopFolder();
    await lieflat(['vet', at('crest.dst'), '--out', at('report.txt')], { isTTY: true, columns: 80 });
    expect(readFileSync(at('report.txt'), 'utf8')).not.toContain(sequence);
  });
});

describe('names that would play tricks on a terminal', () => {
  it.each(['text', 'json', 'jsonl', 'csv'])('are written out in %s', async (format) => {
    const { at } = shopFolder();
    const name = at('\u001b]0;gone\u0007\u001b[2J\u009b31m.dst');
    writeFileSync(name, readFileSync(at('plain.dst')));
    writeFileSync(at('\u001b[31mbad.dst'), 'x');
    const { out, err } = await lieflat(['vet', name, at('\u001b[31mbad.dst'), '--format', format]);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: that is what must not be there
    expect(out + err).not.toMatch(/[\u0000-\u0009\u000b\u000c\u000e-\u001f\u007f-\u009f]/);
    if (format === 'jsonl') expect(json(out).file.path).toBe(name);
  });
});
