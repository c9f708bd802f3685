/**
 * The matrix of two membranes joined by springs, on the nodes of a mesh. A node has four unknowns (movement of the fabric along x and y, then
 * that of the backing) and to do with itself and its eight neighbors alone. Between two nodes stand 2 × 2 numbers of the fabric, 2 × 2 of the
 * backing and one of the springs, which pull the layers together alike along x and y. Numbers have 32 bits: a ten-millionth of a stiffness is far
 * below what is known of it, and they fill most of the memory of a solve. Vectors have 64, as its steps add up.
 */
import type { PlaneStiffness } from './laminate.js';
import type { Mesh } from './mesh.js';
import { SolveRoom } from './solve-room.js';

/** Unknowns of a node in a vector: node p has those from 4p on. */
export const UNKNOWNS = 4;
/** Numbers between two nodes: xx xy yx yy of the fabric, the same of the backing, springs. */
export const PER_PAIR = 9;
export const BACKING = 4;
export const SPRING = 8;
/** Pairs of a node: with its neighbors and with itself. */
export const PAIRS = 9;
/** Numbers of a row of nodes' pairs. */
export const PER_NODE = PAIRS * PER_PAIR;

export interface LayerMatrix {
  readonly nx: number;
  readonly ny: number;
  /** 1 for nodes that can move. All others have rows and columns of zeros; those at the border never can. */
  readonly free: Uint8Array;
  /** Numbers of the free nodes, rising. */
  readonly nodes: Int32Array;
  /** Pair of node p with the neighbor (di, dj): from {@link entryOf} on. */
  readonly entries: Float32Array;
}

/** Where the numbers between node p and its neighbor (di, dj) begin; di and dj are −1, 0 or 1. */
export const entryOf = (p: number, di: number, dj: number): number =>
  p * PER_NODE + ((dj + 1) * 3 + di + 1) * PER_PAIR;

export function newLayerMatrix({ nx, ny }: Mesh, free: Uint8Array, room = new SolveRoom()): LayerMatrix {
  const nodes = Int32Array.from(free.keys()).filter((p) => free[p] === 1);
  return { nx, ny, free, nodes, entries: room.float32(nx * ny * PER_NODE) };
}

/** Steps from a node's number to those of its neighbors and itself, in the order of their entries. */
export const neighborSteps = (nx: number): readonly number[] => [
  -nx - 1,
  -nx,
  -nx + 1,
  -1,
  0,
  1,
  nx - 1,
  nx,
  nx + 1,
];

/** Entries of a stiffness that differs from element to element, six numbers each: 11, 12, 16, 22, 26, 66. */
export const SIX = 6;

/** Six numbers of the same stiffness for every element, times `factor` of each. */
export function addStiffness(
  six: Float64Array,
  { m11, m12, m16, m22, m26, m66 }: PlaneStiffness,
  factor: (element: number) => number,
): void {
  for (let e = 0, k = 0; k < six.length; e++) {
    const f = factor(e);
    six[k++] += f * m11;
    six[k++] += f * m12;
    six[k++] += f * m16;
    six[k++] += f * m22;
    six[k++] += f * m26;
    six[k++] += f * m66;
  }
}

/** Elements of a mesh: (i, j) has the number j·(nx − 1) + i and its lower left corner at node (i, j). */
export const elementsOf = ({ nx, ny }: Pick<Mesh, 'nx' | 'ny'>): number => (nx - 1) * (ny - 1);

/**
 * Adds a membrane of bilinear elements, integrated in full: ∫ε:A:ε over each.
 * @param layer 0 for the fabric, {@link BACKING} for the backing
 * @param six of every element, N/mm
 */
export function addMembrane(
  matrix: LayerMatrix,
  { x, y }: Pick<Mesh, 'x' | 'y'>,
  layer: number,
  six: Float64Array,
): void {
  const { nx, ny } = matrix;
  for (let j = 0, k = 0; j < ny - 1; j++)
    for (let i = 0; i < nx - 1; i++, k += SIX) {
      if (six[k] === 0 && six[k + 3] === 0) continue;
      addElement(matrix, j * nx + i, x[i + 1] - x[i], y[j + 1] - y[j], layer, six, k);
    }
}

