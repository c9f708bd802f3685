import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type LayWay, type NeedlePoint, ThreadUnder } from '../../lib/stitch/thread-under.js';
import { LAY_SETTINGS } from '../../lib/stitch/underlay-settings.js';
import { vec } from '../generators/plane.js';
import { sewn, zigzag } from '../segment/board.js';

const stitches = sewn(zigzag(vec(0, 0), vec(20, 0), 4, 0.4));
const [column] = findObjects(stitches);
const WAY: LayWay = {
  to: 'edge-run',
  settings: LAY_SETTINGS,
  keptMm: 0.5,
  locks: false,
  travelAt: 0,
  endsEarly: false,
};
const under = (way: Partial<LayWay> = {}) => new ThreadUnder(stitches, column, { ...WAY, ...way });
const lengths = (points: readonly NeedlePoint[]) =>
  points.slice(1).map(([x, y], k) => Math.hypot(x - points[k][0], y - points[k][1]));

describe('the thread under a column', () => {
  it('is the underlay asked for, on the grid of a file, inside the inset, in stitches that hold', () => {
    for (const to of ['center-run', 'edge-run', 'zigzag', 'fill', 'double-zigzag'] as const) {
      const points = under({ to }).underlay(null, [0, 0]).points;
      expect(points.length).toBeGreaterThan(8);
      for (const [x, y] of points) {
        expect(Math.abs(10 * x - Math.round(10 * x))).toBeLessThan(1e-9);
        expect(Math.abs(10 * y - Math.round(10 * y))).toBeLessThan(1e-9);
        expect(under({ to }).keepsInset([x, y])).toBe(true);
        expect(Math.abs(y)).toBeLessThanOrEqual(1.5);
      }
      for (const mm of lengths(points)) {
        expect(mm).toBeGreaterThanOrEqual(0.5);
        expect(mm).toBeLessThanOrEqual(1.1 * under({ to }).longestMm);
      }
    }
  });

  it('begins with a lock where that is asked for', () => {
    const plain = under().underlay(null, [0, 0]).points;
    const locked = under({ locks: true }).underlay(null, [0, 0]).points;
    expect(locked.length).toBe(plain.length + 2);
    expect(locked[0]).toEqual(locked[2]);
    expect(lengths(locked)[0]).toBeCloseTo(0.7, 0);
  });

  it('is a center run where the column has no room for what is asked', () => {
    const small = sewn(zigzag(vec(0, 0), vec(20, 0), 1.6, 0.4));
    const [narrow] = findObjects(small);
    const asked = (to: LayWay['to']) => new ThreadUnder(small, narrow, { ...WAY, to }).underlay(null, [0, 0]);
    expect(asked('zigzag').laid).toBe('center-run');
    expect(asked('zigzag').points).toEqual(asked('center-run').points);
  });

  it('knows the longest stitch that each kind is made of', () => {
    expect(under({ to: 'zigzag' }).longestMm).toBe(LAY_SETTINGS.swingMm);
    expect(under({ to: 'edge-run+fill' }).longestMm).toBe(LAY_SETTINGS.fillStitchMm);
    expect(under({ to: 'center-run' }).longestMm).toBe(LAY_SETTINGS.runStitchMm);
  });

  it('travels beneath the column where it is told to, in stitches that hold', () => {
    const points = under({ travelAt: 0.5 }).travel([1, 0], [1, 0], [18, 0], [18, 0]);
    expect(points.length).toBeGreaterThan(6);
    for (const point of points) expect(under().keepsInset(point)).toBe(true);
    const middle = points.slice(2, -2).map(([, y]) => y);
    // half way out to the inner edge at 1.5 mm, on the one side or the other
    for (const y of middle) expect(Math.abs(Math.abs(y) - 0.75)).toBeLessThan(0.2);
  });

  it('keeps no inset beside the edges or beyond the ends', () => {
    expect(under().keepsInset([10, 1.8])).toBe(false);
    expect(under().keepsInset([10, 1.4])).toBe(true);
    expect(under().keepsInset([0.1, 0])).toBe(false);
  });

  it('leads across in one stitch where a ring meets itself', () => {
    const turn = (k: number) => (2 * Math.PI * 0.985 * k) / 400;
    const ring = sewn(
      Array.from({ length: 401 }, (_, k) =>
        vec((k % 2 ? 8 : 12) * Math.cos(turn(k)), (k % 2 ? 8 : 12) * Math.sin(turn(k))),
      ),
    );
    const [round] = findObjects(ring);
    const last = vec(10 * Math.cos(turn(399)), 10 * Math.sin(turn(399)));
    const points = new ThreadUnder(ring, round, { ...WAY, to: 'fill' }).underlay(
      [last.x, last.y],
      [last.x, last.y],
    ).points;
    // the way there and the rows back, once round each
    const way = lengths(points).reduce((sum, mm) => sum + mm, 0);
    expect(way).toBeLessThan(2 * 2 * Math.PI * 10 + 22 * 4);
  });

  it('moves a needle point farther in that would lie too near to a slanting end', () => {
    const slanted = sewn(
      zigzag(vec(0, 0), vec(16, 0), 4, 0.4).map(({ x, y }, k, all) =>
        k === all.length - 1 ? vec(x - 2.2, y) : vec(x, y),
      ),
    );
    const [bar] = findObjects(slanted);
    const lay = new ThreadUnder(slanted, bar, { ...WAY, to: 'edge-run' });
    for (const point of lay.underlay(null, [0, 0]).points)
      expect([point, lay.keepsInset(point)]).toEqual([point, true]);
  });
});
