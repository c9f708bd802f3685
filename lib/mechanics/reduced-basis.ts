/**
 * Goods under a load for many stacks of backing at the price of a few: the strains of a few full solves span those of all the others nearly,
 * since the stiffness differs from stack to stack in a handful of numbers. The best mixture of them in the sense of energy (Galerkin) is a
 * small dense system, put together from sums over the sheet that no longer know the stack: Rozza, Huynh & Patera, "Reduced basis
 * approximation and a posteriori error estimation for affinely parametrized elliptic coercive partial differential equations",
 * Arch. Comput. Methods Eng. 15 (2008) 229–275 (from memory).
 */
import type { Shares } from './bearing.js';
import { holdOfSheetBeyond } from './beyond.js';
import { Cholesky } from './cholesky.js';
import type { FieldSolution, FieldVector } from './field.js';
import type { Goods } from './goods.js';
import { type Grid, newTensorField, type TensorField } from './grid.js';
import { NO_STIFFNESS, type PlaneStiffness, plus } from './laminate.js';
import { energyIn, evenProducts, PRODUCTS, weightedMean, weightedProducts } from './strain-products.js';

/** A strain on the whole grid that some displacement has, and that displacement. */
export type BasisVector = Omit<FieldSolution, 'iterations'>;

const UNIT: PlaneStiffness = { m11: 1, m12: 0, m16: 0, m22: 1, m26: 0, m66: 0.5 };
/** Part of its energy below which a vector brings nothing new. */
const SAME = 1e-7;

/** Strain fields on one grid, and the sums over the sheet of their products. */
export class ReducedBasis {
  readonly vectors: BasisVector[] = [];
  /** Row i: products with vectors 0 … i. */
  readonly products: number[][] = [];

  constructor(readonly grid: Grid) {}

  get size(): number {
    return this.vectors.length;
  }

  get cells(): number {
    return this.grid.nx * this.grid.ny;
  }

  /** Takes a vector in, or leaves it where the others make it up already: false then. */
  add(vector: BasisVector): boolean {
    const row = [...this.vectors, vector].flatMap(({ strain }) => evenProducts(vector.strain, strain));
    const lengths = this.lengths(row);
    if (!lengths) return false;
    this.vectors.push(vector);
    this.products.push(row);
    this.orthogonal.push(lengths);
    return true;
  }

  /** Rows of the triangle that makes the vectors orthogonal in goods of unit stiffness. */
  private readonly orthogonal: number[][] = [];

  private lengths(row: readonly number[]): number[] | null {
    const n = this.size;
    const out: number[] = [];
    const whole = energyIn(UNIT, row, PRODUCTS * n);
    let rest = whole;
    for (let j = 0; j < n; j++) {
      let sum = energyIn(UNIT, row, PRODUCTS * j);
      for (let k = 0; k < j; k++) sum -= out[k] * this.orthogonal[j][k];
      out.push(sum / this.orthogonal[j][j]);
      rest -= out[j] ** 2;
    }
    if (!(rest > SAME * whole)) return null;
    out.push(Math.sqrt(rest));
    return out;
  }

  /** Σ factors·vectors on the whole grid: the strain, and what of it is even. */
  mixture(factors: ArrayLike<number>): { strain: TensorField; even: number[] } {
    const strain = newTensorField(this.cells);
    mix(
      this.vectors.map((vector) => vector.strain),
      factors,
      strain,
    );
    const even = [0, 0, 0];
    this.vectors.forEach(({ potential }, v) => {
      for (let c = 0; c < 3; c++) even[c] += factors[v] * potential.even[c];
    });
    return { strain, even };
  }

  /**
   * The same as a displacement; of a basis without vectors, as where no thread pulls, there is none.
   *
   * @param points of the displacement, on which it was solved for
   */
  potential(factors: ArrayLike<number>, points: number): FieldVector {
    const out = { x: new Float64Array(points), y: new Float64Array(points), even: [0, 0, 0] };
    this.vectors.forEach(({ potential: { x, y, even } }, v) => {
      const f = factors[v];
      for (let p = 0; p < x.length; p++) {
        out.x[p] += f * x[p];
        out.y[p] += f * y[p];
      }
      for (let c = 0; c < 3; c++) out.even[c] += f * even[c];
    });
    return out;
  }

  /** Small system of goods that are alike everywhere, the endless sheet beyond them of `beyond`. */
  evenSystem(stiffness: PlaneStiffness, beyond: PlaneStiffness): Cholesky {
    return this.system(beyond, (i, j) => energyIn(stiffness, this.products[i], PRODUCTS * j));
  }

  /** `energy(i, j)` is Σ over the cells of ε(i)·A·ε(j), to be given for j ≤ i. */
  system(beyond: PlaneStiffness, energy: (i: number, j: number) => number): Cholesky {
    const { vectors, cells, grid } = this;
    const n = vectors.length;
    const hold = holdOfSheetBeyond(beyond, grid);
    const matrix = new Float64Array(n * n);
    for (let i = 0; i < n; i++)
      for (let j = 0; j <= i; j++) {
        const [x, y, g] = vectors[i].potential.even;
        const [u, v, h] = vectors[j].potential.even;
        const even = [x * u, y * v, g * h, x * v + y * u, x * h + g * u, y * h + g * v];
        matrix[i * n + j] = energy(i, j) / cells + energyIn(hold, even, 0);
      }
    return new Cholesky(matrix, n);
  }
}

