import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Stitches } from '../../lib/format/stitches.js';
import { LegFinder } from '../../lib/segment/legs.js';
import { vec } from '../generators/plane.js';
import { Board, sewn, walk, zigzag } from './board.js';

/** Ends of each leg as stitch indexes. */
function legsOf(stitches: Stitches, first = 0, last = stitches.count - 1): [number, number][] {
  const { count, from, to } = new LegFinder(stitches, stitches.count).find(first, last);
  return Array.from({ length: count }, (_, i) => [from[i], to[i]]);
}

describe('legs', () => {
  it('are the sides of a square, however many stitches a side has', () => {
    const square = walk(2, vec(0, 0), vec(10, 0), vec(10, 10), vec(0, 10), vec(0, 0));
    expect(legsOf(sewn(square))).toEqual([
      [0, 5],
      [5, 10],
      [10, 15],
      [15, 20],
    ]);
  });

  it('are the swings of a column', () => {
    const legs = legsOf(sewn(zigzag(vec(0, 0), vec(4, 0), 5, 0.4)));
    expect(legs).toEqual(Array.from({ length: 20 }, (_, k) => [k, k + 1]));
  });

  it('are whole swings where these are broken by needle points', () => {
    const legs = legsOf(sewn(zigzag(vec(0, 0), vec(4, 0), 9, 0.4, 2)));
    expect(legs).toEqual(Array.from({ length: 20 }, (_, k) => [3 * k, 3 * k + 3]));
  });

  it('end where the thread turns by more than 50°', () => {
    fc.assert(
      fc.property(fc.double({ min: -175, max: 175, noNaN: true }), (degrees) => {
        fc.pre(Math.abs(Math.abs(degrees) - 50) > 0.1);
        const a = (degrees * Math.PI) / 180;
        const bent = [vec(-2, 0), vec(0, 0), vec(2 * Math.cos(a), 2 * Math.sin(a))];
        expect(legsOf(new Board(0).sew(bent).stitches)).toHaveLength(Math.abs(degrees) > 50 ? 2 : 1);
      }),
    );
  });

  it('follow a curve as one', () => {
    const circle = Array.from({ length: 25 }, (_, k) =>
      vec(8 * Math.cos((k * Math.PI) / 12), 8 * Math.sin((k * Math.PI) / 12)),
    );
    expect(legsOf(sewn(circle))).toEqual([[0, 24]]);
  });

  it('pass over points too near to the last to have a direction, and end where these reach farthest', () => {
    // the needle goes on by 0.3 mm past the corner, steps up 0.3 mm, and comes back
    const corner = sewn([vec(0, 0), vec(4, 0), vec(4.3, 0), vec(4.3, 0.3), vec(0, 0.6)]);
    expect(legsOf(corner)).toEqual([
      [0, 2],
      [2, 4],
    ]);
  });

  it('leave out a short step between them', () => {
    const stepped = sewn([vec(0, 0), vec(4, 0), vec(4, 0.4), vec(0, 0.4)]);
    expect(legsOf(stepped)).toEqual([
      [0, 1],
      [2, 3],
    ]);
  });

  it('of a triple run are those of the single one', () => {
    const once = walk(2.5, vec(0, 0), vec(10, 0), vec(10, 10));
    const triple = once.flatMap((p, i) => (i === 0 ? [p] : [p, once[i - 1], p]));
    const legs = legsOf(sewn(triple));
    expect(legs).toHaveLength(2);
    const { x, y } = sewn(triple);
    expect(legs.map(([a, b]) => [x[a], y[a], x[b], y[b]])).toEqual([
      [0, 0, 10, 0],
      [10, 0, 10, 10],
    ]);
  });

  it('of a triple run are told from a lock: tiny stitches to and fro are corners', () => {
    const lock = sewn([vec(0, 0), vec(0.7, 0), vec(0, 0), vec(0.7, 0), vec(4, 0)]);
    expect(legsOf(lock)).toHaveLength(3);
  });

  it('of a swing met again beside itself are not taken for a triple stitch', () => {
    const legs = legsOf(sewn(zigzag(vec(0, 0), vec(3, 0), 3, 0.3)));
    expect(legs).toHaveLength(20);
  });

  it('lie between the given stitches', () => {
    const square = sewn(walk(2, vec(0, 0), vec(10, 0), vec(10, 10), vec(0, 10)));
    expect(legsOf(square, 3, 8)).toEqual([
      [3, 5],
      [5, 8],
    ]);
  });

  it('are none where there is one needle place', () => {
    expect(legsOf(sewn([vec(1, 1)]))).toEqual([]);
    expect(legsOf(sewn(Array.from({ length: 9 }, () => vec(1, 1))))).toEqual([]);
    expect(legsOf(sewn([vec(1, 1), vec(1.3, 1), vec(1.3, 1.3)]))).toEqual([]);
  });

  it('are found anew each time one finder is asked', () => {
    const stitches = sewn(walk(2, vec(0, 0), vec(10, 0), vec(10, 10), vec(0, 10)));
    const finder = new LegFinder(stitches, stitches.count);
    expect(finder.find(0, 15).count).toBe(3);
    expect(finder.find(0, 4).count).toBe(1);
    expect(finder.find(0, 15).count).toBe(3);
  });
});
