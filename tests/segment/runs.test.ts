import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import { arc } from '../generators/curve.js';
import { stitchCurve, type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, walk, zigzag } from './board.js';

const kinds = (objects: readonly StitchObject[]) => objects.map((o) => o.kind);
const found = (board: Board) => findObjects(board.stitches);
const bar = (x: number, y: number, length = 20) => zigzag(vec(x, y), vec(x + length, y), 4, 0.4);
const shifted = (points: readonly Vec[], dx: number, dy: number) =>
  points.map((p) => vec(p.x + dx, p.y + dy));

describe('a run alone on its thread', () => {
  const once = walk(2.5, vec(0, 0), vec(20, 0), vec(20, 15));

  it.each([
    ['single', once],
    ['double', [...once, ...[...once].reverse().slice(1)]],
    ['triple', once.flatMap((p, i) => (i === 0 ? [p] : [p, once[i - 1], p]))],
    ['curved', stitchCurve(arc(vec(0, 0), 12, 0, 5), 2)],
    ['round and round', [0, 1, 2].flatMap(() => walk(2.5, vec(0, 0), vec(12, 0), vec(12, 9), vec(0, 9)))],
    ['short', walk(1, vec(0, 0), vec(3, 0))],
  ])('is one object: %s', (_, points) => {
    const [run, ...more] = found(new Board().sew(points));
    expect(more).toEqual([]);
    expect([run.kind, run.range, run.from.length, run.underlay.kinds]).toEqual([
      'run',
      [0, points.length - 1],
      0,
      [],
    ]);
  });

  it('is none where it is too short to be seen', () => {
    expect(found(new Board().sew([vec(0, 0), vec(0.6, 0), vec(1.2, 0)]))).toEqual([]);
  });

  it('is two where the needle jumps on in between', () => {
    const objects = found(
      new Board()
        .sew(once)
        .move('jump')
        .sew(shifted(once, 40, 40)),
    );
    expect(objects.map((o) => [o.kind, ...o.range])).toEqual([
      ['run', 0, once.length - 1],
      ['run', once.length, 2 * once.length - 1],
    ]);
  });

  it('is without its locks', () => {
    const lock = [vec(0, 0), vec(0.5, 0), vec(0, 0), vec(0.5, 0)];
    const [run] = found(new Board().sew(lock, once));
    expect([run.range, run.locks]).toEqual([[4, once.length + 3], { start: true, end: false }]);
  });
});

describe('between two columns of one thread', () => {
  it('a run in the open is an object', () => {
    const board = new Board().sew(bar(0, 0));
    const first = board.next;
    const way = walk(2.5, vec(21, -4), vec(21, -20), vec(40, -20));
    const objects = found(board.sew(way, bar(42, -20)));
    expect(kinds(objects)).toEqual(['satin', 'run', 'satin']);
    expect(objects[1].range[0]).toBeGreaterThanOrEqual(first);
    expect(objects[1].range[1]).toBeLessThanOrEqual(first + way.length - 1);
  });

  it('a short way over is not', () => {
    expect(kinds(found(new Board().sew(bar(0, 0), walk(2.5, vec(22, 0), vec(29, 0)), bar(31, 0))))).toEqual([
      'satin',
      'satin',
    ]);
  });

  it('a way that a column behind it hides is not, however long', () => {
    // along the far edge of the second column to the third, which is sewn first
    const way = walk(2.5, vec(21, 1.2), vec(41, 1.2));
    const objects = found(new Board().sew(bar(0, 0), way, bar(42, 0), walk(2, vec(52, -3)), bar(21, 0)));
    expect(kinds(objects)).toEqual(['satin', 'satin', 'satin']);
    expect(objects[2].underlay.kinds).toEqual([]);
  });

  it('a way along the middle of a column sewn later is the center run of that', () => {
    const board = new Board().sew(bar(0, 0));
    const first = board.next;
    const way = walk(2.5, vec(21, 0), vec(41, 0));
    const objects = found(board.sew(way, bar(42, 0), walk(2, vec(52, -3)), bar(21, 0)));
    expect(kinds(objects)).toEqual(['satin', 'satin', 'satin']);
    expect(objects.map((o) => o.underlay.kinds)).toEqual([[], [], ['center-run']]);
    expect(objects[2].underlay.range?.[0]).toBeGreaterThanOrEqual(first);
    expect(objects[2].underlay.range?.[1]).toBeLessThan(first + way.length);
  });
});

