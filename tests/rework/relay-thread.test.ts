import { describe, expect, it } from 'vitest';
import { type Point, type RelayWay, ThreadUnder } from '../../lib/rework/relay-thread.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { LAY_SETTINGS } from '../../lib/stitch/underlay-settings.js';
import { vec } from '../generators/plane.js';
import { sewn, zigzag } from '../segment/board.js';

const stitches = sewn(zigzag(vec(0, 0), vec(20, 0), 4, 0.4));
const [column] = findObjects(stitches);
const WAY: RelayWay = {
  to: 'edge-run',
  settings: LAY_SETTINGS,
  keptMm: 0.5,
  locks: false,
  travelAt: 0,
  endsEarly: false,
};
const under = (way: Partial<RelayWay> = {}) => new ThreadUnder(stitches, column, { ...WAY, ...way });
const lengths = (points: readonly Point[]) =>
  points.slice(1).map(([x, y], k) => Math.hypot(x - points[k][0], y - points[k][1]));

describe('the thread under a column', () => {
  it('is the underlay asked for, on the grid of a file, inside the inset, in stitches that hold', () => {
    for (const to of ['center-run', 'edge-run', 'zigzag', 'fill', 'double-zigzag'] as const) {
      const points = under({ to }).underlay(null, [0, 0])!;
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
    const plain = under().underlay(null, [0, 0])!;
    const locked = under({ locks: true }).underlay(null, [0, 0])!;
    expect(locked.length).toBe(plain.length + 2);
    expect(locked[0]).toEqual(locked[2]);
    expect(lengths(locked)[0]).toBeCloseTo(0.7, 0);
  });

  it('is none where the column has no room for it', () => {
    const small = sewn(zigzag(vec(0, 0), vec(20, 0), 1.6, 0.4));
    const [narrow] = findObjects(small);
    expect(new ThreadUnder(small, narrow, { ...WAY, to: 'zigzag' }).underlay(null, [0, 0])).toBeNull();
    expect(
      new ThreadUnder(small, narrow, { ...WAY, to: 'center-run' }).underlay(null, [0, 0]),
    ).not.toBeNull();
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
});
