import { describe, expect, it } from 'vitest';
import {
  answersIn,
  BODIES,
  CARES,
  FABRIC_QUESTIONS,
  fabricFor,
  STRETCHES,
  SURFACES,
} from '../../lib/materials/fabric-questions.js';
import { FABRICS } from '../../lib/materials/fabrics.js';
import { GARMENT_KINDS, garmentsAkin, garmentsNamed, nameTakenFrom } from '../../lib/materials/garments.js';
import { fabricLike, type LikeFabric } from '../../lib/materials/like-fabric.js';

// Which garment is made of what: common practice, no source.
describe('garments by their everyday names', () => {
  it.each([
    ['hoodie', 'fleece'],
    ['Hoodies', 'fleece'],
    ['crewneck sweatshirt', 'fleece'],
    ['T-shirt', 'jersey-tee'],
    ['Tees', 'jersey-tee'],
    ['polo', 'pique-knit'],
    ['cotton polo', 'pique-knit'],
    ['blend polo', 'jersey-knit'],
    ['Performance Polo', 'performance-knit'],
    ['performance', 'performance-knit'],
    ['dress shirts', 'poplin'],
    ['softshell jacket', 'softshell'],
    ['soft-shell', 'softshell'],
    ['nylon jacket', 'nylon-jacket'],
    ['windbreaker', 'nylon-jacket'],
    ['fleece jacket', 'fleece'],
    ['leggings', 'leggings-knit'],
    ['bath towel', 'terry-towel'],
    ['cap', 'cap-structured'],
    ['dad hat', 'cap-unstructured'],
    ['beanie', 'beanie-knit'],
    ['tote bag', 'canvas-tote'],
    ['denim jacket', 'denim'],
    ['leather jacket', 'leather'],
    ['silk scarf', 'silk'],
    ['workwear', 'twill'],
    ['Piqué', 'pique-knit'],
    ["men's cotton polo, navy", 'pique-knit'],
    ['youth performance polo', 'performance-knit'],
    ['knit cap', 'beanie-knit'],
  ])('takes %j for %s', (typed, fabric) => {
    expect(garmentsNamed(typed).map((garment) => garment.fabric)).toEqual([fabric]);
  });

  it('goes by words and never by spelling', () => {
    for (const typed of ['hoodee', 'poplo', 'shirt', 'teeth', 'capes', 'xyz', '', '!!', 'légère'])
      expect(garmentsNamed(typed), typed).toEqual([]);
  });

  it('gives one garment of each fabric where a name may mean several', () => {
    expect(garmentsNamed('denim and linen').map(({ fabric }) => fabric)).toEqual(['sheer-linen']);
    expect(garmentsNamed('towel or tote').map(({ fabric }) => fabric)).toEqual([
      'canvas-tote',
      'terry-towel',
    ]);
  });

  // By the word for what it is, which comes last in English.
  it.each([
    ['jacket', ['fleece jacket', 'denim jacket', 'rain jacket', 'leather jacket', 'softshell jacket']],
    ['ski jackets, navy', ['fleece jacket', 'rain jacket']],
    ['shirt', ['dress shirt', 'polo shirt', 'work shirt']],
    ['pants', ['sweatpants', 'work pants', 'yoga pants']],
    ['vest', ['fleece vest', 'denim vest', 'leather vest']],
    ['coat', ['raincoat', 'chef coat', 'lab coat']],
  ])('offers for %j, which may be several, those that there are', (typed, some) => {
    expect(garmentsNamed(typed)).toEqual([]);
    const akin = garmentsAkin(typed);
    expect(akin).toEqual(expect.arrayContaining(some));
    // Each leads somewhere by itself, and no two to one fabric.
    const fabrics = akin.map((name) =>
      garmentsNamed(name)
        .map(({ fabric }) => fabric)
        .join(),
    );
    expect(new Set(fabrics).size).toBe(akin.length);
  });

  it('offers nothing for a name that shares no word with any, and never one that is spelled alike', () => {
    for (const typed of ['hoodee', 'jackt', 'xyz', '', '!!', 'capes'])
      expect(garmentsAkin(typed), typed).toEqual([]);
  });

  it('offers nothing by what a garment is made of, and not one alone, which would be a guess', () => {
    // A knit cap is a cap; of sweaters there is one.
    for (const typed of ['piqu-knit', 'ribbed knitt', 'cotton', 'thick knit', 'ski sweat'])
      expect(garmentsAkin(typed), typed).toEqual([]);
  });

  it("offers a shop's own as well", () => {
    const own = [{ names: ['club jacket'], fabric: 'club-jacket', madeOf: 'like twill' }];
    expect(garmentsAkin('jacket', own)[0]).toBe('club jacket');
    expect(garmentsAkin('jacket', own)).toContain('denim jacket');
  });

  it('lists every name once, and only fabrics that there are', () => {
    const names = GARMENT_KINDS.flatMap((garment) => garment.names);
    expect(new Set(names).size).toBe(names.length);
    for (const { fabric, names: own } of GARMENT_KINDS) {
      expect(FABRICS[fabric], fabric).toBeDefined();
      for (const name of own)
        expect(
          garmentsNamed(name).map((g) => g.fabric),
          name,
        ).toEqual([fabric]);
    }
  });
});

