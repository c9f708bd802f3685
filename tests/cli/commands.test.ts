import { readFileSync, writeFileSync } from 'node:fs';
import { Resvg } from '@resvg/resvg-js';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../cli/commands.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import type { ColumnsReport } from '../../lib/report/columns/report.js';
import type { CompareReport } from '../../lib/report/compare/report.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

describe('lieflat columns', () => {
  it('lists satin columns over a width, widest first', async () => {
    const { at } = shopFolder();
    const { out, code } = await lieflat(['columns', at('crest.dst'), '--format', 'json']);
    expect(code).toBe(0);
    const list = JSON.parse(out) as ColumnsReport;
    expect(list.columns.map((c) => Math.round(c.widthMm.median * 10) / 10)).toEqual([5.5, 2.5]);
    expect(list.columns.map((c) => c.lighterUnderlay !== null)).toEqual([true, false]);
    for (const over of ['4', '4mm', '0.16in']) {
      const some = JSON.parse(
        (await lieflat(['columns', at('crest.dst'), '--over', over, '--format', 'json'])).out,
      ) as ColumnsReport;
      expect(some.columns.map((c) => c.object)).toEqual([1]);
    }
  });

  it('makes one table of several files', async () => {
    const { at } = shopFolder();
    const { out } = await lieflat(['columns', at('crest.dst'), at('wide.dst'), '--format', 'csv']);
    const rows = parse(out, { columns: true }) as Record<string, string>[];
    expect(rows.map((row) => row.file)).toEqual([
      at('crest.dst'),
      at('crest.dst'),
      at('wide.dst'),
      at('wide.dst'),
    ]);
  });

  it.each(['-3', '0', 'wide', '4cm', ''])('refuses --over %s', async (over) => {
    const { at } = shopFolder();
    const { code, err } = await lieflat(['columns', at('crest.dst'), `--over=${over}`]);
    expect(code).toBe(2);
    expect(err).toMatch(/--over/);
  });
});

