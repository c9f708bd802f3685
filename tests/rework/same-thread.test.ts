import { describe, expect, it } from 'vitest';
import type { Stitches } from '../../lib/format/stitches.js';
import { nameOf, placesOf, sameStitch, threadsOf, unchanged } from '../../lib/rework/same-thread.js';
import { vec } from '../generators/plane.js';
import { Board } from '../segment/board.js';

const board = (between: 'jump' | 'trim' | 'colour' | null, last = 8): Stitches => {
  const all = new Board().sew([vec(0, 0), vec(2, 0), vec(4, 1)]);
  if (between) all.move(between);
  return all.sew([vec(6, 0), vec(last, 0)]).stitches;
};

describe('thread of two designs', () => {
  it('is the same at the same place, in the same color', () => {
    const [a, b] = [board(null), board('colour')];
    expect(sameStitch(a, 1, b, 1, true)).toBe(true);
    expect(sameStitch(a, 1, b, 2, true)).toBe(false);
    expect(sameStitch(a, 3, b, 3, false)).toBe(false);
    expect(sameStitch(a, 4, board(null, 8.3), 4, false)).toBe(false);
  });

  it('is the same whether a long stitch is made by jumps or not, another where it is cut', () => {
    expect(sameStitch(board(null), 3, board('jump'), 3, true)).toBe(true);
    expect(sameStitch(board(null), 3, board('trim'), 3, true)).toBe(false);
    expect(sameStitch(board(null), 3, board('trim'), 3, false)).toBe(true);
  });

  it('is unchanged between two needle points if all between are the same, and as many', () => {
    const gap = { was: [0, 4], is: [0, 4] } as const;
    expect(unchanged(board(null), board('jump'), gap)).toBe(true);
    expect(unchanged(board(null), board('trim'), gap)).toBe(false);
    expect(unchanged(board(null), board(null), { was: [0, 4], is: [0, 3] })).toBe(false);
    // the two that stay are held by whoever found them
    expect(unchanged(board(null), board(null, 9), gap)).toBe(true);
  });

  it('is named by where it lies, cuts left out', () => {
    const stitches = board('trim');
    expect(nameOf(stitches, 1)).toBe('0,0 20,0');
    expect([...threadsOf(stitches, [0, 4])]).toEqual(['0,0 20,0', '20,0 40,10', '60,0 80,0']);
    expect([...placesOf(stitches, [0, 3])]).toEqual(['20,0', '40,10']);
    expect([...placesOf(stitches, [-1, 99])]).toHaveLength(5);
  });
});
