/** A shop sets an object right once: it is that wherever the design is read. */
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { encodeDst } from '../../lib/format/dst-encode.js';
import type { RelayReport } from '../../lib/report/relay/report.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { vec } from '../generators/plane.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { Board, zigzag } from '../segment/board.js';
import { lieflat, type Ran, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

const KEPT = 'lieflat.objects.json';

/** A shop with `two.dst`: an open zigzag in one color, a column over it in the next, and a column by itself. */
function shop() {
  const { folder, at } = shopFolder();
  const design = new Board()
    .sew(zigzag(vec(0, 0), vec(30, 0), 3.2, 2.4))
    .move('colour')
    .sew(zigzag(vec(0, 0), vec(30, 0), 4.6, 0.4))
    .move('trim')
    .sew(zigzag(vec(0, 20), vec(30, 20), 3, 0.4)).design;
  writeFileSync(at('two.dst'), encodeDst(design));
  const run = (...argv: string[]): Promise<Ran> => lieflat(argv, { cwd: folder });
  const vet = async (name = 'two.dst', ...more: string[]) =>
    JSON.parse((await run('vet', name, '--format', 'json', '--fail-on', 'never', ...more)).out) as VetReport;
  return { folder, at, run, vet };
}

describe('--is', () => {
  it('is kept in the working directory and used under any name of the file', async () => {
    const { at, run, vet } = shop();
    const said = await run('vet', 'two.dst', '--is', '1=underlay,3=fill', '--fail-on', 'never');
    expect(said.err).toBe(
      `kept in ${KEPT} for two.dst: object 1 is underlay, object 3 is fill (--is 1=found takes it back)\n`,
    );
    expect(said.out.replace(/\s+/g, ' ')).toContain(
      'objects object 1 is underlay, object 3 is fill: set by you (--is 1=found takes it back)',
    );
    copyFileSync(at('two.dst'), at('renamed.dst'));
    const report = await vet('renamed.dst');
    expect(report.objects.map(({ id, kind, setByShop }) => ({ id, kind, setByShop }))).toEqual([
      { id: 2, kind: 'satin', setByShop: false },
      { id: 3, kind: 'fill', setByShop: true },
    ]);
    expect(report.objects[0].underlay.kinds).toEqual(['zigzag']);
    expect(report.setObjects).toEqual([
      { object: 1, stitchRange: [0, 25], is: ['underlay'], done: true, why: null },
      { object: 3, stitchRange: expect.any(Array), is: ['fill'], done: true, why: null },
    ]);
    expect(report.findings.map(({ code, object }) => `${code} ${object}`)).toContain(
      'wide-satin-heavy-underlay 2',
    );
    expect(readdirSync(at('.')).filter((name) => name.includes('tmp'))).toEqual([]);
  });

  it('is taken back by found, and then all is as it was', async () => {
    const { at, run, vet } = shop();
    const before = await vet();
    await run('vet', 'two.dst', '--is', '1=underlay', '--is', '3=run');
    const back = await run('vet', 'two.dst', '--is', '1=found,3=found', '--fail-on', 'never');
    expect(back.err).toBe(`kept in ${KEPT} for two.dst: object 1 is as found, object 3 is as found\n`);
    expect(await vet()).toEqual(before);
    expect(readFileSync(at(KEPT), 'utf8')).toContain('"designs": {}');
  });

  it('lies beside the profile in force, and is found from folders below', async () => {
    const { at, run } = shop();
    mkdirSync(at('orders'));
    mkdirSync(at('settings'));
    writeFileSync(at('lieflat.config.json'), '{}');
    writeFileSync(at('settings/shop.json'), '{}');
    copyFileSync(at('two.dst'), at('orders/two.dst'));
    const below = (...argv: string[]) => lieflat(argv, { cwd: at('orders') });
    await below('vet', 'two.dst', '--is', '1=underlay');
    expect(existsSync(at(KEPT))).toBe(true);
    expect(existsSync(at(`orders/${KEPT}`))).toBe(false);
    expect((await run('columns', 'orders/two.dst')).out).toContain('2 satin columns');
    await run('vet', 'two.dst', '--profile', 'settings/shop.json', '--is', '3=run');
    expect(existsSync(at(`settings/${KEPT}`))).toBe(true);
    expect((await run('columns', 'two.dst', '--profile', 'settings/shop.json')).out).toContain(
      '2 satin columns',
    );
  });

  it.each([
    [['columns', 'two.dst'], /2 satin columns/],
    [['pucker', 'two.dst', '--fabric', 'pique-knit', '--objects'], /2\s+satin[\s\S]*3\s+satin/],
    [
      ['advise', 'two.dst', '--fabric', 'pique-knit', '--stack', 'cutaway-2.5oz'],
      /thread of objects 2 and 3 starts/,
    ],
    [['relay', 'two.dst', '--dry-run'], /^1 COLUMN RELAID /],
    [['resew', 'two.dst', '--dry-run', '--mode', 'widen'], /OLD HOLES (HIDDEN|WILL SHOW)|OLD HOLE WILL SHOW/],
  ])('is used by %j', async (argv, out) => {
    const { run } = shop();
    await run('vet', 'two.dst', '--is', '1=underlay');
    const done = await run(...argv);
    expect(done.err).toBe('');
    expect(done.out).toMatch(out);
    expect(done.out).not.toMatch(/^ +1 +satin/m);
  });

  it('is told of where it is used, in text and in tables', async () => {
    const { run } = shop();
    await run('vet', 'two.dst', '--is', '1=underlay', '--is', '3=satin');
    const said = 'object 1 is underlay, object 3 is satin: set by you (--is 1=found takes it back)';
    const fabric = ['--fabric', 'pique-knit'];
    const one = [...fabric, '--stack', 'cutaway-2.5oz'];
    for (const argv of [
      ['columns', 'two.dst'],
      ['pucker', 'two.dst', ...one, '--stack', 'cutaway-3oz'],
      ['advise', 'two.dst', ...one],
    ])
      expect((await run(...argv)).out.replace(/\s+/g, ' ')).toContain(said);
    const { out } = await run('columns', 'two.dst');
    expect(out).toMatch(/^ +3 .*\(set by you\)/m);
    expect(out).not.toMatch(/^ +2 .*\(set by you\)/m);
    const pucker = (await run('pucker', 'two.dst', ...fabric, '--objects')).out;
    expect(pucker).toMatch(/^ +3 +satin \(set\)/m);
    expect(pucker.replace(/\s+/g, ' ')).toContain(said);
    for (const command of ['columns', 'vet']) {
      const { out: table } = await run(command, 'two.dst', '--format', 'csv');
      const [head, ...records] = parse(table) as string[][];
      const [object, set] = ['object', 'set_by_shop'].map((name) => head.indexOf(name));
      expect(records.flatMap((r) => (r[object] ? [`${r[object]} ${r[set]}`] : [])).sort()).toEqual([
        '2 no',
        '3 yes',
      ]);
    }
    const plans = JSON.parse((await run('advise', 'two.dst', ...one, '--format', 'json')).out);
    expect(plans.setObjects).toMatchObject([{ object: 1 }, { object: 3, is: ['satin'], done: true }]);
  });

  it.each([
    ['relay', ['--objects', '2']],
    ['resew', ['--mode', 'machine']],
    ['resew', ['--mode', 'widen']],
  ])('is kept for the file that %s %j makes', async (command, more) => {
    const { at, run, vet } = shop();
    await run('vet', 'two.dst', '--is', '3=fill');
    const { err, code } = await run(command, 'two.dst', '-o', 'new.dst', ...more);
    // A larger design may leave old holes to be seen.
    expect(code).toBeLessThan(2);
    expect(err).toContain(`kept in ${KEPT} for new.dst: what you set of 1 object\n`);
    const { objects, setObjects } = await vet('new.dst');
    expect(setObjects).toMatchObject([{ is: ['fill'], done: true }]);
    expect(objects.filter((o) => o.setByShop)).toMatchObject([{ kind: 'fill' }]);
    // what was said of the old one stands
    expect((await vet()).setObjects).toMatchObject([{ object: 3, done: true }]);
    mkdirSync(at('out'));
    const within = await run(command, 'two.dst', '-o', 'there.dst', '--out-dir', 'out', ...more);
    expect(within.err).toContain(
      `what you set in it is not kept for there.dst: ${KEPT} lies outside --out-dir\n`,
    );
  });

  it('is used by pictures', async () => {
    const { at, run } = shop();
    await run('draw', 'two.dst', '-o', 'before.svg');
    await run('draw', 'two.dst', '-o', 'after.svg', '--is', '1=underlay');
    expect(readFileSync(at('after.svg'), 'utf8')).not.toBe(readFileSync(at('before.svg'), 'utf8'));
  });

  it('is sure: relay lays the column anew and takes the underlay that was said out', async () => {
    const { run } = shop();
    await run('vet', 'two.dst', '--is', '1=underlay', '--is', '2=satin');
    const { out, err, code } = await run('relay', 'two.dst', '-o', 'relaid.dst', '--format', 'json');
    expect({ err, code }).toEqual({ err: expect.stringMatching(/^wrote relaid\.dst/), code: 0 });
    const report = JSON.parse(out) as RelayReport;
    const relaid = report.objects.find(({ object }) => object === 2)!;
    expect(relaid.before.underlay.kinds).toEqual(['zigzag']);
    expect(relaid.after.underlay.kinds).toEqual(['fill']);
    expect(report.proof).toContainEqual({ object: 2, proof: 'identical' });
    // The narrow one has nothing under it, and no room for it.
    expect(report.left).toMatchObject([{ object: 3, because: 'no-room' }]);
  });

  it('is used over threads as in one', async () => {
    const { run, at } = shop();
    mkdirSync(at('archive'));
    for (const name of ['two.dst', 'plain.dst', 'wide.dst']) copyFileSync(at(name), at(`archive/${name}`));
    await run('vet', 'two.dst', '--is', '1=underlay');
    const args = ['vet', 'archive', '--format', 'jsonl', '--ordered', '--fail-on', 'never', '--quiet'];
    const [one, two] = [await run(...args, '--workers', '1'), await run(...args, '--workers', '2')];
    expect(two).toEqual(one);
    expect(one.out).toContain('"is":["underlay"]');
  });

  it('vets again what it speaks of, and passes over all the rest', async () => {
    const { at, run } = shop();
    mkdirSync(at('archive'));
    for (const name of ['two.dst', 'plain.dst', 'wide.dst']) copyFileSync(at(name), at(`archive/${name}`));
    const vet = ['vet', 'archive', '--format', 'jsonl', '--fail-on', 'never', '--quiet'];
    await run(...vet, '--out', 'report.jsonl');
    expect((await run(...vet, '--since', 'report.jsonl')).out).toBe('');
    await run('vet', 'two.dst', '--is', '1=underlay');
    const again = await run(...vet, '--since', 'report.jsonl');
    const paths = again.out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line).file.path);
    expect(paths).toEqual([at('archive/two.dst')]);
    writeFileSync(at('again.jsonl'), again.out);
    expect((await run(...vet, '--since', 'again.jsonl', '--since', 'report.jsonl')).out).toBe('');
    await run('vet', 'two.dst', '--is', '1=found');
    expect((await run(...vet, '--since', 'again.jsonl', '--since', 'report.jsonl')).out).toBe('');
  });

  it.each([
    ['12', 'write the number of an object and what it is, as 12=underlay'],
    ['0=run', 'write the number of an object'],
    ['5-3=run', 'write the number of an object'],
    ['9=run', 'there is no object 9, the design has 3'],
    ['1=satn', 'did you mean satin?'],
    ['1=', 'say satin, fill, run, underlay, top,'],
    ['3=underlay', 'object 3 cannot be underlay: nothing that is sewn later lies over it'],
  ])('refuses %j in one line, and keeps nothing', async (is, words) => {
    const { at, run } = shop();
    const { code, out, err } = await run('vet', 'two.dst', '--is', '1=underlay', '--is', is);
    expect({ code, out }).toEqual({ code: 2, out: '' });
    expect(err).toContain(words);
    expect(err.trim().split('\n')).toHaveLength(1);
    expect(existsSync(at(KEPT))).toBe(false);
  });

  it.each([[['vet', 'two.dst', 'plain.dst']], [['vet', '-']], [['columns', 'two.dst', 'plain.dst']]])(
    'speaks of one design: %j',
    async (argv) => {
      const { run } = shop();
      const { code, err } = await run(...argv, '--is', '1=run');
      expect(code).toBe(2);
      expect(err).toContain('--is names objects of one design');
    },
  );

  it('never leaves the folder that files are written to', async () => {
    const { at, run } = shop();
    mkdirSync(at('out'));
    const { code, err } = await run('vet', 'two.dst', '--is', '1=underlay', '--out-dir', 'out');
    expect(code).toBe(2);
    expect(err).toContain(`--is keeps what it says in ${KEPT}`);
    expect(existsSync(at(KEPT))).toBe(false);
  });

  it('says where the file that it is kept in is wrong, and leaves that as it is', async () => {
    const { at, run } = shop();
    writeFileSync(at(KEPT), '{"designs": [}');
    for (const argv of [
      ['vet', 'two.dst'],
      ['vet', 'two.dst', '--is', '1=run'],
    ]) {
      const { code, err } = await run(...argv);
      expect(code).toBe(2);
      expect(err).toContain(`${KEPT}: line 1: this is not JSON`);
    }
    expect(readFileSync(at(KEPT), 'utf8')).toBe('{"designs": [}');
  });

  it('says of an object that is no longer there that it is not', async () => {
    const { at, run, vet } = shop();
    await run('vet', 'two.dst', '--is', '1=underlay');
    const kept = readFileSync(at(KEPT), 'utf8');
    writeFileSync(at(KEPT), kept.replace('[0, 25]', '[3, 9]'));
    const report = await vet();
    expect(report.objects).toHaveLength(3);
    expect(report.setObjects).toMatchObject([{ object: null, done: false }]);
    const { out } = await run('vet', 'two.dst', '--fail-on', 'never');
    expect(out.replace(/\s+/g, ' ')).toContain(
      'what was at stitches 3 to 9 was set by you to underlay and is not: no object has those stitches any more',
    );
  });
});