describe('lieflat compare', () => {
  it('says what changed, with exit code 0', async () => {
    const { at } = shopFolder();
    const { out, code } = await lieflat(['compare', at('plain.dst'), at('wide.dst'), '--format', 'json']);
    expect(code).toBe(0);
    const result = JSON.parse(out) as CompareReport;
    expect(result.schema).toBe('lieflat/compare@1');
    expect([result.before.path, result.after.path]).toEqual([at('plain.dst'), at('wide.dst')]);
    expect([result.objects.before, result.objects.after]).toEqual([1, 2]);
    const text = await lieflat(['compare', at('plain.dst'), at('plain.dst')]);
    expect(text.out).toMatch(/^No difference: /);
  });

  it('stops at a file that it cannot read', async () => {
    const { at } = shopFolder();
    const { code, out, err } = await lieflat(['compare', at('plain.dst'), at('broken.dst')]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('broken.dst');
  });
});

describe('lieflat draw', () => {
  it('draws an SVG that shows the name of the file', async () => {
    const { at } = shopFolder();
    expect(await lieflat(['draw', at('crest.dst'), '-o', at('crest.svg'), '--by', 'width'])).toEqual({
      code: 0,
      out: '',
      err: expect.stringMatching(/^wrote .*crest\.svg \(\d+\.\d kB\)\n$/),
    });
    const svg = readFileSync(at('crest.svg'), 'utf8');
    expect(svg).toContain('<title>crest.dst</title>');
    expect(new Resvg(svg).width).toBe(1000);
  });

  it('draws a PNG as wide as asked', async () => {
    const { at } = shopFolder();
    const { code } = await lieflat(['draw', at('crest.dst'), '--out', at('crest.PNG'), '--pixels', '200']);
    expect(code).toBe(0);
    expect(readFileSync(at('crest.PNG')).readUInt32BE(16)).toBe(200);
  });

  it.each([
    [['draw', 'crest.dst'], 'needs a picture'],
    [['draw', 'crest.dst', '-o', 'crest.gif'], '.svg or .png'],
    [['draw', 'crest.dst', '-o', 'crest.svg', '--pixels', '100'], 'only for .png'],
    [['draw', 'crest.dst', '-o', 'crest.png', '--pixels', 'many'], 'whole number of pixels'],
    [['draw', 'crest.dst', '-o', 'wide.dst', '--force'], '.svg or .png'],
    [['draw', 'crest.dst', '-o', 'nowhere/crest.svg'], 'folder'],
  ])('refuses %j', async (args, words) => {
    const { folder } = shopFolder();
    const { code, err } = await lieflat(args, { cwd: folder });
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
  });
});

describe('lieflat convert', () => {
  it('goes to a table and back to the same records', async () => {
    const { at } = shopFolder();
    expect((await lieflat(['convert', at('crest.dst'), '-o', at('crest.csv')])).code).toBe(0);
    const rows = parse(readFileSync(at('crest.csv')), { columns: true }) as Record<string, string>[];
    expect(Object.keys(rows[0]).slice(0, 3)).toEqual(['x_mm', 'y_mm', 'kind']);
    expect((await lieflat(['convert', at('crest.csv'), '-o', at('back.dst')])).code).toBe(0);
    const [before, after] = [at('crest.dst'), at('back.dst')].map((path) => decodeDst(readFileSync(path)));
    expect(after.x).toEqual(before.x);
    expect(after.y).toEqual(before.y);
    expect(after.kind).toEqual(before.kind);
    expect(before.kind).toHaveLength(rows.length);
  });

  it('says what was odd in the file that it read', async () => {
    const { at } = shopFolder();
    writeFileSync(at('odd.dst'), Buffer.concat([readFileSync(at('crest.dst')), Buffer.from('left over')]));
    const { code, err } = await lieflat(['convert', at('odd.dst'), '-o', at('odd.csv')]);
    expect(code).toBe(0);
    expect(err).toMatch(/\nlieflat: .*odd\.dst: .+; lieflat vet has the details\n$/);
  });

  it('never writes over what it reads, nor to a format it does not know', async () => {
    const { folder, at } = shopFolder();
    const before = readFileSync(at('crest.dst'));
    for (const out of ['crest.dst', 'crest.txt']) {
      const { code, err } = await lieflat(['convert', 'crest.dst', '-o', out, '--force'], { cwd: folder });
      expect(code).toBe(2);
      expect(err).not.toBe('');
    }
    expect(readFileSync(at('crest.dst'))).toEqual(before);
  });
});

describe('lieflat catalog', () => {
  it('lists places as text and as data', async () => {
    const text = await lieflat(['catalog', 'places']);
    expect(text.out).toContain('left-chest');
    expect((await lieflat(['catalog'])).out.endsWith(text.out)).toBe(true);
    const data = JSON.parse((await lieflat(['catalog', 'places', '--format', 'json'])).out) as {
      places: { id: string; widthMm: { value: number; basis: string } }[];
    };
    const chest = data.places.find((p) => p.id === 'left-chest')!;
    // Common practice, no source: a left chest takes about 100 x 100 mm.
    expect(chest.widthMm.value).toBe(100);
    expect(data.places.every((p) => p.widthMm.basis !== '')).toBe(true);
  });

  it('lists hoops, and one place or hoop by its id', async () => {
    const hoops = await lieflat(['catalog', 'hoops']);
    expect(hoops.out).toContain('round-90');
    expect(hoops.out).not.toContain('left-chest');
    const { hoops: asData } = JSON.parse((await lieflat(['catalog', 'hoops', '--format', 'json'])).out);
    expect(hoops.out.trimEnd().split('\n')).toHaveLength(asData.length + 2);
    const chest = await lieflat(['catalog', 'places', 'left-chest']);
    expect(chest.out.trimEnd().split('\n')).toHaveLength(3);
  });
});

describe('help', () => {
  it('names every command', async () => {
    const { out, code } = await lieflat(['--help']);
    expect(code).toBe(0);
    for (const name of Object.keys(COMMANDS)) expect(out).toMatch(new RegExp(`^  lieflat ${name} `, 'm'));
  });

  it.each(Object.entries(COMMANDS))(
    'of %s shows its options and an example that parses',
    async (name, spec) => {
      for (const columns of [undefined, 60]) {
        const { out, code } = await lieflat([name, '--help'], { isTTY: columns !== undefined, columns });
        expect(code).toBe(0);
        for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(columns ?? 80);
        for (const option of Object.keys(spec.options))
          expect(out).toContain(option.length === 1 ? ` -${option} ` : `--${option}`);
      }
      const [program, command, ...words] = spec.example.split(' ');
      expect([program, command]).toEqual(['lieflat', name]);
      // The files of the example are not there: what must not be wrong is the line itself.
      const { folder } = shopFolder();
      const tried = await lieflat([command, ...words], { cwd: `${folder}` });
      expect(tried.err).not.toMatch(/command line|--place|something went wrong/);
    },
  );

  it('is what a bare call gets, with exit code 2', async () => {
    const { code, out, err } = await lieflat([]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('Usage: lieflat');
  });

  it('is the same with -h, and comes before any mistake', async () => {
    const { out } = await lieflat(['draw', '--help']);
    expect(await lieflat(['draw', '-h', 'a', 'b'])).toEqual({ code: 0, out, err: '' });
  });

  it('gives the version of the package', async () => {
    const { version } = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as {
      version: string;
    };
    expect(await lieflat(['--version'])).toEqual({ code: 0, out: `${version}\n`, err: '' });
  });
});

describe('completion', () => {
  it('prints a script that asks lieflat itself', async () => {
    const { code, out, err } = await lieflat(['completion']);
    expect([code, err]).toEqual([0, '']);
    expect(out).toContain('lieflat --get-yargs-completions');
  });

  it.each([
    [['ve'], 'vet'],
    [['vet', 'crest.dst', '--f'], '--fail-on'],
    [['vet', 'crest.dst', '--format', ''], 'jsonl'],
    [['vet', 'crest.dst', '--fabric', ''], 'terry-towel'],
    [['pucker', 'crest.dst', '--fabric', 'pi'], 'pique-knit'],
    [['pucker', 'crest.dst', '--stack', 'no'], 'none'],
    [['vet', 'crest.dst', '--place', 'left'], 'left-chest'],
  ])('completes %j', async (typed, offered) => {
    const { code, out } = await lieflat(['--get-yargs-completions', 'lieflat', ...typed]);
    expect(code).toBe(0);
    expect(out.split('\n')).toContain(offered);
  });
});

describe('mistakes on the command line', () => {
  it.each([
    [['vett', 'x.dst'], 'did you mean vet?'],
    [['frobnicate'], 'lieflat --help lists the commands'],
    [['toString'], 'no command'],
    [['--format', 'json', 'vet'], 'the command comes first'],
    [['vet', 'x.dst', '--formt', 'json'], 'did you mean --format?'],
    [['vet', 'x.dst', '-x'], 'no option -x;'],
    [['vet', 'x.dst', '-xyz=1'], 'no option -xyz;'],
    [['vet', 'x.dst', '--no-force'], 'no option --no-force;'],
    [['vet', 'x.dst', '-o'], '-o needs a value'],
    [['--versoin'], 'did you mean --version?'],
    [['compare', 'a'], 'needs 2 files, not 1'],
    [['vet'], 'vet has nothing to work on; give a file or a folder: lieflat vet <paths..>'],
    [['pucker'], 'pucker has nothing to work on; give a file: lieflat pucker <file>'],
    [['convert', 'x.dst'], 'write -o'],
    [['completio'], 'did you mean completion?'],
    [['completion', 'zsh'], 'write lieflat completion; it goes by the shell'],
    [['vet', 'x.dst', '--__proto__', 'y'], 'no option'],
    [['vet', 'x.dst', '--format', 'jason'], 'did you mean json?'],
    [['vet', 'x.dst', '--format'], '--format needs a value'],
    [['vet', 'x.dst', '--out', '--force'], '--out needs a value'],
    [['vet', 'x.dst', '--objects=yes'], '--objects takes no value'],
    [['vet', 'x.dst', '--objects=no', '--quiet', '--quiet'], '--objects takes no value'],
    [['vet', 'x.dst', '--format='], '--format cannot be empty'],
    [['vet', 'x.dst', '-o', '--', 'y.dst'], '-o needs a value'],
    [['pucker', 'x.dst', '--stack', '--stack', 'none'], '--stack needs a value'],
    [['pucker', 'x.dst', '--stack', 'none'], 'needs a fabric'],
    [['resew', 'x.dst', '--dry-run', '--offset', '-0.3,0.2'], 'x.dst: there is no such file'],
    [['vet', 'x.dst', '--quiet', '--quiet', '--units', 'in', '--units', 'mm'], 'there is no such file'],
    [['vet', 'x.dst', '--units', 'furlong'], 'choose from mm, in'],
    [['vet'], 'lieflat vet <paths..>'],
    [['compare', 'a', 'b', 'c'], 'cannot use c'],
    [['vet', 'x.dst', '--place', 'left-ches'], 'did you mean left-chest?'],
    [['vet', 'x.dst', '--place', 'moon'], 'lieflat catalog places'],
    [['vet', 'x.dst', '--hoop', 'rond-90'], 'did you mean round-90?'],
    [['vet', 'x.dst', '--hoop', '0x10'], 'above 0'],
    [['catalog', 'place'], 'did you mean places?'],
    [['catalog', 'pique-knit'], 'write lieflat catalog fabrics pique-knit'],
    [['catalog', 'fabrics', 'pique'], 'did you mean pique-knit?'],
    [['catalog', 'places', 'chest'], 'did you mean left-chest?'],
  ])('%j is one line with a way out, and exit code 2', async (args, words) => {
    const { code, out, err } = await lieflat(args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/^lieflat: [^\n]+\n$/);
    expect(err).toContain(words);
  });

  it('shows where an error came from only when asked', async () => {
    const { err } = await lieflat(['vet', 'x.dst', '--place', 'moon', '--debug']);
    expect(err).toMatch(/^\s+at .+/m);
  });

  it('calls a fault of its own by that name', async () => {
    const broken = {
      write: () => {
        throw new Error('out of paper');
      },
    };
    const { at } = shopFolder();
    const { code, err } = await lieflat(['vet', at('plain.dst')], { stdout: broken });
    expect(code).toBe(2);
    expect(err).toContain('something went wrong inside lieflat (out of paper)');
  });

  it('takes words after -- as they are', async () => {
    const { folder } = shopFolder();
    for (const word of ['--format', '-o', '007', '1e3']) {
      const { err } = await lieflat(['vet', '--', word], { cwd: folder });
      expect(err).toContain(`${word}: there is no such file`);
    }
  });

  it('takes options before, between and after words, and the last of several', async () => {
    const { folder } = shopFolder();
    const told = (await lieflat(['vet', 'crest.dst', 'plain.dst', '--format', 'jsonl'], { cwd: folder })).out;
    for (const args of [
      ['vet', '--format', 'jsonl', 'crest.dst', 'plain.dst'],
      ['vet', 'crest.dst', '--format=jsonl', 'plain.dst'],
      ['vet', '--format', 'csv', 'crest.dst', 'plain.dst', '--format', 'jsonl'],
    ]) {
      expect((await lieflat(args, { cwd: folder })).out).toBe(told);
    }
  });
});
