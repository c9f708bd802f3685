import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { assess, prepare } from '../../lib/mechanics/risk.js';
import { parseStack } from '../../lib/mechanics/stack-notation.js';
import { sampleDesign } from '../mechanics/sample-designs.js';
import { backingTable, CHOICES } from './backing-table.js';

describe('the table of fabrics and backings (common practice, no source)', async () => {
  const name = prepare(await sampleDesign('name-drop.dst'));

  it('has every fabric, and on each the recommended kind of backing holds better than the wrong one', () => {
    expect(Object.keys(CHOICES).sort()).toEqual(Object.keys(CATALOGUE.fabrics).sort());
    for (const [fabric, stacks] of Object.entries(CHOICES)) {
      const [right, wrong] = stacks.map((stack) =>
        assess(name, { fabric, stack: parseStack(stack, CATALOGUE) }),
      );
      // To half of the last figure printed: on twill and denim both come out flat.
      expect(right.wrinkleMm, fabric).toBeLessThanOrEqual(wrong.wrinkleMm + 0.005);
      expect(right.grade, fabric).toBeGreaterThanOrEqual(wrong.grade);
      // Where nothing wrinkles the pull-in still tells them apart.
      expect(right.pullInMm, fabric).toBeLessThan(wrong.pullInMm);
    }
  });

  it('is Markdown with a row a fabric', () => {
    const lines = backingTable(name).split('\n');
    expect(lines).toHaveLength(2 + Object.keys(CHOICES).length);
    expect(new Set(lines.map((line) => line.split('|').length))).toEqual(new Set([7]));
  });
});
