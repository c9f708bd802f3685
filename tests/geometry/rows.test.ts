import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axisDifferenceDeg } from '../../lib/core/axis.js';
import { measureRows, type RowGeometry } from '../../lib/geometry/rows.js';
import { rowsOf, Sketch, type Turn } from '../measure/sketch.js';

function measured(sketch: Sketch): RowGeometry {
  const { x, y } = sketch.penetrations();
  const [{ from, to, sections }] = sketch.objects;
  return measureRows(x, y, from, to, sections);
}
const oblong = (spacing: number, grid = 0, turn?: Turn, stepInRow = false): RowGeometry =>
  measured(
    new Sketch(grid, turn).rows(
      rowsOf(spacing, 20, () => [0, 30]),
      { stepInRow },
    ),
  );
const turned = (degrees: number): Turn => ({ degrees, dx: 3.27, dy: -8.41, mirror: false });
const middle = (values: Float64Array) => [...values].sort((a, b) => a - b)[values.length >> 1];

describe('rows of an oblong', () => {
  it('has their direction, spacing, length and area', () => {
    const rows = oblong(0.4);
    expect(rows.count).toBe(51);
    expect(rows.angleDeg).toBeCloseTo(0, 9);
    for (const s of rows.spacingMm) expect(s).toBeCloseTo(0.4, 9);
    expect(rows.areaMm2).toBeCloseTo(600, 6);
    expect(rows.lengthMm).toBeCloseTo(51 * 30, 6);
    expect(rows.lateral[50] - rows.lateral[0]).toBeCloseTo(20, 9);
    expect([rows.start[7], rows.end[7]]).toEqual([0, 30]);
  });

  it('keeps the step to the next row out of all that, where it is counted to a row', () => {
    const rows = oblong(0.4, 0, undefined, true);
    expect(rows.areaMm2).toBeCloseTo(600, 6);
    expect(rows.lengthMm).toBeCloseTo(51 * 30, 6);
    expect(rows.angleDeg).toBeCloseTo(0, 9);
    for (const s of rows.spacingMm) expect(s).toBeCloseTo(0.4, 9);
  });

  it('leaves the step out of rows of a single stitch too', () => {
    const rows = measured(
      new Sketch().rows(
        rowsOf(0.4, 8, () => [0, 5]),
        { stitch: 9, stepInRow: true },
      ),
    );
    expect(rows.areaMm2).toBeCloseTo(40, 6);
    expect(rows.lengthMm).toBeCloseTo(21 * 5, 6);
  });

  it.each([0.25, 0.33, 0.4, 0.43, 0.57, 3])('tells a spacing of %s mm on the grid of a file', (spacing) => {
    for (const degrees of [0, 17, 45, 71.3, 90, 133]) {
      const rows = oblong(spacing, 0.1, turned(degrees));
      expect(Math.abs(middle(rows.spacingMm) - spacing)).toBeLessThan(0.01);
      // one window of nine rows is off by no more than what the spacing is to be told by
      for (const s of rows.spacingMm) expect(Math.abs(s - spacing)).toBeLessThan(0.03);
      expect(axisDifferenceDeg(rows.angleDeg ?? Number.NaN, degrees)).toBeLessThan(0.3);
      const height = spacing * (rows.count - 1);
      expect(Math.abs(rows.areaMm2 / (30 * height) - 1)).toBeLessThan(0.01);
    }
  });

  it('shows where the spacing changes', () => {
    const heights = Array.from({ length: 60 }, (_, r) => (r < 30 ? 0.4 * r : 12 + 0.7 * (r - 30)));
    const rows = measured(new Sketch(0.1).rows(heights.map((y) => [y, 0, 25] as const)));
    expect(Math.abs(rows.spacingMm[5] - 0.4)).toBeLessThan(0.02);
    expect(Math.abs(rows.spacingMm[55] - 0.7)).toBeLessThan(0.02);
  });
});

