import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { Resvg } from '@resvg/resvg-js';
import { parse } from 'csv-parse/sync';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import { CATALOGUE, CATALOGUE_SHELVES } from '../../lib/materials/catalogue.js';
import type { ColumnsReport } from '../../lib/report/columns/report.js';
import type { PuckerComparison } from '../../lib/report/pucker/comparison.js';
import type { PuckerReport } from '../../lib/report/pucker/report.js';
import { displayWidth } from '../../lib/report/render/wrap.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { PUCKER_CONTRACT, VET_CONTRACT } from '../report/contract.js';
import { Needle } from '../report/little-design.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

/** A folder with one wide column: small, so that it is worked out fast. */
function folderWithColumn() {
  const shop = shopFolder();
  const column = new Needle().column(0, 0, { width: 6, height: 9, underlay: 'zigzag' }).end();
  writeFileSync(shop.at('i.dst'), encodeDst(column));
  return shop;
}
const ON_THIN = ['--fabric', 'performance-knit-thin'];

describe('lieflat pucker', () => {
  it('tells a person the risk in words and mm within 80 columns, and a program the same as data', async () => {
    const { at } = folderWithColumn();
    const text = await lieflat(['pucker', at('i.dst'), ...ON_THIN]);
    expect([text.code, text.err]).toEqual([0, '']);
    for (const line of text.out.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(80);
    const json = await lieflat(['pucker', at('i.dst'), ...ON_THIN, '--format', 'json']);
    const report = JSON.parse(json.out) as PuckerReport;
    expect(PUCKER_CONTRACT.safeParse(report).error).toBeUndefined();
    expect(text.out).toContain(`about ${Number(report.risk.wrinkleMm.toFixed(2))} mm (`);
    expect(text.out).toMatch(/^(LIES FLAT|SLIGHT|VISIBLE|BAD) /);
  });

  it('takes what is done with the fabric', async () => {
    const { at } = folderWithColumn();
    const { out } = await lieflat([
      ...['pucker', at('i.dst'), ...ON_THIN, '--format', 'json'],
      ...['--stack', 'woven-polyester@0+cutaway-2.5oz+woven-polyester@45', '--grain', '-30'],
      ...['--hoop-stretch', '5%', '--after-wash', '3', '--thread', 'rayon-40'],
    ]);
    const { conditions, stack, risk } = JSON.parse(out) as PuckerReport;
    expect(stack).toEqual([
      { sheet: 'woven-polyester', angleDeg: 0 },
      { sheet: 'cutaway-2.5oz', angleDeg: 0 },
      { sheet: 'woven-polyester', angleDeg: 45 },
    ]);
    expect(conditions).toMatchObject({
      grainDeg: -30,
      hoopStretchPercent: 5,
      washes: 3,
      thread: 'rayon-40',
      stackGiven: true,
    });
    expect(risk.drivers.map(({ cause }) => cause)).toContain('laundering');
  });

  it('lays several backings side by side', async () => {
    const { at } = folderWithColumn();
    const asked = [
      ...['pucker', at('i.dst'), ...ON_THIN],
      ...['--stack', 'cutaway-2.5oz', '--stack', 'woven-polyester'],
    ];
    const comparison = JSON.parse((await lieflat([...asked, '--format', 'json'])).out) as PuckerComparison;
    expect(comparison.reports.map(({ conditions }) => conditions.stackText)).toEqual([
      'cutaway-2.5oz',
      'woven-polyester',
    ]);
    expect(comparison.ranking[0]).toMatchObject({ stack: 'woven-polyester', report: 1 });
    const { out } = await lieflat(asked);
    for (const line of out.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(80);
    expect(out).toMatch(/^[A-Z ]+ {2}1\. woven-polyester$/m);
    expect(out).toMatch(/lies flatter than cut|Too close to call|likel|of 100/);
  });

  it.each(['map.svg', 'map.png'])('draws %s, and never over a file that is there', async (name) => {
    const { at } = folderWithColumn();
    const asked = ['pucker', at('i.dst'), ...ON_THIN, '--map', at(name)];
    expect((await lieflat(asked)).code).toBe(0);
    const bytes = readFileSync(at(name));
    if (name.endsWith('svg')) expect(new Resvg(bytes.toString()).width).toBe(1000);
    else expect(bytes.readUInt32BE(16)).toBe(1600);
    expect((await lieflat(asked)).code).toBe(2);
    expect(readFileSync(at(name))).toEqual(bytes);
  });

  it.each([
    [[], 'pucker needs a fabric; write --fabric'],
    [['--fabric', 'piqu-knit'], 'no fabric or garment is called that'],
    [[...ON_THIN, '--stack', 'cutaway'], 'the nearest are cutaway-3oz, cutaway-2.5oz'],
    [[...ON_THIN, '--stack', 'cutaway-3oz@400'], 'write cutaway-3oz@40'],
    [[...ON_THIN, '--stack', 'heat-film'], 'that is a topping'],
    [[...ON_THIN, '--stack', 'cutaway-3oz@up'], 'what follows the @ is no angle'],
    [[...ON_THIN, '--thread', 'cotton'], 'lieflat catalog threads lists all'],
    [[...ON_THIN, '--grain', 'up'], '--grain cannot be up'],
    [[...ON_THIN, '--grain', '1000'], 'give degrees from -180 to 180'],
    [[...ON_THIN, '--hoop-stretch', '80'], 'give a percentage from 0 to 50'],
    [[...ON_THIN, '--after-wash', '-1'], 'give a whole number from 0'],
    [[...ON_THIN, '--after-wash', '1.5'], '--after-wash cannot be 1.5'],
    [[...ON_THIN, '--map', 'map.gif'], '.svg or .png'],
    [[...ON_THIN, '--map', 'map.svg', '--stack', 'none', '--stack', 'cutaway-3oz'], 'one backing'],
  ])('refuses %j in one line', async (options, words) => {
    const { folder } = folderWithColumn();
    const { code, out, err } = await lieflat(['pucker', 'i.dst', ...options], { cwd: folder });
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(words);
    expect(err.trimEnd().split('\n')).toHaveLength(1);
    expect(existsSync(join(folder, 'map.svg'))).toBe(false);
  });

  it("reckons with the shop's own fabric", async () => {
    const { at } = folderWithColumn();
    const stiff = { value: 90, low: 80, high: 95 };
    writeFileSync(
      at('shop.json'),
      JSON.stringify({
        catalogue: { fabrics: { 'performance-knit-thin': { bendingAlong: stiff, bendingAcross: stiff } } },
      }),
    );
    const { out } = await lieflat(['pucker', at('i.dst'), ...ON_THIN, '--profile', at('shop.json')]);
    expect(out).toMatch(/^LIES FLAT/);
    expect(out.replace(/\s+/g, ' ')).toContain('your own values for performance-knit-thin');
  });
});

describe('conditions for the other commands', () => {
  it('vet fills in the risk; without a fabric it stays empty', async () => {
    const { at } = folderWithColumn();
    const asked = ['vet', at('i.dst'), '--fail-on', 'never'];
    const report = JSON.parse((await lieflat([...asked, ...ON_THIN, '--format', 'json'])).out) as VetReport;
    expect(VET_CONTRACT.safeParse(report).error).toBeUndefined();
    expect(report.risk!.conditions.fabric).toBe('performance-knit-thin');
    expect(report.objects.every(({ risk }) => risk !== null)).toBe(true);
    const plain = JSON.parse((await lieflat([...asked, '--format', 'json'])).out) as VetReport;
    expect([plain.risk, plain.objects[0].risk]).toEqual([null, null]);
    const { out } = await lieflat([...asked, ...ON_THIN, '--stack', 'cutaway-3oz', '--format', 'csv']);
    expect(parse(out, { columns: true })[0]).toMatchObject({ backing: 'cutaway-3oz' });
  });

  it('columns predicts a lighter underlay', async () => {
    const { at } = folderWithColumn();
    const { out } = await lieflat([
      ...['columns', at('i.dst'), ...ON_THIN, '--stack', 'cutaway-2.5oz', '--format', 'json'],
    ]);
    const { foreseen } = JSON.parse(out) as ColumnsReport;
    expect(foreseen!.onAdvised!.wrinkleMm).toBeLessThan(foreseen!.now.wrinkleMm);
  });

  it('draw colours objects by risk', async () => {
    const { at } = folderWithColumn();
    expect((await lieflat(['draw', at('i.dst'), '-o', at('i.svg'), '--by', 'risk', ...ON_THIN])).code).toBe(
      0,
    );
    expect(readFileSync(at('i.svg'), 'utf8')).toContain('on performance knit, thin');
  });

  it.each([
    [['vet', 'i.dst', '--stack', 'none'], '--stack needs a fabric'],
    [['columns', 'i.dst', '--after-wash', '2'], '--after-wash needs a fabric'],
    [['draw', 'i.dst', '-o', 'i.svg', '--by', 'risk'], '--by risk needs a fabric'],
    [['vet', 'i.dst', '--fabric', 'felt'], 'no fabric or garment is called that'],
  ])('%j says what is missing', async (args, words) => {
    const { folder } = folderWithColumn();
    const { code, err } = await lieflat(args, { cwd: folder });
    expect(code).toBe(2);
    expect(err).toContain(words);
  });
});

describe('lieflat catalog', () => {
  it.each(CATALOGUE_SHELVES)('lists %s as text and as data', async (shelf) => {
    const { out } = await lieflat(['catalog', shelf]);
    for (const line of out.split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(80);
    const ids = Object.keys(CATALOGUE[shelf]);
    for (const id of ids) expect(out).toContain(`  ${id} `);
    const all = (await lieflat(['catalog', shelf, '--all'])).out;
    for (const id of ids) expect(all).toContain(`${id}:`);
    const one = await lieflat(['catalog', shelf, ids[0]]);
    expect(one.out.split('\n').filter((line) => /^ {2}\S+:/.test(line))).toHaveLength(1);
    expect(one.out).toContain(`  ${ids[0]}:`);
    const data = JSON.parse((await lieflat(['catalog', shelf, '--format', 'json'])).out);
    expect(data).toEqual({ schema: 'lieflat/catalog@1', [shelf]: CATALOGUE[shelf] });
  });

  it('lists everything where nothing is named', async () => {
    const data = JSON.parse((await lieflat(['catalog', '--format', 'json'])).out);
    expect(Object.keys(data)).toEqual(['schema', ...CATALOGUE_SHELVES, 'places', 'hoops']);
  });
});

/** Files that a file loads; what it imports for its types alone, or when it is called for, is not loaded. */
function loadedBy(path: string): string[] {
  const { statements } = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.ES2022, true);
  return statements.flatMap((statement) => {
    if (!ts.isImportDeclaration(statement) && !ts.isExportDeclaration(statement)) return [];
    const isImport = ts.isImportDeclaration(statement);
    const clause = isImport ? statement.importClause : statement;
    const named = isImport ? statement.importClause?.namedBindings : statement.exportClause;
    if (clause?.isTypeOnly || !statement.moduleSpecifier) return [];
    const target = (statement.moduleSpecifier as ts.StringLiteral).text;
    const elements = named && 'elements' in named ? [...named.elements] : [];
    const typesAlone = elements.length > 0 && elements.every((element) => element.isTypeOnly);
    if (!target.startsWith('.') || typesAlone) return [];
    return [join(dirname(path), target.replace(/\.js$/, '.ts'))];
  });
}

describe('what vetting alone has to load', () => {
  it('holds nothing of the mechanics and of the materials only what the shop has by default', () => {
    const root = new URL('../../', import.meta.url).pathname;
    const seen = new Set<string>();
    const visit = (path: string): void => {
      if (seen.has(path)) return;
      seen.add(path);
      for (const target of loadedBy(path)) visit(target);
    };
    for (const start of ['cli/main.ts', 'cli/commands/vet.ts']) visit(join(root, start));
    const loaded = [...seen].map((path) => relative(root, path));
    expect(loaded).toContain('lib/vetting/limits.ts');
    expect(loaded.filter((path) => /^lib\/(mechanics|materials)\//.test(path)).sort()).toEqual([
      'lib/materials/machine.ts',
      'lib/materials/places.ts',
      'lib/materials/prices.ts',
      'lib/materials/stock.ts',
      'lib/materials/thread-use.ts',
    ]);
  });
});
