import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Bounds, grownBy, overlap } from '../../lib/core/bounds.js';
import { Above } from '../../lib/segment/above.js';
import { FINDER } from '../../lib/segment/parameters.js';
import type { Top } from '../../lib/segment/tops.js';

const side = fc.oneof(fc.double({ min: 0, max: 40, noNaN: true }), fc.constant(900));
const place = fc.double({ min: -300, max: 300, noNaN: true });
const box = fc
  .tuple(place, place, side, side)
  .map(([minX, minY, wide, high]): Bounds => ({ minX, minY, maxX: minX + wide, maxY: minY + high }));

it('gives the tops near a place, those sewn soonest first, and no more than are asked for', () => {
  fc.assert(
    fc.property(
      fc.array(box, { maxLength: 40 }),
      box,
      fc.integer({ min: 1, max: 12 }),
      (put, asked, most) => {
        const above = new Above();
        const tops = put.map((bounds) => ({ bounds }) as unknown as Top);
        // from the last sewn to the first
        for (const top of tops) above.add(top);
        const reach = grownBy(asked, FINDER.aboveReach.value);
        const near = tops.filter(({ bounds }) => overlap(bounds, reach)).reverse();
        expect(above.over(asked, tops.length + 1)).toEqual(near);
        const few = above.over(asked, most);
        expect(few.length).toBeLessThanOrEqual(most);
        expect(few).toEqual(near.filter((top) => few.includes(top)));
      },
    ),
  );
});
