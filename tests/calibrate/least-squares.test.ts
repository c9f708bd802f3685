import { describe, expect, it } from 'vitest';
import { inverseOfNormal } from '../../lib/calibrate/fit.js';
import { leastSquares } from '../../lib/calibrate/least-squares.js';
import { studentQuantile } from '../../lib/calibrate/student.js';
import { MISRA1A, type NistProblem, RAT43, THURBER } from './nist.js';

/** Certified digits that two values share. */
const sharedDigits = (value: number, certified: number): number =>
  -Math.log10(Math.abs(value - certified) / Math.abs(certified));

const problemOf = ({ model, data }: NistProblem) => ({
  residuals: (b: readonly number[]) => data.map(([y, x]) => y - model(b, x)),
});

describe('least squares against the certified values of NIST', () => {
  // NIST Statistical Reference Datasets, nonlinear regression (www.itl.nist.gov/div898/strd): Misra1a (lower difficulty), Thurber and Rat43
  // (higher); data and certified values from memory. That they belong together the certified sum of squares shows.
  it.each([MISRA1A, THURBER, RAT43])('reaches $name from both starts', async (problem) => {
    for (const start of problem.starts) {
      const { values, sumOfSquares, jacobian, converged } = await leastSquares({
        ...problemOf(problem),
        start,
      });
      expect(converged).toBe(true);
      expect(sharedDigits(sumOfSquares, problem.sumOfSquares)).toBeGreaterThan(8);
      values.forEach((value, k) => {
        expect(sharedDigits(value, problem.certified[k])).toBeGreaterThan(6);
      });
      const covariance = await inverseOfNormal(jacobian);
      const spread = Math.sqrt(sumOfSquares / (problem.data.length - values.length));
      values.forEach((_, k) => {
        expect(sharedDigits(spread * Math.sqrt(covariance[k][k]), problem.deviations[k])).toBeGreaterThan(4);
      });
    }
  });

  it('stays between bounds and finds the least that lies there', async () => {
    const low = [0, 6e-4];
    const { values, sumOfSquares } = await leastSquares({ ...problemOf(MISRA1A), start: [250, 7e-4], low });
    expect(values[1]).toBe(6e-4);
    // With the second held, the first is a linear fit.
    const basis = MISRA1A.data.map(([, x]) => 1 - Math.exp(-6e-4 * x));
    const best =
      MISRA1A.data.reduce((s, [y], i) => s + y * basis[i], 0) / basis.reduce((s, b) => s + b * b, 0);
    expect(values[0]).toBeCloseTo(best, 6);
    expect(sumOfSquares).toBeGreaterThan(MISRA1A.sumOfSquares);
  });

  it('leaves alone what the residuals do not hang on', async () => {
    const { values } = await leastSquares({ start: [1, 5], residuals: ([a]) => [a - 3, 2 * (a - 3)] });
    expect(values[0]).toBeCloseTo(3, 9);
    expect(values[1]).toBe(5);
  });

  it('steps back from where the model makes no sense, and refuses to start there', async () => {
    const residuals = ([a]: readonly number[]) => [Math.sqrt(a) - 2, Math.log(a) - Math.log(4)];
    expect((await leastSquares({ start: [0.01], residuals })).values[0]).toBeCloseTo(4, 8);
    await expect(leastSquares({ start: [-1], residuals })).rejects.toThrow(RangeError);
  });

  it('changes nothing that it is given', async () => {
    const start = Object.freeze([250, 5e-4]);
    await leastSquares({
      ...problemOf(MISRA1A),
      start,
      low: Object.freeze([0, 0]),
      high: Object.freeze([1e3, 1]),
    });
    expect(start).toEqual([250, 5e-4]);
  });
});

describe("Student's quantiles", () => {
  // Any table of the t distribution, two-sided (from memory).
  it.each([
    [0.95, 5, 2.571],
    [0.95, 10, 2.228],
    [0.95, 30, 2.042],
    [0.95, 1e6, 1.96],
    [0.99, 10, 3.169],
    [0.99, 30, 2.75],
  ])('hold %d of it with %d degrees of freedom within %d', (part, degrees, quantile) => {
    expect(Math.abs(studentQuantile(part, degrees) / quantile - 1)).toBeLessThan(0.004);
  });
});
