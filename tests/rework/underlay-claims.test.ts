import { describe, expect, it } from 'vitest';
import { underlayClaims } from '../../lib/rework/underlay-claims.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, walk, zigzag } from '../segment/board.js';

const run = walk(2, vec(0.5, 0), vec(19.5, 0));
const top = zigzag(vec(20, 0), vec(0, 0), 4, 0.4);
const tie = [vec(0.5, 0), vec(1.2, 0), vec(0.5, 0), vec(1.2, 0)];
const up = (points: readonly Vec[]) => points.map(({ x, y }) => vec(x, y + 10));
const claims = (board: Board, asked: readonly number[]) => {
  const { stitches } = board;
  const { whose, lock } = underlayClaims(stitches, findObjects(stitches), new Set(asked));
  return { whose: [...whose], lock: [...lock] };
};

describe('needle points that may go with an underlay', () => {
  it('are those of the objects asked for, never those of a top', () => {
    const { whose } = claims(new Board().sew(run, top), [1]);
    expect(whose.slice(0, run.length - 1).every((id) => id === 1)).toBe(true);
    expect(whose.slice(run.length + 1).every((id) => id === 0)).toBe(true);
    expect(claims(new Board().sew(run, top), []).whose.every((id) => id === 0)).toBe(true);
  });

  it('are no others: the underlay of the next column stays', () => {
    const board = new Board().sew(run, top);
    board.move('trim');
    const second = board.next;
    const { whose } = claims(board.sew(up(run), up(top)), [2]);
    expect(whose.slice(0, second).every((id) => id === 0)).toBe(true);
    expect(whose.slice(second)).toContain(2);
  });

  it('take in the locks of a thread that sewed nothing else, and these are marked', () => {
    const board = new Board().sew(tie, run.slice(1));
    board.move('trim');
    const first = board.next;
    const { whose, lock } = claims(board.sew(top), [1]);
    expect(whose.slice(0, first).every((id) => id === 1)).toBe(true);
    expect(lock.slice(0, 4)).toEqual([1, 1, 1, 1]);
    expect(lock.slice(6).every((is) => is === 0)).toBe(true);
  });

  it('leave the locks of a thread that sews on', () => {
    const { whose, lock } = claims(new Board().sew(tie, run.slice(1), top), [1]);
    expect(whose.slice(0, 3)).toEqual([0, 0, 0]);
    expect(lock.every((is) => is === 0)).toBe(true);
  });
});
