import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axisDifferenceDeg } from '../../lib/core/axis.js';
import { type Column, measureColumn } from '../../lib/geometry/column.js';
import { columnTop, type TopStyle, type Column as Wanted } from '../generators/column.js';
import { arc, Curve, ellipse, segment } from '../generators/curve.js';
import { radians, turned, type Vec, vec } from '../generators/plane.js';
import { Random } from '../generators/random.js';

const PLAIN: TopStyle = { spacing: 0.4, zag: 'symmetric', comp: 0, split: null, short: 0, overlap: 0 };
const ACROSS = { kind: 'across' } as const;
const even = (width: number) => () => width / 2;

/** The needle points of a column, on its two rails by turns. */
const zigzag = (wanted: Wanted, style: Partial<TopStyle> = {}): Vec[] =>
  columnTop(wanted, { ...PLAIN, ...style }, false, 1, new Random(1), '').needles;

const onGrid = (points: readonly Vec[]): Vec[] =>
  points.map((p) => vec(Math.round(p.x * 10) / 10, Math.round(p.y * 10) / 10));

function measured(points: readonly Vec[]): Column {
  const from = Int32Array.from({ length: points.length - 1 }, (_, i) => i);
  return measureColumn(
    Float64Array.from(points, (p) => p.x),
    Float64Array.from(points, (p) => p.y),
    from,
    from.map((i) => i + 1),
  );
}

const sorted = (values: Float64Array) => [...values].sort((a, b) => a - b);
const middle = (values: Float64Array) => sorted(values)[values.length >> 1];
const farthestOff = (values: Float64Array, from: number) =>
  Math.max(...values.map((v) => Math.abs(v - from)));
const straight = (width: number, length: number, degrees = 0): Wanted => ({
  centre: segment(vec(0, 0), vec(length, 0)),
  half: even(width),
  lie: degrees === 0 ? ACROSS : { kind: 'slant', degrees },
});

/** A quarter to the left, then a quarter to the right, on a radius of 10 mm. */
const sShape = (width: number): Wanted => ({
  centre: new Curve([
    ...arc(vec(0, 0), 10, 0, Math.PI / 2),
    ...arc(vec(0, 20), 10, -Math.PI / 2, -Math.PI).slice(1),
  ]),
  half: even(width),
  lie: ACROSS,
});

const ring = (radius: number, width: number): Wanted => ({
  centre: new Curve(ellipse(vec(0, 0), radius, radius).slice(0, -1), true),
  half: even(width),
  lie: ACROSS,
});

describe('a straight column', () => {
  const column = measured(zigzag(straight(6, 40)));

  it('has its width and spacing at every swing', () => {
    expect(column.count).toBe(200);
    expect(farthestOff(column.widthMm, 6)).toBeLessThan(1e-9);
    expect(farthestOff(column.spacingMm, 0.4)).toBeLessThan(1e-9);
  });

  it('has the length and area of its rectangle, less the half step between its two end points', () => {
    expect(column.lengthMm).toBeCloseTo(40, 9);
    expect(column.areaMm2).toBeCloseTo(6 * (40 - 0.2), 9);
    expect(column.angleDeg).toBeCloseTo(90, 9);
    expect(column.closed).toBe(false);
  });

  it('has its left rail on the left as it is sewn, from either end', () => {
    expect(farthestOff(column.leftY, 3)).toBeLessThan(1e-9);
    expect(farthestOff(column.rightY, -3)).toBeLessThan(1e-9);
    const back = measured(zigzag(straight(6, 40)).reverse());
    expect(farthestOff(back.leftY, -3)).toBeLessThan(1e-9);
    expect(farthestOff(back.tx, -1)).toBeLessThan(1e-9);
  });

  it('has the same width and spacing where one swing goes straight across and the next takes the whole step', () => {
    const square = measured(zigzag(straight(6, 40), { zag: 'square' }));
    expect(farthestOff(square.widthMm, 6)).toBeLessThan(1e-9);
    expect(farthestOff(square.spacingMm, 0.4)).toBeLessThan(1e-9);
  });

  it('keeps to that in a short column that is wider than it is long', () => {
    const wide = measured(zigzag(straight(10, 6)));
    expect(farthestOff(wide.widthMm, 10)).toBeLessThan(1e-6);
    expect(farthestOff(wide.spacingMm, 0.4)).toBeLessThan(1e-6);
    expect(wide.lengthMm).toBeCloseTo(6, 6);
  });
});

