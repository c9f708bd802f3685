import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Curve, curveAt, numbersInCurve } from '../../lib/stitch/curve.js';
import { fitCurve } from '../../lib/stitch/fit-curve.js';

const NEAR = { withinMm: 0.1, outliers: 0 };
const counts = (n: number) => Array.from({ length: n }, (_, k) => k);

/** Furthest that places lie off a curve, mm. */
const offMm = (curve: Curve, t: readonly number[], values: readonly (readonly number[])[]): number =>
  Math.max(...t.map((at, k) => Math.hypot(...curveAt(curve, at).map((v, c) => v - values[c][k]))));

/** To the tenth of a millimeter, as a file holds it. */
const rounded = (list: readonly number[]) => list.map((v) => Math.round(v * 10) / 10);

describe('the curve fitted to places', () => {
  it('is one straight arc along a straight line of any length', () => {
    const t = counts(400);
    const values = [rounded(t.map((k) => 3 + 0.2 * k)), rounded(t.map((k) => 7 - 0.13 * k))];
    const curve = fitCurve(t, values, NEAR)!;
    expect(curve.arcs.map(({ points }) => points.length)).toEqual([1]);
    expect(offMm(curve, t, values)).toBeLessThanOrEqual(0.1);
  });

  it('stays where it is along what only rounding moves', () => {
    const t = counts(90);
    expect(fitCurve(t, [rounded(t.map((k) => 5 + 0.04 * Math.sin(k)))], NEAR)!.arcs).toEqual([]);
  });

  it('has a joint at a corner, not near it', () => {
    const t = counts(81);
    const values = [t.map((k) => 0.2 * Math.min(k, 40)), t.map((k) => 0.2 * Math.max(0, k - 40))];
    const { arcs } = fitCurve(t, values, NEAR)!;
    expect(arcs.map(({ to }) => to)).toEqual([40, 80]);
    expect(arcs.every(({ points }) => points.length === 1)).toBe(true);
  });

  it('follows a circle in few numbers', () => {
    const t = counts(158);
    const values = [rounded(t.map((k) => 8 * Math.cos(k / 25))), rounded(t.map((k) => 8 * Math.sin(k / 25)))];
    const curve = fitCurve(t, values, NEAR)!;
    expect(offMm(curve, t, values)).toBeLessThanOrEqual(0.1);
    expect(numbersInCurve(curve)).toBeLessThanOrEqual(20);
  });

  it('is none where it would take more numbers than it may', () => {
    const t = counts(200);
    const values = [t.map((k) => 5 * Math.sin(k / 3)), t.map((k) => 0.2 * k)];
    const curve = fitCurve(t, values, NEAR)!;
    expect(fitCurve(t, values, NEAR, numbersInCurve(curve) - 1)).toBeNull();
    expect(fitCurve(t, values, NEAR, numbersInCurve(curve))).toEqual(curve);
  });

  it('lets as many places lie farther off as it may, and no more', () => {
    const t = counts(100);
    const bumps = (every: number) => [t.map((k) => 0.2 * k + (k % every === 7 ? 0.25 : 0))];
    const some = { withinMm: 0.1, outliers: 0.05 };
    expect(fitCurve(t, bumps(30), some)!.arcs).toHaveLength(1);
    expect(fitCurve(t, bumps(30), NEAR)!.arcs.length).toBeGreaterThan(1);
    expect(fitCurve(t, bumps(10), some)!.arcs.length).toBeGreaterThan(1);
    const far = [t.map((k) => 0.2 * k + (k === 50 ? 0.5 : 0))];
    expect(fitCurve(t, far, some)!.arcs.length).toBeGreaterThan(1);
  });

  it('is no farther off than it may be, whatever the places', () => {
    const step = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(step, step), { minLength: 1, maxLength: 60 }), (steps) => {
        let [px, py] = [0, 0];
        const places = steps.map(([dx, dy]) => {
          px += dx;
          py += dy;
          return [px, py];
        });
        const t = counts(places.length);
        const values = [places.map(([x]) => x), places.map(([, y]) => y)];
        expect(offMm(fitCurve(t, values, NEAR)!, t, values)).toBeLessThanOrEqual(0.1 + 1e-6);
      }),
    );
  });

  it('takes work in proportion to the number of places', () => {
    let reads = 0;
    const counted = (list: readonly number[]) =>
      new Proxy(list, {
        get(target, key, receiver) {
          reads++;
          return Reflect.get(target, key, receiver);
        },
      });
    const work = (n: number) => {
      reads = 0;
      const t = counts(n);
      const ledge = (k: number) => (k % 97 > 48 ? 2 : 0);
      const x = rounded(t.map((k) => 30 * Math.sin(k / 60) + 0.2 * k + ledge(k)));
      fitCurve(t, [counted(x), rounded(t.map((k) => 30 * Math.cos(k / 83)))], NEAR);
      return reads;
    };
    expect(work(2400) / work(600)).toBeLessThan(5);
  });
});
