import fc from 'fast-check';
import { expect, it } from 'vitest';
import { evenly } from '../../lib/core/evenly.js';

it('gives all numbers of a range, or evenly spread ones where they are too many', () => {
  expect(evenly(3, 7, 5)).toEqual([3, 4, 5, 6, 7]);
  expect(evenly(3, 8, 5)).toEqual([3, 5, 7]);
  expect(evenly(4, 4, 10)).toEqual([4]);
  expect(evenly(4, 3, 10)).toEqual([]);
  fc.assert(
    fc.property(fc.nat(500), fc.nat(500), fc.integer({ min: 1, max: 50 }), (first, more, most) => {
      const numbers = evenly(first, first + more, most);
      const step = numbers.length > 1 ? numbers[1] - first : more + 1;
      expect(numbers.length).toBeLessThanOrEqual(most);
      expect(numbers).toEqual(numbers.map((_, k) => first + k * step));
      expect(first + more - numbers[numbers.length - 1]).toBeLessThan(step);
      // with a shorter step there would be too many
      expect(step === 1 || Math.ceil((more + 1) / (step - 1)) > most).toBe(true);
    }),
  );
});
