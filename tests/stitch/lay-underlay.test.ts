import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LAID_UNDERLAYS, type LaidUnderlay } from '../../lib/stitch/laid-underlay.js';
import { columnUnder, type Laying, layUnderlay } from '../../lib/stitch/lay-underlay.js';
import { LAY_SETTINGS } from '../../lib/stitch/underlay-settings.js';
import { columnTop, type TopStyle, type Column as Wanted } from '../generators/column.js';
import { arc, Curve, ellipse, segment } from '../generators/curve.js';
import { distance, type Vec, vec } from '../generators/plane.js';
import { Random } from '../generators/random.js';

const PLAIN: TopStyle = { spacing: 0.4, zag: 'symmetric', comp: 0, split: null, short: 0, overlap: 0 };
/** How far the outline that the underlay is held to may differ from the true one, mm: half the way from swing to swing. */
const OUTLINE_MM = 0.1;

interface Shape {
  width: number;
  length: number;
  /** Turn of the centre line from end to end, rad. */
  bend: number;
  slantDegrees: number;
  /** Width at the far end as a share of that at the near end. */
  taper: number;
}

/** The column of a shape; no bend is tighter than what its width allows. */
function columnOf({ width, length, bend, slantDegrees, taper }: Shape): Wanted {
  const turn = Math.sign(bend) * Math.min(Math.abs(bend), length / (width + 2));
  const centre =
    Math.abs(turn) < 0.05
      ? segment(vec(0, 0), vec(length, 0))
      : new Curve(arc(vec(0, 0), length / Math.abs(turn), 0, turn));
  return {
    centre,
    half: (s) => (width / 2) * (1 + ((taper - 1) * s) / length),
    lie: slantDegrees === 0 ? { kind: 'across' } : { kind: 'slant', degrees: slantDegrees },
  };
}

const topOf = (column: Wanted, style: Partial<TopStyle> = {}, fromEnd = false): Vec[] =>
  columnTop(column, { ...PLAIN, ...style }, fromEnd, 1, new Random(1), '').needles;

/** Underlay of a kind under a top of which the swings from number `begin` on are told, each of so many stitches. */
function lay(
  top: readonly Vec[],
  kind: LaidUnderlay,
  entry: Vec | null = null,
  { begin = 0, stitches = 1 } = {},
): Laying {
  const from = Int32Array.from(
    { length: (top.length - 1 - begin) / stitches },
    (_, i) => begin + stitches * i,
  );
  const column = columnUnder(
    { x: Float64Array.from(top, (p) => p.x), y: Float64Array.from(top, (p) => p.y) },
    { from, to: from.map((i) => i + stitches), range: [0, top.length - 1] },
    LAY_SETTINGS.insetMm,
  );
  return layUnderlay(column, kind, LAY_SETTINGS, entry);
}

const pointsOf = ({ x, y }: Laying): Vec[] => Array.from(x, (px, k) => vec(px, y[k]));
const stitchesOf = (points: readonly Vec[]): number[] =>
  points.slice(1).map((p, k) => distance(points[k], p));

/** The outline of an open column: one rail out, the other back. */
function outline(top: readonly Vec[]): Flatten.Polygon {
  const even = top.filter((_, k) => k % 2 === 0);
  const odd = top.filter((_, k) => k % 2 === 1).reverse();
  return new Flatten.Polygon([...even, ...odd].map(({ x, y }) => new Flatten.Point(x, y)));
}

const shape = fc.record({
  width: fc.double({ min: 1.6, max: 9, noNaN: true }),
  length: fc.double({ min: 4, max: 40, noNaN: true }),
  bend: fc.double({ min: -2.5, max: 2.5, noNaN: true }),
  slantDegrees: fc.constantFrom(0, 0, 15, -30, 40),
  taper: fc.double({ min: 0.7, max: 1, noNaN: true }),
});
const kind = fc.constantFrom(...LAID_UNDERLAYS);

const longest = (laid: LaidUnderlay): number =>
  laid.includes('zigzag')
    ? LAY_SETTINGS.swingMm
    : laid.includes('fill')
      ? LAY_SETTINGS.fillStitchMm
      : LAY_SETTINGS.runStitchMm;

