import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { readProfile } from '../../lib/profile.js';
import type { CalibrateReport } from '../../lib/report/calibrate/report.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { Needle } from '../report/little-design.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

/** A bold stroke or two, small enough to be worked out at once. */
const bold = () =>
  encodeDst(
    new Needle()
      .column(0, 0, { width: 5, height: 18, underlay: 'zigzag' })
      .column(9, 0, { width: 5, height: 18, underlay: 'zigzag' })
      .end(),
  );

const LOOKS: readonly (readonly [
  fabric: string,
  stack: string,
  underlay: string,
  washes: number,
  grade: number,
])[] = [
  ['performance-knit-thin', 'cutaway-2.5oz', 'as-is', 0, 2.5],
  ['performance-knit-thin', 'cutaway-2.5oz', 'as-is', 1, 2],
  ['performance-knit-thin', 'cutaway-2.5oz', 'fill:1 2', 0, 4.5],
  ['poplin', 'none', 'as-is', 0, 3.5],
  ['poplin', 'none', 'as-is', 1, 3],
];

function shopWithLog(extra: readonly string[] = []) {
  const { folder, at } = shopFolder();
  mkdirSync(at('designs'));
  writeFileSync(at('designs/bold.dst'), bold());
  const rows = LOOKS.flatMap(([fabric, stack, underlay, washes, grade]) =>
    [0, 0.5].map(
      (off) =>
        `designs/bold.dst;${fabric};${stack};"${underlay}";${washes};${String(grade - off).replace('.', ',')};;`,
    ),
  );
  const head = 'file;fabric;stack;underlay;washes;grade;object;width_mm';
  writeFileSync(at('log.csv'), `\ufeff${[head, ...rows, ...extra].join('\r\n')}\r\n`);
  return { folder, at };
}

const quiet = (at: (name: string) => string, ...more: string[]) => [
  'calibrate',
  at('log.csv'),
  '-o',
  at('shop.json'),
  ...more,
];

