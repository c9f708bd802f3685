import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import type { JsonReports } from '../../lib/index.js';
import { type Drive, NODE_DRIVE, useDrive } from '../../lib/io/drive.js';
import { IN_FULL } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { lieflat, shopFolder } from './at-a-terminal.js';
import { writersShop } from './writing-lines.js';

onACoarseMesh(2);

const ORDER = [
  'file,garment,quantity,place,threads,garmentColor,order,customer,due',
  'a.dst,tote bag,3,,navy,white,A-1,"Harbor, Ltd",Dec 4',
  'wide.dst,tote bag,2,,,,A-2,,',
  'none.dst,tote bag,1,,,,A-3,,',
  'noise.dst,tote bag,1,,,,A-4,,',
  'a.dst,zeppelin,1,,,,A-5,,',
  'a.dst,twill,4,,"navy, white",,A-6,,',
].join('\n');

let shop: ReturnType<typeof shopFolder>;
beforeEach(() => {
  shop = shopFolder();
  writersShop(shop.folder);
  writeFileSync(shop.at('order.csv'), ORDER);
  writeFileSync(shop.at('noise.dst'), 'no stitches in here');
});

const run = (...more: string[]) =>
  lieflat(['order', 'order.csv', '--out-dir', 'done', ...more], { cwd: shop.folder });
const report = (): JsonReports['order'] =>
  JSON.parse(readFileSync(shop.at('done/order.json'), 'utf8')) as JsonReports['order'];

/** Every file below, by its name, as a hash of its bytes. */
function contents(folder: string): Record<string, string> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile());
  return Object.fromEntries(
    files
      .map(({ parentPath, name }) => join(parentPath, name))
      .sort()
      .map((path) => [
        path.slice(folder.length + 1),
        createHash('sha256').update(readFileSync(path)).digest('hex'),
      ]),
  );
}

/** A drive on which, from one operation on, nothing works any more: what a kill leaves. */
function dyingDrive(last: number): { drive: Drive; died: () => boolean } {
  let count = 0;
  const drive = new Proxy(NODE_DRIVE, {
    get:
      (real, name: keyof Drive) =>
      async (...args: never[]) => {
        if (++count > last)
          throw Object.assign(new Error('EIO: dead'), { code: 'EIO', syscall: name, errno: -1 });
        return (real[name] as (...args: never[]) => Promise<unknown>)(...args);
      },
  });
  return { drive, died: () => count > last };
}