describe('underlay laid under any column', () => {
  it('keeps its inset from the rails and the ends', () => {
    fc.assert(
      fc.property(shape, kind, fc.boolean(), (s, k, fromFar) => {
        const top = topOf(columnOf(s));
        const points = pointsOf(lay(top, k, fromFar ? top[top.length - 1] : null));
        const area = outline(top);
        const least = Math.min(
          LAY_SETTINGS.insetMm,
          (s.width * s.taper * Math.cos((s.slantDegrees * Math.PI) / 180)) / 2,
        );
        for (const { x, y } of points) {
          const p = new Flatten.Point(x, y);
          expect(area.contains(p)).toBe(true);
          const d = Math.min(...[...area.edges].map((e) => p.distanceTo((e as Flatten.Edge).shape)[0]));
          expect(d).toBeGreaterThan(least - OUTLINE_MM);
        }
      }),
      { numRuns: 120 },
    );
  });

  it('has no stitch under half a millimetre, and none longer than was asked', () => {
    fc.assert(
      fc.property(shape, kind, fc.boolean(), (s, k, fromFar) => {
        const top = topOf(columnOf(s));
        const laying = lay(top, k, fromFar ? top[top.length - 1] : null);
        const points = pointsOf(laying);
        for (const l of stitchesOf(points)) {
          expect(l).toBeGreaterThanOrEqual(0.5);
          expect(l).toBeLessThanOrEqual(1.1 * longest(laying.laid!));
        }
        // and it leads into the top stitching by a stitch that can be sewn
        expect(distance(points[points.length - 1], top[0])).toBeGreaterThan(0.5);
      }),
    );
  });

  it('ends near the first top stitch, and begins there too unless the thread comes in at the other end', () => {
    fc.assert(
      fc.property(shape, kind, (s, k) => {
        const top = topOf(columnOf(s));
        const near = vec((top[0].x + top[1].x) / 2, (top[0].y + top[1].y) / 2);
        const far = vec(
          (top[top.length - 1].x + top[top.length - 2].x) / 2,
          (top[top.length - 1].y + top[top.length - 2].y) / 2,
        );
        const reach = s.width / Math.cos((s.slantDegrees * Math.PI) / 180) / 2 + LAY_SETTINGS.rowsMm;
        const there = pointsOf(lay(top, k));
        expect(distance(there[0], near)).toBeLessThan(reach);
        expect(distance(there[there.length - 1], near)).toBeLessThan(reach);
        const through = pointsOf(lay(top, k, far));
        expect(distance(through[0], far)).toBeLessThan(reach);
        expect(distance(through[through.length - 1], near)).toBeLessThan(reach);
      }),
    );
  });

  it('turns, mirrors and moves with the column', () => {
    const rigid = fc.record({
      angle: fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
      mirror: fc.boolean(),
      dx: fc.double({ min: -50, max: 50, noNaN: true }),
    });
    fc.assert(
      fc.property(shape, kind, rigid, (s, k, { angle, mirror, dx }) => {
        const map = ({ x, y }: Vec): Vec => {
          const u = mirror ? -x : x;
          return vec(
            u * Math.cos(angle) - y * Math.sin(angle) + dx,
            u * Math.sin(angle) + y * Math.cos(angle) - dx,
          );
        };
        const top = topOf(columnOf(s));
        const laying = lay(top, k);
        const moved = lay(top.map(map), k);
        expect(moved.laid).toBe(laying.laid);
        const expected = pointsOf(laying).map(map);
        const points = pointsOf(moved);
        expect(points.length).toBe(expected.length);
        points.forEach((p, n) => {
          expect(distance(p, expected[n])).toBeLessThan(1e-6);
        });
      }),
    );
  });

  it('is of one kind and as close from whichever end the column is sewn', () => {
    fc.assert(
      fc.property(shape, kind, (s, k) => {
        const column = columnOf(s);
        const [a, b] = [false, true].map((fromEnd) => lay(topOf(column, {}, fromEnd), k));
        // at the very limit of what a column carries its last swing decides, as it does on one row or swing more or less
        fc.pre(a.laid === b.laid);
        expect(Math.abs((a.spacingMm ?? 0) - (b.spacingMm ?? 0))).toBeLessThan(0.6);
        expect(Math.abs(a.x.length - b.x.length)).toBeLessThanOrEqual(6 + 0.05 * a.x.length);
      }),
    );
  });
});

describe('a straight column of 6 by 24 mm', () => {
  const top = topOf(columnOf({ width: 6, length: 24, bend: 0, slantDegrees: 0, taper: 1 }));
  const points = (k: LaidUnderlay) => pointsOf(lay(top, k));

  it('has a center run out and back whose needle points do not meet', () => {
    const run = points('center-run');
    for (const { y } of run) expect(Math.abs(y)).toBeLessThan(0.06);
    const xs = run.map(({ x }) => x).sort((p, q) => p - q);
    for (let k = 1; k < xs.length; k++) expect(xs[k] - xs[k - 1]).toBeGreaterThan(0.5);
    expect(Math.max(...xs)).toBeGreaterThan(23);
  });

  it('has an edge run half a millimetre inside both rails', () => {
    const run = points('edge-run');
    const along = run.filter(({ x }) => x > 1 && x < 23);
    for (const { y } of along) expect(Math.abs(Math.abs(y) - 2.5)).toBeLessThan(0.02);
    expect(along.filter(({ y }) => y > 0).length).toBeGreaterThan(9);
    expect(along.filter(({ y }) => y < 0).length).toBeGreaterThan(9);
  });

  it('has rows of a light fill 3 mm apart from edge to edge', () => {
    const laying = lay(top, 'fill');
    expect(laying.spacingMm).toBeCloseTo(3, 2);
    const atEdge = pointsOf(laying).filter(({ y }) => Math.abs(y) > 2.45);
    const xs = [...new Set(atEdge.map(({ x }) => Math.round(x * 10) / 10))].sort((p, q) => p - q);
    // rows, and the middles of the steps between them
    for (let k = 1; k < xs.length; k++) expect(xs[k] - xs[k - 1]).toBeCloseTo(1.5, 0);
    expect(xs.length).toBe(15);
  });

  it.each([
    ['zigzag', 1],
    ['double-zigzag', 2],
  ] as const)('has a %s with points 2.5 mm apart on a rail', (k, passes) => {
    const laying = lay(top, k);
    expect(Math.abs(laying.spacingMm! - 2.5)).toBeLessThan(0.15);
    const left = pointsOf(laying).filter(({ y }) => y > 2.45);
    expect(Math.abs(left.length - (passes * 23) / 2.5)).toBeLessThanOrEqual(2);
  });
});

