/** An object that a shop says is underlay: of what, what kind, and what becomes of the objects above it. */
import { describe, expect, it } from 'vitest';
import type { Stitches } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import { asUnderlay } from '../../lib/segment/set-right/as-underlay.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, walk, zigzag } from './board.js';

/** What the objects are once the one that begins at a stitch is underlay; null where it can be none. */
const told = (
  stitches: Stitches,
  at = findObjects(stitches)[0].range[0],
): { low: StitchObject; objects: StitchObject[] | null } => {
  const found = findObjects(stitches);
  const low = found.find(({ range }) => range[0] === at)!;
  return { low, objects: asUnderlay(stitches, found, low) };
};
/** Colors one after another. */
const colors = (...parts: Vec[][]): Stitches => {
  const board = new Board();
  for (const part of parts) (part === parts[0] ? board : board.move('colour')).sew(part);
  return board.stitches;
};
const bar = (x: number, long = 12) => zigzag(vec(x, 0), vec(x, long), 4, 0.4);
const underOf = (objects: StitchObject[] | null) =>
  objects?.map(({ underlay: { kinds, range } }) => (range === null ? null : [...kinds, ...range]));

describe('what is sewn over it', () => {
  it('is what a quarter of a line lies under', () => {
    const line = (out: number) => walk(1, vec(0, -out), vec(0, 12));
    expect(underOf(told(colors(line(28), bar(0))).objects)).toEqual([['center-run', 0, 40]]);
    expect(told(colors(line(46), bar(0))).objects).toBeNull();
  });

  it('is what lies on an area for a quarter of its own stitches', () => {
    const net = rows(2, 60, block(-30, 30));
    const onIt = (out: number) => colors(net, bar(31 - out, 12));
    const column = (inside: number) =>
      colors(net, zigzag(vec(30 - inside, 30), vec(50 - inside, 30), 4, 0.4));
    expect(told(column(7)).objects).toHaveLength(1);
    expect(told(column(3)).objects).toBeNull();
    expect(told(onIt(-6)).objects).toBeNull();
  });

  it('is sewn later: neither what is sewn before nor a line', () => {
    const zig = zigzag(vec(0, 0), vec(0, 12), 3, 2.4);
    const stitches = colors(bar(0), zig, bar(0));
    const [before, low] = findObjects(stitches);
    const { objects } = told(stitches, low.range[0]);
    expect(objects?.map(({ underlay }) => underlay.range)).toEqual([null, low.range]);
    expect(objects?.[0]).toEqual(before);
    expect(told(colors(bar(0), zig), low.range[0]).objects).toBeNull();
    expect(told(colors(zig, walk(2, vec(0, 0), vec(0, 12)))).objects).toBeNull();
  });
});

describe('what kind of underlay it is', () => {
  const both = [bar(0), bar(8)];

  it('is told by its own kind where it lies under several', () => {
    const zig = zigzag(vec(-3, 6), vec(11, 6), 9, 2.4);
    expect(told(colors(zig, ...both)).objects).toMatchObject([
      { underlay: { kinds: ['zigzag'], spacingMm: expect.closeTo(2.4, 1) } },
      { underlay: { kinds: ['zigzag'], spacingMm: expect.closeTo(2.4, 1) } },
    ]);
    const net = rows(1.6, 12, block(-4, 12));
    expect(told(colors(net, ...both)).objects).toMatchObject([
      { underlay: { kinds: ['fill'], spacingMm: expect.closeTo(1.6, 1) } },
      { underlay: { kinds: ['fill'], spacingMm: expect.closeTo(1.6, 1) } },
    ]);
    const line = walk(2, vec(-4, 6), vec(12, 6));
    expect(told(colors(line, ...both)).objects).toMatchObject([
      { underlay: { kinds: ['edge-run'], spacingMm: null } },
      { underlay: { kinds: ['edge-run'], spacingMm: null } },
    ]);
  });

  it('is told by its own kind as well where nothing can be read under the one above it', () => {
    // across the column, and not along it
    expect(
      told(colors(walk(1, vec(-1.5, 6), vec(1.5, 6), vec(1.5, 7), vec(-1.5, 7)), bar(0))).objects,
    ).toMatchObject([{ underlay: { kinds: ['center-run'], spacingMm: null } }]);
    const area = rows(0.4, 12, block(-10, 10));
    expect(told(colors(walk(2, vec(-9, 6), vec(9, 6)), area)).objects).toMatchObject([
      { underlay: { kinds: ['edge-run'], spacingMm: null } },
    ]);
  });

  it('has all its stitches', () => {
    const stitches = colors(walk(2, vec(0, 0), vec(0, 12)), bar(0));
    const { low, objects } = told(stitches);
    expect(objects?.[0].underlay).toMatchObject({ range: [0, 6], stitches: low.range[1] - low.range[0] + 1 });
  });
});

describe('an object above that has underlay already', () => {
  const zig = zigzag(vec(0, 12), vec(0, 0), 3, 2.4);
  const line = walk(1.5, vec(0, 0), vec(0, 12));

  it('has one more kind of it, and its stitches, where nothing is sewn between', () => {
    const { low, objects } = told(colors(line, [...zig, ...bar(0)]));
    const [column] = objects!;
    expect([...column.underlay.kinds].sort()).toEqual(['center-run', 'zigzag']);
    expect(column.underlay.range![0]).toBe(low.range[0]);
    const [own] = findObjects(colors([...zig, ...bar(0)]));
    expect(column.underlay.stitches).toBe(own.underlay.stitches + 9);
    expect(column.underlay.also).toEqual([]);
  });

  it('has a piece besides where something else is sewn between', () => {
    for (const other of [bar(20), walk(2, vec(20, 0), vec(20, 20))]) {
      const { low, objects } = told(colors(line, other, [...zig, ...bar(0)]));
      const column = objects!.at(-1)!;
      expect(column.underlay).toMatchObject({
        kinds: ['zigzag'],
        also: [{ kinds: ['center-run'], range: low.range }],
      });
    }
  });
});

describe('locks', () => {
  // three tiny stitches there and back, a way in the open and then up the column, to which the thread goes on by a jump
  const tied = [vec(0, -20), vec(0, -19.3), vec(0, -20), vec(0, -19.3)];
  const line = [...tied, ...walk(2, vec(0, -18), vec(0, 12))];
  const to = (x: number) => new Board().sew(line).move('jump').sew(bar(x));
  const startOf = (board: Board) => {
    const { low, objects } = told(board.stitches);
    expect(low).toMatchObject({ kind: 'run', locks: { start: true } });
    return objects!.at(-1)!.locks.start;
  };

  it('at the start of underlay are those of what it leads straight on to', () => {
    expect(startOf(to(0))).toBe(true);
    expect(startOf(new Board().sew(line).move('trim').sew(bar(0)))).toBe(false);
    expect(startOf(new Board().sew(line).move('jump').sew(bar(10)).move('jump').sew(bar(0)))).toBe(false);
  });
});
