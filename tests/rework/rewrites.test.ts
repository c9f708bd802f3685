import { describe, expect, it } from 'vitest';
import { FAMILIES } from '../generators/families/index.js';
import { PRODUCTION } from '../generators/production/index.js';
import { everyNth, someOf } from '../in-full.js';
import { asFile, Figures, measureRewrites } from './figures.js';

/** One of each way that rewriting went wrong once, and plain ones. `npx tsx tests/rework/measure-rewrites.ts` takes them all. */
const FEW = [
  'satin-wide',
  'satin-split',
  'letters-light-fill',
  'sequence-turns',
  'sequence-bars',
  'word-underlay-ahead',
  'satin-pointed',
  'applique-digits',
  'fill-radial',
  'motif-run',
];

describe('designs rewritten', () => {
  it('lose no top stitch, lie bare nowhere, and hide what they are said to hide', async () => {
    const all = new Figures();
    const looked = everyNth(3, FEW);
    for (const family of looked) {
      const { design, role } = { ...FAMILIES, ...PRODUCTION }[family](2);
      const file = asFile(design)!;
      const sewn = { name: family, design: file, isTop: (i: number) => role[i] === 'top' };
      all.add(await measureRewrites(sewn, () => {}));
    }
    expect(all.files).toBe(looked.length);
    expect(all.wide).toBeGreaterThan(someOf(10));
    expect(all.sound).toBeGreaterThan(someOf(20));
    expect(all.holes).toBeGreaterThan(someOf(1000));
    // shares of so few say little: a fill of rays and a motif are told of, and one column may be left
    expect(all.relaid).toBeGreaterThanOrEqual(0.9 * all.wide);
    expect(all.beyond().filter((what) => !/told of|wide columns/.test(what))).toEqual([]);
  });
});
