/**
 * Kaw, *Mechanics of Composite Materials*, 2nd ed., ch. 2 and 4: graphite/epoxy lamina and laminate examples. Page numbers from memory;
 * the digits past the printed ones were computed independently of this project. Tolerance 1e-5 relative against those digits.
 */
import { describe, expect, it } from 'vitest';
import {
  compliance,
  lamina,
  NO_STIFFNESS,
  type PlaneStiffness,
  plus,
  rotated,
  stripStiffness,
} from '../../lib/mechanics/laminate.js';

const PLY = { along: 181, across: 10.3, shear: 7.17, poisson: 0.28 };
const close = (actual: number, published: number) =>
  expect(Math.abs(actual - published)).toBeLessThanOrEqual(1e-5 * Math.max(Math.abs(published), 1));

function same(actual: PlaneStiffness, published: Partial<PlaneStiffness>, scale = 1) {
  for (const [key, value] of Object.entries(published))
    close(actual[key as keyof PlaneStiffness] / scale, value);
}

const stack = (angles: readonly number[], thickness: number) =>
  angles.reduce((sum, angle) => plus(sum, rotated(lamina(PLY), angle), thickness), NO_STIFFNESS);

describe('lamina', () => {
  it('has the reduced stiffness of the worked example (GPa)', () => {
    same(lamina(PLY), { m11: 181.811, m22: 10.3462, m12: 2.89692, m66: 7.17, m16: 0, m26: 0 });
  });

  it('turns to 60° as in the worked example, and to 30° with the axes exchanged', () => {
    const at60 = rotated(lamina(PLY), 60);
    same(at60, { m11: 23.6468, m12: 32.4626, m16: 20.0535, m22: 109.379, m26: 54.193, m66: 36.7356 });
    const at30 = rotated(lamina(PLY), 30);
    same(at30, { m11: at60.m22, m22: at60.m11, m16: at60.m26, m26: at60.m16, m12: at60.m12, m66: at60.m66 });
  });

  it('gives the engineering constants at 60°', () => {
    const { s11, s12, s22, s66 } = compliance(rotated(lamina(PLY), 60));
    close(1 / s11, 12.4181);
    close(1 / s22, 28.7801);
    close(1 / s66, 8.76062);
    close(-s12 / s11, 0.097826);
  });

  it.each([
    [30, 28.7801],
    [45, 16.7372],
    [60, 12.4181],
  ])('a strip cut at %d° has the stiffness of eq. 2.112', (angle, published) => {
    const c = Math.cos((angle * Math.PI) / 180);
    const s = Math.sin((angle * Math.PI) / 180);
    close(stripStiffness(compliance(lamina(PLY)), c * c, s * c), published);
  });

  it('refuses constants of no stable material', () => {
    expect(() => lamina({ ...PLY, poisson: 5 })).toThrow(RangeError);
    expect(() => lamina({ ...PLY, shear: 0 })).toThrow(RangeError);
    expect(() => lamina({ ...PLY, along: Number.NaN })).toThrow(RangeError);
  });
});

describe('laminate', () => {
  it('[0/30/−45] of 5 mm plies has the A matrix of the worked example (GN/m)', () => {
    const published = {
      m11: 1.73924,
      m12: 0.388386,
      m16: 0.0566337,
      m22: 0.453254,
      m26: -0.114064,
      m66: 0.452483,
    };
    same(stack([0, 30, -45], 0.005), published);
  });

  it.each([
    ['[0/±60]', [0, 60, -60]],
    ['[0/90/±45]', [0, 90, 45, -45]],
  ])('%s is the same in all directions', (_, angles) => {
    const a = stack(angles, 1);
    const published = { m11: 76.3682, m22: 76.3682, m12: 22.6074, m66: 26.8804, m16: 0, m26: 0 };
    same(a, published, angles.length);
    for (const turn of [10, 37, 71]) same(rotated(a, turn), published, angles.length);
    const { s11, s12 } = compliance(a);
    close(1 / s11 / angles.length, 69.6757);
    close(-s12 / s11, 0.296031);
  });

  it('keeps the invariants of a lamina however it is turned', () => {
    // Tsai & Pagano: U1 = (3Q11 + 3Q22 + 2Q12 + 4Q66)/8 and so on (Kaw, eq. 2.132).
    for (const angle of [0, 25, 60, 90]) {
      const q = rotated(lamina(PLY), angle);
      close((3 * q.m11 + 3 * q.m22 + 2 * q.m12 + 4 * q.m66) / 8, 76.3682);
      close((q.m11 + q.m22 + 6 * q.m12 - 4 * q.m66) / 8, 22.6074);
      close((q.m11 + q.m22 - 2 * q.m12 + 4 * q.m66) / 8, 26.8804);
    }
    const q = lamina(PLY);
    close((q.m11 - q.m22) / 2, 85.7325);
    close((q.m11 + q.m22 - 2 * q.m12 - 4 * q.m66) / 8, 19.7104);
  });
});
