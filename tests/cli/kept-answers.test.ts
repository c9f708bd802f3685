/** What takes long is kept from run to run: the next run says the same, to the last byte, without working it out. */
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { setTimeout } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import type { Io } from '../../cli/io.js';
import { IN_FULL } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

const ON = ['--fabric', 'pique-knit'];

interface Line {
  line: string;
  /** The file that it writes. */
  made?: string;
}

/** Command lines over a design: of risks and of advice, the others in the long runs. */
const SOME: readonly Line[] = [
  { line: 'vet wide.dst --format json --fail-on never' },
  { line: 'pucker wide.dst --stack none --map map.svg --force', made: 'map.svg' },
];
const OTHERS: readonly Line[] = [
  { line: 'card wide.dst -o card.html --force', made: 'card.html' },
  { line: 'proof wide.dst --stack cutaway-2.5oz -o proof.svg --force', made: 'proof.svg' },
  { line: 'columns wide.dst --format json' },
  { line: 'pucker wide.dst --format json --objects' },
  { line: 'advise wide.dst --format json --all' },
  { line: 'relay wide.dst --stack cutaway-2.5oz -o relaid.dst --force', made: 'relaid.dst' },
  { line: 'resew wide.dst -o larger.dst --scale 5 --force', made: 'larger.dst' },
  { line: 'compare wide.dst plain.dst --format json' },
  { line: 'reply wide.dst -o reply.html --force', made: 'reply.html' },
];
const LINES = IN_FULL ? [...SOME, ...OTHERS] : SOME;

function shop() {
  const { at } = shopFolder();
  const folder = at('answers');
  const world: Partial<Io> = { cwd: at('.'), keeping: () => ({ folder, by: 'this test' }) };
  const kept = () => (existsSync(folder) ? readdirSync(folder).sort() : []);
  return { at, folder, world, kept };
}

describe('an answer that was kept', () => {
  it.each(LINES)('lieflat $line', async ({ line, made }) => {
    const { at, folder, world, kept } = shop();
    const run = async (...more: string[]) => {
      const ran = await lieflat([...line.split(' '), ...ON, ...more], world);
      return { ...ran, made: made && readFileSync(at(made), 'latin1') };
    };
    const anew = await run('--no-cache');
    expect(anew.code).toBeLessThan(2);
    expect(kept()).toEqual([]);
    expect(await run()).toEqual(anew);
    const files = kept();
    expect(files.length).toBeGreaterThan(0);
    // An answer that is read is written no second time; it is only known to have been asked for.
    const of = () => files.map((file) => statSync(`${folder}/${file}`));
    const before = of();
    await setTimeout(15);
    expect(await run()).toEqual(anew);
    expect(kept()).toEqual(files);
    expect(of().map(({ ino, mtimeMs }) => [ino, mtimeMs])).toEqual(
      before.map(({ ino, mtimeMs }) => [ino, mtimeMs]),
    );
    expect(of().some(({ ctimeMs }, k) => ctimeMs > before[k].ctimeMs)).toBe(true);
  });

  it('is that of the shop, the setup and the design: each of them asks anew', async () => {
    const { at, world, kept } = shop();
    const advise = (...args: string[]) => lieflat(['advise', ...args, '--format', 'json'], world);
    const count = async (...args: string[]) => {
      const before = kept().length;
      expect((await advise(...args)).code).toBe(0);
      return kept().length - before;
    };
    expect(await count('wide.dst', ...ON)).toBe(1);
    expect(await count('wide.dst', ...ON)).toBe(0);
    expect(await count('wide.dst', '--fabric', 'denim')).toBe(1);
    expect(await count('plain.dst', ...ON)).toBe(1);
    writeFileSync(at('lieflat.config.json'), '{ "accept": { "washes": 20 } }');
    expect(await count('wide.dst', ...ON)).toBe(1);
    // The same design under another name is the same design, and the report names the file that was asked about.
    writeFileSync(at('copy.dst'), readFileSync(at('wide.dst')));
    const before = kept().length;
    const { out } = await advise('copy.dst', ...ON);
    expect(JSON.parse(out).file.path).toMatch(/copy\.dst$/);
    expect(kept().length).toBe(before);
  });

  it('is used by an order of the same designs, whoever it is for', async () => {
    const { at, world, kept } = shop();
    mkdirSync(at('names'));
    for (const name of ['wide.dst', 'plain.dst']) writeFileSync(at(`names/${name}`), readFileSync(at(name)));
    const order = async (out: string, customer: string) => {
      writeFileSync(
        at('order.csv'),
        `file,garment,quantity,customer\nnames/wide.dst,polo,3,${customer}\nnames/plain.dst,polo,2,${customer}\n`,
      );
      return lieflat(['order', 'order.csv', '--out-dir', at(out), '--workers', '1'], world);
    };
    expect((await order('first', 'Mill')).code).toBeLessThan(2);
    const files = kept();
    expect(files.length).toBeGreaterThan(0);
    expect((await order('second', 'Dye House')).code).toBeLessThan(2);
    expect(kept()).toEqual(files);
    const card = (folder: string) => readFileSync(at(`${folder}/cards/wide.html`), 'utf8');
    expect(card('second')).toBe(card('first').replaceAll('Mill', 'Dye House'));
  });
});
