/** What lies beneath what, and what is left of a thread in the open, however far apart it is sewn. */
import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, TURNS, turned, walk, zigzag } from './board.js';

describe.each(TURNS)('turned by $degrees, mirrored $mirror', (turn) => {
  /** Threads, each cut from the one before. */
  const found = (...threads: readonly (readonly Vec[])[]) => {
    const board = new Board();
    for (const thread of threads)
      (thread === threads[0] ? board : board.move('trim')).sew(turned(thread, turn));
    return findObjects(board.stitches).map(({ kind, range, underlay }) => ({
      kind,
      first: range[0],
      under: underlay.range,
    }));
  };
  const column = (x: number, y: number, wide = 4, long = 36) =>
    zigzag(vec(x, y), vec(x + long, y), wide, 0.4);
  const bar = (x: number, y: number) => zigzag(vec(x, y), vec(x, y + 30), 4, 0.4);

  it('underlay that goes out into the open and comes back is a run where it is out', () => {
    const under = walk(2, vec(0, 0), vec(30, 0));
    const out = walk(2, vec(30, 0), vec(30, 45), vec(28, 45), vec(28, 3)).slice(1);
    const back = walk(2, vec(28, 0.2), vec(0, 0.2));
    const objects = found([...under, ...out, ...back, ...column(0, 0, 4, 30)]);
    expect(objects.map(({ kind }) => kind)).toEqual(['run', 'satin']);
    expect(objects[0].first).toBeGreaterThanOrEqual(under.length);
    expect(objects[1].under?.[0]).toBe(0);
  });

  it('both directions of a net serve what lies on them, on threads of their own or not', () => {
    const net = rows(2.6, 26, block(0, 40));
    const across = rows(2.6, 40, block(0, 26)).map((p) => vec(p.y, p.x));
    const columns = [column(2, 5, 7), column(2, 13, 8), column(2, 21, 7)];
    const served = (last: number) => columns.map(() => [0, last]);
    const sewn = net.length + across.length - 1;
    expect(found(net, ...columns).map(({ under }) => under)).toEqual(served(net.length - 1));
    expect(found(net, across, ...columns).map(({ under }) => under)).toEqual(served(sewn));
    expect(found([...net, ...across], ...columns).map(({ under }) => under)).toEqual(served(sewn));
    // one column alone on a large net is no reason for it
    expect(found(net, zigzag(vec(2, 5), vec(12, 5), 3, 0.4)).map(({ under }) => under)).toEqual([null, null]);
  });

  it('a net serves what mostly lies on it, and not what reaches out of it by half', () => {
    const net = rows(2.6, 26, block(0, 40));
    const under = (x: number) =>
      found(net, column(2, 5, 7), column(2, 13, 8), column(x, 21, 7)).map((object) => object.under !== null);
    expect(under(18)).toEqual([true, true, true]);
    expect(under(24)).toEqual([true, true, false]);
  });

  it('the way back over a column to the next one is hidden travel, and a run beside it is none', () => {
    const on = found([...column(0, 0, 4, 30), ...walk(2, vec(29, 0), vec(0, 0), vec(0, 10)), ...bar(0, 12)]);
    expect(on.map(({ kind }) => kind)).toEqual(['satin', 'satin']);
    const beside = found([
      ...column(0, 0, 4, 30),
      ...walk(2, vec(33, 0), vec(33, 8), vec(0, 8)),
      ...bar(0, 12),
    ]);
    expect(beside.map(({ kind }) => kind)).toEqual(['satin', 'run', 'satin']);
  });

  it('the way back over the last two columns is hidden too', () => {
    const objects = found([
      ...column(0, 0, 4, 30),
      ...walk(2, vec(29, 0), vec(0, 0), vec(0, 10)),
      ...bar(0, 12),
      ...walk(2, vec(0, 40), vec(0, 12), vec(1, 0), vec(28, 0), vec(1, 0), vec(-11, 8)),
      ...bar(-12, 12),
    ]);
    expect(objects.map(({ kind }) => kind)).toEqual(['satin', 'satin', 'satin']);
  });

  it('a line over a column after which nothing comes is to be seen', () => {
    const objects = found([...column(0, 0, 4, 30), ...walk(2, vec(29, 0), vec(0, 0))]);
    expect(objects.map(({ kind }) => kind)).toEqual(['satin', 'run']);
  });

  it('short ways between columns are travel, and so are shorter ones at the ends of a thread', () => {
    const ends = (before: number, between: number, after: number) =>
      found([
        ...walk(1.4, vec(-3 - before, 0), vec(-3, 0)),
        ...column(0, 0, 4, 10),
        ...walk(1.4, vec(10, 6), vec(10 + between, 6)),
        ...column(14 + between, 0, 4, 10),
        ...walk(1.4, vec(27 + between, 0), vec(27 + between + after, 0)),
      ]).map(({ kind }) => kind);
    expect(ends(3, 9, 3)).toEqual(['satin', 'satin']);
    expect(ends(9, 9, 3)).toEqual(['run', 'satin', 'satin']);
    expect(ends(3, 9, 9)).toEqual(['satin', 'satin', 'run']);
    expect(ends(3, 20, 3)).toEqual(['satin', 'run', 'satin']);
  });
});