describe('a column of slanted swings', () => {
  it.each([-40, -15, 15, 30, 45])('is as wide as it is across, at %s°', (degrees) => {
    const points = zigzag(straight(6, 40, degrees));
    const column = measured(points);
    const thread = Math.hypot(points[2].x - points[1].x, points[2].y - points[1].y);
    expect(thread).toBeGreaterThan(6.15);
    expect(farthestOff(column.widthMm, 6)).toBeLessThan(1e-6);
    expect(farthestOff(column.spacingMm, 0.4)).toBeLessThan(1e-6);
    // a zig leans half a step more than a zag leans less: their mean is the slant but for the second order
    expect(axisDifferenceDeg(column.angleDeg ?? Number.NaN, 90 - degrees)).toBeLessThan(0.05);
  });
});

describe('closed columns', () => {
  // 549.7787 is π (20² − 15²)
  it('have the area of the annulus from 15 to 20 mm, and no direction', () => {
    const column = measured(zigzag(ring(17.5, 5)));
    expect(column.closed).toBe(true);
    expect(column.angleDeg).toBeNull();
    expect(Math.abs(column.areaMm2 / 549.7787 - 1)).toBeLessThan(0.005);
    expect(Math.abs(column.lengthMm / (35 * Math.PI) - 1)).toBeLessThan(0.003);
    expect(farthestOff(column.widthMm, 5)).toBeLessThan(0.002);
    expect(farthestOff(column.spacingMm, 0.4)).toBeLessThan(0.005);
  });

  it('are told by their ends meeting: with a tenth of the way round missing the same ring is open', () => {
    const points = zigzag(ring(17.5, 5));
    const open = measured(points.slice(0, Math.round(0.9 * points.length)));
    expect(open.closed).toBe(false);
  });

  it('may follow a stadium: straight sides of 40 mm and half circles of 12 mm', () => {
    const sides = [
      ...arc(vec(20, 0), 12, -Math.PI / 2, Math.PI / 2),
      ...arc(vec(-20, 0), 12, Math.PI / 2, 1.5 * Math.PI),
    ];
    const column = measured(zigzag({ centre: new Curve(sides, true), half: even(4), lie: ACROSS }));
    const round = 2 * 40 + 2 * Math.PI * 12;
    expect(column.closed).toBe(true);
    expect(column.angleDeg).toBeNull();
    expect(Math.abs(column.lengthMm / round - 1)).toBeLessThan(0.003);
    expect(Math.abs(column.areaMm2 / (4 * round) - 1)).toBeLessThan(0.004);
    expect(farthestOff(column.widthMm, 4)).toBeLessThan(0.01);
    expect(farthestOff(column.spacingMm, 0.4)).toBeLessThan(0.005);
  });
});

