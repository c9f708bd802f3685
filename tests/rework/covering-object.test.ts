import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { squareToSegment } from '../../lib/core/distance.js';
import type { Stitches } from '../../lib/format/stitches.js';
import { CoveringObject } from '../../lib/rework/covering-object.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, walk, zigzag } from '../segment/board.js';

const THREAD_MM = 0.4;

const cover = (points: readonly Vec[], threadMm = THREAD_MM) => {
  const { stitches } = new Board().sew(points);
  const [object] = findObjects(stitches);
  return { stitches, object, covering: () => new CoveringObject(stitches, object, threadMm) };
};

const bruteDistance = ({ x, y, count }: Stitches, px: number, py: number): number => {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < count; i++)
    least = Math.min(least, squareToSegment(px, py, x[i - 1], y[i - 1], x[i], y[i]));
  return Math.sqrt(least);
};

describe('the threads of an object', () => {
  const { stitches, covering } = cover(zigzag(vec(0, 0), vec(20, 0), 4, 0.8));
  const place = fc.tuple(
    fc.double({ min: -3, max: 23, noNaN: true }),
    fc.double({ min: -5, max: 5, noNaN: true }),
  );

  it('are as near as the nearest of all, asked once or often', () => {
    const often = covering();
    fc.assert(
      fc.property(place, ([px, py]) => {
        const brute = bruteDistance(stitches, px, py);
        for (const asked of [covering(), often]) {
          if (Math.abs(brute - 0.7) > 1e-6) expect(asked.threadWithin(px, py, 0.7)).toBe(brute < 0.7);
          const told = asked.nearestThread(px, py, 0.7);
          if (brute < 0.7 - 1e-6) expect(told).toBeCloseTo(brute, 9);
          else if (brute > 0.7 + 1e-6) expect(told).toBe(Number.POSITIVE_INFINITY);
        }
      }),
    );
  });

  it('that are cut are none', () => {
    const board = new Board().sew(zigzag(vec(0, 0), vec(6, 0), 4, 0.4));
    board.move('trim');
    const { stitches: two } = board.sew(zigzag(vec(30, 0), vec(36, 0), 4, 0.4));
    const [first] = findObjects(two);
    const all = { ...first, range: [0, two.count - 1] as const };
    const asked = new CoveringObject(two, all, THREAD_MM);
    for (let k = 0; k < 9; k++) expect(asked.threadWithin(18, 0, 1)).toBe(false);
  });
});

describe('the inside of an object', () => {
  it('of a column hides where its lines are a thread apart', () => {
    const asked = cover(zigzag(vec(0, 0), vec(20, 0), 4, 0.8)).covering();
    for (let k = 0; k < 10; k++) {
      expect(asked.encloses(2.1 + 1.3 * k, 0)).toBe(true);
      expect(asked.encloses(2 + k, 2.6)).toBe(false);
      expect(asked.encloses(-3, 0)).toBe(false);
    }
  });

  it('of a column hides nothing where they are wider apart', () => {
    expect(
      cover(zigzag(vec(0, 0), vec(20, 0), 4, 1))
        .covering()
        .encloses(10, 0),
    ).toBe(false);
    expect(
      cover(zigzag(vec(0, 0), vec(20, 0), 4, 1), 0.5)
        .covering()
        .encloses(10, 0),
    ).toBe(true);
  });

  it('of a column hides nothing in a gap of sound stitching', () => {
    const gap = [...zigzag(vec(0, 0), vec(10, 0), 4, 0.6), ...zigzag(vec(11.5, 0), vec(20, 0), 4, 0.6)];
    const { stitches } = new Board().sew(gap);
    const from = Int32Array.from({ length: gap.length - 1 }, (_, i) => i);
    const to = from.map((i) => i + 1);
    const whole = { ...findObjects(stitches)[0], from, to, range: [0, gap.length - 1] as const };
    const covering = () => new CoveringObject(stitches, whole, THREAD_MM);
    for (let k = 0; k < 10; k++) {
      expect(covering().encloses(10.5, 1.5)).toBe(false);
      expect(covering().encloses(5, 0.2)).toBe(true);
    }
  });

  it('of an area hides where its rows are a thread apart, not where one is missing', () => {
    const area = rows(0.4, 16, block(0, 24));
    const asked = cover(area).covering();
    expect(asked.encloses(12, 8.2)).toBe(true);
    expect(asked.encloses(12, 18)).toBe(false);
    expect(
      cover(rows(0.6, 16, block(0, 24)))
        .covering()
        .encloses(12, 8.3),
    ).toBe(false);
    const lacking = area.filter(({ y }) => Math.abs(y - 8) > 0.1 && Math.abs(y - 8.4) > 0.1);
    const { covering } = cover(lacking);
    expect(covering().encloses(12, 8.2)).toBe(false);
    expect(covering().encloses(12, 4.2)).toBe(true);
  });

  it('of a run hides nothing', () => {
    const asked = cover(walk(2, vec(0, 0), vec(20, 0), vec(20, 20), vec(0, 20), vec(0, 0))).covering();
    expect(asked.encloses(10, 10)).toBe(false);
    expect(asked.threadWithin(10, 0.1, 0.2)).toBe(true);
  });
});