describe('four questions about a garment', () => {
  it.each([
    ['none', 'medium', 'plain', 'washable', 'twill'],
    ['none', 'thin', 'plain', 'washable', 'poplin'],
    ['none', 'thin', 'plain', 'keep-dry', 'silk'],
    ['none', 'thick', 'plain', 'washable', 'canvas-tote'],
    ['none', 'thick', 'pile', 'washable', 'terry-towel'],
    ['some', 'thick', 'pile', 'washable', 'fleece'],
    ['some', 'medium', 'open', 'washable', 'pique-knit'],
    ['some', 'medium', 'plain', 'keep-dry', 'fine-sweater'],
    ['double', 'thin', 'plain', 'washable', 'performance-knit'],
    ['several-times', 'thin', 'plain', 'washable', 'performance-knit-thin'],
    ['some', 'thick', 'coated', 'washable', 'softshell'],
    ['none', 'thin', 'coated', 'washable', 'nylon-jacket'],
    ['none', 'thick', 'coated', 'keep-dry', 'leather'],
  ] as const)('%s, %s, %s, %s: %s', (stretch, body, surface, care, fabric) => {
    expect(fabricFor({ stretch, body, surface, care })).toBe(fabric);
  });

  it('leads to a fabric that stretches where it was said to, and that may be washed only where that was said', () => {
    const all = STRETCHES.flatMap((stretch) =>
      BODIES.flatMap((body) =>
        SURFACES.flatMap((surface) => CARES.map((care) => ({ stretch, body, surface, care }))),
      ),
    );
    for (const answers of all) {
      const { stretch, body, surface, care } = answers;
      const fabric = FABRICS[fabricFor(answers)];
      const where = `${stretch} ${body} ${surface} ${care}: ${fabric?.id}`;
      if (care === 'keep-dry') expect(fabric.washable, where).toBe(false);
      if (surface === 'coated')
        expect(fabric.holesStay, where).toBe(stretch !== 'several-times' || care === 'keep-dry');
      // The more a cloth gives, the more a wrong backing costs: an answer may never lead to one that gives less.
      else if (stretch !== 'none') expect(fabric.stretchy, where).toBe(true);
      if (stretch === 'several-times' && care === 'washable' && surface === 'plain')
        expect(fabric.elastic, where).toBe(true);
    }
  });
});

describe('answers that were typed', () => {
  it('may come in any order, and leave out what most garments are', () => {
    const all = { stretch: 'some', body: 'thick', surface: 'pile', care: 'keep-dry' };
    expect(answersIn('some,thick,pile,keep-dry')).toEqual(all);
    expect(answersIn(' Keep-Dry; pile  THICK,some')).toEqual(all);
    expect(answersIn('none')).toEqual({
      stretch: 'none',
      body: 'medium',
      surface: 'plain',
      care: 'washable',
    });
  });

  it('are none where a word answers nothing or a question twice, or stretch is left out', () => {
    for (const text of ['', 'thin', 'some,thin,medium', 'some,fuzzy', 'none some', 'toString'])
      expect(answersIn(text), text).toBeNull();
  });

  it('belong to one question each', () => {
    const words = Object.values(FABRIC_QUESTIONS).flat() as string[];
    expect(new Set(words).size).toBe(words.length);
  });
});

