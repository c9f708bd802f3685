/**
 * Buckling: Timoshenko & Gere, *Theory of Elastic Stability*; Gerard & Becker, NACA TN 3781, 1957 (coefficients from memory, each solved
 * again here or independently). Wrinkles: the elastica and the exact arc (computed independently); Cerda & Mahadevan, Phys. Rev. Lett. 90,
 * 074302 (2003) (abstract seen, formulae from memory and derived again).
 */
import { describe, expect, it } from 'vitest';
import { heightOf, plateWrinkle } from '../../lib/mechanics/plate-wrinkle.js';

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
  it('of a plate without tension is that of the square plate held at its edges: 4π²D/L², half waves as long as the span', () => {
    // D 0.005 N·mm, L 10 mm: 4·4.9348e-4 N/mm.
    const { criticalForce, wavelengthMm } = plateWrinkle(10, 0.005, 0);
    expect(criticalForce).toBeCloseTo(1.97392e-3, 8);
    expect(wavelengthMm).toBeCloseTo(20, 9);
  });

  it('is the least force over all wavelengths, with any tension along the crests', () => {
    // w = sin(πy/L)·sin(qx): N = B(p² + q²)²/q² + N_t·p²/q².
    const [span, bending] = [6, 0.003];
    const p2 = (Math.PI / span) ** 2;
    for (const tension of [0, 1e-3, 0.02, 0.5]) {
      const forceAt = (q2: number) => (bending * (p2 + q2) ** 2 + tension * p2) / q2;
      const least = Math.min(...Array.from({ length: 20_000 }, (_, i) => forceAt(0.001 * (i + 1))));
      expect(plateWrinkle(span, bending, tension).criticalForce / least).toBeCloseTo(1, 4);
    }
  });

  it('at high tension has the wavelength of Cerda & Mahadevan: 21.078 mm at B 5 µN·m, T 10 N/m, L 50 mm', () => {
    // 2√π(B/T)^¼L^½ is the limit of high tension: B 5e-3 N·mm, T 0.01 N/mm; here the plate's own term adds a little.
    const { wavelengthMm } = plateWrinkle(50, 5e-3, 0.01);
    expect(Math.abs(wavelengthMm / 21.078 - 1)).toBeLessThan(0.02);
    expect(Math.abs(plateWrinkle(50, 5e-3, 1).wavelengthMm / (21.078 / 100 ** 0.25) - 1)).toBeLessThan(1e-3);
  });
});

describe('height', () => {
  it('follows from the shortening of a sine of small slope, (πA/λ)²', () => {
    // Peak to valley is 2A.
    for (const a of [0.1, 0.5, 1]) expect(heightOf(((Math.PI * a) / 20) ** 2, 20)).toBeCloseTo(2 * a, 12);
  });

  it.each([
    [0.01, 0.031731, 0.004],
    [0.05, 0.070055, 0.017],
    [0.1, 0.097462, 0.034],
  ])('at shortening %d is within a few per cent of the elastica', (e, published, tolerance) => {
    // A/λ0 of the elastica, λ0 the flat length. The small-slope form is high by 0.3, 1.6 and 3.3 %.
    const ours = heightOf(e, 1) / 2;
    expect(ours).toBeGreaterThan(published);
    expect(ours / published - 1).toBeLessThan(tolerance);
  });

  it('at A/λ = 0.1 asks for 0.0987 where the exact arc takes 0.0924', () => {
    // (S − λ)/λ of the exact sine arc, by the midpoint rule on 10 000 pieces: 0.092384.
    let arc = 0;
    for (let i = 0; i < 10000; i++)
      arc += Math.hypot(1, 0.2 * Math.PI * Math.sin((2 * Math.PI * (i + 0.5)) / 10000)) / 10000;
    expect(arc).toBeCloseTo(1.092384, 6);
    const shorteningOfOurs = root((e) => heightOf(e, 1) - 0.2, 0.01, 0.001);
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
    expect(heightOf(0.01, wavelength)).toBeCloseTo(Math.SQRT2 * amplitude, 6);
  });
});
