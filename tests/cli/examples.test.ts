import { copyFileSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../cli/commands.js';
import { besidesFonts, lieflat, shopFolder } from './at-a-terminal.js';

const ROOT = new URL('../..', import.meta.url).pathname;
const IN_FULL = process.env.LIEFLAT_FULL === '1';
const README = readFileSync(`${ROOT}README.md`, 'utf8');

describe('the example in the help of a command', () => {
  it.each(Object.entries(COMMANDS))('%s does its work', async (name, { example }) => {
    const { out: help } = await lieflat([name, '--help']);
    expect(help.replace(/\s+/g, ' ')).toContain(example);
    const { folder, at } = shopFolder();
    const [, ...words] = example.split(' ');
    // Designs and folders of designs that it reads, under the names that it gives them.
    words.forEach((word, i) => {
      const isWritten = ['-o', '--out', '--map'].includes(words[i - 1]);
      if (isWritten || !/\.dst$|\/$/.test(word)) return;
      const path = at(word.endsWith('/') ? `${word}a.dst` : word);
      mkdirSync(dirname(path), { recursive: true });
      if (path !== at('crest.dst')) copyFileSync(at('plain.dst'), path);
    });
    // The log of a shop, as far as it tells of a design that is there; the README's example below reads all of it.
    for (const log of words.filter((word) => word === 'sew-outs.csv')) {
      const lines = readFileSync(`${ROOT}samples/${log}`, 'utf8').split('\n');
      writeFileSync(at(log), lines.filter((line) => /^(file|crest\.dst),/.test(line)).join('\n'));
    }
    const { code, out, err } = await lieflat(words, { cwd: folder });
    expect(code, err).toBeLessThan(2);
    expect(besidesFonts(err)).toMatch(/^(wrote .*\n)*$/);
    expect(out + err).not.toBe('');
  });
});

/** Command lines of the README over what it says that they print. */
const SHOWN = [...README.matchAll(/`npx (lieflat [^`]+)`.*\n\n```\n([^`]*)```/g)].map(
  ([, line, text]): [string, string] => [line, text],
);

describe('what the README says that a command prints', () => {
  it('is there to be looked at', () => {
    expect(SHOWN.map(([line]) => line.split(' ')[1])).toEqual(
      expect.arrayContaining(['vet', 'pucker', 'advise', 'columns']),
    );
  });

  // A whole log of a shop takes half a minute: the example in its help reads a part of it.
  it.each(SHOWN.filter(([line]) => IN_FULL || !line.startsWith('lieflat calibrate')))(
    '%s',
    async (line, shown) => {
      const [, ...words] = line.split(' ');
      // What it writes goes where it is no harm.
      const { out } = await lieflat([...words, '--out-dir', shopFolder().folder]);
      // A line `…` leaves something out.
      const [beginning, ...others] = shown.split(/^…\n/m);
      expect(out.slice(0, beginning.length)).toBe(beginning);
      let from = beginning.length;
      for (const part of others) {
        expect(out.slice(from)).toContain(part);
        from = out.indexOf(part, from) + part.length;
      }
      if (!shown.endsWith('…\n')) expect(out.slice(from)).toBe('');
    },
  );
});

/** Pictures of the README over the command lines that made them. */
const PICTURES = [...README.matchAll(/\]\((samples\/pictures\/[^)]+)\)\n\nMade by `lieflat ([^`]+)`/g)].map(
  ([, path, line]): [string, string] => [path, line],
);

describe('a picture of the README', () => {
  it('is there to be looked at', () => {
    expect(PICTURES.length).toBe([...README.matchAll(/!\[/g)].length);
    expect(PICTURES.length).toBeGreaterThan(2);
  });

  it.each(PICTURES)('%s is what its command draws', async (path, line) => {
    const { folder, at } = shopFolder();
    const words = line.split(' ');
    const { code, err } = await lieflat([...words, '--out-dir', folder]);
    expect(code, err).toBeLessThan(2);
    expect(readFileSync(at(words[words.length - 1]), 'utf8')).toBe(readFileSync(`${ROOT}${path}`, 'utf8'));
  });
});
