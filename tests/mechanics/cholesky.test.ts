import { describe, expect, it } from 'vitest';
import { Cholesky } from '../../lib/mechanics/cholesky.js';

describe('Cholesky', () => {
  it('solves a system known in closed form', () => {
    // Second differences: with a load of one everywhere the answer is k·(n + 1 − k)/2.
    const n = 5;
    const matrix = new Float64Array(n * n);
    for (let i = 0; i < n; i++) {
      matrix[i * n + i] = 2;
      if (i > 0) matrix[i * n + i - 1] = -1;
    }
    const x = new Cholesky(matrix, n).solve([1, 1, 1, 1, 1]);
    x.forEach((value, i) => {
      expect(value).toBeCloseTo(((i + 1) * (n - i)) / 2, 12);
    });
  });

  it.each([
    ['indefinite', [1, 0, 2, 1]],
    ['singular', [1, 0, 1, 1]],
    ['not a number', [Number.NaN, 0, 0, 1]],
    ['endless', [1, 0, 0, Infinity]],
  ])('refuses a matrix that is %s', (_, values) => {
    expect(() => new Cholesky(Float64Array.from(values), 2)).toThrow(/reduced system/);
  });
});