describe('lieflat calibrate', () => {
  it('reads the log from anywhere, reports the fit and writes a profile that is in force from then on', async () => {
    const { at } = shopWithLog(['designs/bold.dst;performance-knit-thin;cutaway-2.5oz;;0;;1;4,7']);
    const { code, out, err } = await lieflat(quiet(at));
    expect(err).toMatch(/^wrote .*shop\.json \(\d+ bytes\)\n$/);
    expect(code).toBe(0);
    expect(out).toMatch(/^(FITTED|NO BETTER) {2}/);
    expect(out).toContain('11 sew-outs, 5 of them different');
    expect(out).toMatch(/ {2}grades +predictions now miss yours by [\d.]+; before, by [\d.]+\n/);
    expect(out).toMatch(/ {2}widths +predictions now miss yours by [\d.]+ mm; before, by [\d.]+ mm\n/);
    for (const section of ['What your sew-outs say', 'What to do next', 'How sure'])
      expect(out).toContain(`\n\n${section}\n`);
    // In words; the figures are for those who ask.
    expect(out).toMatch(/Your machine (pulls|seems to pull) (harder|less|about as hard)/);
    expect(out).not.toMatch(/tension|95|built in {2}|root mean/);
    for (const line of out.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
    const shop = await readProfile(readFileSync(at('shop.json'), 'utf8'), 'shop.json');
    expect(shop.parameters!.tension.basis).toContain("10 grades and 1 measured width of the shop's own");
    const shown = await lieflat(['profile', '--profile', at('shop.json')]);
    expect(shown.out).toContain('calibration.tension');
  });

  it('gives programs the same, rows and all, and keeps what the profile in force says', async () => {
    const { folder, at } = shopWithLog([
      'designs/none.dst;pique-knit;none;;0;4;;',
      'designs/bold.dst;pique-knti;none;;0;4;;',
      'designs/bold.dst;pique-knit;none;fill:7;0;4;;',
      'designs/bold.dst;pique-knit;none;;0;;;',
      'designs/bold.dst;pique-knit;none;;0;;2;47',
    ]);
    writeFileSync(at('lieflat.config.json'), '{\n  // our old head\n  "machine": { "speedSpm": 650 }\n}\n');
    const { code, out, err } = await lieflat(
      ['calibrate', 'log.csv', '-o', 'shop.json', '--format', 'json'],
      { cwd: folder },
    );
    expect(code).toBe(2);
    const lines = err.trimEnd().split('\n');
    expect(lines[0]).toMatch(/^lieflat: log\.csv: line 12: designs\/none\.dst: /);
    expect(lines[1]).toMatch(
      /^lieflat: log\.csv: line 13: the fabric "pique-knti" is not known; did you mean pique-knit\?$/,
    );
    expect(lines[2]).toMatch(/^lieflat: log\.csv: line 14: designs\/bold\.dst has no object 7; /);
    expect(lines[3]).toBe(
      'lieflat: log.csv: line 16: object 2 of designs/bold.dst is 5.0 mm wide in the file and cannot be 47 mm wide when sewn; measure across its stitches, in millimeters, and check the object number',
    );
    expect(lines).toHaveLength(5);
    const report = JSON.parse(out) as CalibrateReport;
    expect(report.schema).toBe('lieflat/calibrate@1');
    expect(report.log).toMatchObject({ path: 'log.csv', used: 10, settings: 5, ungraded: [15] });
    expect(report.log.faults.map(({ line }) => line)).toEqual([12, 13, 14, 16]);
    expect(report.rows).toHaveLength(10);
    for (const { grade, foretold, residual } of report.rows)
      expect(grade! - foretold!).toBeCloseTo(residual!, 2);
    for (const { value, interval, low, high, told } of report.parameters) {
      expect(interval.low).toBeLessThan(low);
      expect(low).toBeLessThan(value);
      expect(value).toBeLessThan(high);
      expect(high).toBeLessThanOrEqual(interval.high);
      expect(told).toBeGreaterThan(0);
    }
    const written = readFileSync(at('shop.json'), 'utf8');
    expect(written).toContain('// our old head');
    expect((await readProfile(written, 'shop.json')).parameters!.tension.value).toBe(
      report.parameters.find(({ name }) => name === 'tension')!.value,
    );
  });

  it('passes the fit of the model before this one over with one note, and goes on', async () => {
    const { folder, at } = shopFolder();
    writeFileSync(
      at('lieflat.config.json'),
      '{ "accept": { "washes": 4 },\n "calibration": { "threshold": 4.1 } }\n',
    );
    const { code, err, out } = await lieflat(['profile'], { cwd: folder });
    expect(code).toBe(0);
    expect(err).toMatch(
      /^lieflat: note: .*lieflat\.config\.json: line 2: .*fit again: the model changed.*\n$/,
    );
    expect(out).toContain('accept.washes');
  });

  it('replaces no file unasked, and no file that it reads', async () => {
    const { at } = shopWithLog();
    writeFileSync(at('shop.json'), '{}');
    const there = await lieflat(quiet(at));
    expect([there.code, there.out]).toEqual([2, '']);
    expect(there.err).toContain('shop.json');
    expect(readFileSync(at('shop.json'), 'utf8')).toBe('{}');
    for (const out of ['shop.json', 'log.csv']) {
      const same = await lieflat([
        'calibrate',
        at('log.csv'),
        '-o',
        at(out),
        '--force',
        '--profile',
        at('shop.json'),
      ]);
      expect([out, same.code, same.out]).toEqual([out, 2, '']);
    }
    expect(readFileSync(at('shop.json'), 'utf8')).toBe('{}');
  });

  it.each([
    [
      'file,fabric,stack,grade\ncrest.dst,poplin,none,4\n',
      'log.csv: the log has only 1 graded sew-out to use, and a fit needs 10',
    ],
    ['file,fabric,grade\n', 'log.csv: line 1: the column stack is missing; begin with the line file,fabric'],
    ['\n\n', 'log.csv: line 1: the log is empty'],
    ['', 'log.csv: the file is empty'],
  ])('refuses %j and writes nothing', async (text, says) => {
    const { folder, at } = shopFolder();
    writeFileSync(at('log.csv'), text);
    const { code, out, err } = await lieflat(['calibrate', 'log.csv', '-o', 'shop.json'], { cwd: folder });
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(says);
    expect(() => readFileSync(join(folder, 'shop.json'))).toThrow('ENOENT');
  });
});

describe('lieflat profile', () => {
  it('says that every figure is built in where there is no profile', async () => {
    const { folder } = shopFolder();
    const { code, out } = await lieflat(['profile'], { cwd: folder });
    expect(code).toBe(0);
    expect(out).toContain('No profile is in use');
    expect(JSON.parse((await lieflat(['profile', '--format', 'json'], { cwd: folder })).out)).toEqual({
      schema: 'lieflat/profile@1',
      path: null,
      differences: [],
    });
  });

  it('writes one to start from, which then is in force and changes nothing', async () => {
    const { folder, at } = shopFolder();
    const made = await lieflat(['profile', '--init'], { cwd: folder });
    expect(made.err).toMatch(/^wrote lieflat\.config\.json \(\d\.\d kB\)\n$/);
    expect([made.code, made.out]).toEqual([0, '']);
    const shown = await lieflat(['profile'], { cwd: folder });
    expect(shown.out.replace(/\s+/g, ' ')).toContain('is in use: it changes nothing that is built in');
    const again = await lieflat(['profile', '--init'], { cwd: folder });
    expect(again.code).toBe(2);
    expect((await lieflat(['profile', '--init', '--force'], { cwd: folder })).code).toBe(0);
    writeFileSync(
      at('lieflat.config.json'),
      readFileSync(at('lieflat.config.json'), 'utf8').replace(
        '"satin-too-wide": { "warn": 7',
        '"satin-too-wide": { "warn": 6',
      ),
    );
    const { differences } = JSON.parse(
      (await lieflat(['profile', '--format', 'json'], { cwd: folder })).out,
    ) as {
      differences: unknown;
    };
    expect(differences).toEqual([{ key: 'limits.satin-too-wide.warn', value: 6, builtIn: 7, unit: 'mm' }]);
  });

  it('points editors at the schema of an installed lieflat, and prints it', async () => {
    const { folder, at } = shopFolder();
    mkdirSync(at('node_modules/lieflat/.build/lib'), { recursive: true });
    mkdirSync(at('orders'));
    const printed = await lieflat(
      ['profile', '--schema', '-o', 'node_modules/lieflat/.build/lib/profile.schema.json'],
      { cwd: folder },
    );
    expect(printed.code).toBe(0);
    await lieflat(['profile', '--init', '-o', 'orders/own.json'], { cwd: folder });
    expect(readFileSync(at('orders/own.json'), 'utf8')).toContain(
      '"$schema": "../node_modules/lieflat/.build/lib/profile.schema.json"',
    );
    const both = await lieflat(['profile', '--init', '--schema'], { cwd: folder });
    expect([both.code, both.out]).toEqual([2, '']);
  });
});
