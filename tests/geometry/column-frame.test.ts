import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ColumnFrame, columnFrame, locate } from '../../lib/geometry/column-frame.js';
import { columnTop, type TopStyle, type Column as Wanted } from '../generators/column.js';
import { arc, Curve, ellipse, path, segment } from '../generators/curve.js';
import { type Vec, vec } from '../generators/plane.js';
import { Random } from '../generators/random.js';

const PLAIN: TopStyle = { spacing: 0.4, zag: 'symmetric', comp: 0, split: null, short: 0, overlap: 0 };

function frameOf(points: readonly Vec[]): ColumnFrame {
  const from = Int32Array.from({ length: points.length - 1 }, (_, i) => i);
  return columnFrame(
    Float64Array.from(points, (p) => p.x),
    Float64Array.from(points, (p) => p.y),
    from,
    from.map((i) => i + 1),
  );
}

const zigzag = (centre: Curve, width: number, style: Partial<TopStyle> = {}): Vec[] => {
  const wanted: Wanted = { centre, half: () => width / 2, lie: { kind: 'across' } };
  return columnTop(wanted, { ...PLAIN, ...style }, false, 1, new Random(1), '').needles;
};

const line = segment(vec(0, 0), vec(30, 0));
const bow = new Curve(arc(vec(0, 0), 15, 0, 2));
const ring = new Curve(ellipse(vec(0, 0), 12, 12).slice(0, -1), true);
const snake = new Curve(path((t) => vec(t, 6 * Math.sin(t / 5)), 0, 60, 90));
/** Two and a half turns, with a gap of half a column between one turn and the next. */
const coil = new Curve(
  path((a) => vec((6 + 0.75 * a) * Math.cos(a), (6 + 0.75 * a) * Math.sin(a)), 0, 5 * Math.PI, 180),
);

describe('the frame of a column', () => {
  it.each([
    ['a line', line, 5],
    ['a bow', bow, 4],
    ['a snake', snake, 3],
  ])('is as long and half as wide as %s', (_, centre, width) => {
    const frame = frameOf(zigzag(centre, width));
    expect(Math.abs(frame.lengthMm / centre.length - 1)).toBeLessThan(0.015);
    for (const h of frame.halfWidth) expect(Math.abs(h - width / 2)).toBeLessThan(0.03);
    expect(frame.closed).toBe(false);
  });

  it('closes where the column comes back to its beginning', () => {
    const frame = frameOf(zigzag(ring, 4));
    expect(frame.closed).toBe(true);
    expect(Math.abs(frame.lengthMm / (24 * Math.PI) - 1)).toBeLessThan(0.01);
  });

  it('shows nothing of the short stitches of a bend', () => {
    const tight = new Curve(arc(vec(0, 0), 10, 0, Math.PI));
    const frame = frameOf(zigzag(tight, 10, { short: 0.7 }));
    const radii = [...frame.cx].slice(4, -4).map((x, k) => Math.hypot(x, frame.cy[k + 4]));
    expect(Math.max(...radii) - Math.min(...radii)).toBeLessThan(0.05);
  });

  it('is finite where all swings lie on one point, and of two swings', () => {
    for (const points of [
      Array.from({ length: 20 }, () => vec(3, 3)),
      [vec(0, 0), vec(0.2, 3), vec(0.4, 0)],
    ]) {
      const frame = frameOf(points);
      const place = locate(frame, 1, 1, -1);
      const figures = [place.s, place.across, place.halfWidth, frame.lengthMm, ...frame.tx, ...frame.s];
      expect(figures.every(Number.isFinite)).toBe(true);
    }
  });

  it('is had of a ring of any size', () => {
    for (const scale of [100, 1, 0.05, 0.001]) {
      const points = zigzag(ring, 4).map((p) => vec(p.x * scale, p.y * scale));
      const frame = frameOf(points);
      expect(frame.closed).toBe(true);
      expect(Math.abs(frame.lengthMm / (24 * Math.PI * scale) - 1)).toBeLessThan(0.01);
      const place = locate(frame, 13 * scale, 0, 5);
      expect(Math.abs(place.across + scale)).toBeLessThan(0.05 * scale);
    }
  });
});

describe('the place of a point', () => {
  it('is how far along and across a straight column it lies, the left positive', () => {
    const frame = frameOf(zigzag(line, 6));
    fc.assert(
      fc.property(
        fc.double({ min: -1, max: 31, noNaN: true }),
        fc.double({ min: -4, max: 4, noNaN: true }),
        fc.integer({ min: -1, max: frame.count - 1 }),
        (x, y, hint) => {
          const place = locate(frame, x, y, hint);
          expect(Math.abs(place.s - x)).toBeLessThan(0.02);
          expect(Math.abs(place.across - y)).toBeLessThan(0.02);
          expect(place.halfWidth).toBeCloseTo(3, 6);
        },
      ),
    );
  });

  it('is angle and radius in a column that goes round', () => {
    const frame = frameOf(zigzag(bow, 5));
    fc.assert(
      fc.property(
        fc.double({ min: 0.15, max: 1.85, noNaN: true }),
        fc.double({ min: -2.5, max: 2.5, noNaN: true }),
        (angle, left) => {
          const place = locate(frame, (15 - left) * Math.cos(angle), (15 - left) * Math.sin(angle), -1);
          expect(Math.abs(place.across - left)).toBeLessThan(0.05);
          expect(Math.abs(place.s - 15 * angle)).toBeLessThan(0.15);
        },
      ),
    );
  });

  const nearest = ({ cx, cy }: ColumnFrame, x: number, y: number): number =>
    Math.min(...cx.map((v, j) => Math.hypot(v - x, cy[j] - y)));

  it.each([
    ['a line', line, 6],
    ['a bow', bow, 6],
    ['a snake', snake, 5],
    ['a ring', ring, 6],
    ['a coil', coil, 3],
  ])('is at the nearest node, whatever the hint, under %s', (_, centre, width) => {
    const frame = frameOf(zigzag(centre, width));
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: -0.49, max: 0.49, noNaN: true }),
        fc.integer({ min: -1, max: frame.count - 1 }),
        (along, across, hint) => {
          const p = centre.beside(along * centre.length, across * width);
          const { node } = locate(frame, p.x, p.y, hint);
          const found = Math.hypot(frame.cx[node] - p.x, frame.cy[node] - p.y);
          expect(found).toBeCloseTo(nearest(frame, p.x, p.y), 9);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('anywhere in the plane is at the nearest node where there is no hint', () => {
    const far = fc.double({ min: -60, max: 60, noNaN: true });
    const frame = frameOf(zigzag(coil, 3));
    fc.assert(
      fc.property(far, far, (x, y) => {
        const { node } = locate(frame, x, y, -1);
        expect(Math.hypot(frame.cx[node] - x, frame.cy[node] - y)).toBeCloseTo(nearest(frame, x, y), 9);
      }),
    );
  });
});