/** out += Σ factors·fields. */
export function mix(fields: readonly TensorField[], factors: ArrayLike<number>, out: TensorField): void {
  for (const key of ['xx', 'yy', 'xy'] as const) {
    const to = out[key];
    let v = 0;
    // Four at a time: a quarter of the passes over what is mixed into.
    for (; v + 3 < fields.length; v += 4) {
      const a = fields[v][key];
      const b = fields[v + 1][key];
      const c = fields[v + 2][key];
      const d = fields[v + 3][key];
      const [fa, fb, fc, fd] = [factors[v], factors[v + 1], factors[v + 2], factors[v + 3]];
      for (let p = 0; p < to.length; p++) to[p] += fa * a[p] + fb * b[p] + fc * c[p] + fd * d[p];
    }
    for (; v < fields.length; v++) {
      const a = fields[v][key];
      const f = factors[v];
      for (let p = 0; p < to.length; p++) to[p] += f * a[p];
    }
  }
}

/** The values of a tensor field at some cells. */
export function gathered({ xx, yy, xy }: TensorField, cells: Int32Array): TensorField {
  const out = newTensorField(cells.length);
  for (let k = 0; k < cells.length; k++) {
    const p = cells[k];
    out.xx[k] = xx[p];
    out.yy[k] = yy[p];
    out.xy[k] = xy[p];
  }
  return out;
}

/** The vectors of a basis at some cells alone; it keeps up with the basis as that grows. */
export class BasisAt {
  private readonly fields: TensorField[] = [];

  constructor(
    private readonly basis: ReducedBasis,
    readonly cells: Int32Array,
  ) {}

  current(): readonly TensorField[] {
    for (let v = this.fields.length; v < this.basis.size; v++)
      this.fields.push(gathered(this.basis.vectors[v].strain, this.cells));
    return this.fields;
  }

  mixture(factors: ArrayLike<number>): TensorField {
    const out = newTensorField(this.cells.length);
    mix(this.current(), factors, out);
    return out;
  }
}

/** Goods as far as the reduced basis tells them apart, N/mm: sums over the sheets by how they bear. */
export interface SharedStiffness {
  readonly fabric: PlaneStiffness;
  readonly whole: PlaneStiffness;
  readonly torn: PlaneStiffness;
}

export function sharedStiffness({ fabric, sheets }: Goods): SharedStiffness {
  let whole = NO_STIFFNESS;
  let torn = NO_STIFFNESS;
  for (const { membrane, perforates } of sheets)
    if (perforates) torn = plus(torn, membrane);
    else whole = plus(whole, membrane);
  return { fabric: fabric.membrane, whole, torn };
}

/** Where no needle point is near, only this is borne, to rounding. */
const UNTACKED = 1e-6;
/** Cells that a rougher look must keep: torn cells count against the sheet, and too few make more of them than the whole has to lose. */
const FEWEST = 500;

/** One way of tacking, over a basis: small systems for any stack on it. */
export class ReducedTacking {
  private readonly tacked: BasisAt;
  private readonly more: { readonly engaged: Float64Array; readonly torn: Float64Array };
  private readonly rows: number[][] = [];
  private readonly evenRows: { engaged: number[]; torn: number[] } = { engaged: [], torn: [] };

  /**
   * @param hooped what the shares are where nothing is tacked
   * @param every look at every so many-th cell alone, for a rougher result, as far as enough cells are left
   */
  constructor(
    private readonly basis: ReducedBasis,
    { engaged, torn }: Shares,
    private readonly hooped: number,
    every = 1,
  ) {
    const all: number[] = [];
    for (let p = 0; p < engaged.length; p++)
      if (engaged[p] - hooped > UNTACKED || torn[p] - hooped < -UNTACKED) all.push(p);
    const step = Math.max(1, Math.min(every, Math.floor(all.length / FEWEST)));
    const cells = all.filter((_, seen) => seen % step === 0);
    this.tacked = new BasisAt(basis, Int32Array.from(cells));
    const above = (share: Float64Array) => Float64Array.from(cells, (p) => step * (share[p] - hooped));
    this.more = { engaged: above(engaged), torn: above(torn) };
  }

  private extend(): void {
    const { basis, more, rows, evenRows } = this;
    const fields = this.tacked.current();
    for (let i = rows.length; i < basis.size; i++) {
      rows.push(
        fields
          .slice(0, i + 1)
          .flatMap((field) => weightedProducts(fields[i], field, more.engaged, more.torn)),
      );
      const { even } = basis.vectors[i].potential;
      for (const kind of ['engaged', 'torn'] as const) {
        const part = weightedMean(fields[i], more[kind], basis.cells);
        evenRows[kind].push(...part.map((mean, c) => mean + this.hooped * even[c]));
      }
    }
  }

  system({ fabric, whole, torn }: SharedStiffness): Cholesky {
    this.extend();
    const { basis, rows, hooped } = this;
    const held = plus(plus(fabric, whole, hooped), torn, hooped);
    return basis.system(
      held,
      (i, j) =>
        energyIn(held, basis.products[i], PRODUCTS * j) +
        energyIn(whole, rows[i], 2 * PRODUCTS * j) +
        energyIn(torn, rows[i], 2 * PRODUCTS * j + PRODUCTS),
    );
  }

  /** Right-hand side for sheets that push with `whole` and `torn` (xx, yy, xy in N/mm) as far as they bear. */
  pushes(whole: readonly number[], torn: readonly number[]): Float64Array {
    this.extend();
    const { engaged, torn: tornRows } = this.evenRows;
    return Float64Array.from({ length: this.basis.size }, (_, i) => {
      let sum = 0;
      for (let c = 0; c < 3; c++) sum += whole[c] * engaged[3 * i + c] + torn[c] * tornRows[3 * i + c];
      return sum;
    });
  }
}
