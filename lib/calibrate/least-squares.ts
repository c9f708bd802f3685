/**
 * Least squares by Levenberg's and Marquardt's damped steps, between bounds (Marquardt, *SIAM Journal on Applied Mathematics* 11, 1963,
 * 431–441; columns scaled by their length as Moré, *Lecture Notes in Mathematics* 630, 1978, has it). Steps are taken from the singular values
 * of the Jacobian, never from the normal matrix, whose condition is the square of its own.
 */
export interface LeastSquaresProblem {
  /** Any number of residuals, always in the same order; NaN where the values make no sense. */
  readonly residuals: (values: readonly number[]) => readonly number[];
  readonly start: readonly number[];
  readonly low?: readonly number[];
  readonly high?: readonly number[];
  /** Step of the differences that the Jacobian is taken from, where rounding is not the largest error of the residuals. */
  readonly difference?: number;
}

export interface LeastSquaresSolution {
  readonly values: number[];
  readonly residuals: readonly number[];
  /** A row a residual, a column a value. */
  readonly jacobian: readonly (readonly number[])[];
  readonly sumOfSquares: number;
  readonly iterations: number;
  readonly converged: boolean;
}

const MOST_ITERATIONS = 500;
/** Part of the values below which a step, and of the sum of squares below which its fall, is none. */
const SETTLED_STEP = 1e-11;
const SETTLED_SUM = 1e-15;
/** Step of the central differences as a part of a value: the cube root of rounding. */
const DIFFERENCE = 6e-6;

const square = (residuals: readonly number[]): number => residuals.reduce((sum, r) => sum + r * r, 0);

/** @throws RangeError where the start makes no sense of itself: residuals that are no numbers */
export async function leastSquares(problem: LeastSquaresProblem): Promise<LeastSquaresSolution> {
  const { Matrix, SingularValueDecomposition } = await import('ml-matrix');
  const { residuals: residualsAt, start } = problem;
  const low = problem.low ?? start.map(() => -Infinity);
  const high = problem.high ?? start.map(() => Infinity);
  const between = (value: number, k: number) => Math.min(high[k], Math.max(low[k], value));
  let values = start.map(between);
  let residuals = residualsAt(values);
  let sum = square(residuals);
  if (!Number.isFinite(sum))
    throw new RangeError('least squares: the start gives residuals that are no numbers');
  const scales = values.map(() => 0);
  let damping = 1e-3;
  let iterations = 0;
  let jacobian = jacobianOf(problem, values);
  for (let settled = false; !settled && iterations < MOST_ITERATIONS; iterations++) {
    for (let k = 0; k < values.length; k++)
      scales[k] = Math.max(scales[k], Math.hypot(...jacobian.map((row) => row[k])));
    // A value at its bound stays there while the residuals would push it on.
    const gradient = values.map((_, k) => jacobian.reduce((g, row, i) => g + row[k] * residuals[i], 0));
    const free = values
      .map((_, k) => k)
      .filter(
        (k) =>
          scales[k] > 0 &&
          !(values[k] <= low[k] && gradient[k] > 0) &&
          !(values[k] >= high[k] && gradient[k] < 0),
      );
    if (free.length === 0)
      return { values, residuals, jacobian, sumOfSquares: sum, iterations, converged: true };
    const scaled = new Matrix(jacobian.map((row) => free.map((k) => row[k] / scales[k])));
    const svd = new SingularValueDecomposition(scaled, { autoTranspose: true });
    const along = svd.leftSingularVectors
      .transpose()
      .mmul(Matrix.columnVector([...residuals]))
      .to1DArray();
    for (;;) {
      const factors = svd.diagonal.map((s, v) => (s === 0 ? 0 : (-s / (s * s + damping)) * along[v]));
      const step = svd.rightSingularVectors.mmul(Matrix.columnVector(factors)).to1DArray();
      const trial = [...values];
      free.forEach((k, c) => {
        trial[k] = between(values[k] + step[c] / scales[k], k);
      });
      const small = free.every(
        (k) => Math.abs(trial[k] - values[k]) <= SETTLED_STEP * (Math.abs(values[k]) + SETTLED_STEP),
      );
      const there = residualsAt(trial);
      const sumThere = square(there);
      if (sumThere < sum) {
        settled = small || sum - sumThere <= SETTLED_SUM * sum;
        values = trial;
        residuals = there;
        sum = sumThere;
        damping = Math.max(damping / 9, 1e-12);
        break;
      }
      settled = small || damping > 1e12;
      if (settled) break;
      damping *= 4;
    }
    jacobian = jacobianOf(problem, values);
  }
  return {
    values,
    residuals,
    jacobian,
    sumOfSquares: sum,
    iterations,
    converged: iterations < MOST_ITERATIONS,
  };
}

/** By central differences, one-sided at a bound. */
function jacobianOf(
  { residuals, low, high, difference }: LeastSquaresProblem,
  values: readonly number[],
): number[][] {
  const columns = values.map((value, k) => {
    const step = difference ?? DIFFERENCE * Math.max(Math.abs(value), 1e-3);
    const at = (moved: number) => residuals(values.map((v, j) => (j === k ? moved : v)));
    const [below, above] = [
      Math.max(low?.[k] ?? -Infinity, value - step),
      Math.min(high?.[k] ?? Infinity, value + step),
    ];
    const [before, after] = [at(below), at(above)];
    return after.map((r, i) => (r - before[i]) / (above - below));
  });
  return columns[0].map((_, i) => columns.map((column) => column[i]));
}