describe('curved columns', () => {
  const bow = (angle: number): Wanted => ({
    centre: new Curve(arc(vec(0, 0), 20, 0, angle)),
    half: even(4),
    lie: ACROSS,
  });

  it('have the mean of their swings as direction: none in a half circle', () => {
    const quarter = measured(zigzag(bow(Math.PI / 2)));
    expect(axisDifferenceDeg(quarter.angleDeg ?? Number.NaN, 45)).toBeLessThan(0.5);
    expect(measured(zigzag(bow(Math.PI))).angleDeg).toBeNull();
  });

  it('are as wide as they are across where all swings lie one way', () => {
    const column = measured(zigzag({ ...bow(Math.PI / 2), lie: { kind: 'fixed', degrees: 45 } }));
    expect(axisDifferenceDeg(column.angleDeg ?? Number.NaN, 45)).toBeLessThan(0.5);
    expect(Math.abs(middle(column.widthMm) - 4)).toBeLessThan(0.02);
  });

  it('keep width, spacing and area through an S', () => {
    const column = measured(zigzag(sShape(5)));
    expect(Math.abs(column.lengthMm / (10 * Math.PI) - 1)).toBeLessThan(0.01);
    expect(Math.abs(column.areaMm2 / (10 * Math.PI * 5) - 1)).toBeLessThan(0.015);
    expect(farthestOff(column.widthMm, 5)).toBeLessThan(0.03);
    expect(farthestOff(column.spacingMm, 0.4)).toBeLessThan(0.006);
    expect(column.closed).toBe(false);
  });

  it('have their spacing along the arc, not along its chords, in a tight bend', () => {
    const column = measured(zigzag({ ...bow(2), centre: new Curve(arc(vec(0, 0), 4, 0, 2.5)) }));
    expect(farthestOff(column.spacingMm.subarray(10, -10), 0.4)).toBeLessThan(0.002);
  });

  it('have the area that an independent library gives for the polygon of their rails', () => {
    const column = measured(onGrid(zigzag(sShape(6))));
    const corners = [...column.leftX].map((x, j) => new Flatten.Point(x, column.leftY[j]));
    for (let j = column.count - 1; j >= 0; j--) {
      corners.push(new Flatten.Point(column.rightX[j], column.rightY[j]));
    }
    // two swings that follow each other share a point
    const distinct = corners.filter((p, i) => !p.equalTo(corners[(i + 1) % corners.length]));
    expect(column.areaMm2).toBeCloseTo(Math.abs(new Flatten.Polygon(distinct).area()), 6);
  });

  it('point along the tangent everywhere', () => {
    const column = measured(zigzag(ring(12, 4)));
    for (let j = 0; j < column.count; j++) {
      const r = Math.hypot(column.cx[j], column.cy[j]);
      const along = (column.tx[j] * -column.cy[j] + column.ty[j] * column.cx[j]) / r;
      expect(along).toBeGreaterThan(Math.cos(radians(1.5)));
    }
  });

  it('tell short stitches on the inner rail from whole swings, without a jagged centre line', () => {
    const bend = { centre: new Curve(arc(vec(0, 0), 10, 0, Math.PI)), half: even(10), lie: ACROSS };
    const column = measured(zigzag(bend, { short: 0.7 }));
    const inside = [...column.widthMm].slice(14, -14);
    const whole = inside.filter((w) => Math.abs(w - 10) < 0.01);
    const short = inside.filter((w) => Math.abs(w - 7) < 0.01);
    // every second inner point is held back, and each is the end of two swings
    expect(whole.length + short.length).toBe(inside.length);
    expect(Math.abs(whole.length - short.length)).toBeLessThanOrEqual(2);
    const radii = [...column.cx].slice(14, -14).map((x, k) => Math.hypot(x, column.cy[k + 14]));
    expect(Math.max(...radii) - Math.min(...radii)).toBeLessThan(0.01);
  });
});

describe('a column that widens', () => {
  const column = measured(
    zigzag({ centre: segment(vec(0, 0), vec(40, 0)), half: (s) => 1 + s / 20, lie: ACROSS }),
  );

  it('has at each place the width that is drawn there', () => {
    for (let j = 0; j < column.count; j++) {
      expect(Math.abs(column.widthMm[j] - (2 + column.cx[j] / 10))).toBeLessThan(0.015);
    }
  });

  it('has the widths of a straight line from 2 to 6 mm as its distribution', () => {
    const widths = sorted(column.widthMm);
    for (const p of [0.05, 0.25, 0.5, 0.75, 0.95]) {
      expect(Math.abs(widths[Math.floor(p * widths.length)] - (2 + 4 * p))).toBeLessThan(0.03);
    }
    expect(Math.abs(column.areaMm2 / 160 - 1)).toBeLessThan(0.01);
  });
});