describe('what is sewn before a top', () => {
  it('is its underlay as far as it lies under it, and a run before', () => {
    const board = new Board();
    const away = walk(2.5, vec(-30, 10), vec(-30, 0), vec(-2, 0));
    const under = walk(2.5, vec(0.5, 0), vec(19.5, 0));
    const objects = found(board.sew(away, under, bar(0, 0).reverse()));
    expect(kinds(objects)).toEqual(['run', 'satin']);
    expect(objects[1].underlay.kinds).toEqual(['center-run']);
    expect(objects[1].underlay.range?.[0]).toBe(away.length);
    expect(objects[0].range).toEqual([0, away.length - 1]);
  });

  it('is its underlay too where the thread is cut between', () => {
    const under = walk(2.5, vec(0.5, 0), vec(19.5, 0));
    const [satin, ...more] = found(new Board().sew(under).move('trim').sew(bar(0, 0)));
    expect(more).toEqual([]);
    expect([satin.kind, satin.underlay.kinds, satin.underlay.range]).toEqual([
      'satin',
      ['center-run'],
      [0, under.length - 1],
    ]);
  });

  it('is a run where it only begins under it and then leads through the open', () => {
    const way = walk(2.5, vec(10, -1), vec(10, -15), vec(-15, -15), vec(-15, 0), vec(-2, 0));
    const objects = found(new Board().sew(way, bar(0, 0)));
    expect(objects.map((o) => [o.kind, o.underlay.range])).toEqual([
      ['run', null],
      ['satin', null],
    ]);
    expect(objects[0].range[1]).toBe(way.length - 1);
  });

  it('but in another colour is a run', () => {
    const under = walk(2.5, vec(0.5, 0), vec(19.5, 0));
    const objects = found(new Board().sew(under).move('colour').sew(bar(0, 0)));
    expect(objects.map((o) => [o.kind, o.block, o.underlay.kinds.length])).toEqual([
      ['run', 1, 0],
      ['satin', 2, 0],
    ]);
  });
});

describe('an open zigzag', () => {
  const open = zigzag(vec(0, 0), vec(30, 0), 3, 3);

  it('under a denser column is underlay of it', () => {
    const board = new Board().sew(open);
    const [satin, ...more] = found(board.sew(zigzag(vec(30, 0), vec(0, 0), -4, 0.4)));
    expect(more).toEqual([]);
    expect(satin.underlay.kinds).toEqual(['zigzag']);
    expect(Math.abs((satin.underlay.spacingMm ?? 0) - 3)).toBeLessThan(0.2);
    expect(satin.range[0]).toBeGreaterThan((satin.underlay.range ?? [0, Infinity])[1]);
  });

  it('on its own is a column', () => {
    expect(kinds(found(new Board().sew(open)))).toEqual(['satin']);
  });

  it('under a denser column of another colour is a column', () => {
    const over = zigzag(vec(30, 0), vec(0, 0), -4, 0.4);
    expect(kinds(found(new Board().sew(open).move('colour').sew(over)))).toEqual(['satin', 'satin']);
  });

  it('beside a denser column, or over it, is a column too', () => {
    const beside = zigzag(vec(30, 6), vec(0, 6), 4, 0.4);
    expect(kinds(found(new Board().sew(open).move('trim').sew(beside)))).toEqual(['satin', 'satin']);
    const below = zigzag(vec(0, 0), vec(30, 0), 4, 0.4);
    expect(kinds(found(new Board().sew(below).move('trim').sew(open)))).toEqual(['satin', 'satin']);
  });
});

describe('under a fill', () => {
  it('rows far apart are its light fill, a run round it its edge run', () => {
    const light = rows(3, 18, block(1, 29)).map((p) => vec(p.y * (28 / 18) + 1, (p.x - 1) * (18 / 28) + 1));
    const edge = walk(2.5, vec(0.8, 0.8), vec(29.2, 0.8), vec(29.2, 19.2), vec(0.8, 19.2), vec(0.8, 0.8));
    const board = new Board().sew(edge, light);
    const under = board.next;
    const [fill, ...more] = found(board.sew(rows(0.4, 20, block(0, 30))));
    expect(more).toEqual([]);
    expect([fill.kind, [...fill.underlay.kinds].sort()]).toEqual(['fill', ['edge-run', 'fill']]);
    expect(fill.underlay.range?.[0]).toBe(0);
    expect(fill.underlay.range?.[1]).toBeGreaterThan(under - 6);
    expect(fill.range[1]).toBe(board.next - 1);
  });
});
