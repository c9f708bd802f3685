/** What an object is made of where a shop says that it is another kind: the swings or rows that its stitches bear out, or none. */
import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { NO_UNDERLAY, type ObjectKind, PLAINLY_TOP, type StitchObject } from '../../lib/segment/objects.js';
import { asKind } from '../../lib/segment/set-right/as-kind.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, block, ringRun, rows, walk, zigzag } from './board.js';

/** Swings that nobody took for a column: they come on unevenly. */
const swings = (count: number, x = 0): Vec[] =>
  Array.from({ length: count + 1 }, (_, k) => vec(x + k + (k % 3) * 0.3, k % 2 === 0 ? 0 : 6));

/** All stitches of a board, or some, as one object. */
const object = (board: Board, is: Partial<StitchObject> = {}): StitchObject => ({
  ...PLAINLY_TOP,
  id: 1,
  kind: 'run',
  range: [0, board.next - 1],
  block: 1,
  group: 1,
  from: new Int32Array(0),
  to: new Int32Array(0),
  sections: new Int32Array(0),
  split: false,
  underlay: NO_UNDERLAY,
  locks: { start: false, end: false },
  ...is,
});
const told = (board: Board, kind: ObjectKind, is: Partial<StitchObject> = {}) =>
  asKind(board.stitches, object(board, is), kind);
const found = (...parts: Vec[][]) => {
  const { stitches } = new Board().sew(...parts);
  const [first] = findObjects(stitches);
  return { first, as: (kind: ObjectKind) => asKind(stitches, first, kind) };
};

describe('a run told to be a column', () => {
  it('has three swings at least', () => {
    expect(told(new Board().sew(swings(3)), 'satin')).toMatchObject({ kind: 'satin', from: { length: 3 } });
    expect(told(new Board().sew(swings(2)), 'satin')).toBe('no-swings');
  });

  it('swings for most of its stitches', () => {
    const board = (straight: number) =>
      new Board().sew(walk(2, vec(-2 * straight, 0), vec(0, 0)), swings(20));
    expect(told(board(8), 'satin')).toMatchObject({ kind: 'satin', from: { length: 20 } });
    expect(told(board(11), 'satin')).toMatchObject({ kind: 'satin' });
    expect(told(board(16), 'satin')).toBe('no-swings');
  });

  it('is the longest of its stretches of swings, whichever comes first', () => {
    const way = (x: number) => [vec(x + 3, 0), vec(x + 5, 0), vec(x + 7, 0)];
    const lengthOf = (...parts: Vec[][]) => {
      const made = told(new Board().sew(...parts), 'satin');
      return typeof made === 'string' ? made : made.from.length;
    };
    const [few, many] = [lengthOf(swings(5)), lengthOf(swings(24))];
    expect([few, many]).toEqual([5, 24]);
    expect(lengthOf(swings(5), way(5), swings(24, 15))).toBeGreaterThanOrEqual(24);
    expect(lengthOf(swings(24), way(24), swings(5, 34))).toBeGreaterThanOrEqual(24);
  });

  it('is on one thread', () => {
    const cut = new Board().sew(swings(12)).move('trim').sew(swings(12, 14));
    expect(told(cut, 'satin')).toBe('no-swings');
    expect(told(cut, 'fill')).toBe('no-rows');
    // the cut before its first stitch is none in it
    const second = told(cut, 'satin', { range: [13, 25] });
    expect(second).toMatchObject({ kind: 'satin', from: { length: 12 } });
    expect((second as StitchObject).from[0]).toBe(13);
  });

  it('is no longer sewn over itself, and a column in two passes still is', () => {
    const twice = { passes: 2, timesDense: 2 };
    expect(told(new Board().sew(swings(12)), 'satin', twice)).toMatchObject({ passes: 1, timesDense: 1 });
    expect(told(new Board().sew(swings(12)), 'fill', twice)).toMatchObject({ passes: 1, timesDense: 1 });
    const { first, as } = found(zigzag(vec(0, 0), vec(30, 0), 4, 0.8), zigzag(vec(30, 0), vec(0, 0), 4, 0.8));
    expect(first).toMatchObject({ kind: 'satin', passes: 2 });
    expect(as('fill')).toMatchObject({ kind: 'fill', passes: 2 });
  });
});

