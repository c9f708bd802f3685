import fc from 'fast-check';
import { expect, it } from 'vitest';
import { countUpTo } from '../../lib/core/ascending.js';

it('counts what is not above a limit, equal values too', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -5, max: 5 })),
      fc.integer({ min: -7, max: 7 }),
      (values, limit) => {
        const ascending = values.sort((a, b) => a - b);
        expect(countUpTo(ascending, limit)).toBe(ascending.filter((v) => v <= limit).length);
      },
    ),
  );
});
