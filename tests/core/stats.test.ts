import fc from 'fast-check';
import { quantileSorted } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { type Distribution, distributionInPlace, spreadInPlace } from '../../lib/core/stats.js';

const distribution = (values: readonly number[] | Float64Array): Distribution | null =>
  distributionInPlace(Float64Array.from(values));

describe('distribution', () => {
  it('has the closed form of evenly spaced values', () => {
    // 0, 1 … 100: the quantile of type 7 at p is 100·p
    const shuffled = Array.from({ length: 101 }, (_, i) => (i * 37) % 101);
    expect(distribution(shuffled)).toEqual({ min: 0, median: 50, p95: 95, max: 100 });
  });

  it('interpolates between two values as type 7 does', () => {
    expect(distribution([3, 1])).toEqual({ min: 1, median: 2, p95: 2.9, max: 3 });
    // NumPy documents percentile([[10, 7, 4], [3, 2, 1]], 50) = 3.5
    expect(distribution([10, 7, 4, 3, 2, 1])?.median).toBe(3.5);
  });

  it('gives null for no values', () => {
    expect(distribution([])).toBeNull();
  });

  it('takes a single value and equal values as they are', () => {
    expect(distribution([4.2])).toEqual({ min: 4.2, median: 4.2, p95: 4.2, max: 4.2 });
    expect(distribution(new Float64Array(50).fill(7))).toEqual({ min: 7, median: 7, p95: 7, max: 7 });
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('refuses %s', (bad) => {
    expect(() => distribution([1, bad, 3])).toThrow(/value 1 of the distribution/);
  });

  it('selects the same order statistics as a full sort', () => {
    const value = fc.oneof(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.integer({ min: 0, max: 4 }));
    fc.assert(
      fc.property(fc.array(value, { minLength: 1, maxLength: 900 }), (values) => {
        const sorted = [...values].sort((a, b) => a - b);
        const got = distribution(values);
        // Two zeros of different sign are one value: no order tells them apart, so both go in as 0.
        expect(got!.min + 0).toBe(sorted[0] + 0);
        expect(got!.max + 0).toBe(sorted.at(-1)! + 0);
        expect(got?.median).toBeCloseTo(quantileSorted(sorted, 0.5), 9);
        expect(got?.p95).toBeCloseTo(quantileSorted(sorted, 0.95), 9);
      }),
      { examples: [[[-0, 0]], [[0, -0]]] },
    );
  });

  it('keeps the values and only reorders them; the spread is the same without the percentile', () => {
    const own = Float64Array.of(5, 1, 4, 2, 3);
    expect(distributionInPlace(own)).toEqual({ min: 1, median: 3, p95: 4.8, max: 5 });
    expect([...own].sort()).toEqual([1, 2, 3, 4, 5]);
    expect(spreadInPlace(Float64Array.of(5, 1, 4, 2))).toEqual({ min: 1, median: 3, max: 5 });
    expect(spreadInPlace(new Float64Array(0))).toBeNull();
    expect(() => spreadInPlace(Float64Array.of(1, Number.NaN))).toThrow(RangeError);
  });
});
