/** What is looked up by place is what a look at every box finds. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { type Bounds, overlap } from '../../lib/core/bounds.js';
import { PlacedBoxes } from '../../lib/core/placed-boxes.js';

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

const placed = (put: readonly Bounds[]) => {
  const out = new PlacedBoxes();
  for (const one of put) out.add(one);
  return out;
};

it('boxes that meet another, each asked once, the latest of a spot first', () => {
  fc.assert(
    fc.property(boxes, box, (put, asked) => {
      const all = placed(put);
      // asked again it is no other
      for (let again = 0; again < 2; again++) {
        const seen: number[] = [];
        expect(all.some(asked, (number) => seen.push(number) < 0)).toBe(false);
        const near = put.flatMap((one, k) => (overlap(one, asked) ? [k] : []));
        expect([...seen].sort((a, b) => a - b)).toEqual(near);
        for (const k of near) expect(all.some(asked, (number) => number === k)).toBe(true);
      }
    }),
  );
});

it('no more of a spot than are asked for, and the latest', () => {
  const speck: Bounds = { minX: 3, minY: -4, maxX: 5, maxY: -2 };
  const all = placed(Array.from({ length: 50 }, () => speck));
  const seen: number[] = [];
  all.some(speck, (number) => seen.push(number) < 0, 3);
  expect(seen).toEqual([49, 48, 47]);
});
