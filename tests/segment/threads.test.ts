import { describe, expect, it } from 'vitest';
import { findThreads } from '../../lib/segment/threads.js';
import { vec } from '../generators/plane.js';
import { Board, walk, zigzag } from './board.js';

const line = walk(2.5, vec(0, 0), vec(20, 0));
const far = walk(2.5, vec(60, 40), vec(80, 40));
const spans = (board: Board) => findThreads(board.stitches).map((t) => [t.first, t.last]);

describe('a thread ends', () => {
  it.each(['trim', 'colour'] as const)('at a %s, however near the needle goes on', (kind) => {
    const board = new Board()
      .sew(line)
      .move(kind)
      .sew([vec(20, 0.4)], walk(2.5, vec(18, 0.4), vec(0, 0.4)));
    expect(spans(board)).toEqual([
      [0, 8],
      [9, board.next - 1],
    ]);
  });

  it('at a long move by jumps, trimmed or not', () => {
    expect(spans(new Board().sew(line).move('jump').sew(far))).toEqual([
      [0, 8],
      [9, 17],
    ]);
    expect(spans(new Board().sew(line).move('stop').move('jump').sew(far))).toHaveLength(2);
  });

  it('at a stop, as what comes after is sewn on something new', () => {
    const beside = walk(2.5, vec(20, 3), vec(0, 3));
    expect(spans(new Board().sew(line).move('stop').sew(beside))).toEqual([
      [0, 8],
      [9, 17],
    ]);
  });

  it('at a jump that a stitch need not have, and not where one record cannot hold it', () => {
    const moved = (mm: number) =>
      spans(
        new Board()
          .sew(line)
          .move('jump')
          .sew(walk(2.5, vec(20 + mm, 0), vec(40 + mm, 0))),
      ).length;
    expect([3, 12].map(moved)).toEqual([2, 2]);
    expect([12.2, 16.9].map(moved)).toEqual([1, 1]);
    expect([17.1, 30].map(moved)).toEqual([2, 2]);
  });

  it('at no short jump that is a swing between others', () => {
    const board = new Board();
    zigzag(vec(0, 0), vec(6, 0), 8, 0.5).forEach((p, k) => {
      if (k === 9) board.move('jump');
      board.sew([p]);
    });
    expect(spans(board)).toEqual([[0, 24]]);
  });

  it('at no stitch, however long, that is sewn without a jump', () => {
    expect(spans(new Board().sew(line, far))).toEqual([[0, 17]]);
  });
});

describe('a swing too wide for one record of a file', () => {
  /** Every swing reached by a jump. */
  const wide = (width: number) => {
    const board = new Board();
    zigzag(vec(0, 0), vec(6, 0), width, 0.5).forEach((p, k) => {
      if (k > 0) board.move('jump');
      board.sew([p]);
    });
    return board;
  };

  it.each([13, 16, 18, 24, 40])('is a stitch, not a move: %s mm', (width) => {
    expect(spans(wide(width))).toEqual([[0, 24]]);
  });

  it('is told from the move to the next of two such columns', () => {
    const board = wide(20).move('jump');
    const first = board.next;
    zigzag(vec(90, 0), vec(96, 0), 20, 0.5).forEach((p, k) => {
      if (k > 0) board.move('jump');
      board.sew([p]);
    });
    expect(spans(board)).toEqual([
      [0, first - 1],
      [first, board.next - 1],
    ]);
  });

  it('is a stitch too where only some swings are that wide', () => {
    const board = new Board();
    for (let k = 0; k < 40; k++) {
      if (k > 17 && k < 22) board.move('jump');
      board.sew([vec(k * 0.2, (k % 2 ? 1 : -1) * (k > 16 && k < 22 ? 9 : 5))]);
    }
    expect(spans(board)).toEqual([[0, 39]]);
  });
});

describe('of each thread is known', () => {
  it('its locks, its body without them, and its block', () => {
    const lock = [vec(0, 0), vec(0.5, 0), vec(0, 0), vec(0.5, 0), vec(0, 0)];
    const open = walk(2.5, vec(2.5, 0), vec(20, 0));
    const board = new Board()
      .sew(lock, open)
      .move('colour')
      .sew(far)
      .move('trim')
      .sew([...lock, ...open].reverse());
    const [a, b, c] = findThreads(board.stitches);
    expect(a).toEqual({
      first: 0,
      last: 12,
      bodyFirst: 4,
      bodyLast: 12,
      lockedStart: true,
      lockedEnd: false,
      block: 0,
    });
    expect(b).toMatchObject({ first: 13, last: 21, bodyFirst: 13, bodyLast: 21, block: 1 });
    expect(c).toMatchObject({ first: 22, last: 34, bodyFirst: 22, bodyLast: 30, lockedEnd: true, block: 1 });
  });

  it('a body that is not empty where it is nothing but lock', () => {
    const tiny = [vec(0, 0), vec(0.5, 0), vec(0, 0), vec(0.5, 0), vec(0, 0)];
    const [only] = findThreads(new Board().sew(tiny).stitches);
    expect(only.bodyFirst).toBeLessThanOrEqual(only.bodyLast);
    expect([only.first, only.last]).toEqual([0, 4]);
  });

  it('nothing where there are no stitches', () => {
    expect(findThreads(new Board().stitches)).toEqual([]);
    expect(findThreads(new Board().move('jump').move('trim').stitches)).toEqual([]);
    expect(spans(new Board().sew([vec(3, 3)]))).toEqual([[0, 0]]);
  });
});