describe('rows of other shapes, against closed forms', () => {
  it('fill an ellipse of 40 × 20 mm', () => {
    const half = (y: number) => 20 * Math.sqrt(Math.max(0, 1 - ((y - 10) / 10) ** 2));
    const rows = measured(new Sketch().rows(rowsOf(0.1, 20, (y) => [-half(y), half(y)])));
    expect(Math.abs(rows.areaMm2 / (Math.PI * 20 * 10) - 1)).toBeLessThan(0.002);
  });

  it('fill a stadium: straight sides of 40 mm, 6 mm across', () => {
    const half = (y: number) => 20 + Math.sqrt(Math.max(0, 9 - (y - 3) ** 2));
    const rows = measured(new Sketch().rows(rowsOf(0.05, 6, (y) => [-half(y), half(y)])));
    expect(Math.abs(rows.areaMm2 / 268.2743 - 1)).toBeLessThan(0.001);
  });

  it('fill a ring from 15 to 20 mm in four sections without the hole', () => {
    const outer = (y: number) => Math.sqrt(Math.max(0, 400 - y * y));
    const inner = (y: number) => Math.sqrt(Math.max(0, 225 - y * y));
    const heights = (from: number, to: number) =>
      Array.from({ length: Math.round((to - from) / 0.1) + 1 }, (_, i) => from + 0.1 * i);
    const low = heights(-20, -15.1).map((y) => [y, -outer(y), outer(y)] as const);
    const left = heights(-15, 15).map((y) => [y, -outer(y), -inner(y)] as const);
    const right = heights(-15, 15).map((y) => [y, inner(y), outer(y)] as const);
    const high = heights(15.1, 20).map((y) => [y, -outer(y), outer(y)] as const);
    const starts = [0, low.length, low.length + left.length, low.length + left.length + right.length];
    const rows = measured(new Sketch().rows([...low, ...left, ...right, ...high], { sections: starts }));
    expect(Math.abs(rows.areaMm2 / 549.7787 - 1)).toBeLessThan(0.002);
    expect(rows.contains(0, 0)).toBe(false);
    expect(rows.contains(17, 2)).toBe(true);
    expect(rows.contains(-17, -2)).toBe(true);
    expect(rows.contains(0, 14.9)).toBe(false);
  });

  it('count the strip between two sections that follow each other, once', () => {
    const heights = Array.from({ length: 21 }, (_, r) => 0.5 * r);
    const rows = measured(
      new Sketch().rows(
        heights.map((y) => [y, 0, 20] as const),
        { sections: [0, 8] },
      ),
    );
    expect(rows.areaMm2).toBeCloseTo(20 * 10, 6);
    expect(rows.contains(10, 3.75)).toBe(true);
  });

  it('leave the gap between sections that stand apart', () => {
    const far = [0, 0.5, 1, 1.5, 5, 5.5, 6, 6.5].map((y) => [y, 0, 20] as const);
    const rows = measured(new Sketch().rows(far, { sections: [0, 4] }));
    expect(rows.areaMm2).toBeCloseTo(60, 6);
    expect(rows.contains(10, 3)).toBe(false);
    for (const s of rows.spacingMm) expect(s).toBeCloseTo(0.5, 9);
  });
});

