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

/** A problem solved, and every point at which its residuals were asked for, in turn. */
async function watched(
  residuals: (values: readonly number[]) => number[],
  problem: Omit<Parameters<typeof leastSquares>[0], 'residuals'>,
) {
  const points: number[][] = [];
  const solution = await leastSquares({
    ...problem,
    residuals: (values) => {
      points.push([...values]);
      return residuals(values);
    },
  });
  return { solution, points };
}

describe('the steps of least squares', () => {
  it('take differences as wide as the cube root of rounding, where those are truest', async () => {
    // Of central differences the error of rounding and that of curvature are alike there (Nocedal & Wright, Numerical Optimization, 8.1).
    const best = Math.cbrt(Number.EPSILON);
    const line = ([a]: readonly number[]) => [a - 3];
    for (const [start, size] of [
      [250, 250],
      [-0.5, 0.5],
      // A value at zero has no size of its own: it is taken for a thousandth.
      [0, 1e-3],
    ]) {
      const [, [below], [above]] = (await watched(line, { start: [start] })).points;
      expect((start - below) / size / best).toBeCloseTo(1, 1);
      expect((above - below) / 2 / size / best).toBeCloseTo(1, 1);
    }
    const [, [below], [above]] = (await watched(line, { start: [7], difference: 0.25 })).points;
    expect([below, above]).toEqual([6.75, 7.25]);
  });

  it('look to one side alone at a bound', async () => {
    const { points } = await watched(([a]) => [a - 3], { start: [1], low: [1], high: [1 + 1e-9] });
    expect(points.slice(1, 3)).toEqual([[1], [1 + 1e-9]]);
  });

  it('are damped by a thousandth at first, and by a ninth of that after each that helped', async () => {
    const { points } = await watched(([a]) => [a - 3], { start: [0] });
    const [, , , [first], , , [second]] = points;
    expect(first).toBeCloseTo(3 / 1.001, 6);
    expect(second).toBeCloseTo(first + (3 - first) / (1 + 1e-3 / 9), 8);
  });

  it('are damped four times as much until one helps', async () => {
    // An undamped step from 3 overshoots the zero of the arc tangent further than it was away.
    const { points, solution } = await watched(([a]) => [Math.atan(a)], { start: [3] });
    const trials = points.slice(3, 7).map(([a]) => a);
    trials.forEach((a, k) => {
      expect(a).toBeCloseTo(3 - (Math.atan(3) * 10) / (1 + 1e-3 * 4 ** k), 3);
    });
    expect(Math.abs(solution.values[0])).toBeLessThan(1e-12);
  });

  it('come to rest after a handful, with or without a rest of residuals', async () => {
    const line = (await watched(([a]) => [a - 3], { start: [0] })).solution;
    expect(line.values[0]).toBeCloseTo(3, 10);
    expect(line.iterations).toBeLessThanOrEqual(5);
    const mean = await watched(([a]) => [a - 3, a - 5], { start: [0] });
    expect(mean.solution.values[0]).toBeCloseTo(4, 10);
    expect(mean.solution.sumOfSquares).toBeCloseTo(2, 12);
    expect(mean.solution.iterations).toBeLessThanOrEqual(5);
    // Once nothing more is to be had no further damping is tried.
    expect(mean.points.length).toBeLessThan(25);
    // Down a curved valley (after Rosenbrock, The Computer Journal 3, 1960): Newton's method takes some ten steps.
    const valley = await watched(([a, b]) => [b - a * a, 0.1 * (1 - a), 0.5], { start: [-1.2, 1] });
    valley.solution.values.forEach((value) => {
      expect(value).toBeCloseTo(1, 9);
    });
    expect(valley.solution.iterations).toBeLessThan(25);
    for (const { converged } of [line, mean.solution, valley.solution]) expect(converged).toBe(true);
  });

  it('end after 500 where there is always something to be had further on, and say so', async () => {
    const { solution } = await watched(([a]) => [1 / a], { start: [1] });
    expect(solution.converged).toBe(false);
    expect(solution.iterations).toBe(500);
  });

  it('are not taken where all that would help lies beyond the bounds, on whichever side', async () => {
    // Of two residuals that pull apart the larger counts, not the one that is nearer to none.
    const apart = ([a]: readonly number[]) => [a + 10, a - 1];
    for (const bounds of [
      { start: [0], low: [0] },
      { start: [-9], high: [-9] },
    ])
      expect((await watched(apart, bounds)).solution).toMatchObject({
        values: bounds.start,
        iterations: 0,
        converged: true,
      });
  });

  it('leave a bound, on whichever side, where that helps', async () => {
    const line = ([a]: readonly number[]) => [a - 3];
    for (const bounds of [
      { start: [0], low: [0], high: [9] },
      { start: [9], low: [0], high: [9] },
      { start: [20], low: [0], high: [9] },
    ])
      expect((await watched(line, bounds)).solution.values[0]).toBeCloseTo(3, 9);
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
