import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { indexBoxes } from '../../lib/core/index2d.js';

describe('indexBoxes', () => {
  it('finds nothing in nothing', () => {
    const index = indexBoxes([]);
    expect(index.touching(-1e9, -1e9, 1e9, 1e9)).toEqual([]);
    expect(index.nearest(0, 0, 3)).toEqual([]);
  });

  it('refuses what is no box', () => {
    expect(() => indexBoxes([1, 2, 3])).toThrow(RangeError);
    expect(() => indexBoxes([0, 0, 1, 1, 0, Number.NaN, 1, 1])).toThrow(/box 1/);
  });

  it('finds the boxes that a search of all of them finds, in order', () => {
    const box = fc
      .tuple(fc.integer({ min: 0, max: 50 }), fc.integer({ min: 0, max: 50 }), fc.nat(9), fc.nat(9))
      .map(([x, y, w, h]) => [x, y, x + w, y + h]);
    fc.assert(
      fc.property(fc.array(box, { minLength: 1, maxLength: 80 }), box, (boxes, [a, b, c, d]) => {
        const expected = boxes.flatMap(([e, f, g, h], i) =>
          e <= c && g >= a && f <= d && h >= b ? [i] : [],
        );
        expect(indexBoxes(boxes.flat()).touching(a, b, c, d)).toEqual(expected);
      }),
    );
  });

  it('gives the nearest first and keeps to the reach', () => {
    const points = [0, 5, 2, 9].flatMap((x) => [x, 0, x, 0]);
    expect(indexBoxes(points).nearest(1.9, 0, 3)).toEqual([2, 0, 1]);
    expect(indexBoxes(points).nearest(1.9, 0, 4, 2)).toEqual([2, 0]);
  });
});
