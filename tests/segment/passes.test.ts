import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, sewn, TURNS, turned, walk, zigzag } from './board.js';

const there = (points: readonly Vec[]) => [...points, ...[...points].reverse().slice(1)];
const up = (points: readonly Vec[], dx: number, dy: number) => points.map((p) => vec(p.x + dx, p.y + dy));

describe.each(TURNS)('turned by $degrees, mirrored $mirror', (turn) => {
  const find = (...parts: readonly Vec[][]) => findObjects(sewn(...parts.map((p) => turned(p, turn))));

  it('a second pass over a column is the same column, twice as dense', () => {
    const half = zigzag(vec(0, 0), vec(20, 0), 4, 0.8);
    const back = zigzag(vec(20, 0), vec(0, 0), 4, 0.8);
    const [column, ...more] = find(half, back);
    expect(more).toEqual([]);
    expect(column).toMatchObject({ kind: 'satin', passes: 2, underlay: { kinds: [] } });
    expect(column.range).toEqual([0, half.length + back.length - 1]);
    expect(column.timesDense).toBeCloseTo(2, 1);
  });

  it('two columns beside each other stay two', () => {
    const objects = find(
      zigzag(vec(0, 0), vec(20, 0), 4, 0.4),
      walk(2, vec(20, 2.5), vec(20, 4.5)),
      zigzag(vec(20, 5), vec(0, 5), 4, 0.4),
    );
    expect(objects.map(({ kind, passes }) => [kind, passes])).toEqual([
      ['satin', 1],
      ['satin', 1],
    ]);
  });

  it('rows across open rows are the other way of one net', () => {
    const one = rows(3, 24, block(0, 24));
    const other = rows(3, 24, block(0, 24)).map((p) => vec(p.y, p.x));
    const objects = find(one, other);
    expect(objects).toHaveLength(1);
    expect(objects[0]).toMatchObject({
      kind: 'fill',
      purpose: 'net',
      range: [0, one.length + other.length - 1],
    });
  });

  it('dense rows across dense rows are two fills', () => {
    const one = rows(0.4, 12, block(0, 12));
    const other = rows(0.4, 12, block(0, 12)).map((p) => vec(p.y, p.x));
    expect(find(one, other).filter(({ kind }) => kind === 'fill')).toHaveLength(2);
  });

  it('rows across rows are no net where one of the two covers', () => {
    const across = (apart: number) => rows(apart, 21, block(0, 21)).map((p) => vec(p.y, p.x));
    expect(find(rows(0.9, 21, block(0, 21)), across(1.2))).toHaveLength(1);
    expect(find(rows(0.7, 21, block(0, 21)), across(1))).toHaveLength(2);
    expect(find(rows(1, 21, block(0, 21)), across(0.7))).toHaveLength(2);
    // nor where one is much more open than the other
    expect(find(rows(0.9, 21, block(0, 21)), across(1.8))).toHaveLength(2);
  });

  it('an open zigzag goes on round a corner, but not over a cut, nor as rows, nor beyond its own underlay', () => {
    const [one, other] = [
      zigzag(vec(0, 0), vec(15, 0), 3, 2),
      zigzag(vec(16, -1.5), vec(16, -16.5), 3, 2),
    ].map((points) => turned(points, turn));
    expect(findObjects(sewn(one, other))).toHaveLength(1);
    expect(findObjects(new Board().sew(one).move('trim').sew(other).stitches)).toHaveLength(2);
    expect(findObjects(new Board().sew(other).move('trim').sew(one).stitches)).toHaveLength(2);
    const beside = rows(1, 12, block(15.2, 18.3));
    expect(findObjects(sewn(one, turned(beside, turn))).map(({ kind }) => kind)).toEqual(['satin', 'fill']);
    const lined = find(
      walk(2, vec(14.5, 0), vec(0.5, 0)),
      zigzag(vec(0, 0), vec(15, 0), 3, 1.2),
      walk(2, vec(16, -2), vec(16, -15)),
      zigzag(vec(16, -16), vec(16, -1.5), 3, 1.2),
    );
    expect(lined.map(({ underlay }) => underlay.kinds)).toEqual([['center-run'], ['center-run']]);
  });

  it.each([1, 2, 3, 4])('a run sewn %s times over is one run', (times) => {
    const line = walk(2.4, vec(0, 0), vec(14, 0), vec(22, 9), vec(22, 20));
    const again = Array.from({ length: times }, (_, k) => (k % 2 === 0 ? line : [...line].reverse())).flat();
    expect(find(again).map(({ kind, passes }) => [kind, passes])).toEqual([['run', times]]);
  });

  it('a bean stitch is a run of three', () => {
    const line = walk(2.4, vec(0, 0), vec(14, 0), vec(22, 9));
    const bean = line.flatMap((p, k) => (k === 0 ? [p] : [p, line[k - 1], p]));
    expect(find(bean)).toMatchObject([{ kind: 'run', passes: 3 }]);
  });

  it('branches sewn out and home are a run of two', () => {
    const branch = (x: number) => there([vec(x, 0), vec(x + 1.2, 2.2), vec(x + 2.4, 4.4)]);
    const stem = [0, 6, 12].flatMap((x) => [...branch(x), ...walk(2, vec(x, 0), vec(x + 6, 0)).slice(1)]);
    const home = walk(2, vec(18, 0), vec(0, 0)).slice(1);
    expect(find(stem, home)).toMatchObject([{ kind: 'run', passes: 2 }]);
  });

  it('a straight line retraced is no fill, however long', () => {
    const line = walk(3, vec(0, 0), vec(32, 0));
    const objects = find(there(line), there(line));
    expect(objects.map(({ kind }) => kind)).toEqual(['run']);
    expect(objects[0].passes).toBe(4);
  });
});

describe('a net', () => {
  it('stays one over a jump between its two ways, and is two over a trim', () => {
    const one = rows(3, 24, block(0, 24));
    const other = rows(3, 24, block(0, 24)).map((p) => vec(p.y, p.x));
    const sew = (move: 'jump' | 'trim') => {
      const board = new Board()
        .sew(one)
        .move(move)
        .sew(up(other, 0, 0));
      return findObjects(board.stitches).map(({ kind, purpose }) => [kind, purpose]);
    };
    expect(sew('jump')).toEqual([['fill', 'net']]);
    expect(sew('trim')).toEqual([
      ['fill', 'net'],
      ['fill', 'net'],
    ]);
  });
});