describe('columns that are no plain bar', () => {
  it.each(LAID_UNDERLAYS)('a ring takes %s in one way round, within both circles', (k) => {
    const ring: Wanted = {
      centre: new Curve(ellipse(vec(0, 0), 12, 12).slice(0, -1), true),
      half: () => 2.5,
      lie: { kind: 'across' },
    };
    const laying = lay(topOf(ring, { overlap: 0.8 }), k);
    expect(laying.laid).toBe(k);
    const points = pointsOf(laying);
    for (const p of points) {
      const r = Math.hypot(p.x, p.y);
      expect(r).toBeGreaterThan(9.5 + 0.5 - OUTLINE_MM);
      expect(r).toBeLessThan(14.5 - 0.5 + OUTLINE_MM);
    }
    expect(distance(points[0], points[points.length - 1])).toBeLessThan(6);
    // all round
    const sectors = new Set(points.map((p) => Math.floor((Math.atan2(p.y, p.x) * 4) / Math.PI)));
    expect(sectors.size).toBe(8);
  });

  it.each(LAID_UNDERLAYS)('a column that runs out to a point keeps %s inside', (k) => {
    const top = topOf({
      centre: segment(vec(0, 0), vec(30, 0)),
      half: (s) => Math.max(0.15, 5 - s / 6.2),
      lie: { kind: 'across' },
    });
    const laying = lay(top, k);
    expect(laying.laid).toBe(k);
    const area = outline(top);
    for (const { x, y } of pointsOf(laying)) expect(area.contains(new Flatten.Point(x, y))).toBe(true);
  });

  it('ends where the top stitching begins, though an earlier pass leads from there to where the swings that are told begin', () => {
    const column = columnOf({ width: 5, length: 24, bend: 0.4, slantDegrees: 0, taper: 1 });
    const top = topOf(column);
    const there = [top[0], top[0], ...top.slice(1).reverse()];
    const laying = lay(there, 'fill', null, { begin: 2 });
    const points = pointsOf(laying);
    expect(distance(points[points.length - 1], top[0])).toBeLessThan(5);
    expect(distance(points[points.length - 1], top[top.length - 1])).toBeGreaterThan(15);
  });

  it('split swings change nothing', () => {
    const column = columnOf({ width: 9, length: 25, bend: 0, slantDegrees: 0, taper: 1 });
    const whole = topOf(column);
    const split = whole.flatMap((p, k) =>
      k === 0 ? [p] : [vec((whole[k - 1].x + p.x) / 2, (whole[k - 1].y + p.y) / 2), p],
    );
    const laying = lay(split, 'fill', null, { stitches: 2 });
    expect(laying).toEqual(lay(whole, 'fill'));
  });

  it('a bar of 2 mm takes a center run for a light fill, and says so', () => {
    const laying = lay(
      topOf(columnOf({ width: 2, length: 20, bend: 0, slantDegrees: 0, taper: 1 })),
      'edge-run+fill',
    );
    expect([laying.laid, laying.spacingMm]).toEqual(['center-run', null]);
    expect(laying.x.length).toBeGreaterThan(15);
  });

  it('a wide bar too short for three rows takes a center run', () => {
    const laying = lay(
      topOf(columnOf({ width: 6, length: 3.5, bend: 0, slantDegrees: 0, taper: 1 })),
      'fill',
    );
    expect(laying.laid).toBe('center-run');
  });

  it('a bar shorter than any run takes nothing', () => {
    const laying = lay(
      topOf(columnOf({ width: 3, length: 1.2, bend: 0, slantDegrees: 0, taper: 1 })),
      'zigzag',
    );
    expect([laying.laid, laying.x.length, laying.spacingMm]).toEqual([null, 0, null]);
  });

  it('swings that all lie on one point take nothing', () => {
    expect(lay(Array(12).fill(vec(3, 4)), 'fill').laid).toBe(null);
  });
});
