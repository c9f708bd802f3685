import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { underlayTakenOut } from '../../lib/stitch/underlay-taken-out.js';
import { vec } from '../generators/plane.js';
import { Board, walk, zigzag } from '../segment/board.js';

const run = walk(2, vec(0.5, 0), vec(19.5, 0));
const top = zigzag(vec(20, 0), vec(0, 0), 4, 0.4);
const tie = [vec(0.5, 0), vec(1.2, 0), vec(0.5, 0), vec(1.2, 0)];

/** For each stitch whether it goes. */
const goes = (board: Board, wanted: (id: number) => boolean) => {
  const { stitches } = board;
  const objects = findObjects(stitches);
  return { taken: [...underlayTakenOut(stitches, objects, ({ id }) => wanted(id))], objects };
};

describe('underlay taken out', () => {
  it('is that of the objects asked for, their top stitching stays', () => {
    const { taken, objects } = goes(new Board().sew(run, top), () => true);
    const [{ range, underlay }] = objects;
    expect(underlay.range).not.toBeNull();
    taken.forEach((id, i) => {
      const isUnderlay =
        i >= underlay.range![0] && i <= underlay.range![1] && !(i >= range[0] && i <= range[1]);
      expect(id).toBe(isUnderlay ? 1 : 0);
    });
    expect(taken.filter((id) => id === 1).length).toBeGreaterThanOrEqual(run.length - 1);
  });

  it('is none where nobody asks', () => {
    expect(goes(new Board().sew(run, top), () => false).taken.every((id) => id === 0)).toBe(true);
  });

  it('goes with the locks of a thread that sewed nothing else', () => {
    const board = new Board().sew(tie, run.slice(1));
    board.move('trim');
    const first = board.next;
    const { taken } = goes(board.sew(top), () => true);
    expect(taken.slice(0, first).every((id) => id === 1)).toBe(true);
    expect(taken.slice(first).every((id) => id === 0)).toBe(true);
  });

  it('leaves the locks of a thread that sews on', () => {
    const { taken } = goes(new Board().sew(tie, run.slice(1), top), () => true);
    expect(taken.slice(0, 3)).toEqual([0, 0, 0]);
    expect(taken).toContain(1);
  });

  it('leaves the ties of a thread that came there without a cut', () => {
    const board = new Board().sew(zigzag(vec(-40, 0), vec(-20, 0), 4, 0.4));
    board.move('jump');
    const first = board.next;
    const { stitches } = board.sew(tie, run.slice(1), top);
    const objects = findObjects(stitches).map((object) => {
      const { range } = object.underlay;
      return range
        ? { ...object, underlay: { ...object.underlay, range: [first, range[1]] as const } }
        : object;
    });
    const taken = [...underlayTakenOut(stitches, objects, ({ id }) => id === 2)];
    expect(taken.slice(first, first + 4)).toEqual([0, 0, 0, 0]);
    expect(taken.slice(first + 4, first + 8)).toEqual([2, 2, 2, 2]);
  });

  it('leaves what lies under another', () => {
    const up = (points: readonly { x: number; y: number }[]) => points.map(({ x, y }) => vec(x, y + 10));
    const board = new Board().sew(run, top);
    board.move('trim');
    const second = board.next;
    const { taken } = goes(board.sew(up(run), up(top)), (id) => id === 2);
    expect(taken.slice(0, second).every((id) => id === 0)).toBe(true);
    expect(taken.slice(second)).toContain(2);
  });
});
