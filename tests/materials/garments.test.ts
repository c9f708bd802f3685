import { describe, expect, it } from 'vitest';
import { BODIES, CARES, fabricFor, STRETCHES, SURFACES } from '../../lib/materials/fabric-questions.js';
import { FABRICS } from '../../lib/materials/fabrics.js';
import { GARMENT_KINDS, garmentsNamed } from '../../lib/materials/garments.js';

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
    for (const stretch of STRETCHES)
      for (const body of BODIES)
        for (const surface of SURFACES)
          for (const care of CARES) {
            const fabric = FABRICS[fabricFor({ stretch, body, surface, care })];
            const where = `${stretch} ${body} ${surface} ${care}: ${fabric?.id}`;
            if (care === 'keep-dry') expect(fabric.washable, where).toBe(false);
            if (surface !== 'coated') {
              // The more a cloth gives, the more a wrong backing costs: an answer may never lead to one that gives less.
              if (stretch !== 'none') expect(fabric.stretchy, where).toBe(true);
              if (stretch === 'several-times' && care === 'washable' && surface === 'plain')
                expect(fabric.elastic, where).toBe(true);
            } else expect(fabric.holesStay, where).toBe(stretch !== 'several-times' || care === 'keep-dry');
          }
  });
});
