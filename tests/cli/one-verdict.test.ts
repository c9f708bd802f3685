import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { JsonReports } from '../../lib/json-reports.js';
import { everyNth } from '../in-full.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

const WORDS = { sound: 'GOOD TO SEW', warn: 'CHECK FIRST', fail: 'DO NOT SEW' } as const;

// A crest with needle points piled, on a knit and on a garment without stretch; a name that is sound on a towel.
const ALL = [
  ['crest.dst', 'tote bag'],
  ['crest.dst', 'performance knit'],
  ['name-drop.dst', 'tote bag'],
  ['incoming.dst', 'tote bag'],
] as const;
describe.each(everyNth(2, ALL))('the verdict on %s and a %s', (file, garment) => {
  it('is one word, whoever says it', { timeout: 300_000 }, async () => {
    const shop = shopFolder();
    const { folder: cwd, at } = shop;
    copyFileSync(new URL(`../../samples/${file}`, import.meta.url), at(file));
    const on = [file, '--fabric', garment];
    const said = async (...argv: string[]) => (await lieflat(argv, { cwd })).out;
    const advised = JSON.parse(await said('advise', ...on, '--format', 'json')) as JsonReports['advise'];
    const word = WORDS[advised.verdict];
    const texts = [await said('advise', ...on), await said('vet', ...on, '--fail-on', 'never')];
    for (const text of texts) {
      expect(text).toMatch(new RegExp(`^${word} `));
      // Whatever grade stands below it, the reason is with the word.
      const [first] = text.split(/\n(?: {2}(?:garment|backing|size) |\n)/);
      expect(/: \S/.test(first)).toBe(advised.verdict !== 'sound');
    }
    await said('card', ...on, '-o', 'card.html');
    const [alert] = /<p class="alert">[^:]*:/.exec(readFileSync(at('card.html'), 'utf8')) ?? [''];
    expect(alert.replace(/<[^>]*>/, '')).toMatch(advised.verdict === 'sound' ? /^$/ : new RegExp(`^${word}`));
    writeFileSync(at('order.csv'), `file,garment\n${file},${garment}\n`);
    await said('order', 'order.csv', '--out-dir', 'done');
    const order = JSON.parse(
      await said('order', 'order.csv', '--out-dir', 'done', '--format', 'json'),
    ) as JsonReports['order'];
    // A line that is relaid is judged as the file that is sewn.
    if (order.lines[0].relaid === null) expect(order.lines[0].verdict).toBe(advised.verdict);
  });
});
