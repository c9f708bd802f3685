import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Curve, curveAt, fitCurve, numbersInCurve, slopeAt } from '../../lib/stitch/curve.js';

const NEAR = { withinMm: 0.1, outliers: 0 };
const counts = (n: number) => Array.from({ length: n }, (_, k) => k);

/** Furthest that places lie off a curve, mm. */
const offMm = (curve: Curve, t: readonly number[], values: readonly (readonly number[])[]): number =>
  Math.max(...t.map((at, k) => Math.hypot(...curveAt(curve, at).map((v, c) => v - values[c][k]))));

/** To the tenth of a millimeter, as a file holds it. */
const rounded = (list: readonly number[]) => list.map((v) => Math.round(v * 10) / 10);

describe('a curve', () => {
  const line: Curve = { from: 2, start: [1, 0], arcs: [{ to: 6, points: [[9, 4]] }] };

  it('is straight between the start and the end of an arc of one point, and beyond', () => {
    expect(curveAt(line, 2)).toEqual([1, 0]);
    expect(curveAt(line, 4)).toEqual([5, 2]);
    expect(curveAt(line, 6)).toEqual([9, 4]);
    expect(curveAt(line, 8)).toEqual([13, 6]);
    expect(curveAt(line, 0)).toEqual([-3, -2]);
  });

  it('of two points is the parabola with these control points', () => {
    const bent: Curve = {
      from: 0,
      start: [0, 0],
      arcs: [
        {
          to: 2,
          points: [
            [1, 2],
            [2, 0],
          ],
        },
      ],
    };
    // (1 − u)²·P₀ + 2u(1 − u)·P₁ + u²·P₂ at u = 1/4 and 1/2
    expect(curveAt(bent, 0.5)).toEqual([0.5, 0.75]);
    expect(curveAt(bent, 1)).toEqual([1, 1]);
  });

  it('of four points is two cubics that meet with one direction and one bend', () => {
    const four: Curve = { from: 0, start: [0], arcs: [{ to: 1, points: [[0], [6], [0], [0]] }] };
    const [before, after] = [0.5 - 1e-5, 0.5 + 1e-5];
    expect(slopeAt(four, before)[0]).toBeCloseTo(slopeAt(four, after)[0], 2);
    expect(curveAt(four, before)[0]).toBeCloseTo(curveAt(four, after)[0], 3);
  });

  it('slopes as its places differ', () => {
    const curve: Curve = {
      from: 0,
      start: [0, 1],
      arcs: [
        { to: 3, points: [[2, 2]] },
        {
          to: 10,
          points: [
            [5, 1],
            [6, 4],
            [9, 9],
            [3, 3],
          ],
        },
      ],
    };
    for (const t of [0.5, 2.9, 3.5, 5, 7.7, 9.9]) {
      const [p, q] = [curveAt(curve, t - 1e-6), curveAt(curve, t + 1e-6)];
      slopeAt(curve, t).forEach((slope, c) => {
        expect(slope).toBeCloseTo((q[c] - p[c]) / 2e-6, 4);
      });
    }
  });

  it('that stays where it is has one number for each coordinate, and no slope', () => {
    const still: Curve = { from: 0, start: [4], arcs: [] };
    expect(numbersInCurve(still)).toBe(1);
    expect(curveAt(still, 17)).toEqual([4]);
    expect(slopeAt(still, 17)).toEqual([0]);
  });

  it('takes the numbers of its points, and of the counts where arcs meet', () => {
    expect(numbersInCurve(line)).toBe(4);
    const two = {
      ...line,
      arcs: [
        ...line.arcs,
        {
          to: 9,
          points: [
            [0, 0],
            [1, 1],
          ],
        },
      ],
    };
    expect(numbersInCurve(two)).toBe(9);
  });
});

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
});
