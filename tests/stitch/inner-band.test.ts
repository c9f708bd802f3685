import { describe, expect, it } from 'vitest';
import { measureColumn } from '../../lib/geometry/column.js';
import { innerBand, nodeAt, placeIn, placeNear } from '../../lib/stitch/inner-band.js';
import { LayPath } from '../../lib/stitch/underlay-path.js';
import { type Vec, vec } from '../generators/plane.js';
import { sewn, zigzag } from '../segment/board.js';

const column = (points: readonly Vec[]) => {
  const { x, y } = sewn(points);
  const from = Int32Array.from({ length: points.length - 1 }, (_, i) => i);
  return measureColumn(
    x,
    y,
    from,
    from.map((i) => i + 1),
  );
};

const BAR = innerBand(column(zigzag(vec(0, 0), vec(20, 0), 4, 0.4)), 0.5);

const at = (s: number, v: number): [number, number] => {
  const x: number[] = [];
  const y: number[] = [];
  placeIn(BAR, s, v, x, y);
  return [x[0], y[0]];
};

describe('the inner band of a straight column', () => {
  it('leaves the inset at both edges', () => {
    const middle = BAR.from + (BAR.to - BAR.from) / 2;
    expect(at(middle, 0)[1]).toBeCloseTo(0, 1);
    expect(at(middle, 1)[1]).toBeCloseTo(1.5, 1);
    expect(at(middle, -1)[1]).toBeCloseTo(-1.5, 1);
    expect(at(middle, 0.5)[1]).toBeCloseTo(0.75, 1);
  });

  it('leaves it at both ends', () => {
    const [a, b] = [at(BAR.from, 0)[0], at(BAR.to, 0)[0]];
    expect(Math.min(a, b)).toBeCloseTo(0.5, 0);
    expect(Math.max(a, b)).toBeCloseTo(19.5, 0);
    expect(BAR.closed).toBe(false);
    expect(BAR.slant).toBeGreaterThan(0.98);
  });

  it('finds the node before a place, and how far on it lies', () => {
    const [node, part] = nodeAt(BAR, (BAR.s[3] + BAR.s[4]) / 2);
    expect(node).toBe(3);
    expect(part).toBeCloseTo(0.5, 6);
    expect(nodeAt(BAR, -5)).toEqual([0, 0]);
    expect(nodeAt(BAR, 1e3)).toEqual([BAR.count - 2, 1]);
  });

  it('finds the place nearest to a point, in it or beside it', () => {
    for (const [s, v] of [
      [6, 0.4],
      [11.3, -0.9],
    ]) {
      const near = placeNear(BAR, ...at(s, v));
      expect(near.s).toBeCloseTo(s, 0);
      expect(near.v).toBeCloseTo(v, 1);
      expect(near.awayMm).toBeLessThan(0.05);
    }
    const [x, y] = at(10, 1);
    const beside = placeNear(BAR, x, y + 2);
    expect(beside.v).toBe(1);
    expect(beside.awayMm).toBeCloseTo(2, 1);
  });
});

describe('the inner band of other columns', () => {
  it('is only the center line where the column is too narrow for the inset', () => {
    const narrow = innerBand(column(zigzag(vec(0, 0), vec(20, 0), 1.2, 0.4)), 0.8);
    expect(Math.max(...narrow.left, ...narrow.right)).toBe(0);
  });

  it('leaves half of a short one', () => {
    const short = innerBand(column(zigzag(vec(0, 0), vec(1.6, 0), 4, 0.4)), 2);
    expect(short.to - short.from).toBeGreaterThan(0.4 * short.s[short.count - 1]);
  });

  it('knows how much the swings lean', () => {
    const leaning = zigzag(vec(0, 0), vec(20, 0), 4, 0.4).map((p) => vec(p.x + p.y, p.y));
    expect(innerBand(column(leaning), 0.5).slant).toBeCloseTo(Math.SQRT1_2, 1);
  });

  it('goes once round a ring', () => {
    const ring = Array.from({ length: 401 }, (_, k) => {
      const angle = (2 * Math.PI * k) / 400;
      const radius = k % 2 === 0 ? 8 : 11;
      return vec(radius * Math.cos(angle), radius * Math.sin(angle));
    });
    const band = innerBand(column(ring), 0.5);
    expect(band.closed).toBe(true);
    expect(band.to - band.from).toBeGreaterThan(2 * Math.PI * 9.5 - 3);
    expect(band.to - band.from).toBeLessThan(2 * Math.PI * 9.5);
  });
});

describe('a path of needle points through a band', () => {
  const points = (path: LayPath) => {
    const { x, y } = path.points;
    return Array.from(x, (px, k): [number, number] => [px, y[k]]);
  };

  it('goes straight in equal stitches of at most what is asked', () => {
    const laid = points(new LayPath(BAR, 0.6).to([2, 0], 2).to([9, 0], 2));
    expect(laid).toHaveLength(5);
    for (let k = 1; k < 5; k++) {
      expect(Math.hypot(laid[k][0] - laid[k - 1][0], laid[k][1] - laid[k - 1][1])).toBeCloseTo(1.75, 1);
    }
  });

  it('makes no stitch shorter than the least', () => {
    expect(points(new LayPath(BAR, 0.6).to([2, 0], 2).to([2.3, 0], 2))).toHaveLength(1);
  });

  it('goes on from a needle point that is there', () => {
    const laid = points(new LayPath(BAR, 0.6).from(2, 0, [2, 0]).to([2, 1], 4));
    expect(laid[0]).toEqual([2, 0]);
    expect(laid).toHaveLength(2);
    expect(laid[1][1]).toBeCloseTo(1.5, 1);
  });
});