describe('an order', () => {
  it('does the lines that can be done, names the others, and ends with 2', { timeout: 300_000 }, async () => {
    const { code, out, err } = await run();
    expect(code).toBe(2);
    const lines = err.trim().split('\n');
    expect(lines).toHaveLength(3);
    expect(err).toContain('order.csv: line 4: ');
    expect(err).toContain('order.csv: line 5: ');
    expect(err).toContain('order.csv: line 6: garment "zeppelin"');
    expect(out).toContain('3 not');
    expect(out.replace(/\s+/g, ' ')).toContain(
      'In done, from where the files above are named: order.html to look at, cards.html to print.',
    );
    const { lines: done, errors, setups, supplies, totals } = report();
    expect(done.map(({ line }) => line)).toEqual([2, 3, 7]);
    expect(errors.map(({ line }) => line)).toEqual([4, 5, 6]);
    // One setup for each fabric, whatever the design.
    expect(setups.map(({ fabric, lines: own }) => [fabric, own])).toEqual([
      ['canvas-tote', [2, 3]],
      ['twill', [7]],
    ]);
    expect(totals.pieces).toBe(9);
    // The shelf list is the sum of the lines.
    const sheetsOf = (line: number) => setups.find((setup) => setup.lines.includes(line))!.stack.length;
    expect(supplies.sheets.reduce((sum, { pieces }) => sum + pieces, 0)).toBe(
      done.reduce((sum, { line, quantity }) => sum + quantity * sheetsOf(line), 0),
    );
    expect(supplies.threads.map(({ color }) => color)).toEqual(['navy', null]);
    const price = done.reduce((sum, { quantity, priceEach }) => sum + quantity * priceEach, 0);
    expect(totals.price).toBeCloseTo(price + totals.setupFee + totals.digitizing, 9);
    // What is charged once is price, not cost; and all is in whole cents.
    const cost = done.reduce((sum, { quantity, costEach }) => sum + quantity * costEach, 0);
    expect(totals.cost).toBeCloseTo(cost, 9);
    for (const { costEach } of done) expect(costEach).toBe(Number(costEach.toFixed(2)));
    for (const name of ['order.html', 'cards.html', 'supplies.csv'])
      expect(existsSync(shop.at(`done/${name}`))).toBe(true);
    for (const { card, proof, sewn } of done)
      for (const name of [card, proof, sewn]) expect(existsSync(shop.at(`done/${name}`)), name).toBe(true);
  });

  it('tells all that is wrong with a line at once, also that its file is not there', async () => {
    writeFileSync(shop.at('order.csv'), 'file,garment,quantity\nnone.dst,jacket,some\na.dst,zeppelin,1\n');
    const { code, err } = await run();
    expect(code).toBe(2);
    const [gone, there] = err.trim().split('\n');
    expect(gone).toMatch(
      /^lieflat: order\.csv: line 2: none\.dst: there is no such file \(.*\); garment "jacket": that may be several garments \(write which \(.*denim jacket.*\); the quantity cannot be "some"; give a whole number/,
    );
    expect(there).toMatch(/^lieflat: order\.csv: line 3: garment "zeppelin": /);
  });

  it('judges a line as the file check judges the file that is sewn', { timeout: 300_000 }, async () => {
    writeFileSync(shop.at('order.csv'), 'file,garment\na.dst,tote bag\nwide.dst,tote bag\n');
    const { out } = await run();
    const { lines } = report();
    for (const { sewn, warnings, failures, meets, verdict } of lines) {
      const path = sewn.startsWith('../') ? sewn.slice('../'.length) : `done/${sewn}`;
      const argv = ['vet', path, '--fabric', 'tote bag', '--format', 'json'];
      const vetted = await lieflat([...argv, '--fail-on', 'never'], { cwd: shop.folder });
      const { findings } = JSON.parse(vetted.out) as JsonReports['vet'];
      const found = (level: string) =>
        [...new Set(findings.flatMap(({ severity, code }) => (severity === level ? [code] : [])))].sort();
      expect(warnings.toSorted(), sewn).toEqual(found('warn'));
      expect(failures.toSorted(), sewn).toEqual(found('fail'));
      if (meets === 'yes') expect(verdict).toBe(failures[0] ? 'fail' : warnings[0] ? 'warn' : 'sound');
    }
    expect(lines.map(({ verdict }) => verdict)).toContain('warn');
    expect(out).toMatch(/look at the files? first: .*satin too wide/);
  });

  it('makes nothing of a table that is not there', async () => {
    const { code, out, err } = await lieflat(['order', 'nowhere.csv', '--out-dir', 'done'], {
      cwd: shop.folder,
    });
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/^lieflat: .*nowhere\.csv: there is no such file or folder; check the path\n$/);
    expect(existsSync(shop.at('done'))).toBe(false);
  });

  it('relays where that pays, and makes the card of the file that will be sewn', {
    timeout: 300_000,
  }, async () => {
    writeFileSync(shop.at('order.csv'), 'file,garment,backing\nwide.dst,running shirt,cutaway-2.5oz\n');
    await run();
    const [line] = report().lines;
    expect(line.relaid).toBe('relaid/wide.dst');
    expect(line.sewn).toBe(line.relaid);
    expect(line.objectsRelaid).toBe(1);
    const { out } = await lieflat(['vet', 'done/relaid/wide.dst', '--format', 'json', '--fail-on', 'never'], {
      cwd: shop.folder,
    });
    expect(JSON.parse(out).objects[0].underlay.kinds).toContain('fill');
    expect(readFileSync(shop.at(`done/${line.card}`), 'utf8')).not.toContain('CHANGED FILE NEEDED');
  });

  it('is the same bytes when it is run again, stopped half-way or not', { timeout: 300_000 }, async () => {
    writeFileSync(
      shop.at('order.csv'),
      'file,garment\na.dst,tote bag\nwide.dst,tote bag\nnone.dst,tote bag\n',
    );
    await run();
    const whole = contents(shop.at('done'));
    expect((await run()).code).toBe(2);
    expect(contents(shop.at('done'))).toEqual(whole);
    for (const last of IN_FULL ? [70, 130, 185] : [130]) {
      rmSync(shop.at('done'), { recursive: true });
      const { drive, died } = dyingDrive(last);
      const back = useDrive(drive);
      try {
        expect((await run()).code).toBe(2);
      } finally {
        back();
      }
      expect(died(), `${last} operations`).toBe(true);
      // Without --force: what was written until then is known for ours.
      const again = await run();
      expect(again.err, `after ${last}`).not.toContain('already');
      expect(contents(shop.at('done')), `after ${last}`).toEqual(whole);
    }
  });

  it('replaces what it wrote itself, and nothing else', { timeout: 300_000 }, async () => {
    writeFileSync(shop.at('order.csv'), 'file,garment\na.dst,tote bag\n');
    expect((await run()).code).toBe(0);
    const cards = readFileSync(shop.at('done/cards.html'), 'utf8');
    writeFileSync(shop.at('done/cards.html'), `${cards}<!-- mine -->`);
    const { code, err } = await run();
    expect(code).toBe(2);
    expect(err).toMatch(/cards\.html: there is a file of that name already, .*--force\n$/);
    expect(readFileSync(shop.at('done/cards.html'), 'utf8')).toContain('mine');
    expect((await run('--force')).code).toBe(0);
    expect(readFileSync(shop.at('done/cards.html'), 'utf8')).toBe(cards);
  });

  it('takes files or a folder without a table', { timeout: 300_000 }, async () => {
    const words = [
      'order',
      'orders',
      '--fabric',
      'tote bag',
      '--quantity',
      '5',
      '--out-dir',
      'out',
      '--format',
      'json',
    ];
    const { out } = await lieflat(words, { cwd: shop.folder });
    const { lines, totals } = JSON.parse(out) as JsonReports['order'];
    expect(lines.map(({ file, quantity }) => [basename(file), quantity])).toEqual([
      ['a1.dst', 5],
      ['a2.dst', 5],
      ['table.csv', 5],
    ]);
    expect(totals.pieces).toBe(15);
  });

  it('takes graded cards back into a log that calibrate reads', { timeout: 300_000 }, async () => {
    await run();
    writeFileSync(shop.at('grades.csv'), 'order,grade,washes\nA-1,4.5,\nA-6,3,8\nA-9,4,\n');
    const back = () =>
      lieflat(['order', '--grades', 'grades.csv', '--out-dir', 'done'], { cwd: shop.folder });
    const { code, out, err } = await back();
    expect(code).toBe(2);
    expect(out).toContain('2 graded cards added to sew-outs.csv');
    expect(err).toContain('grades.csv: line 4: order A-9 is not in this order');
    expect((await back()).out).toContain('0 graded cards');
    const log = readFileSync(shop.at('done/sew-outs.csv'), 'utf8').trim().split('\r\n');
    expect(log).toHaveLength(3);
    expect(log[1]).toMatch(/^\.\.\/a\.dst,canvas-tote,.*,,0,4\.5,order A-1$/);
  });
});

describe('a line that cannot be understood', () => {
  it.each([
    [['order', 'order.csv'], 'order needs a folder to write into'],
    [['order', '--out-dir', 'done'], 'order needs an order'],
    [['order', 'a.dst', '--out-dir', 'done', '--quantity', '0'], '--quantity cannot be 0'],
    [['order', 'order.csv', '--grades', 'g.csv', '--out-dir', 'done'], '--grades goes with the folder'],
    [['order', '--grades', 'order.csv', '--out-dir', '.'], 'order.json: there is no such file'],
  ])('%j', async (words, said) => {
    const { code, err } = await lieflat(words, { cwd: shop.folder });
    expect(code).toBe(2);
    expect(err).toContain(said);
    expect(existsSync(shop.at('done'))).toBe(false);
  });
});
