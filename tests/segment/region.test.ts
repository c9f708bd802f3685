import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { columnFrame } from '../../lib/geometry/column-frame.js';
import { ColumnRegion, FillRegion } from '../../lib/segment/region.js';
import { columnTop } from '../generators/column.js';
import { Curve, ellipse, path, segment } from '../generators/curve.js';
import { type Vec, vec } from '../generators/plane.js';
import { Random } from '../generators/random.js';
import { block, rows, sewn } from './board.js';

const polygon = (ring: readonly Vec[]): Flatten.Polygon =>
  new Flatten.Polygon(ring.map((p) => new Flatten.Point(p.x, p.y)));

const columnOf = (centre: Curve, width: number): ColumnRegion => {
  const { needles } = columnTop(
    { centre, half: () => width / 2, lie: { kind: 'across' } },
    { spacing: 0.4, zag: 'symmetric', comp: 0, split: null, short: 0, overlap: 0 },
    false,
    1,
    new Random(1),
    '',
  );
  const { x, y, count } = sewn(needles);
  const from = Int32Array.from({ length: count - 1 }, (_, i) => i);
  return new ColumnRegion(
    columnFrame(
      x,
      y,
      from,
      from.map((i) => i + 1),
    ),
  );
};

/** Rows of a stitching along x as a region. */
function fillOf(points: readonly Vec[], isEnd: (i: number) => boolean, spacing: number): FillRegion {
  const { x, y, count } = sewn(points);
  const ends = Array.from({ length: count }, (_, i) => i).filter(isEnd);
  const from = Int32Array.from(ends.slice(0, -1));
  const to = Int32Array.from(ends.slice(1));
  return new FillRegion(x, y, from, to, spacing);
}

describe('the fabric under a column', () => {
  const snake = new Curve(path((t) => vec(t, 5 * Math.sin(t / 5)), 0, 45, 60));
  const rails = [...Array(121).keys()].map((k) => (k / 120) * snake.length);
  const outline = polygon([
    ...rails.map((s) => snake.beside(s, 2)),
    ...rails.map((s) => snake.beside(s, -2)).reverse(),
  ]);
  const region = columnOf(snake, 4);

  it('are its outline with a margin of less than a stitch', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5, max: 50, noNaN: true }),
        fc.double({ min: -11, max: 11, noNaN: true }),
        (x, y) => {
          const point = new Flatten.Point(x, y);
          const [off] = outline.distanceTo(point);
          const inside = outline.contains(point);
          if (inside && off > 0.05) expect(region.contains(x, y)).toBe(true);
          if (!inside && off > 0.8) expect(region.contains(x, y)).toBe(false);
        },
      ),
      { numRuns: 600 },
    );
  });

  it('leave out the hole of a ring, but not the place where it closes', () => {
    const ring = columnOf(new Curve(ellipse(vec(0, 0), 10, 10).slice(0, -1), true), 4);
    for (let k = 0; k < 64; k++) {
      const [c, s] = [Math.cos((k * Math.PI) / 32), Math.sin((k * Math.PI) / 32)];
      for (const r of [8.1, 10, 11.9]) expect(ring.contains(r * c, r * s)).toBe(true);
      for (const r of [0, 5, 7.5, 12.5, 20]) expect(ring.contains(r * c, r * s)).toBe(false);
    }
  });

  it('end shortly behind a straight end', () => {
    const bar = columnOf(segment(vec(0, 0), vec(20, 0)), 4);
    expect([bar.contains(20.3, 1), bar.contains(21, 0), bar.contains(-0.5, -1), bar.contains(-1, 0)]).toEqual(
      [true, false, true, false],
    );
  });
});

describe('the fabric under a fill', () => {
  const half = (y: number) => 6 + 5 * Math.cos(0.5 * y);
  const waisted = rows(0.4, 22, (y) => [-half(y), half(y) + y / 2]);
  const heights = [...Array(111).keys()].map((k) => k * 0.2);
  const outline = polygon([
    ...heights.map((y) => vec(half(y) + y / 2, y)),
    ...heights.map((y) => vec(-half(y), y)).reverse(),
  ]);
  const region = fillOf(
    waisted,
    (i) =>
      i === 0 ||
      i === waisted.length - 1 ||
      waisted[i].y !== waisted[i - 1].y ||
      waisted[i].y !== waisted[i + 1].y,
    0.4,
  );
  const anywhere = [
    fc.double({ min: -14, max: 26, noNaN: true }),
    fc.double({ min: -3, max: 25, noNaN: true }),
  ] as const;

  it('are its outline but for a cell of the grid', () => {
    fc.assert(
      fc.property(...anywhere, (x, y) => {
        const point = new Flatten.Point(x, y);
        const [off] = outline.distanceTo(point);
        if (off > 0.75) expect(region.contains(x, y)).toBe(outline.contains(point));
      }),
      { numRuns: 600 },
    );
  });

  it('have the area of the outline, and of a strip of half a cell round it', () => {
    const area = Math.abs(outline.area());
    const round = [...outline.edges].reduce((sum, edge) => sum + edge.length, 0);
    expect(region.areaMm2).toBeGreaterThan(area);
    expect(region.areaMm2).toBeLessThan(area + round * 0.5);
  });

  it('have their edge where the outline is', () => {
    fc.assert(
      fc.property(...anywhere, (x, y) => {
        const point = new Flatten.Point(x, y);
        fc.pre(outline.contains(point));
        const [off] = outline.distanceTo(point);
        if (off < 1.1) expect(region.nearEdge(x, y, 1.9)).toBe(true);
        if (off > 2.7) expect(region.nearEdge(x, y, 1.9)).toBe(false);
      }),
      { numRuns: 300 },
    );
  });

  it.each([0.4, 1, 3])('have no wedges open where rows %s mm apart lead slantwise to the next', (apart) => {
    const slanted = rows(apart, 30, block(0, 25), { stitch: 30, direct: true });
    const filled = fillOf(slanted, () => true, apart);
    for (let x = 0.5; x < 25; x += 0.37) {
      for (let y = apart; y < 30 - apart; y += 0.29) expect(filled.contains(x, y)).toBe(true);
    }
  });

  it('do not reach over a gap between two parts', () => {
    const parts = [...rows(0.4, 8, block(0, 10)), ...rows(0.4, 8, block(14, 24))];
    const { x, y, count } = sewn(parts);
    const from: number[] = [];
    const to: number[] = [];
    for (let i = 0; i + 1 < count; i++) {
      if (y[i] !== y[i + 1] || Math.abs(x[i] - x[i + 1]) > 4) continue;
      from.push(i);
      to.push(i + 1);
    }
    const filled = new FillRegion(x, y, Int32Array.from(from), Int32Array.from(to), 0.4);
    expect([5, 12, 19].map((at) => filled.contains(at, 4))).toEqual([true, false, true]);
  });

  it('are laid on coarser cells where rows are few and far apart', () => {
    const corner = (i: number) => (i % 2 === 0 ? vec(0, i * 400) : vec(4000, (i - 1) * 400));
    const huge = fillOf([0, 1, 2, 3, 4, 5].map(corner), () => true, 0.4);
    expect(huge.contains(2000, 0)).toBe(true);
    expect(huge.contains(5000, 5000)).toBe(false);
  });
});
