import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import type { Sourced } from '../../lib/core/sourced.js';
import { CATALOGUE, CATALOGUE_SHELVES, find } from '../../lib/materials/catalogue.js';
import { fabricNamed } from '../../lib/materials/fabric-named.js';
import { layupOf } from '../../lib/mechanics/layup.js';
import { figuresWith } from '../../lib/profile.js';
import { catalogueWith } from './own-values.js';

const FABRICS =
  'pique-knit jersey-knit jersey-tee performance-knit performance-knit-thin stretch-scrub woven-scrub poplin twill denim canvas-tote fleece terry-towel sheer-linen fine-sweater cap-structured cap-unstructured leggings-knit beanie-knit softshell nylon-jacket leather silk';
const SHEETS =
  'cutaway-mesh-1.5oz cutaway-2.5oz cutaway-3oz cutaway-3.5oz tearaway-1.8oz-firm tearaway-1.8oz-crisp cap-backing woven-polyester soluble-film';

function quantities(material: object): [string, Sourced][] {
  return Object.entries(material).filter(
    (e): e is [string, Sourced] => typeof e[1] === 'object' && e[1] !== null,
  );
}

function failure(f: () => unknown): LieflatError {
  try {
    f();
  } catch (error) {
    if (error instanceof LieflatError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}

describe('catalogue', () => {
  it('holds every id that scripts may rely on', () => {
    expect(Object.keys(CATALOGUE.fabrics)).toEqual(expect.arrayContaining(FABRICS.split(' ')));
    expect(Object.keys(CATALOGUE.sheets)).toEqual(SHEETS.split(' '));
    expect(Object.keys(CATALOGUE.toppings)).toEqual(['soluble-film', 'heat-film']);
    expect(Object.keys(CATALOGUE.threads)).toEqual(['polyester-40', 'polyester-60', 'rayon-40', 'rayon-60']);
  });

  it('gives every value a range about it and a basis', () => {
    for (const shelf of CATALOGUE_SHELVES)
      for (const [id, material] of Object.entries(CATALOGUE[shelf])) {
        expect(material.id).toBe(id);
        for (const [key, q] of quantities(material)) {
          expect(q.low, `${id} ${key}`).toBeLessThanOrEqual(q.value);
          expect(q.high, `${id} ${key}`).toBeGreaterThanOrEqual(q.value);
          expect(q.basis.length, `${id} ${key}`).toBeGreaterThan(10);
        }
      }
  });

  it('makes a stable ply of every material at either end of its range', () => {
    for (const fabric of Object.keys(CATALOGUE.fabrics))
      for (const sheet of Object.keys(CATALOGUE.sheets))
        for (const level of ['low', 'high'] as const) {
          const at = (material: object): Record<string, number> =>
            Object.fromEntries(
              Object.entries(material).flatMap(([key, q]) =>
                /^(membrane|bending)/.test(key) ? [[key, (q as Sourced)[level]]] : [],
              ),
            );
          const ends = catalogueWith({
            fabrics: { [fabric]: at(CATALOGUE.fabrics[fabric]) },
            sheets: { [sheet]: at(CATALOGUE.sheets[sheet]) },
          });
          const layup = layupOf(ends, { fabric, stack: [{ sheet, angleDeg: 30 }], grainDeg: 90 });
          expect(layup.fabric.membrane.m11).toBeGreaterThan(0);
          expect(layup.backing?.bending.m22).toBeGreaterThan(0);
        }
  });

  it.each([
    ['performance', 'performance-knit, performance-knit-thin'],
    ['Performance Knit', 'performance-knit, performance-knit-thin'],
    ['performance-nit', 'performance-knit, performance-knit-thin'],
    ['knit', 'pique-knit, beanie-knit, jersey-knit, leggings-knit, performance-knit, performance-knit-thin'],
    ['piqué', 'pique-knit'],
    ['cap', 'cap-structured, cap-unstructured'],
  ])('names the ids that %j may have meant, and where all are listed', (typed, nearest) => {
    const error = failure(() => find(CATALOGUE, 'fabrics', typed));
    expect(error.code).toBe('unknown-id');
    const meant = nearest.includes(', ') ? `the nearest are ${nearest};` : `did you mean ${nearest}?`;
    expect(error.todo).toBe(`${meant} lieflat catalog fabrics lists all`);
  });

  it('asks for the garment where it does not know a fabric, and never guesses one by spelling', () => {
    for (const typed of ['denym', 'hoodee', 'toString', ''])
      expect(failure(() => find(CATALOGUE, 'fabrics', typed)).todo, typed).toBe(
        'say what the garment is in everyday words, as hoodie, polo or towel; lieflat catalog fabrics lists all',
      );
    expect(failure(() => find(CATALOGUE, 'sheets', 'cutway')).todo).toContain('cutaway');
  });

  it('finds a fabric by its id, else by an everyday name of a garment', () => {
    expect(fabricNamed(CATALOGUE, 'twill')).toEqual({ fabric: CATALOGUE.fabrics.twill, garment: null });
    const hoodie = fabricNamed(CATALOGUE, 'Hoodie');
    expect([hoodie.fabric.id, hoodie.garment?.madeOf]).toEqual([
      'fleece',
      'sweatshirt fleece, a thick knit brushed on one side',
    ]);
    const error = failure(() => fabricNamed(CATALOGUE, 'towel or tote'));
    expect(`${error.place}: ${error.what}; ${error.todo}`).toBe(
      'fabric "towel or tote": that may mean several fabrics; choose canvas-tote (tote) or terry-towel (towel)',
    );
    expect(failure(() => fabricNamed(CATALOGUE, 'hoodee')).todo).toContain('everyday words');
  });

  it('names no more than six ids of a shop that has many, and none that the language lends', () => {
    const many = Object.fromEntries(
      Array.from({ length: 20 }, (_, i) => [`knit-${i}`, CATALOGUE.fabrics.denim]),
    );
    const { todo } = failure(() => find({ ...CATALOGUE, fabrics: many }, 'fabrics', 'knit'));
    expect(todo.match(/knit-\d+/g)).toHaveLength(6);
    expect(failure(() => find(CATALOGUE, 'sheets', 'toString')).code).toBe('unknown-id');
  });
});

describe('materials of the shop', () => {
  const withOwn = async (catalogue: unknown) => (await figuresWith({ catalogue } as never)).catalogue!;
  const jersey = CATALOGUE.fabrics['jersey-knit'];

  it("put a shop's own value over the built-in one and leave the built-in one alone", async () => {
    const before = structuredClone(CATALOGUE);
    const own = await withOwn({
      fabrics: { 'jersey-knit': { bendingAlong: 3, washable: false } },
      sheets: { 'cutaway-2.5oz': { price: { value: 0.09, low: 0.08, high: 0.1, basis: 'invoice' } } },
    });
    expect(own.fabrics['jersey-knit']).toEqual({
      ...jersey,
      washable: false,
      bendingAlong: { value: 3, low: 3, high: 3, unit: 'µN·m', basis: 'shop profile' },
    });
    expect(own.sheets['cutaway-2.5oz'].price).toEqual({
      value: 0.09,
      low: 0.08,
      high: 0.1,
      unit: 'USD/sheet',
      basis: 'invoice',
    });
    expect(own.threads).toEqual(CATALOGUE.threads);
    expect(CATALOGUE).toEqual(before);
  });

  it('add a material that is given whole', async () => {
    const { id: _, ...fields } = jersey;
    const own = await withOwn({ fabrics: { 'club-jersey': { ...fields, name: 'club jersey' } } });
    expect(find(own, 'fabrics', 'club-jersey')).toEqual({
      ...jersey,
      id: 'club-jersey',
      name: 'club jersey',
    });
  });

  it.each([
    ['an unknown shelf', { zips: {} }, 'catalogue.zips'],
    ['an unknown field', { fabrics: { poplin: { colour: 'red' } } }, 'catalogue.fabrics.poplin.colour'],
    [
      'a value of another kind',
      { fabrics: { poplin: { washable: 'yes' } } },
      'catalogue.fabrics.poplin.washable',
    ],
    ['a text for a number', { fabrics: { poplin: { mass: 'heavy' } } }, 'catalogue.fabrics.poplin.mass'],
    [
      'a range that misses its value',
      { fabrics: { poplin: { mass: { value: 1, low: 2, high: 3 } } } },
      'catalogue.fabrics.poplin.mass',
    ],
    [
      'another unit',
      { fabrics: { poplin: { mass: { value: 4, unit: 'oz' } } } },
      'catalogue.fabrics.poplin.mass.unit',
    ],
    [
      'a part that no value has',
      { fabrics: { poplin: { mass: { value: 4, about: 1 } } } },
      'catalogue.fabrics.poplin.mass.about',
    ],
    [
      'fabric without stiffness',
      { fabrics: { poplin: { membraneShear: 0 } } },
      'catalogue.fabrics.poplin.membraneShear',
    ],
    [
      'a ratio of no stable fabric',
      { fabrics: { poplin: { poisson: 2 } } },
      'catalogue.fabrics.poplin.poisson',
    ],
    ['a new material with gaps', { fabrics: { felt: { mass: 300 } } }, 'catalogue.fabrics.felt'],
  ])('are refused with %s', async (_, overrides, place) => {
    const error = (await withOwn(overrides).catch((e: unknown) => e)) as LieflatError;
    expect(error).toBeInstanceOf(LieflatError);
    expect(error.code).toBe('bad-profile');
    expect(error.what).toMatch(new RegExp(`^(unknown key )?${place.replaceAll('.', '\\.')}( |$)`));
  });
});
