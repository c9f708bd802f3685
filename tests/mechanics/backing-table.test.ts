/** The choice of backing for each fabric (common practice, no source): the recommended kind beats the wrong kind. */
import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import type { StackedSheet } from '../../lib/mechanics/goods.js';
import { assess, prepare } from '../../lib/mechanics/risk.js';
import { COLUMN, disc, FILL, Sewing, word } from './designs.js';
import {
  BONDED,
  CAP,
  FILM,
  NONE,
  SANDWICH,
  TEAR_CRISP,
  TEAR_FIRM,
  TWO_BONDED,
  TWO_CAP,
  WOVEN,
  WOVEN_CROSSED,
} from './stacks.js';

/** Bold lettering, wide enough that even stable goods have something to show. */
const bold = prepare(word('RONA', 24, { ...COLUMN, width: 5.5, underlay: ['double-zigzag'], zigzag: 2.6 }));
const extreme = prepare(word('NO', 60, { ...COLUMN, width: 11, underlay: ['double-zigzag'], zigzag: 2.6 }));
const smallLogo = prepare(disc(new Sewing(), 0, 0, 15, FILL).done());

const on = (fabric: string, stack: readonly StackedSheet[], design = bold) =>
  assess(design, { fabric, stack });
const price = (stack: readonly StackedSheet[]) =>
  stack.reduce((sum, { sheet }) => sum + CATALOGUE.sheets[sheet].price.value, 0);

describe('goods that give: cut-away beats tear-away of either kind', () => {
  it.each([
    'pique-knit',
    'jersey-knit',
    'performance-knit',
    'performance-knit-thin',
    'stretch-scrub',
    'fleece',
    'fine-sweater',
  ])('%s', (fabric) => {
    expect(CATALOGUE.fabrics[fabric].stretchy).toBe(true);
    const cut = on(fabric, BONDED).wrinkleMm;
    expect(cut).toBeLessThan(on(fabric, TEAR_FIRM).wrinkleMm);
    expect(cut).toBeLessThan(on(fabric, TEAR_CRISP).wrinkleMm);
    expect(cut).toBeLessThan(on(fabric, NONE).wrinkleMm / 2);
  });

  it.each(['poplin', 'sheer-linen', 'woven-scrub', 'twill', 'denim', 'cap-unstructured'])(
    'cut-away of 2.5 oz is no mistake on %s either',
    (fabric) => {
      expect(on(fabric, BONDED).wrinkleMm).toBeLessThanOrEqual(on(fabric, TEAR_FIRM).wrinkleMm);
    },
  );
});

describe('goods without any give: tear-away lies as flat as cut-away and costs less', () => {
  it.each(['canvas-tote', 'cap-structured'])('%s', (fabric) => {
    expect(CATALOGUE.fabrics[fabric].rigid).toBe(true);
    const tear = on(fabric, TEAR_FIRM);
    expect(tear.grade).toBe(5);
    expect(on(fabric, BONDED).grade).toBe(5);
    expect(price(TEAR_FIRM)).toBeLessThan(price(BONDED));
    expect(tear.pullInMm).toBeLessThan(on(fabric, NONE).pullInMm);
  });
});

describe('laundered goods: two cut-away sheets beat one', () => {
  it.each(['pique-knit', 'jersey-knit', 'performance-knit'])('%s', (fabric) => {
    const laundered = (stack: readonly StackedSheet[]) =>
      assess(bold, { fabric, stack, washes: 5 }).wrinkleMm;
    expect(laundered(TWO_BONDED)).toBeLessThan(0.8 * laundered(BONDED));
    expect(price(TWO_BONDED) - price(BONDED)).toBeCloseTo(0.1, 6);
  });
});

describe('stable, sheer and unstructured goods', () => {
  it('sheer linen: crisp tear-away beats firm, and both beat none', () => {
    const crisp = on('sheer-linen', TEAR_CRISP).wrinkleMm;
    expect(crisp).toBeLessThan(on('sheer-linen', TEAR_FIRM).wrinkleMm);
    expect(on('sheer-linen', TEAR_FIRM).wrinkleMm).toBeLessThan(on('sheer-linen', NONE).wrinkleMm / 2);
  });

  it('denim: even very bold lettering lies flatter on firm tear-away than on nothing', () => {
    expect(on('denim', TEAR_FIRM, extreme).wrinkleMm).toBeLessThan(on('denim', NONE, extreme).wrinkleMm);
  });

  it('a cap without buckram: two pieces of cap backing beat one, and one beats ordinary tear-away', () => {
    const two = on('cap-unstructured', TWO_CAP, extreme).wrinkleMm;
    const one = on('cap-unstructured', CAP, extreme).wrinkleMm;
    expect(two).toBeLessThan(one);
    expect(one).toBeLessThan(on('cap-unstructured', TEAR_FIRM, extreme).wrinkleMm);
  });

  it('classic scrubs hold a small logo well even on tear-away; stretch scrubs follow the thin knits', () => {
    expect(on('woven-scrub', TEAR_FIRM, smallLogo).grade).toBe(5);
    expect(on('stretch-scrub', WOVEN).wrinkleMm).toBeLessThan(0.8 * on('stretch-scrub', BONDED).wrinkleMm);
  });
});

describe('thin performance knit: woven beats bonded, crossed beats one, a bonded sheet between beats both', () => {
  it('wrinkles fall in that order', () => {
    const heights = [SANDWICH, WOVEN_CROSSED, WOVEN, BONDED, TEAR_FIRM].map(
      (stack) => on('performance-knit-thin', stack).wrinkleMm,
    );
    for (let k = 1; k < heights.length; k++) expect(heights[k]).toBeGreaterThan(heights[k - 1]);
  });
});

describe('towels: water-soluble film can serve as backing', () => {
  it('under a bold monogram it beats nothing, and is good enough', () => {
    const film = on('terry-towel', FILM, extreme);
    expect(film.wrinkleMm).toBeLessThan(on('terry-towel', NONE, extreme).wrinkleMm);
    expect(on('terry-towel', FILM).grade).toBeGreaterThanOrEqual(4.5);
  });
});
