import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, blanket, block, ringZigzag, rows, sewn, TURNS, turned, walk, zigzag } from './board.js';

describe.each(TURNS)('turned by $degrees, mirrored $mirror', (turn) => {
  const find = (...parts: readonly Vec[][]) => findObjects(sewn(...parts.map((p) => turned(p, turn))));

  it.each([1.2, 2, 3, 4])('a zigzag %s mm from point to point is one column', (spacing) => {
    const points = zigzag(vec(0, 0), vec(40, 0), 3, spacing);
    expect(find(points)).toMatchObject([{ kind: 'satin', range: [0, points.length - 1] }]);
  });

  it.each([7, 10, 20])('so is one round a ring of %s mm', (radius) => {
    const points = ringZigzag(radius, 2.8, 2.4);
    const [ring, ...more] = find(points);
    expect(more).toEqual([]);
    expect(ring.kind).toBe('satin');
    expect(ring.range[1] - ring.range[0]).toBeGreaterThan(0.95 * (points.length - 1));
  });

  it('and one round the corners of a square', () => {
    const side = (a: Vec, b: Vec) => zigzag(a, b, 2.6, 2.2).slice(0, -1);
    const square = [
      ...side(vec(0, 0), vec(22, 0)),
      ...side(vec(22, 0), vec(22, 22)),
      ...side(vec(22, 22), vec(0, 22)),
      ...side(vec(0, 22), vec(0, 0)),
    ];
    const objects = find(square);
    expect(objects.map(({ kind }) => kind)).toEqual(['satin']);
    expect(objects[0].range[1] - objects[0].range[0]).toBeGreaterThan(0.9 * square.length);
  });

  it('one that goes on from loose rows as far apart is a column of its own', () => {
    const loose = rows(1.1, 11, block(0, 4)).map((p) => vec(p.x, p.y - 11.4));
    const zig = zigzag(vec(5, 0), vec(35, 0), 4, 2.2);
    expect(find(loose, zig).map(({ kind }) => kind)).toEqual(['fill', 'satin']);
    expect(find([...zig].reverse(), [...loose].reverse()).map(({ kind }) => kind)).toEqual(['satin', 'fill']);
  });

  it('two that are cut from each other are two, however well the one goes on', () => {
    const board = new Board().sew(turned(zigzag(vec(0, 0), vec(22, 0), 2.6, 2.2), turn)).move('trim');
    board.sew(turned(zigzag(vec(23, 0), vec(45, 0), 2.6, 2.2), turn));
    expect(findObjects(board.stitches).map(({ kind }) => kind)).toEqual(['satin', 'satin']);
  });

  it('a run that wanders is none', () => {
    expect(find(walk(2, vec(0, 0), vec(12, 5), vec(3, 14), vec(18, 22))).map(({ kind }) => kind)).toEqual([
      'run',
    ]);
    const steps = [0, 50, -20, 80, 10, 70, -40, 30, 95, 0, -60, 20, 75, -10];
    let at = vec(0, 0);
    const wander = steps.map((degrees) => {
      at = vec(
        at.x + 2.5 * Math.cos((degrees * Math.PI) / 180),
        at.y + 2.5 * Math.sin((degrees * Math.PI) / 180),
      );
      return at;
    });
    expect(find(wander).map(({ kind }) => kind)).toEqual(['run']);
  });

  it('the prongs of a blanket edge are no swings', () => {
    expect(find(blanket(20, 2.4, 3.6))).toMatchObject([{ kind: 'run', purpose: 'edging' }]);
  });

  it('a zigzag sewn there and back under a column stays its double zigzag', () => {
    const there = zigzag(vec(0, 0), vec(24, 0), 3, 2.4);
    const back = zigzag(vec(24, 0), vec(0, 0), 3, 2.4);
    const top = zigzag(vec(0, 0), vec(24, 0), 4.4, 0.4);
    expect(find(there, back, top)).toMatchObject([{ kind: 'satin', underlay: { kinds: ['double-zigzag'] } }]);
  });
});
