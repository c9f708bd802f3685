/** Loads as a reduced basis feels them: the right-hand sides of its small systems. */
import type { TensorField } from './grid.js';
import { BasisAt, type ReducedBasis } from './reduced-basis.js';

function loadedCells({ xx, yy, xy }: TensorField): Int32Array {
  const cells: number[] = [];
  for (let p = 0; p < xx.length; p++) if (xx[p] !== 0 || yy[p] !== 0 || xy[p] !== 0) cells.push(p);
  return Int32Array.from(cells);
}

/** Work of a prestress in the strain of every vector, cell by cell; keeps up with the basis. */
class Works {
  private readonly at: BasisAt;
  private readonly works: Float64Array[] = [];
  readonly cells: Int32Array;

  constructor(
    basis: ReducedBasis,
    private readonly prestress: TensorField,
  ) {
    this.cells = loadedCells(prestress);
    this.at = new BasisAt(basis, this.cells);
  }

  current(): readonly Float64Array[] {
    const { cells, works } = this;
    const { xx, yy, xy } = this.prestress;
    const fields = this.at.current();
    for (let v = works.length; v < fields.length; v++) {
      const { xx: a, yy: b, xy: g } = fields[v];
      const work = new Float64Array(cells.length);
      for (let k = 0; k < work.length; k++) {
        const p = cells[k];
        work[k] = xx[p] * a[k] + yy[p] * b[k] + xy[p] * g[k];
      }
      works.push(work);
    }
    return works;
  }
}

/** A prestress that is the same for every stack. */
export class ReducedLoad {
  private readonly works: Works;
  private readonly sums: number[] = [];

  constructor(
    private readonly basis: ReducedBasis,
    prestress: TensorField,
  ) {
    this.works = new Works(basis, prestress);
  }

  right(): readonly number[] {
    const works = this.works.current();
    for (let v = this.sums.length; v < works.length; v++)
      this.sums.push(-works[v].reduce((sum, w) => sum + w, 0) / this.basis.cells);
    return this.sums;
  }
}

/** Points between which the thread's drawing-in is interpolated over the stiffness of the goods: good to 1e-5 from 0.3 to 100 N/mm. */
const KNOTS = 11;

/** The prestress of a thread that draws in, as in {@link launderedPrestress}: it depends on the goods by one stiffness. */
export class ReducedDrawingIn {
  private readonly works: Works;
  /** EA of the threads over a mm, by loaded cell. */
  private readonly thread: Float64Array;
  private readonly knots: number[];
  private readonly values: number[][] = [];

  /**
   * @param perTension EA/T0
   * @param springs least and greatest stiffness of the goods to make ready for, N/mm
   */
  constructor(
    private readonly basis: ReducedBasis,
    prestress: TensorField,
    perTension: number,
    springs: readonly [number, number],
  ) {
    this.works = new Works(basis, prestress);
    this.thread = Float64Array.from(
      this.works.cells,
      (p) => perTension * (prestress.xx[p] + prestress.yy[p]),
    );
    this.perTension = perTension;
    const [low, high] = springs.map(Math.log);
    this.knots = Array.from(
      { length: KNOTS },
      (_, k) => (low + high) / 2 - ((high - low) / 2) * Math.cos((Math.PI * k) / (KNOTS - 1)),
    );
  }

  private readonly perTension: number;

  /** Right-hand side when the thread draws in by `shrink`, a part of one, on goods of `spring` N/mm. */
  right(spring: number, shrink: number): number[] {
    const works = this.works.current();
    const { knots, values } = this;
    for (let v = values.length; v < works.length; v++)
      values.push(knots.map((knot) => this.sum(works[v], Math.exp(knot))));
    const x = Math.log(spring);
    const inside = x >= knots[0] && x <= knots[KNOTS - 1];
    return works.map(
      (work, v) => shrink * (inside ? interpolated(knots, values[v], x) : this.sum(work, spring)),
    );
  }

  private sum(work: Float64Array, spring: number): number {
    const { thread } = this;
    let sum = 0;
    for (let k = 0; k < work.length; k++) sum += work[k] / (spring + thread[k]);
    return (-sum * this.perTension * spring) / this.basis.cells;
  }
}

/** Polynomial through values at Chebyshev points, barycentric (Berrut & Trefethen, SIAM Review 46 (2004) 501; from memory). */
function interpolated(knots: readonly number[], values: readonly number[], x: number): number {
  let above = 0;
  let below = 0;
  for (let k = 0; k < knots.length; k++) {
    if (x === knots[k]) return values[k];
    const end = k === 0 || k === knots.length - 1;
    const weight = ((k % 2 ? -1 : 1) * (end ? 0.5 : 1)) / (x - knots[k]);
    above += weight * values[k];
    below += weight;
  }
  return above / below;
}
