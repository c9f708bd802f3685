/** Which stacks the rules of the trade leave: common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { AdviceJob } from '../../lib/advice/job.js';
import { allowedStacks, anglesOf, everyStack } from '../../lib/advice/stack-space.js';
import { LieflatError } from '../../lib/core/errors.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { SHOP } from '../built-in-shop.js';
import { littleCrest } from '../report/little-design.js';
import { everyStack as rawStacks } from './raw-stacks.js';

const { designMeasures: design, measures: objects } = SHOP.vet(littleCrest(), {
  file: { path: 'little.dst', format: 'dst', bytes: 1, sha256: '0' },
});
const jobOn = (fabric: string): AdviceJob => ({
  fabric: CATALOGUE.fabrics[fabric],
  catalogue: CATALOGUE,
  design,
  objects,
  threadWeight: 40,
  called: { heavy: new Set(), bare: new Set() },
});
const sheetsOn = (fabric: string) =>
  new Set(
    allowedStacks(jobOn(fabric))
      .stacks.flat()
      .map((s) => s.sheet),
  );
const key = (stack: readonly { sheet: string; angleDeg: number }[]) =>
  stack
    .map(({ sheet, angleDeg }) => `${sheet}@${angleDeg}`)
    .sort()
    .join('+');

describe('all stacks there are', () => {
  it('are those of up to three sheets at any angle, each once, what is mechanically the same taken together', () => {
    const same = ({ sheet, angleDeg }: { sheet: string; angleDeg: number }) => {
      const angles = anglesOf(CATALOGUE.sheets[sheet]);
      return { sheet, angleDeg: angles.length === 1 ? 0 : angles.length === 2 ? angleDeg % 90 : angleDeg };
    };
    const expected = new Set(rawStacks(Object.keys(CATALOGUE.sheets)).map((stack) => key(stack.map(same))));
    const found = everyStack(CATALOGUE).map(key);
    expect(new Set(found)).toEqual(expected);
    expect(found.length).toBe(expected.size);
  });

  it('turn only what turning changes', () => {
    expect(anglesOf(CATALOGUE.sheets['woven-polyester'])).toEqual([0, 45]);
    expect(anglesOf(CATALOGUE.sheets['cutaway-2.5oz'])).toEqual([0]);
  });
});

describe('what the rules leave', () => {
  it.each(Object.keys(CATALOGUE.fabrics))('%s: something, never nothing behind the fabric', (fabric) => {
    const { stacks } = allowedStacks(jobOn(fabric));
    expect(stacks.length).toBeGreaterThan(0);
    for (const stack of stacks) expect(stack.length).toBeGreaterThan(0);
  });

  it.each([
    ['canvas-tote', ['tearaway-1.8oz-firm']],
    ['cap-structured', ['tearaway-1.8oz-firm', 'cap-backing']],
    ['cap-unstructured', ['cap-backing']],
    ['sheer-linen', ['tearaway-1.8oz-crisp']],
    ['terry-towel', ['soluble-film']],
    ['performance-knit-thin', ['woven-polyester', 'cutaway-2.5oz']],
    ['fleece', ['cutaway-mesh-1.5oz', 'cutaway-2.5oz', 'cutaway-3oz', 'cutaway-3.5oz', 'woven-polyester']],
  ])('%s takes %j and nothing else', (fabric, sheets) => {
    expect(sheetsOn(fabric)).toEqual(new Set(sheets));
  });

  it('a small logo on classic scrubs may have a tear-away, a large one may not', () => {
    expect(sheetsOn('woven-scrub').has('tearaway-1.8oz-firm')).toBe(true);
    const large = { ...jobOn('woven-scrub'), design: { ...design, widthMm: 180 } };
    expect(
      allowedStacks(large)
        .stacks.flat()
        .some((s) => s.sheet === 'tearaway-1.8oz-firm'),
    ).toBe(false);
  });

  it('a towel takes film under a light design; under one of many stitches a tear-away may hold it', () => {
    const heavy = { ...jobOn('terry-towel'), design: { ...design, stitches: 9115 } };
    expect(
      new Set(
        allowedStacks(heavy)
          .stacks.flat()
          .map(({ sheet }) => sheet),
      ),
    ).toEqual(new Set(['soluble-film', 'tearaway-1.8oz-firm', 'tearaway-1.8oz-crisp']));
  });

  it('what has no price is not offered, and nothing to offer is said with the key', () => {
    const { stacks } = allowedStacks(jobOn('fleece'), (id) => id === 'cutaway-3oz');
    expect(new Set(stacks.flat().map((s) => s.sheet))).toEqual(new Set(['cutaway-3oz']));
    expect(() => allowedStacks(jobOn('canvas-tote'), (id) => id === 'cutaway-3oz')).toThrow(LieflatError);
    expect(() => allowedStacks(jobOn('canvas-tote'), (id) => id === 'cutaway-3oz')).toThrow(/prices\.sheets/);
  });
});