function addElement(
  { nx, free, entries }: LayerMatrix,
  corner: number,
  width: number,
  height: number,
  layer: number,
  six: Float64Array,
  k: number,
): void {
  for (let a = 0; a < 4; a++) {
    const ax = a & 1;
    const ay = a >> 1;
    const p = corner + ax + ay * nx;
    if (free[p] === 0) continue;
    for (let b = 0; b < 4; b++) {
      const bx = b & 1;
      const by = b >> 1;
      if (free[corner + bx + by * nx] === 0) continue;
      // Integrals of products of the derivatives of two corners' shapes, along x and y.
      const xx = (((ax === bx ? 1 : -1) / width) * height) / (ay === by ? 3 : 6);
      const yy = (((ay === by ? 1 : -1) / height) * width) / (ax === bx ? 3 : 6);
      const xy = ax === by ? 0.25 : -0.25;
      const yx = ay === bx ? 0.25 : -0.25;
      const to = entryOf(p, bx - ax, by - ay) + layer;
      entries[to] += six[k] * xx + six[k + 2] * (xy + yx) + six[k + 5] * yy;
      entries[to + 1] += six[k + 1] * xy + six[k + 2] * xx + six[k + 4] * yy + six[k + 5] * yx;
      entries[to + 2] += six[k + 1] * yx + six[k + 2] * xx + six[k + 4] * yy + six[k + 5] * xy;
      entries[to + 3] += six[k + 5] * xx + six[k + 4] * (xy + yx) + six[k + 3] * yy;
    }
  }
}

/** Adds springs, {@link PAIRS} numbers a node, between nodes that can move. */
export function addSprings(matrix: LayerMatrix, springs: Float32Array, factor: number): void {
  const { nx, nodes, free, entries } = matrix;
  const steps = neighborSteps(nx);
  for (let m = 0; m < nodes.length; m++) {
    const p = nodes[m];
    for (let n = 0; n < PAIRS; n++) {
      const s = springs[p * PAIRS + n];
      if (s !== 0 && free[p + steps[n]] === 1) entries[p * PER_NODE + n * PER_PAIR + SPRING] += factor * s;
    }
  }
}

/** Sets the springs to none. */
export function clearSprings({ entries }: LayerMatrix): void {
  for (let k = SPRING; k < entries.length; k += PER_PAIR) entries[k] = 0;
}

/**
 * Forces of a movement: out = matrix · u. Nodes that cannot move get none.
 * @param joined false leaves the springs between the layers out
 */
export function applyMatrix(
  { nx, nodes, entries }: LayerMatrix,
  u: Float64Array,
  out: Float64Array,
  joined = true,
): void {
  const springs = joined ? 1 : 0;
  const steps = neighborSteps(nx);
  for (let m = 0; m < nodes.length; m++) {
    const p = nodes[m];
    let k = p * PER_NODE;
    let gx = 0;
    let gy = 0;
    let bx = 0;
    let by = 0;
    for (let n = 0; n < PAIRS; n++, k += PER_PAIR) {
      const q = UNKNOWNS * (p + steps[n]);
      const ux = u[q];
      const uy = u[q + 1];
      const vx = u[q + 2];
      const vy = u[q + 3];
      const s = springs * entries[k + SPRING];
      const dx = s * (ux - vx);
      const dy = s * (uy - vy);
      gx += entries[k] * ux + entries[k + 1] * uy + dx;
      gy += entries[k + 2] * ux + entries[k + 3] * uy + dy;
      bx += entries[k + 4] * vx + entries[k + 5] * vy - dx;
      by += entries[k + 6] * vx + entries[k + 7] * vy - dy;
    }
    const q = UNKNOWNS * p;
    out[q] = gx;
    out[q + 1] = gy;
    out[q + 2] = bx;
    out[q + 3] = by;
  }
}
