import { SolveRoom } from './solve-room.js';

export interface SolveOptions {
  /** The error left in the sense of energy, as the preconditioner sees it, as a part of that of no movement at all. */
  readonly tolerance: number;
  readonly maxIterations: number;
  /** What the solve works in; room of its own without it. */
  readonly room?: SolveRoom;
}

/** Wrinkles want some ten-thousandths; a hundredth is enough for pull-in. */
export const SOLVE_OPTIONS: SolveOptions = {
  tolerance: 7e-4,
  maxIterations: 1000,
};

/** Writes matrix · u, or an approximate inverse times u, to `out`. */
export type Apply = (u: Float64Array, out: Float64Array) => void;

/** A solution, and what it takes to go on from it. */
export interface Solution {
  readonly movement: Float64Array;
  /** Of the whole force, as the preconditioner saw it. */
  readonly energy: number;
}

/**
 * Conjugate gradients with a preconditioner (Golub & Van Loan, *Matrix Computations*, from memory).
 *
 * @param apply a matrix that is symmetric and positive definite on what is not held
 * @param improve a symmetric approximate inverse
 * @param force where there is none to hold, as much as the matrix can answer
 * @param start the solution of a problem much like this one; else no movement
 * @throws Error where it does not converge; that is a defect, or a number that is none
 */
export function conjugateGradients(
  apply: Apply,
  improve: Apply,
  force: Float64Array,
  options: SolveOptions = SOLVE_OPTIONS,
  start?: Solution,
): Solution {
  const { room = new SolveRoom() } = options;
  const u = start ? start.movement.slice() : new Float64Array(force.length);
  const vectors = Array.from({ length: 4 }, () => room.float64(force.length));
  const energy = solveFor(apply, improve, force, options, { u, vectors, start });
  room.giveBack(...vectors);
  return { movement: u, energy };
}

function solveFor(
  apply: Apply,
  improve: Apply,
  force: Float64Array,
  { tolerance, maxIterations }: SolveOptions,
  {
    u,
    vectors: [r, z, q, d],
    start,
  }: { u: Float64Array; vectors: readonly Float64Array[]; start?: Solution },
): number {
  const n = force.length;
  r.set(force);
  if (start) {
    apply(u, q);
    for (let k = 0; k < n; k++) r[k] -= q[k];
  }
  improve(r, z);
  d.set(z);
  let rz = dot(r, z);
  const energy = Math.max(rz, start?.energy ?? 0);
  const enough = energy * tolerance * tolerance;
  if (rz <= enough) return energy;
  for (let iterations = 1; iterations <= maxIterations; iterations++) {
    apply(d, q);
    const step = rz / dot(d, q);
    for (let k = 0; k < n; k++) {
      u[k] += step * d[k];
      r[k] -= step * q[k];
    }
    improve(r, z);
    const next = dot(r, z);
    if (next <= enough) return energy;
    const turn = next / rz;
    rz = next;
    for (let k = 0; k < n; k++) d[k] = z[k] + turn * d[k];
  }
  throw new Error(
    `layers: not converged after ${maxIterations} iterations (${Math.sqrt(rz / enough)} times as far off as allowed)`,
  );
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += a[k] * b[k];
  return sum;
}
