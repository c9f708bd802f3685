import { copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../cli/commands.js';
import { IN_FULL } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { codeIn, PAPERS, PICTURES, paperAt, picturesIn, ROOT, SHOWN, type Shown } from '../papers.js';
import { besidesFonts, lieflat, shopFolder } from './at-a-terminal.js';

/** As a shell parts a line: what stands in quotes is one word. */
const wordsIn = (line: string): string[] =>
  [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare);

describe('the example in the help of a command', () => {
  onACoarseMesh();
  // These take longer than all others; tests of their own run them.
  const runs = Object.entries(COMMANDS).filter(
    ([name]) => IN_FULL || !['calibrate', 'reply', 'relay'].includes(name),
  );
  it.each(Object.entries(COMMANDS))('stands in the help of %s', async (name, { example }) => {
    const { out: help } = await lieflat([name, '--help']);
    expect(help.replace(/\s+/g, ' ')).toContain(example);
  });

  it.each(runs)('%s does its work', async (_, { example }) => {
    const { folder, at } = shopFolder();
    const [, ...words] = wordsIn(example);
    // Designs and folders of designs that it reads, under the names that it gives them.
    words.forEach((word, i) => {
      const isWritten = ['-o', '--out', '--map'].includes(words[i - 1]);
      if (isWritten || !/\.dst$|\/$/.test(word)) return;
      const path = at(word.endsWith('/') ? `${word}a.dst` : word);
      mkdirSync(dirname(path), { recursive: true });
      if (path !== at('crest.dst')) copyFileSync(at('plain.dst'), path);
    });
    // The log of a shop, as far as it tells of a design that is there; the example below reads all of it.
    for (const log of words.filter((word) => word === 'sew-outs.csv')) {
      const lines = readFileSync(`${ROOT}samples/${log}`, 'utf8').split('\n');
      writeFileSync(at(log), lines.filter((line) => /^(file|crest\.dst),/.test(line)).join('\n'));
    }
    for (const part of words.filter((word) => word.endsWith('.jsonl')))
      writeFileSync(at(part), '{"stopped":{"done":0,"of":3}}\n');
    if (words.includes('order.csv')) writeFileSync(at('order.csv'), 'file,garment\nplain.dst,tote\n');
    const { code, out, err } = await lieflat(words, { cwd: folder });
    expect(code, err).toBeLessThan(2);
    expect(besidesFonts(err)).toMatch(/^(wrote .*\n)*$/);
    expect(out + err).not.toBe('');
  });
});

/** Where a line is typed: in this folder, and for the command that looks at profiles in one with that which the paper shows above it. */
function worldFor({ path, line }: Shown) {
  if (line !== 'lieflat profile') return { cwd: process.cwd() };
  const { folder, at } = shopFolder();
  const [profile] = codeIn(paperAt(path), 'json');
  writeFileSync(at('lieflat.config.json'), profile);
  return { cwd: folder, columns: 200 };
}

/** A whole log of a shop, of which the example in the help reads a part; and a name relaid beside the advice for it. */
const TAKE_LONG = ['lieflat calibrate', '-o name-relaid.dst --fabric', 'lieflat pucker'];

/** What a line prints: each is run once, however many papers show it. */
const printed = new Map<string, Promise<string>>();
function printedBy(shown: Shown): Promise<string> {
  const { line } = shown;
  const [, ...words] = line.split(' ');
  // What it writes goes where it is no harm.
  const run = async () => {
    const world = worldFor(shown);
    const { out } = await lieflat([...words, '--out-dir', shopFolder().folder], world);
    return out.replaceAll(`${world.cwd}/`, '');
  };
  const out = printed.get(line) ?? run();
  printed.set(line, out);
  return out;
}

describe('what a paper says that a command prints', () => {
  it('is there to be looked at', () => {
    expect(new Set(SHOWN.map(({ line }) => line.split(' ')[1]))).toEqual(
      new Set(['vet', 'columns', 'pucker', 'advise', 'relay', 'resew', 'calibrate', 'profile']),
    );
  });

  it.each(SHOWN.filter(({ line }) => IN_FULL || !TAKE_LONG.some((longer) => line.includes(longer))))(
    '$path: $line',
    async ({ text, ...shown }) => {
      const out = await printedBy({ text, ...shown });
      // A line `…` leaves something out.
      const [beginning, ...others] = text.split(/^…\n/m);
      expect(out.slice(0, beginning.length)).toBe(beginning);
      let from = beginning.length;
      for (const part of others) {
        expect(out.slice(from)).toContain(part);
        from = out.indexOf(part, from) + part.length;
      }
      if (!text.endsWith('…\n')) expect(out.slice(from)).toBe('');
    },
  );
});

describe('a picture in a paper', () => {
  it('is there to be looked at, and each that there is is shown', () => {
    const shown = PAPERS.flatMap(picturesIn);
    expect(shown.sort()).toEqual(
      readdirSync(`${ROOT}samples/pictures`)
        .map((name) => `samples/pictures/${name}`)
        .sort(),
    );
    // Those of the stations that find and lay stitches are made by tests beside them.
    const made = new Set(PICTURES.map(({ picture }) => picture));
    expect(shown.filter((path) => !made.has(path) && !/\/(finder|stitch)-/.test(path))).toEqual([]);
  });

  // A map of wrinkles takes longer than all others.
  it.each(PICTURES.filter(({ line }) => IN_FULL || !line.includes('pucker')))(
    '$picture is what its command draws',
    async ({ picture, line }) => {
      const { folder, at } = shopFolder();
      const words = line.split(' ');
      const { code, err } = await lieflat([...words, '--out-dir', folder]);
      expect(code, err).toBeLessThan(2);
      expect(readFileSync(at(words[words.length - 1]), 'utf8')).toBe(
        readFileSync(`${ROOT}${picture}`, 'utf8'),
      );
    },
  );
});
