/** Small dense systems that are symmetric and positive definite. */

/** L·Lᵀ of a matrix, kept to solve with it for many right-hand sides. */
export class Cholesky {
  private readonly lower: Float64Array;

  /**
   * @param matrix n·n values, of which the lower triangle (row ≥ column) is read
   * @throws Error for a matrix that is not finite and positive definite beyond rounding
   */
  constructor(
    matrix: Float64Array,
    readonly n: number,
  ) {
    const lower = matrix.slice();
    for (let i = 0; i < n; i++)
      for (let j = 0; j <= i; j++) {
        let sum = lower[i * n + j];
        for (let k = 0; k < j; k++) sum -= lower[i * n + k] * lower[j * n + k];
        if (i > j) lower[i * n + j] = sum / lower[j * n + j];
        else if (sum > ROUNDING * matrix[i * n + i] && sum < Infinity) lower[i * n + i] = Math.sqrt(sum);
        else throw new Error(`reduced system: pivot ${i} is ${sum} of ${matrix[i * n + i]}`);
      }
    this.lower = lower;
  }

  solve(right: ArrayLike<number>): Float64Array {
    const { lower, n } = this;
    const x = Float64Array.from(right);
    for (let i = 0; i < n; i++) {
      for (let k = 0; k < i; k++) x[i] -= lower[i * n + k] * x[k];
      x[i] /= lower[i * n + i];
    }
    for (let i = n - 1; i >= 0; i--) {
      for (let k = i + 1; k < n; k++) x[i] -= lower[k * n + i] * x[k];
      x[i] /= lower[i * n + i];
    }
    return x;
  }
}

/** A pivot this small a part of its diagonal has lost most of its digits. */
const ROUNDING = 1e-13;