describe('a column whose spacing changes', () => {
  it('shows both spacings', () => {
    const swing = (k: number) => (k <= 60 ? 0.2 * k : 12 + 0.4 * (k - 60));
    const column = measured(Array.from({ length: 121 }, (_, k) => vec(swing(k), k % 2 ? 2 : -2)));
    expect(farthestOff(column.spacingMm.subarray(0, 45), 0.4)).toBeLessThan(1e-9);
    expect(farthestOff(column.spacingMm.subarray(75), 0.8)).toBeLessThan(1e-9);
  });
});

describe('on the 0.1 mm grid of a file', () => {
  const shapes: Record<string, [Wanted, number]> = {
    straight: [straight(4, 25), 4],
    slanted: [straight(4, 25, 25), 4],
    S: [sShape(4), 4],
    ring: [ring(9, 3), 3],
  };

  it.each(Object.keys(shapes))('a column keeps its figures wherever it is turned: %s', (name) => {
    const [wanted, width] = shapes[name];
    const points = zigzag(wanted);
    const still = measured(points);
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }), (angle) => {
        const column = measured(onGrid(points.map((p) => turned(p, angle))));
        expect(Math.abs(middle(column.widthMm) - width)).toBeLessThan(0.03);
        // a point is off by up to 0.05 mm each way, so a swing by up to twice its diagonal
        expect(farthestOff(column.widthMm, width)).toBeLessThan(0.16);
        expect(Math.abs(middle(column.spacingMm) - 0.4)).toBeLessThan(0.01);
        expect(farthestOff(column.spacingMm, 0.4)).toBeLessThan(0.05);
        expect(Math.abs(column.areaMm2 / still.areaMm2 - 1)).toBeLessThan(0.01);
        expect(column.closed).toBe(still.closed);
      }),
      { numRuns: 60 },
    );
  });
});

describe('columns anywhere', () => {
  const shapes: Record<string, Vec[]> = {
    widening: zigzag({ centre: segment(vec(0, 0), vec(30, 0)), half: (s) => 1 + s / 25, lie: ACROSS }),
    slanted: zigzag(straight(5, 25, 20)),
    S: zigzag(sShape(5)),
    ring: zigzag(ring(8, 3)),
  };
  const shape = fc.constantFrom(...Object.keys(shapes));
  const same = (a: Float64Array, b: Float64Array) => {
    expect(Math.max(...a.map((v, j) => Math.abs(v - b[j])))).toBeLessThan(1e-6);
  };

  it('measure the same after turning, moving and mirroring', () => {
    const place = fc.record({
      angle: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
      dx: fc.double({ min: -500, max: 500, noNaN: true }),
      dy: fc.double({ min: -500, max: 500, noNaN: true }),
      mirror: fc.boolean(),
    });
    fc.assert(
      fc.property(shape, place, (name, { angle, dx, dy, mirror }) => {
        const move = (p: Vec): Vec => {
          const q = turned(vec(mirror ? -p.x : p.x, p.y), angle);
          return vec(q.x + dx, q.y + dy);
        };
        const still = measured(shapes[name]);
        const moved = measured(shapes[name].map(move));
        same(moved.widthMm, still.widthMm);
        same(moved.spacingMm, still.spacingMm);
        same(moved.s, still.s);
        expect(moved.areaMm2).toBeCloseTo(still.areaMm2, 6);
        expect(moved.lengthMm).toBeCloseTo(still.lengthMm, 6);
        expect(moved.closed).toBe(still.closed);
        if (still.angleDeg === null) expect(moved.angleDeg).toBeNull();
        else {
          const wanted = (mirror ? -1 : 1) * still.angleDeg + (angle * 180) / Math.PI;
          expect(axisDifferenceDeg(moved.angleDeg ?? Number.NaN, wanted)).toBeLessThan(1e-6);
        }
        // a mirror swaps left and right
        const left = move(vec(still.leftX[7], still.leftY[7]));
        expect((mirror ? moved.rightX : moved.leftX)[7]).toBeCloseTo(left.x, 9);
        expect((mirror ? moved.rightY : moved.leftY)[7]).toBeCloseTo(left.y, 9);
      }),
      { numRuns: 60 },
    );
  });

  it.each(Object.keys(shapes))('measure the same sewn from the other end: %s', (name) => {
    const out = measured(shapes[name]);
    const back = measured([...shapes[name]].reverse());
    same(back.widthMm.reverse(), out.widthMm);
    same(back.spacingMm.reverse(), out.spacingMm);
    same(back.tx.map((t) => -t).reverse(), out.tx);
    expect(back.areaMm2).toBeCloseTo(out.areaMm2, 9);
    expect(back.lengthMm).toBeCloseTo(out.lengthMm, 9);
    expect(back.angleDeg).toEqual(out.angleDeg === null ? null : expect.closeTo(out.angleDeg, 9));
    expect([back.closed, back.leftX[0]]).toEqual([out.closed, out.rightX[out.count - 1]]);
  });
});

