import { describe, expect, it } from 'vitest';
import { Hidden } from '../../lib/rework/hidden.js';
import { Surface, Threads } from '../../lib/rework/surface.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { vec } from '../generators/plane.js';
import { Board, block, rows, zigzag } from '../segment/board.js';

/** An area, and a column sewn over a part of it. */
const board = new Board().sew(rows(0.4, 16, block(0, 24)));
board.move('trim');
const top = board.next;
const { stitches } = board.sew(zigzag(vec(4, 8), vec(20, 8), 4, 0.4));
const objects = findObjects(stitches);
const hidden = new Hidden(stitches, objects);
const column = objects.findIndex(({ kind }) => kind === 'satin');
const area = objects.findIndex(({ kind }) => kind === 'fill');

describe('what top stitching hides', () => {
  it('is told by the object that lies above, of those sewn later', () => {
    expect(hidden.by(12, 8, -1, (k) => k === column)).toBe(column);
    expect(hidden.by(12, 8, top - 1)).toBe(column);
    expect(hidden.by(12, 8, top)).toBe(-1);
    expect(hidden.by(12, 3, -1)).toBe(area);
    expect(hidden.by(12, 3, 0)).toBe(-1);
    expect(hidden.by(12, 30, -1)).toBe(-1);
  });

  it('is told of places beside as well, where they are asked for', () => {
    const edge = 8 + 2 + 0.6;
    expect(hidden.by(12, edge, top - 1)).toBe(-1);
    expect(hidden.near(12, edge, top - 1, 0.6)).toBe(true);
    expect(hidden.near(12, edge + 3, top - 1, 0.6)).toBe(false);
  });

  it('knows which objects touch', () => {
    expect(hidden.touching(column)).toContain(area);
    expect(hidden.touching(area)).toContain(column);
  });

  it('is the ground of threads that lie close, not of those far apart', () => {
    const surface = (spacing: number) => {
      const { stitches: one } = new Board().sew(zigzag(vec(0, 0), vec(20, 0), 4, spacing));
      return new Surface(new Threads().add(one, 0, one.count - 1));
    };
    expect(surface(0.4).hides(10, 0.3)).toBe(true);
    expect(surface(0.4).hides(10, 3)).toBe(false);
    const open = surface(4);
    expect([9, 9.5, 10, 10.5, 11].some((x) => !open.hides(x, 0.3))).toBe(true);
  });
});
