import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { decodeDesign } from '../../lib/format/decode.js';
import { encodeDst } from '../../lib/format/dst-encode.js';
import type { RelayReport } from '../../lib/report/relay/report.js';
import { SHOP } from '../built-in-shop.js';
import { itInFull } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { Needle } from '../report/little-design.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh(2);

const NAME = new URL('../../samples/name-drop.dst', import.meta.url).pathname;

async function underlays(path: string): Promise<string[]> {
  const format = path.endsWith('.csv') ? 'csv' : 'dst';
  const bytes = readFileSync(path);
  const design = await decodeDesign(bytes, format);
  const { objects } = SHOP.vet(design, { file: { path, format, bytes: bytes.length, sha256: '' } });
  return objects.map(({ underlay }) => underlay.kinds.join(' '));
}

describe('lieflat relay', () => {
  it.each(['.dst', '.csv'])(
    'writes a %s with a light fill under the columns that call for it',
    async (ending) => {
      const { at } = shopFolder();
      const { code, out, err } = await lieflat(['relay', NAME, '-o', at(`name${ending}`)]);
      expect(code).toBe(0);
      expect(err).toMatch(/^wrote .* \(\d+\.\d kB\)\n$/);
      // Where a line breaks hangs on the length of the folder's path.
      expect(out.replace(/\s+/g, ' ')).toMatch(
        /^8 COLUMNS RELAID .*: a light fill instead of the underlay in the file /,
      );
      expect(await underlays(at(`name${ending}`))).toEqual(Array(8).fill('fill'));
    },
  );

  it('relays the columns that are named, on what is asked, and reports it as JSON', async () => {
    const { at } = shopFolder();
    const { code, out } = await lieflat([
      ...['relay', NAME, '-o', at('name.dst'), '--objects', '5,3', '--to', 'edge-run', '--format', 'json'],
    ]);
    expect(code).toBe(0);
    const report = JSON.parse(out) as RelayReport & { out: string };
    expect([report.schema, report.to, report.out]).toEqual(['lieflat/relay@1', 'edge-run', at('name.dst')]);
    expect(report.objects.map(({ object }) => object)).toEqual([3, 5]);
    for (const { before, after } of report.objects) {
      expect(before.underlay.kinds).toEqual(['double-zigzag']);
      expect(after.underlay.kinds).toEqual(['edge-run']);
      expect(after.threadMm).toBeLessThan(before.threadMm);
      expect(before.risk).toBe(null);
    }
    expect([report.left, report.findings]).toEqual([[], []]);
    const now = await underlays(at('name.dst'));
    const was = await underlays(NAME);
    expect(now).toEqual(was.map((kinds, k) => (k === 2 || k === 4 ? 'edge-run' : kinds)));
  });

  it('shows with --dry-run what the fabric would do, and writes nothing', async () => {
    const { at } = shopFolder();
    const onFabric = ['--fabric', 'performance-knit-thin', '--stack', 'cutaway-2.5oz'];
    const strokes = new Needle()
      .column(0, 0, { width: 6, height: 14, underlay: 'zigzag' })
      .column(9, 0, { width: 6, height: 14, underlay: 'zigzag' });
    writeFileSync(at('strokes.dst'), encodeDst(strokes.end()));
    const args = [
      'relay',
      at('strokes.dst'),
      '-o',
      at('name.dst'),
      '--dry-run',
      ...onFabric,
      '--format',
      'json',
    ];
    const { code, out, err } = await lieflat(args);
    expect([code, err, existsSync(at('name.dst'))]).toEqual([0, '', false]);
    const { design, conditions, objects } = JSON.parse(out) as RelayReport;
    expect(objects).toHaveLength(2);
    expect(conditions!.fabric).toBe('performance-knit-thin');
    expect(design.after.risk!.wrinkleMm).toBeLessThan(design.before.risk!.wrinkleMm);
    for (const { before, after } of objects)
      expect(after.risk!.wrinkleMm).toBeLessThan(before.risk!.wrinkleMm);
  });

  itInFull(
    'judges the change over the backing that is advised as well, but where that is the one asked for',
    async () => {
      const { at } = shopFolder();
      const column = new Needle().column(0, 0, { width: 6, height: 9, underlay: 'zigzag' }).end();
      writeFileSync(at('i.dst'), encodeDst(column));
      const on = ['relay', at('i.dst'), '--dry-run', '--fabric', 'pique-knit'];
      const { advised, conditions } = JSON.parse(
        (await lieflat([...on, '--stack', 'none', '--format', 'json'])).out,
      ) as RelayReport;
      expect(conditions!.stack).toEqual([]);
      expect(advised!.conditions.stackText).toMatch(/^cutaway-2\.5oz/);
      expect(advised!.after.wrinkleMm).toBeLessThanOrEqual(advised!.before.wrinkleMm);
      const text = (await lieflat([...on, '--stack', 'none'])).out.replace(/\s+/g, ' ');
      expect(text).toContain(`Over ${advised!.conditions.stackName}, which lieflat advise recommends: `);
      const same = await lieflat([...on, '--stack', advised!.conditions.stackText, '--format', 'json']);
      expect((JSON.parse(same.out) as RelayReport).advised).toBeNull();
    },
  );

  it('says where nothing calls for it, and writes no file that would be taken for a better one', async () => {
    const { at } = shopFolder();
    const { code, out } = await lieflat(['relay', at('plain.dst'), '-o', at('same.dst')]);
    expect(code).toBe(0);
    expect(out).toMatch(/^NOTHING CHANGED .*: no column\s+needs another underlay/);
    expect(out.replace(/\s+/g, ' ')).toContain('no file is written');
    expect(existsSync(at('same.dst'))).toBe(false);
    const json = await lieflat(['relay', at('plain.dst'), '-o', at('same.dst'), '--format', 'json']);
    expect(JSON.parse(json.out).out).toBeNull();
  });

  it('lays some under wide columns without any, and names those that were not asked for', async () => {
    const { at } = shopFolder();
    const bare = new Needle()
      .column(0, 0, { width: 4, underlay: 'zigzag' })
      .column(20, 0, { width: 4 })
      .end();
    writeFileSync(at('bare.dst'), encodeDst(bare));
    const unasked = await lieflat(['relay', at('bare.dst'), '--dry-run']);
    expect(unasked.out).toMatch(/^2 COLUMNS RELAID /);
    expect(unasked.out.replace(/\s+/g, ' ')).toContain('a light fill instead of any underlay they had');
    expect(unasked.out).not.toContain('Wide with no underlay');
    const asked = await lieflat(['relay', at('bare.dst'), '--dry-run', '--objects', '1']);
    expect(asked.out).toMatch(/^1 COLUMN RELAID /);
    expect(asked.out.replace(/\s+/g, ' ')).toContain(
      'Wide with no underlay: object 2. To lay some under it, name it with --objects.',
    );
    const alone = await lieflat(['relay', at('bare.dst'), '--dry-run', '--objects', '2']);
    expect(alone.out.replace(/\s+/g, ' ')).toContain('a light fill where there was no underlay');
  });

  it('says of a column without room that it was left, and why', async () => {
    const { at } = shopFolder();
    const args = ['relay', at('plain.dst'), '-o', at('same.dst'), '--objects', '1', '--to', 'edge-run+fill'];
    const { code, out } = await lieflat(args);
    expect(code).toBe(0);
    expect(out).toMatch(/object 1: too narrow or too short for an edge run and a light fill/);
  });

  it.each([
    [['-o', 'x.pdf'], /-o cannot be x\.pdf; give it a name that ends in \.dst or \.csv/],
    [[], /-o and a name that ends in \.dst or \.csv/],
    [['--dry-run', '--objects', '3,x'], /--objects cannot be 3,x/],
    [['--dry-run', '--objects', '5-3'], /--objects cannot be 5-3; .* as 3,5 or 1-4/],
    [['--dry-run', '--objects', '1-999999999'], /--objects cannot be/],
    [['--dry-run', '--objects', '8-9'], /there is no object 9, the design has 8/],
    [['--dry-run', '--objects', '99'], /there is no object 99, the design has 8/],
    [['--dry-run', '--to', 'moss'], /--to/],
    [['--dry-run', '--stack', 'none'], /--stack needs a fabric/],
    [['--dry-run', '--compensate'], /--compensate needs a fabric; add --fabric/],
    [['--dry-run', '--to', 'keep'], /--to keep changes nothing; add --compensate/],
    [['--dry-run', '--hoop', 'soup'], /there is no hoop soup/],
  ])('refuses %j in one line', async (args, message) => {
    const { code, out, err } = await lieflat(['relay', NAME, ...args]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(message);
    expect(err.trim().split('\n').length).toBe(1);
  });

  it('never replaces its input, nor a file that is there unless told to', async () => {
    const { at } = shopFolder();
    const before = readFileSync(at('wide.dst'));
    for (const args of [
      [at('wide.dst'), '-o', at('wide.dst'), '--force'],
      [NAME, '-o', at('wide.dst')],
    ]) {
      const { code, out } = await lieflat(['relay', ...args]);
      expect([code, out]).toEqual([2, '']);
      expect(readFileSync(at('wide.dst'))).toEqual(before);
    }
    const { code } = await lieflat(['relay', NAME, '-o', at('wide.dst'), '--force']);
    expect([code, await underlays(at('wide.dst'))]).toEqual([0, Array(8).fill('fill')]);
  });
});
