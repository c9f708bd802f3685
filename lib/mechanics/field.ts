/**
 * Plane-stress equilibrium of goods under a prestress: div(A : ε(u) + N*) = 0 on a rectangle that repeats itself, set in an endless
 * sheet as far as its mean strain goes (see `beyond.ts`).
 *
 * Derivatives are taken between the four corners of a cell, which gives the wave vectors below: F. Willot, "Fourier-based
 * schemes for computing the mechanical response of composites", C. R. Mécanique 343 (2015) 232–245 (from memory). Strains and forces stand
 * in the middle of cells, displacements on their lower left corners.
 *
 * Where the stiffness is the same everywhere one solve per wave vector is exact. Where it differs, the fixed-point iteration on a
 * uniform reference (Moulinec & Suquet, 1998) is sped up by conjugate gradients: Zeman, Vondřejc, Novák & Marek, J. Comput. Phys. 229 (2010) 8065 (from
 * memory); the Green operator of the reference is its preconditioner.
 */

import { holdOfSheetBeyond } from './beyond.js';
import { RealFourier } from './fourier.js';
import { type Grid, newTensorField, type TensorField } from './grid.js';
import { compliance, NO_STIFFNESS, type PlaneStiffness, plus } from './laminate.js';

/** Prestress on a grid, made ready for many solves: its mean (N/mm) and, in Fourier space, the pull it makes on the goods. */
export interface LoadSpectrum {
  readonly mean: readonly [xx: number, yy: number, xy: number];
  /** k·N̂, both components. */
  readonly x: Float64Array;
  readonly y: Float64Array;
}

export interface Displacement {
  /** mm, at the lower left corners of cells, about a mean of zero; the even drawing-in of the whole sheet is in `strain`. */
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Even strain of the whole sheet: ε11, ε22, γ12. */
  readonly strain: readonly [xx: number, yy: number, xy: number];
}

export interface FieldSolution {
  readonly strain: TensorField;
  /** What {@link FieldSolver.displacement} makes the displacement of. */
  readonly potential: FieldVector;
  readonly iterations: number;
}

/** A displacement in Fourier space, v with u = i·v up to half a cell, and the even strain of the whole sheet. */
export interface FieldVector {
  x: Float64Array;
  y: Float64Array;
  even: number[];
}

/** Stiffness that differs from place to place: base + Σ share(x)·part. */
export interface VaryingStiffness {
  readonly base: PlaneStiffness;
  readonly parts: readonly { readonly stiffness: PlaneStiffness; readonly share: Float64Array }[];
  /** Endless sheet about the rectangle; null for a rectangle that repeats itself and draws in freely. */
  readonly beyond: PlaneStiffness | null;
}

interface WorkFields {
  readonly residual: FieldVector;
  readonly better: FieldVector;
  readonly direction: FieldVector;
  readonly image: FieldVector;
  readonly step: TensorField;
  readonly force: TensorField;
  readonly spectra: TensorField;
}

export interface SolveOptions {
  /** Iteration ends when the residual, in the energy of the reference, has fallen to this part of what it was. */
  readonly tolerance: number;
  readonly maxIterations: number;
}

export const SOLVE_OPTIONS: SolveOptions = { tolerance: 1e-4, maxIterations: 300 };

/** Solver for one grid; keeps its wave vectors and transforms from solve to solve. */
export class FieldSolver {
  readonly fourier: RealFourier;
  private readonly kx: Float64Array;
  private readonly ky: Float64Array;

  constructor(readonly grid: Grid) {
    const { nx, ny, cellMm } = grid;
    this.fourier = new RealFourier(nx, ny);
    const { columns } = this.fourier;
    this.kx = new Float64Array(columns * ny);
    this.ky = new Float64Array(columns * ny);
    for (let a = 0; a < columns; a++)
      for (let b = 0; b < ny; b++) {
        const px = (Math.PI * a) / nx;
        const py = (Math.PI * (2 * b <= ny ? b : b - ny)) / ny;
        this.kx[a * ny + b] = (2 / cellMm) * Math.sin(px) * Math.cos(py);
        this.ky[a * ny + b] = (2 / cellMm) * Math.cos(px) * Math.sin(py);
      }
    // Checkerboard of the corners: no cell feels it, so it has no wave vector. Sines and cosines leave 1e-16 there.
    const checker = (columns - 1) * ny + ny / 2;
    this.kx[checker] = 0;
    this.ky[checker] = 0;
  }

