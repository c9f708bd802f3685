/** What is looked up by place is what a look at every box finds. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Bounds } from '../../lib/core/bounds.js';
import { Above } from '../../lib/segment/above.js';
import { NearMembers } from '../../lib/segment/near-members.js';
import { FINDER } from '../../lib/segment/parameters.js';
import type { Top } from '../../lib/segment/tops.js';

/** Boxes from a speck to wider than all cells that are looked up one by one. */
const box = fc
  .record({
    x: fc.double({ min: -300, max: 300, noNaN: true }),
    y: fc.double({ min: -300, max: 300, noNaN: true }),
    wide: fc.oneof(fc.double({ min: 0, max: 40, noNaN: true }), fc.constant(900)),
    high: fc.oneof(fc.double({ min: 0, max: 40, noNaN: true }), fc.constant(900)),
  })
  .map(({ x, y, wide, high }): Bounds => ({ minX: x, minY: y, maxX: x + wide, maxY: y + high }));
const boxes = fc.array(box, { maxLength: 40 });

const meets = (a: Bounds, b: Bounds, reach: number): boolean =>
  a.minX - reach <= b.maxX &&
  a.maxX + reach >= b.minX &&
  a.minY - reach <= b.maxY &&
  a.maxY + reach >= b.minY;

it('tops above a place, soonest first, and no more than are asked for', () => {
  fc.assert(
    fc.property(boxes, box, fc.integer({ min: 1, max: 12 }), (put, asked, most) => {
      const above = new Above();
      const tops = put.map((bounds) => ({ bounds }) as unknown as Top);
      for (const top of tops) above.add(top);
      const near = tops.filter(({ bounds }) => meets(bounds, asked, FINDER.aboveReach.value)).reverse();
      const all = above.over(asked, tops.length + 1);
      expect(all).toEqual(near);
      // asked again it is no other; where fewer are wanted each of them lies near
      expect(above.over(asked, tops.length + 1)).toEqual(near);
      const few = above.over(asked, most);
      expect(few.length).toBeLessThanOrEqual(most);
      for (const top of few) expect(near).toContain(top);
    }),
  );
});

it('members near a place, each asked once', () => {
  fc.assert(
    fc.property(boxes, box, fc.double({ min: 0, max: 20, noNaN: true }), (put, asked, reach) => {
      const members = new NearMembers();
      for (const one of put) members.add(one);
      const seen: number[] = [];
      expect(members.some(asked, reach, (member) => seen.push(member) < 0)).toBe(false);
      const near = put.flatMap((one, k) => (meets(one, asked, reach) ? [k] : []));
      expect([...seen].sort((a, b) => a - b)).toEqual(near);
      for (const k of near) expect(members.some(asked, reach, (member) => member === k)).toBe(true);
    }),
  );
});
