import { readFileSync, writeFileSync } from 'node:fs';
import { globSync } from 'tinyglobby';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../cli/commands.js';
import { holdWords } from '../forbidden-words.js';
import { onACoarseMesh } from '../mechanics/coarse-mesh.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

onACoarseMesh();

const ROOT = new URL('../..', import.meta.url).pathname;

/** On a fabric that costs little to work out. */
const ON = ['--fabric', 'canvas-tote'];

/** A line of each kind of report, page and picture, beside the help and the example of each command, which other tests run. */
const LINES: readonly (readonly string[])[] = [
  ['vet', 'plain.dst', ...ON, '--objects'],
  ['vet', 'plain.dst', ...ON, '--format', 'html', '-o', 'check.html'],
  ['vet', 'crest.dst', 'wide.dst', 'broken.dst', '--format', 'html', '-o', 'checks.html'],
  ['vet', '.', '--summary', 'summary.html'],
  ['vet', '.', '--shard', '1/1'],
  ['summary', 'part.jsonl'],
  ['vet', '.', '--details', '--place', 'cap-front', '--hoop', '3x3in'],
  ['columns', 'plain.dst', ...ON],
  ['compare', 'plain.dst', 'wide.dst', ...ON],
  ['compare', 'crest.dst', 'crest.dst'],
  ['pucker', 'plain.dst', ...ON, '--map', 'map.svg'],
  ['pucker', 'plain.dst', ...ON, '--stack', 'none', '--stack', 'tearaway-1.8oz-firm'],
  ['advise', 'plain.dst', ...ON, '--all'],
  ['advise', 'plain.dst', ...ON, '--format', 'html', '-o', 'plan.html'],
  ['relay', 'plain.dst', '-o', 'relaid.dst', '--objects', '1', ...ON],
  ['relay', 'plain.dst', '-o', 'drawn.dst', '--to', 'keep', '--compensate', ...ON],
  ['resew', 'plain.dst', '-o', 'again.dst', '--map', 'holes.svg'],
  ['card', 'plain.dst', ...ON, '-o', 'card.html', '--cost'],
  ['card', 'plain.dst', ...ON, '-o', 'hoja.html', '--language', 'es'],
  ['reply', 'wide.dst'],
  ['reply', 'plain.dst', ...ON, '-o', 'reply.html'],
  ['draw', 'plain.dst', '-o', 'width.svg', '--by', 'width'],
  ['draw', 'plain.dst', '-o', 'density.svg', '--by', 'density'],
  ['draw', 'plain.dst', '-o', 'risk.svg', '--by', 'risk', ...ON],
  ['proof', 'plain.dst', '-o', 'proof.html'],
  ['order', 'plain.dst', ...ON, '--out-dir', 'order'],
];

describe('everything that is said in inches', () => {
  // What a run says and writes is held against the list of forbidden words where it is run.
  it.each(LINES.map((words) => [words.join(' '), words] as const))('%s', async (_, words) => {
    const { folder, at } = shopFolder();
    writeFileSync(at('part.jsonl'), '{"stopped":{"done":1,"of":3}}\n');
    const { code, out, err } = await lieflat([...words, '--units', 'in'], { cwd: folder });
    expect(code, err).toBeLessThan(words.includes('.') || words.includes('broken.dst') ? 3 : 2);
    expect(out + err).not.toBe('');
  });

  it('is that of every command that takes units', () => {
    const withUnits = Object.keys(COMMANDS).filter((name) => 'units' in COMMANDS[name].options);
    expect(withUnits.filter((name) => !LINES.some(([command]) => command === name))).toEqual(['catalog']);
  });
});

describe('what is to be read', () => {
  const papers = globSync(['README.md', 'DEVELOPERS.md', 'lib/*/README.md', 'samples/*.md'], { cwd: ROOT });

  it('is there', () => expect(papers.length).toBeGreaterThan(12));

  it.each(papers)('%s has no word that nobody says', (paper) => {
    holdWords(readFileSync(ROOT + paper, 'utf8'), paper);
  });
});

describe('the check of words', () => {
  it('finds one in a file of the shop, wherever it is shown', async () => {
    const { folder, at } = shopFolder();
    const sheets = { 'cutaway-2.5oz': { name: 'for grey shirts' } };
    writeFileSync(at('shop.json'), JSON.stringify({ catalogue: { sheets } }));
    const listed = lieflat(['catalog', 'sheets', '--profile', 'shop.json'], { cwd: folder });
    await expect(listed).rejects.toThrow(/lieflat catalog sheets .*for grey shirts/);
  });

  it('shows the word and where it stands, and lets a person have it back who typed it', () => {
    expect(() => holdWords('Sew it in grey.', 'a page')).toThrow(/a page .*grey.*Sew it in grey/);
    expect(() => holdWords('No file grey.dst', 'an error', ['vet', 'grey.dst'])).not.toThrow();
  });
});
