import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { prepare } from '../../lib/mechanics/risk.js';
import { SHOP } from '../built-in-shop.js';
import { IN_FULL } from '../in-full.js';
import { sampleDesign } from '../mechanics/sample-designs.js';
import { paperAt } from '../papers.js';
import { backingLines, backingRows, CHOICES } from './backing-table.js';

/** Two solves a fabric: the short run takes those that differ most. */
const FABRICS = IN_FULL ? Object.keys(CHOICES) : ['performance-knit', 'twill'];

describe('the table of fabrics and backings (common practice, no source)', async () => {
  const rows = backingRows(prepare(await sampleDesign('name-drop.dst'), SHOP.catalogue), FABRICS);

  it('has every fabric', () => {
    expect(Object.keys(CHOICES).sort()).toEqual(Object.keys(CATALOGUE.fabrics).sort());
  });

  it.each(rows)(
    'on $fabric the recommended kind of backing holds better than the other',
    ({ right, wrong }) => {
      // To half of the last figure printed: on twill and denim both come out flat.
      expect(right.wrinkleMm).toBeLessThanOrEqual(wrong.wrinkleMm + 0.005);
      expect(right.grade).toBeGreaterThanOrEqual(wrong.grade);
      // Where nothing wrinkles the pull-in still tells them apart.
      expect(right.pullInMm).toBeLessThan(wrong.pullInMm);
    },
  );

  it("stands in the materials' paper as it comes out", () => {
    const { text } = paperAt('lib/materials/README.md');
    for (const line of backingLines(rows)) expect(text).toContain(line);
    for (const fabric of Object.keys(CHOICES)) expect(text).toContain(`\n| \`${fabric}\` | `);
  });
});