  /** Three transforms. The load is kept apart from any stiffness, so one load serves every stack of backing. */
  load(prestress: TensorField): LoadSpectrum {
    const { fourier } = this;
    const xx = fourier.newSpectrum();
    const yy = fourier.newSpectrum();
    const xy = fourier.newSpectrum();
    fourier.forward(prestress.xx, xx);
    fourier.forward(prestress.yy, yy);
    fourier.forward(prestress.xy, xy);
    const cells = this.grid.nx * this.grid.ny;
    const mean = [xx[0] / cells, yy[0] / cells, xy[0] / cells] as const;
    this.contract(xx, yy, xy);
    return { mean, x: xx, y: xy };
  }

  /** One solve per wave vector, exact, and three transforms back. */
  solveUniform(
    stiffness: PlaneStiffness,
    load: LoadSpectrum,
    beyond: PlaneStiffness | null = stiffness,
  ): FieldSolution {
    const x = load.x.slice();
    const y = load.y.slice();
    this.precondition(stiffness, x, y);
    const even = meanStrain(plus(stiffness, this.hold(beyond)), load.mean);
    const strain = newTensorField(this.grid.nx * this.grid.ny);
    const potential = { x, y, even };
    this.strainOf(potential, strain);
    return { strain, potential, iterations: 0 };
  }

  /**
   * @throws Error where the residual has not fallen to the tolerance in the allowed number of iterations.
   */
  solve(stiffness: VaryingStiffness, load: LoadSpectrum, options = SOLVE_OPTIONS): FieldSolution {
    return this.correction(stiffness, load, null, options);
  }

  /**
   * What has to be added to a guess to solve for a load; the tolerance means the same part of the load as in {@link solve}.
   * @param guess its strain, and the even strain of the whole sheet
   * @param goodEnough a guess whose residual is within this is not corrected: no iterations then
   * @throws Error where the residual has not fallen to the tolerance in the allowed number of iterations.
   */
  correction(
    stiffness: VaryingStiffness,
    load: LoadSpectrum,
    guess: { readonly strain: TensorField; readonly even: readonly number[] } | null,
    options: SolveOptions,
    goodEnough = options.tolerance,
  ): FieldSolution {
    const { residual, better, direction, image, step } = this.work;
    const reference = meanStiffness(stiffness);
    const hold = this.hold(stiffness.beyond);
    const held = plus(reference, hold);
    const potential = this.newVector();
    const strain = newTensorField(this.grid.nx * this.grid.ny);
    residual.x.set(load.x);
    residual.y.set(load.y);
    residual.even = load.mean.map((n) => -n);
    const improve = (): number => {
      better.x.set(residual.x);
      better.y.set(residual.y);
      this.precondition(reference, better.x, better.y);
      better.even = meanStrain(
        held,
        residual.even.map((n) => -n),
      );
      return this.product(residual, better);
    };
    let energy = improve();
    const enough = options.tolerance ** 2 * energy;
    if (guess) {
      this.forcesOf(stiffness, guess.strain, image);
      image.even = image.even.map((n, i) => n + apply(hold, guess.even)[i]);
      addScaled(residual, image, -1);
      const whole = energy;
      energy = improve();
      if (energy <= goodEnough ** 2 * whole) return { strain, potential, iterations: 0 };
    }
    direction.x.set(better.x);
    direction.y.set(better.y);
    direction.even = [...better.even];
    let iterations = 0;
    // Not "energy > enough", which a NaN would pass for done.
    while (!(energy <= enough)) {
      if (iterations === options.maxIterations || !Number.isFinite(energy))
        throw new Error(
          `field: not converged after ${iterations} iterations, residual ${Math.sqrt(energy / enough) * options.tolerance}`,
        );
      iterations++;
      this.strainOf(direction, step);
      this.forcesOf(stiffness, step, image);
      image.even = image.even.map((n, i) => n + apply(hold, direction.even)[i]);
      const length = energy / this.product(direction, image);
      addScaled(potential, direction, length);
      addScaled(residual, image, -length);
      accumulate(strain, step, length);
      const next = improve();
      const keep = next / energy;
      energy = next;
      scaleAndAdd(direction, keep, better);
    }
    return { strain, potential, iterations };
  }

  private hold(beyond: PlaneStiffness | null): PlaneStiffness {
    return beyond ? holdOfSheetBeyond(beyond, this.grid) : NO_STIFFNESS;
  }

  private newVector(): FieldVector {
    return { x: this.fourier.newSpectrum(), y: this.fourier.newSpectrum(), even: [0, 0, 0] };
  }

  private workFields: WorkFields | null = null;
  /** Fields that every iteration needs again; made with the first solve. */
  private get work(): WorkFields {
    const { fourier } = this;
    const cells = this.grid.nx * this.grid.ny;
    this.workFields ??= {
      residual: this.newVector(),
      better: this.newVector(),
      direction: this.newVector(),
      image: this.newVector(),
      step: newTensorField(cells),
      force: newTensorField(cells),
      spectra: { xx: fourier.newSpectrum(), yy: fourier.newSpectrum(), xy: fourier.newSpectrum() },
    };
    return this.workFields;
  }

