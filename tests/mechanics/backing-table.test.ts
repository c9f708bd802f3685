/** The choice of backing for each fabric (common practice, no source): the recommended kind beats the wrong kind. */

import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import type { StackedSheet } from '../../lib/mechanics/layup.js';
import { assess } from '../../lib/mechanics/risk.js';
import { SHOP } from '../built-in-shop.js';
import { IN_FULL, itInFull } from '../in-full.js';
import { COLUMN, disc, FILL, Sewing, word } from './designs.js';
import { roughly } from './roughly.js';
import {
  BONDED,
  CAP,
  FILM,
  NONE,
  SANDWICH,
  TEAR_CRISP,
  TEAR_FIRM,
  TWO_CAP,
  WOVEN,
  WOVEN_CROSSED,
} from './stacks.js';

/** Bold lettering, wide enough that even a stable fabric has something to show. */
const bold = roughly(word('RN', 24, { ...COLUMN, width: 5.5, underlay: ['double-zigzag'], zigzag: 2.6 }));
const smallLogo = roughly(disc(new Sewing(), 0, 0, 15, FILL).done());

/** The others wait for the long runs. */
const GIVING = IN_FULL
  ? ['pique-knit', 'performance-knit', 'performance-knit-thin', 'fleece']
  : ['performance-knit'];

const on = (fabric: string, stack: readonly StackedSheet[], design = bold) =>
  assess(design, { fabric, stack }, SHOP);
const price = (stack: readonly StackedSheet[]) =>
  stack.reduce((sum, { sheet }) => sum + CATALOGUE.sheets[sheet].price.value, 0);

describe('fabric that gives: cut-away beats tear-away of either kind', () => {
  it.each(GIVING)('%s', (fabric) => {
    expect(CATALOGUE.fabrics[fabric].stretchy).toBe(true);
    const cut = on(fabric, BONDED);
    const others = [TEAR_FIRM, TEAR_CRISP, NONE].map((stack) => on(fabric, stack));
    for (const { wrinkleMm } of others) expect(cut.wrinkleMm).toBeLessThanOrEqual(wrinkleMm);
    // Where nothing wrinkles the pull-in still tells none apart from some.
    expect(cut.pullInMm).toBeLessThan(others[2].pullInMm);
  });
});

describe('fabric without any give: tear-away lies as flat as cut-away and costs less', () => {
  it.each(['canvas-tote', 'cap-structured'])('%s', (fabric) => {
    expect(CATALOGUE.fabrics[fabric].rigid).toBe(true);
    const tear = on(fabric, TEAR_FIRM);
    expect(tear.grade).toBe(5);
    expect(on(fabric, BONDED).grade).toBe(5);
    expect(price(TEAR_FIRM)).toBeLessThan(price(BONDED));
    expect(tear.pullInMm).toBeLessThan(on(fabric, NONE).pullInMm);
  });
});

describe('stable, sheer and unstructured fabric', () => {
  itInFull('sheer linen: crisp tear-away is no worse than firm, and both beat none in pull-in', () => {
    const [crisp, firm, none] = [TEAR_CRISP, TEAR_FIRM, NONE].map((stack) => on('sheer-linen', stack));
    expect(crisp.wrinkleMm).toBeLessThanOrEqual(firm.wrinkleMm);
    expect(crisp.pullInMm).toBeLessThan(firm.pullInMm);
    expect(firm.pullInMm).toBeLessThan(none.pullInMm);
  });

  itInFull(
    'a cap without buckram: two pieces of cap backing beat one, and one beats ordinary tear-away',
    () => {
      const [two, one, tear] = [TWO_CAP, CAP, TEAR_FIRM].map((stack) => on('cap-unstructured', stack));
      expect(two.pullInMm).toBeLessThan(one.pullInMm);
      expect(one.pullInMm).toBeLessThan(tear.pullInMm);
      expect(two.wrinkleMm).toBeLessThanOrEqual(one.wrinkleMm);
    },
  );

  itInFull(
    'classic scrubs hold a small logo well even on tear-away; stretch scrubs follow the thin knits',
    () => {
      expect(on('woven-scrub', TEAR_FIRM, smallLogo).grade).toBe(5);
      expect(on('stretch-scrub', WOVEN).wrinkleMm).toBeLessThanOrEqual(on('stretch-scrub', BONDED).wrinkleMm);
    },
  );
});

describe('thin performance knit: woven beats bonded, crossed beats one, a bonded sheet between is no worse', () => {
  it('wrinkles fall in that order', () => {
    const heights = [SANDWICH, WOVEN_CROSSED, WOVEN, BONDED].map(
      (stack) => on('performance-knit-thin', stack).wrinkleMm,
    );
    expect(heights[0]).toBeLessThan(1.02 * heights[1]);
    expect(heights[1]).toBeLessThan(heights[2]);
    expect(heights[2]).toBeLessThan(heights[3]);
  });
});

describe('towels: water-soluble film can serve as backing', () => {
  itInFull('under bold lettering it beats nothing, and is good enough', () => {
    const film = on('terry-towel', FILM);
    expect(film.pullInMm).toBeLessThan(on('terry-towel', NONE).pullInMm);
    expect(film.grade).toBeGreaterThanOrEqual(4.5);
  });
});
