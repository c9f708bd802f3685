import { describe, expect, it } from 'vitest';
import { type Curve, curveAt, numbersInCurve, slopeAt } from '../../lib/stitch/curve.js';

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