  /** (xx, yy, xy) → (k·N)x in `xx` and (k·N)y in `xy`. */
  private contract(xx: Float64Array, yy: Float64Array, xy: Float64Array): void {
    const { kx, ky } = this;
    for (let m = 0; m < kx.length; m++) {
      const p = 2 * m;
      const a = kx[m];
      const b = ky[m];
      const re = xy[p];
      const im = xy[p + 1];
      xx[p] = a * xx[p] + b * re;
      xx[p + 1] = a * xx[p + 1] + b * im;
      xy[p] = a * re + b * yy[p];
      xy[p + 1] = a * im + b * yy[p + 1];
    }
  }

  /** Applies the inverse of the acoustic matrix k·A·k, in place. */
  private precondition(s: PlaneStiffness, x: Float64Array, y: Float64Array): void {
    const { kx, ky } = this;
    for (let m = 0; m < kx.length; m++) {
      const a = kx[m];
      const b = ky[m];
      const p = 2 * m;
      if (a === 0 && b === 0) {
        x[p] = x[p + 1] = y[p] = y[p + 1] = 0;
        continue;
      }
      const aa = a * a;
      const ab = a * b;
      const bb = b * b;
      const k11 = s.m11 * aa + 2 * s.m16 * ab + s.m66 * bb;
      const k12 = s.m16 * aa + (s.m12 + s.m66) * ab + s.m26 * bb;
      const k22 = s.m66 * aa + 2 * s.m26 * ab + s.m22 * bb;
      const inverse = 1 / (k11 * k22 - k12 * k12);
      const xr = x[p];
      const xi = x[p + 1];
      const yr = y[p];
      const yi = y[p + 1];
      x[p] = (k22 * xr - k12 * yr) * inverse;
      x[p + 1] = (k22 * xi - k12 * yi) * inverse;
      y[p] = (k11 * yr - k12 * xr) * inverse;
      y[p + 1] = (k11 * yi - k12 * xi) * inverse;
    }
  }

  /** ε̂ = −sym(k ⊗ v), back in space, with the even strain added. */
  private strainOf({ x, y, even }: FieldVector, out: TensorField): void {
    const { kx, ky, fourier } = this;
    const { xx, yy, xy } = this.work.spectra;
    for (let m = 0; m < kx.length; m++) {
      const p = 2 * m;
      const a = -kx[m];
      const b = -ky[m];
      xx[p] = a * x[p];
      xx[p + 1] = a * x[p + 1];
      yy[p] = b * y[p];
      yy[p + 1] = b * y[p + 1];
      xy[p] = a * y[p] + b * x[p];
      xy[p + 1] = a * y[p + 1] + b * x[p + 1];
    }
    const cells = this.grid.nx * this.grid.ny;
    xx[0] = even[0] * cells;
    yy[0] = even[1] * cells;
    xy[0] = even[2] * cells;
    fourier.inverse(xx, out.xx);
    fourier.inverse(yy, out.yy);
    fourier.inverse(xy, out.xy);
  }

  /** Pull of the forces A(x) : ε on the goods, and their mean. */
  private forcesOf(stiffness: VaryingStiffness, strain: TensorField, out: FieldVector): void {
    const { fourier, kx, ky } = this;
    const { force, spectra } = this.work;
    const { xx, yy, xy } = spectra;
    forcesAt(stiffness, strain, force);
    fourier.forward(force.xx, xx);
    fourier.forward(force.yy, yy);
    fourier.forward(force.xy, xy);
    const cells = this.grid.nx * this.grid.ny;
    out.even = [xx[0] / cells, yy[0] / cells, xy[0] / cells];
    for (let m = 0; m < kx.length; m++) {
      const p = 2 * m;
      const a = -kx[m];
      const b = -ky[m];
      out.x[p] = a * xx[p] + b * xy[p];
      out.x[p + 1] = a * xx[p + 1] + b * xy[p + 1];
      out.y[p] = a * xy[p] + b * yy[p];
      out.y[p + 1] = a * xy[p + 1] + b * yy[p + 1];
    }
  }