describe('an area told to be a column', () => {
  it.each([
    ['rows', rows(0.4, 12, block(0, 20))],
    ['loose', rows(1.4, 14, block(0, 20))],
    ['curved', rows(0.6, 12, block(0, 20)).map((p) => vec(p.x, p.y + 1.5 * Math.sin((p.x * Math.PI) / 20)))],
  ])('has its rows for swings where it is sewn in %s', (pattern, points) => {
    const { first, as } = found(points);
    expect(first).toMatchObject({ kind: 'fill', pattern });
    expect(as('satin')).toMatchObject({
      kind: 'satin',
      pattern: null,
      split: true,
      from: first.from,
      to: first.to,
      sections: { length: 0 },
    });
  });

  it('is split where most of its swings have needle points in them', () => {
    expect(told(new Board().sew(zigzag(vec(0, 0), vec(30, 0), 4, 1)), 'satin')).toMatchObject({
      split: false,
    });
    expect(told(new Board().sew(zigzag(vec(0, 0), vec(30, 0), 8, 1, 1)), 'satin')).toMatchObject({
      split: true,
    });
    const { first, as } = found(rows(0.45, 9, block(0, 1.9)));
    expect(first).toMatchObject({ kind: 'fill', pattern: 'rows' });
    expect(as('satin')).toMatchObject({ split: false });
  });

  it('has no swings where it is a spiral', () => {
    const spiral = Array.from({ length: 300 }, (_, k) => {
      const a = k * 0.35;
      return vec((0.6 + 0.5 * (a / 6.28)) * Math.cos(a), (0.6 + 0.5 * (a / 6.28)) * Math.sin(a));
    });
    const { first, as } = found(spiral);
    expect(first).toMatchObject({ kind: 'fill', pattern: 'spiral' });
    expect(as('satin')).toBe('no-swings');
    // told to be a run, and then an area again, it has its strands back
    const run = as('run') as StitchObject;
    expect(run).toMatchObject({ kind: 'run', pattern: null, from: { length: 0 } });
    expect(asKind(new Board().sew(spiral).stitches, run, 'fill')).toMatchObject({
      kind: 'fill',
      pattern: 'spiral',
    });
  });
});

describe('a column told to be an area', () => {
  it('has rows half as far apart as its swings along one edge, straight ones or loose', () => {
    const { first, as } = found(zigzag(vec(0, 0), vec(30, 0), 4, 0.5));
    expect(as('fill')).toMatchObject({
      kind: 'fill',
      pattern: 'rows',
      from: first.from,
      sections: { length: 1 },
    });
    const open = found(zigzag(vec(0, 0), vec(30, 0), 4, 2.6));
    expect(open.as('fill')).toMatchObject({ kind: 'fill', pattern: 'loose' });
  });

  it('is nothing where there are but two swings, and stays what it is where nothing else was said', () => {
    const ends = (n: number) => ({
      kind: 'satin' as const,
      from: Int32Array.from({ length: n }, (_, k) => k),
      to: Int32Array.from({ length: n }, (_, k) => k + 1),
    });
    expect(told(new Board().sew(swings(3)), 'fill', ends(3))).toMatchObject({ kind: 'fill' });
    expect(told(new Board().sew(swings(2)), 'fill', ends(2))).toBe('no-rows');
    const { first, as } = found(zigzag(vec(0, 0), vec(30, 0), 4, 0.5));
    expect(as('satin')).toBe(first);
  });
});

describe('anything told to be a run', () => {
  it('is sewn as often as its thread goes over one line', () => {
    expect(found(ringRun(15, 2.5, 3)).first).toMatchObject({ kind: 'run', passes: 3 });
    const { as } = found(zigzag(vec(0, 0), vec(30, 0), 4, 1.6));
    expect(as('run')).toMatchObject({ kind: 'run', passes: 1, split: false, foam: false, pattern: null });
  });
});
