/**
 * Buckling: Timoshenko & Gere, *Theory of Elastic Stability*; Gerard & Becker, NACA TN 3781, 1957 (coefficients from memory, each solved
 * again here or independently). Wrinkles: the elastica and the exact arc (computed independently); Cerda & Mahadevan, Phys. Rev. Lett. 90,
 * 074302 (2003) (abstract seen, formulae from memory and derived again).
 */
import { describe, expect, it } from 'vitest';
import type { PlaneStiffness } from '../../lib/mechanics/laminate.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { criticalStrain, halfWave, plateBending, wrinkleHeight } from '../../lib/mechanics/wrinkle.js';

/** Least root of `f` above `from` by stepping and halving. */
function root(f: (x: number) => number, from: number, step: number): number {
  let a = from;
  while (f(a) * f(a + step) > 0) a += step;
  let b = a + step;
  for (let i = 0; i < 60; i++) {
    const m = (a + b) / 2;
    if (f(a) * f(m) > 0) a = m;
    else b = m;
  }
  return a;
}

describe('threshold', () => {
  it('is that of a strip: pinned π²D/L², clamped 4π²D/L²', () => {
    // D 0.005 N·mm, E 0.5 N/mm, L 10 mm. Euler: N = π²·0.005/100 = 4.9348e-4 N/mm.
    expect(criticalStrain(1, 0.005, 0.5, 10) * 0.5).toBeCloseTo(4.9348e-4, 9);
    expect(criticalStrain(4, 0.005, 0.5, 10) * 0.5).toBeCloseTo(1.97392e-3, 8);
  });

  it('formability: F 0.25 mm² in % units is a buckling strain of 0.617 % at 2 mm, 0.0987 % at 5 mm, 0.0247 % at 10 mm', () => {
    // B/C = F/100 with k = 1 (FAST instrument definition, from memory).
    for (const [span, percent] of [
      [2, 0.617],
      [5, 0.0987],
      [10, 0.0247],
    ])
      expect(100 * criticalStrain(1, 0.0025, 1, span)).toBeCloseTo(percent, 3);
  });

  it('uses k between those of long plates with edges free to turn, 4.000, and held, 6.971', () => {
    // Free to turn: least over the half wave m of (m + 1/m)².
    const free = Math.min(
      ...Array.from({ length: 2000 }, (_, i) => (0.5 + i / 2000 + 1 / (0.5 + i / 2000)) ** 2),
    );
    expect(free).toBeCloseTo(4, 4);
    // Held: w = f(y)·sin(πmx/b), even f, α·tanh(α/2) + β·tan(β/2) = 0 with α², β² = π²m(√k ± m); least over m.
    const heldAt = (m: number) => {
      const f = (k: number) => {
        const alpha = Math.PI * Math.sqrt(m * (Math.sqrt(k) + m));
        const beta = Math.PI * Math.sqrt(m * (Math.sqrt(k) - m));
        // Multiplied by the cosine, which has no poles.
        return alpha * Math.tanh(alpha / 2) * Math.cos(beta / 2) + beta * Math.sin(beta / 2);
      };
      return root(f, m * m + 1e-6, 0.01);
    };
    const held = Math.min(...Array.from({ length: 81 }, (_, i) => heldAt(1.1 + i / 100)));
    expect(held).toBeCloseTo(6.971, 2);
    const { low, value, high } = PARAMETERS.threshold;
    expect(low).toBe(4);
    expect(high).toBe(7);
    expect(value).toBeGreaterThanOrEqual(free);
    expect(value).toBeLessThanOrEqual(held);
  });

  it('is that of the long orthotropic plate: 0.58352 N/m and a half wave of 25.149 mm', () => {
    // D11/D22/D12/D66 = 10/4/1.5/2 µN·m, b = 20 mm.
    const d: PlaneStiffness = { m11: 0.01, m22: 0.004, m12: 0.0015, m66: 0.002, m16: 0, m26: 0 };
    expect(criticalStrain(4, plateBending(d), 1, 20) * 1000).toBeCloseTo(0.58352, 4);
    expect(20 * halfWave(d)).toBeCloseTo(25.149, 3);
  });
});

describe('height', () => {
  it('follows from the shortening of a sine of small slope, (πA/λ)²', () => {
    // Peak to valley is 2A.
    for (const a of [0.1, 0.5, 1])
      expect(wrinkleHeight(((Math.PI * a) / 20) ** 2, 20)).toBeCloseTo(2 * a, 12);
  });

  it.each([
    [0.01, 0.031731, 0.004],
    [0.05, 0.070055, 0.017],
    [0.1, 0.097462, 0.034],
  ])('at shortening %d is within a few per cent of the elastica', (e, published, tolerance) => {
    // A/λ0 of the elastica, λ0 the flat length. The small-slope form is high by 0.3, 1.6 and 3.3 %.
    const ours = wrinkleHeight(e, 1) / 2;
    expect(ours).toBeGreaterThan(published);
    expect(ours / published - 1).toBeLessThan(tolerance);
  });

  it('at A/λ = 0.1 asks for 0.0987 where the exact arc takes 0.0924', () => {
    // (S − λ)/λ of the exact sine arc, by the midpoint rule on 10 000 pieces: 0.092384.
    let arc = 0;
    for (let i = 0; i < 10000; i++)
      arc += Math.hypot(1, 0.2 * Math.PI * Math.sin((2 * Math.PI * (i + 0.5)) / 10000)) / 10000;
    expect(arc).toBeCloseTo(1.092384, 6);
    const shorteningOfOurs = root((e) => wrinkleHeight(e, 1) - 0.2, 0.01, 0.001);
    expect(shorteningOfOurs).toBeCloseTo(0.0987, 4);
    expect(shorteningOfOurs / (arc - 1) - 1).toBeLessThan(0.07);
  });

  it('agrees with Cerda & Mahadevan on the height of a wrinkle of given length', () => {
    // λ = 2√π(B/T)^¼L^½ = 21.078 mm at B 5 µN·m, T 10 N/m, L 50 mm; A = (√2/π)(Δ/W)^½·λ = 0.949 mm at 1 %. Their wrinkle fades
    // to nothing at both ends of the sheet, so that its amplitude in the middle is √2 times that of an even one.
    const wavelength = 2 * Math.sqrt(Math.PI) * (5e-6 / 10) ** 0.25 * 0.05 ** 0.5 * 1000;
    expect(wavelength).toBeCloseTo(21.078, 2);
    const amplitude = (Math.SQRT2 / Math.PI) * Math.sqrt(0.01) * wavelength;
    expect(amplitude).toBeCloseTo(0.949, 3);
    expect(wrinkleHeight(0.01, wavelength)).toBeCloseTo(Math.SQRT2 * amplitude, 6);
  });
});