  /** Mean over the sheet of the product of two fields (Parseval), with that of the even parts. */
  private product(a: FieldVector, b: FieldVector): number {
    const { ny, nx } = this.grid;
    const last = 2 * ny * (this.fourier.columns - 1);
    // Columns 0 and nx/2 are their own conjugates; the others stand for two.
    let once = 0;
    let twice = 0;
    for (let p = 0; p < a.x.length; p++) {
      const value = a.x[p] * b.x[p] + a.y[p] * b.y[p];
      if (p < 2 * ny || p >= last) once += value;
      else twice += value;
    }
    const even = a.even[0] * b.even[0] + a.even[1] * b.even[1] + a.even[2] * b.even[2];
    return (once + 2 * twice) / (nx * ny) ** 2 + even;
  }

  /** Two transforms: u = i·v turned back by half a cell, on the corners. */
  displacement({ potential }: Pick<FieldSolution, 'potential'>): Displacement {
    const { x, y, even } = potential;
    const { fourier, grid } = this;
    const { nx, ny } = grid;
    const out = { x: fourier.newField(), y: fourier.newField() };
    const turned = fourier.newSpectrum();
    for (const axis of ['x', 'y'] as const) {
      const from = axis === 'x' ? x : y;
      for (let a = 0, m = 0; a < fourier.columns; a++)
        for (let b = 0; b < ny; b++, m++) {
          const phase = -Math.PI * (a / nx + (2 * b <= ny ? b : b - ny) / ny);
          const c = Math.cos(phase);
          const s = Math.sin(phase);
          turned[2 * m] = -(s * from[2 * m] + c * from[2 * m + 1]);
          turned[2 * m + 1] = c * from[2 * m] - s * from[2 * m + 1];
        }
      fourier.inverse(turned, out[axis]);
    }
    return { ...out, strain: [even[0], even[1], even[2]] };
  }
}

function meanStiffness({ base, parts }: VaryingStiffness): PlaneStiffness {
  let mean = base;
  for (const { stiffness, share } of parts) {
    let sum = 0;
    for (let p = 0; p < share.length; p++) sum += share[p];
    mean = plus(mean, stiffness, sum / share.length);
  }
  return mean;
}

const apply = (m: PlaneStiffness, [a, b, g]: readonly number[]): number[] => [
  m.m11 * a + m.m12 * b + m.m16 * g,
  m.m12 * a + m.m22 * b + m.m26 * g,
  m.m16 * a + m.m26 * b + m.m66 * g,
];

/** Strain that frees a sheet of even stiffness from a mean prestress. */
function meanStrain(stiffness: PlaneStiffness, mean: readonly number[]): number[] {
  const { s11, s12, s16, s22, s26, s66 } = compliance(stiffness);
  const [a, b, c] = mean;
  return [-(s11 * a + s12 * b + s16 * c), -(s12 * a + s22 * b + s26 * c), -(s16 * a + s26 * b + s66 * c)];
}

/** N = (base + Σ share·part) : ε at every cell. */
function forcesAt({ base, parts }: VaryingStiffness, strain: TensorField, force: TensorField): void {
  const cells = strain.xx.length;
  for (let p = 0; p < cells; p++) {
    const a = strain.xx[p];
    const b = strain.yy[p];
    const g = strain.xy[p];
    force.xx[p] = base.m11 * a + base.m12 * b + base.m16 * g;
    force.yy[p] = base.m12 * a + base.m22 * b + base.m26 * g;
    force.xy[p] = base.m16 * a + base.m26 * b + base.m66 * g;
  }
  for (const { stiffness: k, share } of parts)
    for (let p = 0; p < cells; p++) {
      const a = strain.xx[p] * share[p];
      const b = strain.yy[p] * share[p];
      const g = strain.xy[p] * share[p];
      force.xx[p] += k.m11 * a + k.m12 * b + k.m16 * g;
      force.yy[p] += k.m12 * a + k.m22 * b + k.m26 * g;
      force.xy[p] += k.m16 * a + k.m26 * b + k.m66 * g;
    }
}

function addScaled(to: FieldVector, from: FieldVector, factor: number): void {
  for (let p = 0; p < to.x.length; p++) {
    to.x[p] += factor * from.x[p];
    to.y[p] += factor * from.y[p];
  }
  to.even = to.even.map((value, i) => value + factor * from.even[i]);
}

function scaleAndAdd(to: FieldVector, factor: number, from: FieldVector): void {
  for (let p = 0; p < to.x.length; p++) {
    to.x[p] = factor * to.x[p] + from.x[p];
    to.y[p] = factor * to.y[p] + from.y[p];
  }
  to.even = to.even.map((value, i) => factor * value + from.even[i]);
}

function accumulate(to: TensorField, from: TensorField, factor: number): void {
  for (let p = 0; p < to.xx.length; p++) {
    to.xx[p] += factor * from.xx[p];
    to.yy[p] += factor * from.yy[p];
    to.xy[p] += factor * from.xy[p];
  }
}
