import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LieflatError } from '../../lib/core/errors.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { parseStack, stackText } from '../../lib/mechanics/stack-notation.js';

describe('stack notation', () => {
  it('reads sheets and angles from the garment outward', () => {
    expect(parseStack('woven-polyester@0+cutaway-2.5oz+woven-polyester@45', CATALOGUE)).toEqual([
      { sheet: 'woven-polyester', angleDeg: 0 },
      { sheet: 'cutaway-2.5oz', angleDeg: 0 },
      { sheet: 'woven-polyester', angleDeg: 45 },
    ]);
    expect(parseStack(' none ', CATALOGUE)).toEqual([]);
    expect(parseStack('cap-backing @ 22.5', CATALOGUE)).toEqual([{ sheet: 'cap-backing', angleDeg: 22.5 }]);
  });

  it('reads back what it writes (property)', () => {
    const sheet = fc.record({
      sheet: fc.constantFrom(...Object.keys(CATALOGUE.sheets)),
      angleDeg: fc.integer({ min: 0, max: 180 }),
    });
    fc.assert(
      fc.property(fc.array(sheet, { maxLength: 4 }), (stack) => {
        expect(parseStack(stackText(stack), CATALOGUE)).toEqual(stack);
      }),
      { seed: 2 },
    );
  });

  it.each([
    ['woven-polyster@45', 'unknown-id', /did you mean woven-polyester\?/],
    ['cutaway-2.5oz+', 'bad-argument', /one \+ between them/],
    ['cutaway-2.5oz++cap-backing', 'bad-argument', /one \+ between them/],
    ['', 'bad-argument', /none for no backing/],
    ['cap-backing@left', 'bad-argument', /cap-backing@45/],
    ['cap-backing@', 'bad-argument', /cap-backing@45/],
    ['cap-backing@4@5', 'bad-argument', /cap-backing@45/],
    ['cap-backing@400', 'bad-argument', /write cap-backing@40$/],
    ['cap-backing@-22.5', 'bad-argument', /write cap-backing@157\.5$/],
    [Array(7).fill('cutaway-3oz').join('+'), 'bad-argument', /^name the sheets that are hooped/],
    ['cutaway-3oz+heat-film', 'bad-argument', /leave it out of --stack/],
  ])('refuses %j and says what to write', (text, code, todo) => {
    try {
      parseStack(text, CATALOGUE);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(LieflatError);
      expect((error as LieflatError).code).toBe(code);
      expect((error as LieflatError).todo).toMatch(todo);
    }
  });
});