describe('hardly a column', () => {
  const figures = (c: Column) => [
    ...[c.cx, c.cy, c.tx, c.ty, c.s, c.widthMm, c.spacingMm, c.leftX, c.rightY].flatMap((a) => [...a]),
    c.areaMm2,
    c.lengthMm,
  ];

  it('of two swings still has a width and a spacing', () => {
    const column = measured([vec(0, 0), vec(0.2, 3), vec(0.4, 0)]);
    expect([...column.widthMm]).toEqual([expect.closeTo(3, 9), expect.closeTo(3, 9)]);
    expect([...column.spacingMm]).toEqual([expect.closeTo(0.4, 9), expect.closeTo(0.4, 9)]);
    expect(column.lengthMm).toBeCloseTo(0.4, 9);
  });

  it('of swings that all lie on one point has no length, area or direction', () => {
    const column = measured(Array.from({ length: 20 }, () => vec(4, -2)));
    expect([column.areaMm2, column.lengthMm, column.angleDeg, column.closed]).toEqual([0, 0, null, false]);
    expect(figures(column).every(Number.isFinite)).toBe(true);
  });

  it('of swings over each other has their length as its width, or none, but no area', () => {
    const column = measured(Array.from({ length: 21 }, (_, k) => vec(0, k % 2 ? 3 : 0)));
    expect([column.areaMm2, column.lengthMm]).toEqual([0, 0]);
    expect(column.angleDeg).toBeCloseTo(90, 9);
    expect(figures(column).every(Number.isFinite)).toBe(true);
  });

  it('of any points at all is measured in finite figures', () => {
    const coordinate = fc.integer({ min: -300, max: 300 }).map((v) => v / 10);
    const points = fc.array(fc.record({ x: coordinate, y: coordinate }), { minLength: 3, maxLength: 60 });
    fc.assert(
      fc.property(points, (cloud) => {
        const column = measured(cloud);
        expect(figures(column).every(Number.isFinite)).toBe(true);
        for (let j = 0; j < column.count; j++) {
          expect(Math.hypot(column.tx[j], column.ty[j])).toBeCloseTo(1, 9);
          const swing = Math.hypot(cloud[j + 1].x - cloud[j].x, cloud[j + 1].y - cloud[j].y);
          expect(column.widthMm[j]).toBeLessThanOrEqual(swing + 1e-9);
        }
        if (column.angleDeg !== null) {
          expect(column.angleDeg).toBeGreaterThanOrEqual(0);
          expect(column.angleDeg).toBeLessThan(180);
        }
      }),
    );
  });
});

it('changes neither its points nor its swings', () => {
  const points = onGrid(zigzag(sShape(5)));
  const x = Float64Array.from(points, (p) => p.x);
  const y = Float64Array.from(points, (p) => p.y);
  const from = Int32Array.from({ length: points.length - 1 }, (_, i) => i);
  const to = from.map((i) => i + 1);
  const before = [x, y, from, to].map((a) => a.slice());
  measureColumn(x, y, from, to);
  expect([x, y, from, to]).toEqual(before);
});
