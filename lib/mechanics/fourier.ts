import FFT from 'fft.js';

/**
 * Discrete Fourier transform of real fields on an nx × ny grid, both powers of two (the one-dimensional transforms are those of
 * fft.js).
 *
 * A field is a Float64Array of nx·ny values, row by row: value (i, j) at j·nx + i. Its spectrum holds the wave numbers
 * kx = 0 … nx/2 (the rest are their conjugates), column by column: the complex coefficient (kx, ky) at 2·(kx·ny + ky), real part first, so that
 * each column can be transformed where it lies.
 *
 *     forward: F(kx, ky) = Σ f(i, j)·exp(−2πi(kx·i/nx + ky·j/ny));   inverse divides by nx·ny
 */
export class RealFourier {
  readonly columns: number;
  /** Transforms made so far, either way: what a bench compares the rest of the work with. */
  transforms = 0;
  private readonly rowFft: FFT;
  private readonly columnFft: FFT;
  private readonly rowIn: Float64Array;
  private readonly rowOut: Float64Array;
  private readonly columnOut: Float64Array;
  private readonly work: Float64Array;

  constructor(
    readonly nx: number,
    readonly ny: number,
  ) {
    if (!(isPowerOfTwo(nx) && isPowerOfTwo(ny)))
      throw new RangeError(`grid of ${nx} × ${ny}: powers of two are needed`);
    this.columns = nx / 2 + 1;
    this.rowFft = new FFT(nx);
    this.columnFft = new FFT(ny);
    this.rowIn = new Float64Array(2 * nx);
    this.rowOut = new Float64Array(2 * nx);
    this.columnOut = new Float64Array(2 * ny);
    this.work = this.newSpectrum();
  }

  newField(): Float64Array {
    return new Float64Array(this.nx * this.ny);
  }

  newSpectrum(): Float64Array {
    return new Float64Array(2 * this.columns * this.ny);
  }

  forward(field: Float64Array, spectrum: Float64Array): void {
    this.transforms++;
    const { nx, ny, columns, rowIn, rowOut } = this;
    // Two real rows ride in one complex transform and are parted by symmetry.
    for (let j = 0; j < ny; j += 2) {
      const a = j * nx;
      const b = a + nx;
      for (let i = 0; i < nx; i++) {
        rowIn[2 * i] = field[a + i];
        rowIn[2 * i + 1] = field[b + i];
      }
      this.rowFft.transform(rowOut, rowIn);
      for (let k = 0; k < columns; k++) {
        const p = 2 * k;
        const q = k === 0 ? 0 : 2 * (nx - k);
        const at = 2 * (k * ny + j);
        spectrum[at] = 0.5 * (rowOut[p] + rowOut[q]);
        spectrum[at + 1] = 0.5 * (rowOut[p + 1] - rowOut[q + 1]);
        spectrum[at + 2] = 0.5 * (rowOut[p + 1] + rowOut[q + 1]);
        spectrum[at + 3] = 0.5 * (rowOut[q] - rowOut[p]);
      }
    }
    for (let k = 0; k < columns; k++) {
      const column = spectrum.subarray(2 * k * ny, 2 * (k + 1) * ny);
      this.columnFft.transform(this.columnOut, column);
      column.set(this.columnOut);
    }
  }

  /** The spectrum is left as it was. */
  inverse(spectrum: Float64Array, field: Float64Array): void {
    this.transforms++;
    const { nx, ny, columns, rowIn, rowOut, work } = this;
    for (let k = 0; k < columns; k++) {
      this.columnFft.inverseTransform(this.columnOut, spectrum.subarray(2 * k * ny, 2 * (k + 1) * ny));
      work.set(this.columnOut, 2 * k * ny);
    }
    for (let j = 0; j < ny; j += 2) {
      for (let k = 0; k < columns; k++) {
        const at = 2 * (k * ny + j);
        const ar = work[at];
        const ai = work[at + 1];
        const br = work[at + 2];
        const bi = work[at + 3];
        rowIn[2 * k] = ar - bi;
        rowIn[2 * k + 1] = ai + br;
        if (k > 0) {
          rowIn[2 * (nx - k)] = ar + bi;
          rowIn[2 * (nx - k) + 1] = br - ai;
        }
      }
      this.rowFft.inverseTransform(rowOut, rowIn);
      const a = j * nx;
      const b = a + nx;
      for (let i = 0; i < nx; i++) {
        field[a + i] = rowOut[2 * i];
        field[b + i] = rowOut[2 * i + 1];
      }
    }
  }
}

const isPowerOfTwo = (n: number): boolean => n >= 4 && Number.isInteger(Math.log2(n));