describe('contains', () => {
  const half = (y: number) => 3 + 12 * Math.abs(Math.sin(0.7 * y + 0.4));
  const rows = measured(new Sketch().rows(rowsOf(0.4, 16, (y) => [-half(y), half(y) + y])));
  const [outline] = rows.outlines;
  const oracle = new Flatten.Polygon(outline.map(([x, y]) => new Flatten.Point(x, y)));

  it('agrees with an independent library on a shape with waists', () => {
    const place = fc.double({ min: -20, max: 36, noNaN: true });
    fc.assert(
      fc.property(place, fc.double({ min: -2, max: 18, noNaN: true }), (x, y) => {
        const point = new Flatten.Point(x, y);
        fc.pre(oracle.distanceTo(point)[0] > 1e-6);
        expect(rows.contains(x, y)).toBe(oracle.contains(point));
      }),
      { numRuns: 1000 },
    );
    expect(rows.areaMm2).toBeCloseTo(Math.abs(oracle.area()), 6);
  });

  it('goes by the two rows on either side, however ragged the ends are', () => {
    const ragged = measured(new Sketch().rows(rowsOf(1, 12, (y) => [(y * 5) % 7, 14 + ((y * 3) % 8)])));
    const ring = new Flatten.Polygon(ragged.outlines[0].map(([x, y]) => new Flatten.Point(x, y)));
    for (let y = 0.07; y < 12; y += 0.23) {
      for (let x = 0.11; x < 22; x += 0.37) {
        expect(ragged.contains(x, y)).toBe(ring.contains(new Flatten.Point(x, y)));
      }
    }
  });

  it('counts the edges as inside, whichever way the rows are stacked', () => {
    for (const way of [1, -1]) {
      const heights = Array.from({ length: 11 }, (_, r) => way * 0.5 * r);
      const box = measured(new Sketch().rows(heights.map((y) => [y, 0, 10] as const)));
      for (const [x, y] of [
        [0, 2],
        [10, 2],
        [5, 0],
        [5, 5],
        [10, 5],
      ])
        expect(box.contains(x, way * y)).toBe(true);
      for (const [x, y] of [
        [-0.01, 2],
        [10.01, 2],
        [5, -0.01],
        [5, 5.01],
      ]) {
        expect(box.contains(x, way * y)).toBe(false);
      }
    }
  });

  it('still answers where a row lies behind the one before it', () => {
    const box = measured(new Sketch().rows([0, 0.5, 0.4, 1, 1.5].map((y) => [y, 0, 10] as const)));
    expect(box.contains(5, 0.7)).toBe(true);
    expect(box.contains(5, 1.6)).toBe(false);
  });
});

describe('degenerate rows', () => {
  it('have neither direction nor area where all needle points are one', () => {
    const rows = measured(
      new Sketch().rows([
        [2, 5, 5],
        [2, 5, 5],
      ]),
    );
    expect(rows.angleDeg).toBeNull();
    expect([rows.areaMm2, rows.lengthMm, rows.spacingMm[0]]).toEqual([0, 0, 0]);
  });

  it('have no spacing where there is a single one', () => {
    const rows = measured(new Sketch().rows([[2, 0, 5]]));
    expect([...rows.spacingMm]).toEqual([0]);
    expect(rows.areaMm2).toBe(0);
  });

  it('lend a section of one row the spacing of the others', () => {
    const rows = measured(
      new Sketch().rows(
        [0, 0.6, 1.2, 9].map((y) => [y, 0, 8] as const),
        { sections: [0, 3] },
      ),
    );
    expect(rows.spacingMm[3]).toBeCloseTo(0.6, 9);
  });
});

describe('rows anywhere', () => {
  it('measure the same after turning, moving and mirroring', () => {
    const turn = fc.record({
      degrees: fc.double({ min: 0, max: 360, noNaN: true }),
      dx: fc.double({ min: -500, max: 500, noNaN: true }),
      dy: fc.double({ min: -500, max: 500, noNaN: true }),
      mirror: fc.boolean(),
    });
    const shape = rowsOf(0.4, 12, (y) => [y / 3, 20 + 4 * Math.sin(y)]);
    const still = measured(new Sketch().rows(shape));
    fc.assert(
      fc.property(turn, (t) => {
        const moved = measured(new Sketch(0, t).rows(shape));
        expect(moved.areaMm2).toBeCloseTo(still.areaMm2, 6);
        expect(moved.lengthMm).toBeCloseTo(still.lengthMm, 6);
        const expected = (t.mirror ? -1 : 1) * (still.angleDeg ?? Number.NaN) + t.degrees;
        expect(axisDifferenceDeg(moved.angleDeg ?? Number.NaN, expected)).toBeLessThan(1e-6);
        moved.spacingMm.forEach((s, r) => {
          expect(s).toBeCloseTo(still.spacingMm[r], 6);
        });
      }),
    );
  });
});
