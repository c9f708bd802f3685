/**
 * Energies of strains in any plane stiffness. ε·M·ε' is linear in the six entries of M, so the sums over the sheet of six products
 * of the two strains serve every stiffness.
 */
import type { TensorField } from './grid.js';
import type { PlaneStiffness } from './laminate.js';

/** Products kept for a pair of strains: 11, 22, 66, 12, 16, 26. */
export const PRODUCTS = 6;

/** Σ ε·M·ε' from the six products at `at`. */
export const energyIn = (m: PlaneStiffness, products: ArrayLike<number>, at: number): number =>
  m.m11 * products[at] +
  m.m22 * products[at + 1] +
  m.m66 * products[at + 2] +
  m.m12 * products[at + 3] +
  m.m16 * products[at + 4] +
  m.m26 * products[at + 5];

/** The six products of two strains, summed over all cells. */
export function evenProducts(a: TensorField, b: TensorField): number[] {
  const [axx, ayy, axy, bxx, byy, bxy] = [a.xx, a.yy, a.xy, b.xx, b.yy, b.xy];
  let [s11, s22, s66, s12, s16, s26] = [0, 0, 0, 0, 0, 0];
  for (let p = 0; p < axx.length; p++) {
    const x = axx[p];
    const y = ayy[p];
    const g = axy[p];
    const u = bxx[p];
    const v = byy[p];
    const h = bxy[p];
    s11 += x * u;
    s22 += y * v;
    s66 += g * h;
    s12 += x * v + y * u;
    s16 += x * h + g * u;
    s26 += y * h + g * v;
  }
  return [s11, s22, s66, s12, s16, s26];
}

/** The same with two weights a cell: six sums with the first, then six with the second. */
export function weightedProducts(
  a: TensorField,
  b: TensorField,
  first: Float64Array,
  second: Float64Array,
): number[] {
  const [axx, ayy, axy, bxx, byy, bxy] = [a.xx, a.yy, a.xy, b.xx, b.yy, b.xy];
  let [s11, s22, s66, s12, s16, s26] = [0, 0, 0, 0, 0, 0];
  let [t11, t22, t66, t12, t16, t26] = [0, 0, 0, 0, 0, 0];
  for (let p = 0; p < axx.length; p++) {
    const x = axx[p];
    const y = ayy[p];
    const g = axy[p];
    const u = bxx[p];
    const v = byy[p];
    const h = bxy[p];
    const w = first[p];
    const z = second[p];
    const p11 = x * u;
    const p22 = y * v;
    const p66 = g * h;
    const p12 = x * v + y * u;
    const p16 = x * h + g * u;
    const p26 = y * h + g * v;
    s11 += w * p11;
    s22 += w * p22;
    s66 += w * p66;
    s12 += w * p12;
    s16 += w * p16;
    s26 += w * p26;
    t11 += z * p11;
    t22 += z * p22;
    t66 += z * p66;
    t12 += z * p12;
    t16 += z * p16;
    t26 += z * p26;
  }
  return [s11, s22, s66, s12, s16, s26, t11, t22, t66, t12, t16, t26];
}

/** Sums of a strain with a weight a cell, per cell of the sheet. */
export function weightedMean({ xx, yy, xy }: TensorField, weight: Float64Array, cells: number): number[] {
  let [a, b, g] = [0, 0, 0];
  for (let p = 0; p < weight.length; p++) {
    a += weight[p] * xx[p];
    b += weight[p] * yy[p];
    g += weight[p] * xy[p];
  }
  return [a / cells, b / cells, g / cells];
}
