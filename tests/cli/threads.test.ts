import { readFileSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { colorsNamed, needlesOf } from '../../lib/report/proof/thread-colors.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

/** Colors of all that is drawn. */
const strokes = (svg: string): string[] =>
  [...svg.matchAll(/stroke="(#[0-9a-f]{6})"/g)].map(([, color]) => color);

describe('thread colors', () => {
  it('go on the lowest needle that is free, a color that comes again on its own', () => {
    expect(needlesOf(colorsNamed('navy, white, Navy, red'))).toEqual([1, 2, 1, 3]);
    expect(needlesOf(colorsNamed('navy, 1: white, navy, 7:red, red'))).toEqual([2, 1, 2, 7, 7]);
    expect(needlesOf([])).toEqual([]);
  });

  it("may have the shop's own names", async () => {
    const { folder, at } = shopFolder();
    writeFileSync(at('lieflat.config.json'), '{ "threadColors": { "Club Blue": "#123456" } }');
    const proof = (threads: string) =>
      lieflat(['proof', 'plain.dst', '--threads', threads, '-o', 'p.svg', '--force'], { cwd: folder });
    expect((await proof('club blue')).code).toBe(0);
    const own = strokes(readFileSync(at('p.svg'), 'utf8'));
    expect((await proof('123456')).code).toBe(0);
    expect(strokes(readFileSync(at('p.svg'), 'utf8'))).toEqual(own);
    const { code, err } = await proof('club bleu');
    expect(code).toBe(2);
    expect(err).toMatch(/^lieflat: color "club bleu": there is no color of that name; .*\n$/);
  });

  it('are kept for a design by the content of its file, whatever it is called, comments and all', async () => {
    const { folder, at } = shopFolder();
    writeFileSync(at('lieflat.config.json'), '{\n  // ours\n  "paper": "a4"\n}\n');
    const proof = (file: string, ...options: string[]) =>
      lieflat(['proof', file, '-o', 'p.svg', '--force', ...options], { cwd: folder });
    const kept = await proof('plain.dst', '--threads', 'gold', '--keep-threads');
    expect(kept.err).toMatch(/^kept in lieflat\.config\.json for plain\.dst: threads gold\n/);
    const text = readFileSync(at('lieflat.config.json'), 'utf8');
    expect(text).toContain('// ours');
    expect(text).toMatch(/"designs": \{\s*"[0-9a-f]{64}": \{\s*"file": "plain\.dst",\s*"threads": "gold"/);
    writeFileSync(at('again.dst'), readFileSync(at('plain.dst')));
    const again = await proof('again.dst');
    expect(again.err).toMatch(/^wrote p\.svg/);
    const asKept = strokes(readFileSync(at('p.svg'), 'utf8'));
    await proof('again.dst', '--threads', 'gold');
    expect(strokes(readFileSync(at('p.svg'), 'utf8'))).toEqual(asKept);
    // Another design has none.
    expect((await proof('wide.dst')).err).toContain('a stitch file holds none');
  });

  it('are kept in a new profile where there is none, and nowhere where that may not be', async () => {
    const { folder, at } = shopFolder();
    const proof = (...options: string[]) =>
      lieflat(['proof', 'plain.dst', '-o', 'p.svg', '--force', ...options], { cwd: folder });
    expect((await proof('--keep-threads')).err).toContain(
      '--keep-threads has nothing to keep; add --threads',
    );
    const elsewhere = await proof('--keep-threads', '--threads', 'red', '--out-dir', '.');
    expect([elsewhere.code, elsewhere.err]).toEqual([2, expect.stringContaining('--out-dir')]);
    expect((await proof('--keep-threads', '--threads', 'red')).code).toBe(0);
    expect(JSON.parse(readFileSync(at('lieflat.config.json'), 'utf8')).designs).toBeDefined();
  });

  it.each([
    ['{ "threadColors": { "ours": "bleu" } }', 'threadColors.ours is wrong: color "bleu": there is no color'],
    [`{ "designs": { "${'0'.repeat(64)}": { "threads": "bleu" } } }`, 'threads is wrong: color "bleu"'],
    ['{ "designs": { "crest.dst": { "threads": "red" } } }', 'a design is named by the 64 digits'],
    ['{ "paper": "legal" }', 'paper is wrong: it must be one of a4, letter'],
  ])('are refused in a profile where they are none: %s', async (profile, what) => {
    const { folder, at } = shopFolder();
    writeFileSync(at('lieflat.config.json'), profile);
    const { code, err } = await lieflat(['profile'], { cwd: folder });
    expect(code).toBe(2);
    expect(err).toContain(what);
    expect(err).toContain('line 1');
  });
});
