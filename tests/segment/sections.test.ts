import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, TURNS, turned } from './board.js';

describe.each(TURNS)('turned by $degrees, mirrored $mirror', (turn) => {
  /** A block of rows and a second one, moved, on a thread of its own. */
  const found = (by: Vec, { cut = 'trim' as 'trim' | 'jump' | 'colour', apart = 0.4 } = {}) => {
    const second = rows(apart, 12, block(0, 16)).map((p) => vec(p.x + by.x, p.y + by.y));
    const board = new Board().sew(turned(rows(0.4, 12, block(0, 16)), turn)).move(cut);
    return findObjects(board.sew(turned(second, turn)).stitches).map(({ kind, range }) => [kind, range[0]]);
  };
  const one = [['fill', 0]];

  it('sections beside each other are one area where their rows lie on one raster', () => {
    // beside each other, as at both sides of a hole, and the one above the other
    expect(found(vec(17, 4))).toEqual(one);
    expect(found(vec(3, 12.4))).toEqual(one);
    expect(found(vec(17, 4), { cut: 'jump' })).toEqual(one);
  });

  it('what lies on both sides of a hole is one area by way of the section beyond it', () => {
    const at = (x: number, y: number, wide: number) =>
      rows(0.4, 8, block(0, wide)).map((p) => vec(p.x + x, p.y + y));
    const board = new Board().sew(turned([...at(0, 0, 10), ...at(16, 0, 10)], turn));
    expect(findObjects(board.stitches)).toHaveLength(2);
    board.move('trim').sew(turned(at(0, 8.4, 26), turn));
    expect(findObjects(board.stitches).map(({ kind, range }) => [kind, range[0]])).toEqual(one);
    // a narrow one bridges nothing
    const apart = new Board().sew(turned([...at(0, 0, 10), ...at(16, 0, 10)], turn)).move('trim');
    expect(findObjects(apart.sew(turned(at(0, 8.4, 10), turn)).stitches)).toHaveLength(3);
  });

  it('what is sewn between two sections of an area, and touches one of them, belongs to it', () => {
    const at = (x: number, y: number, wide: number, high = 12) =>
      turned(
        rows(0.4, high, block(0, wide)).map((p) => vec(p.x + x, p.y + y)),
        turn,
      );
    const board = (x: number) =>
      new Board()
        .sew(at(0, 0, 16))
        .move('trim')
        .sew(at(x, 4.2, 16, 8))
        .move('trim')
        .sew(at(0, 12.4, 10));
    expect(findObjects(board(17).stitches).map(({ kind, range }) => [kind, range[0]])).toEqual(one);
    expect(findObjects(board(24).stitches)).toHaveLength(3);
  });

  it('are one where their edges slant, so that each row ends in a step over to the next', () => {
    const slanting = (x: number, wide: number, stitch: number) =>
      turned(
        rows(0.4, 8, (y) => [x + (x > 0 ? 0.3 * y : 0), x + wide + 0.3 * y], { stitch }),
        turn,
      );
    for (const [wide, stitch] of [
      [5, 2],
      [8, 3],
      [12, 2],
      [20, 4],
      [30, 3],
    ] as const) {
      const board = new Board().sew(slanting(0, wide, stitch)).move('trim');
      const objects = findObjects(board.sew(slanting(wide + 1.2, wide, stitch)).stitches);
      expect(objects.map(({ kind, range }) => [kind, range[0]])).toEqual(one);
    }
  });

  it('are one where rows lead straight on to the next', () => {
    const direct = (x: number) =>
      turned(
        rows(0.4, 8, (y) => [x + (x > 0 ? 0.3 * y : 0), x + 5 + 0.3 * y], { stitch: 4, direct: true }),
        turn,
      );
    const board = new Board().sew(direct(0)).move('trim').sew(direct(6.2));
    expect(findObjects(board.stitches).map(({ kind, range }) => [kind, range[0]])).toEqual(one);
  });

  it('they are two where the rows of one of them are as open as a net', () => {
    const open = (apart: number, x: number) => turned(rows(apart, 16 * apart, block(x, x + 16)), turn);
    const count = (one: number, other: number) =>
      findObjects(new Board(0).sew(open(one, 0)).move('trim').sew(open(other, 17)).stitches).length;
    expect(count(0.77, 0.77)).toBe(1);
    expect(count(0.79, 0.81)).toBe(2);
    expect(count(0.81, 0.79)).toBe(2);
  });

  it('they are two where the rows of the one lie between those of the other', () => {
    expect(found(vec(17, 4.2))).toHaveLength(2);
    expect(found(vec(3, 12.6))).toHaveLength(2);
  });

  it('they are two where they do not touch, differ in color or in the distance of their rows', () => {
    expect(found(vec(20.4, 4))).toHaveLength(2);
    expect(found(vec(17, 4), { cut: 'colour' })).toHaveLength(2);
    expect(found(vec(17, 4), { apart: 0.6 })).toHaveLength(2);
  });
});