describe('a fabric told by another one', () => {
  const named = { id: 'ours', name: 'ours' };
  const like = (base: keyof typeof FABRICS, answers: Omit<LikeFabric, 'like'>) =>
    fabricLike(FABRICS[base], named, { like: base, ...answers });

  it('is that one under another name where nothing differs, or the answers are true of it already', () => {
    expect(like('twill', {})).toEqual({ ...FABRICS.twill, ...named });
    expect(like('twill', { stretch: 'none', body: 'medium', surface: 'plain', care: 'washable' })).toEqual({
      ...FABRICS.twill,
      ...named,
    });
  });

  it('gives farther and resists less where it stretches, and calls for a backing that stays', () => {
    for (const base of Object.values(FABRICS)) {
      const soft = STRETCHES.map((stretch) => fabricLike(base, named, { like: base.id, stretch }));
      expect(
        soft.map(({ stretchy }) => stretchy),
        base.id,
      ).toEqual(
        [false, true, true, true].map((flag, i) => (soft[i].stretch === base.stretch ? base.stretchy : flag)),
      );
      for (const [i, fabric] of soft.slice(1).entries()) {
        expect(fabric.stretch.value, base.id).toBeGreaterThan(soft[i].stretch.value);
        expect(fabric.membraneAlong.value, base.id).toBeLessThan(soft[i].membraneAlong.value);
        expect(fabric.rigid, base.id).toBe(false);
      }
    }
  });

  it('is heavier, thicker and stiffer, most of all against bending, where it is thicker', () => {
    const { thin, thick } = {
      thin: like('twill', { body: 'thin' }),
      thick: like('twill', { body: 'thick' }),
    };
    const times = (key: 'mass' | 'thickness' | 'membraneAlong' | 'bendingAlong') =>
      thick[key].value / thin[key].value;
    const yarn = times('mass');
    expect(yarn).toBeGreaterThan(2);
    expect(times('thickness') / yarn).toBeCloseTo(1, 1);
    expect(times('membraneAlong') / yarn).toBeCloseTo(1, 1);
    expect(times('bendingAlong') / yarn ** 2).toBeCloseTo(1, 1);
  });

  it('has one surface, and a film keeps its threads from shearing', () => {
    const coated = like('poplin', { surface: 'coated' });
    expect(coated.holesStay).toBe(true);
    expect(coated.membraneShear.value).toBeGreaterThan(4 * FABRICS.poplin.membraneShear.value);
    expect(like('nylon-jacket', { surface: 'coated' }).membraneShear).toEqual(
      FABRICS['nylon-jacket'].membraneShear,
    );
    const { pile, open, sheer, holesStay } = like('terry-towel', { surface: 'see-through' });
    expect({ pile, open, sheer, holesStay }).toEqual({
      pile: false,
      open: false,
      sheer: true,
      holesStay: false,
    });
    expect(like('silk', { care: 'washable' }).washable).toBe(true);
  });

  it('says of every value that was moved what it rests on, and keeps it within its range', () => {
    for (const base of Object.values(FABRICS))
      for (const stretch of STRETCHES)
        for (const body of BODIES) {
          const made = fabricLike(base, named, { like: base.id, stretch, body, surface: 'coated' });
          for (const [key, value] of Object.entries(made)) {
            if (typeof value !== 'object') continue;
            expect(value.low, key).toBeLessThanOrEqual(value.value);
            expect(value.high, key).toBeGreaterThanOrEqual(value.value);
            if (value !== base[key as keyof typeof base])
              expect(value.basis, key).toContain(`like ${base.id}, but stretch`);
          }
        }
  });

  it.each([
    ['polo', null],
    ['Polos', null],
    ['performace polo', 'polo'],
    ['silk hoodie', 'hoodie'],
    ["men's cotton polo, navy", 'cotton polo'],
  ])('tell what of %s was taken, where the rest was passed over', (typed, taken) => {
    expect(nameTakenFrom(typed, garmentsNamed(typed)[0])).toBe(taken);
  });
});
