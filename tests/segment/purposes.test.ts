import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, blanket, block, ringRun, ringZigzag, rows, TURNS, turned, walk, zigzag } from './board.js';

const SIZES = [1, 1.6] as const;

describe.each(TURNS.flatMap((turn) => SIZES.map((size) => ({ ...turn, size }))))(
  'turned by $degrees, mirrored $mirror, $size times as large',
  ({ size, ...turn }) => {
    /** Parts sewn with a stop between each and the next. */
    const purposes = (...parts: readonly Vec[][]) => {
      const board = new Board();
      parts.forEach((part, k) => {
        if (k > 0) board.move('stop');
        board.sew(turned(part, turn));
      });
      return findObjects(board.stitches).map(({ kind, purpose }) => `${kind} ${purpose}`);
    };
    const radius = 15 * size;

    it('lines that repeat each other over stops are an applied piece', () => {
      expect(purposes(ringRun(radius, 2.5), ringRun(radius, 2.2), ringZigzag(radius, 4, 0.4))).toEqual([
        'run placement',
        'run tack-down',
        'satin top',
      ]);
    });

    it('a zigzag that a column covers after a stop tacks the piece down', () => {
      expect(
        purposes(ringRun(radius, 2.5), ringZigzag(radius, 2.4, 2.4), ringZigzag(radius, 4, 0.4)),
      ).toEqual(['run placement', 'satin tack-down', 'satin top']);
    });

    it('one line before the cover is where the piece goes', () => {
      expect(purposes(ringRun(radius, 2.5), ringZigzag(radius, 4, 0.4))).toEqual([
        'run placement',
        'satin top',
      ]);
    });

    it('a line across the piece is none of its edge, though it reaches as far', () => {
      const across = walk(
        2.5,
        vec(-radius, -radius),
        vec(radius, radius),
        vec(radius, -radius),
        vec(-radius, radius),
      );
      expect(purposes(across, ringZigzag(radius, 4, 0.4))).toEqual(['run top', 'satin top']);
    });

    it('two lines repeat each other where they lie within a millimeter', () => {
      const second = (apart: number) =>
        purposes(ringRun(radius, 2.5), ringRun(radius + apart, 2.5), ringRun(radius, 2.2))[1];
      expect([0.4, 1.6].map(second)).toEqual(['run tack-down', 'run top']);
    });

    it('an open zigzag round a piece is its edging', () => {
      expect(purposes(ringRun(radius, 2.5), ringZigzag(radius, 3, 1.5))).toEqual([
        'run placement',
        'satin edging',
      ]);
    });

    it('open rows under the columns of another color are a net, and those beside them an area', () => {
      const ground = rows(1.2, 30 * size, block(0, 40 * size));
      const bar = (y: number) => zigzag(vec(4, y), vec(40 * size - 4, y), 4, 0.4);
      const bars = [6, 12, 18, 24].map((y) => bar(y * size));
      expect(purposes(ground, ...bars)[0]).toBe('fill net');
      expect(purposes(ground, bar(-8))[0]).toBe('fill top');
    });

    it('a line under the area of another color is no placement', () => {
      const line = walk(2.5, vec(0, 0), vec(30, 0), vec(30, 20), vec(0, 20), vec(0, 0));
      expect(purposes(line, rows(0.4, 20, block(0, 30)))[0]).toBe('run top');
    });

    it('a zigzag ring or a blanket stitch by itself is an edging', () => {
      expect(purposes(ringZigzag(radius, 3, 2))).toEqual(['satin edging']);
      expect(purposes(blanket(16, 2.6, 3))).toEqual(['run edging']);
    });

    it('an open zigzag that goes nowhere round is decoration', () => {
      expect(purposes(zigzag(vec(0, 0), vec(30 * size, 0), 2.6, 2.2))).toEqual(['satin decorative']);
    });

    it('open rows alone are a net', () => {
      expect(purposes(rows(2.6, 26 * size, block(0, 20)))).toEqual(['fill net']);
    });

    it('open rows crossed by others, or that hold a design up, are a net, and are none beneath a border', () => {
      const open = rows(1.2, 24 * size, block(0, 24 * size));
      const crossing = open.map((p) => vec(p.y, p.x));
      expect(purposes(open)).toEqual(['fill top']);
      expect(purposes(open, crossing)).toEqual(['fill net', 'fill net']);
      const bar = (y: number) => zigzag(vec(2, y), vec(24 * size - 2, y), 8, 0.4);
      expect(purposes(open, bar(12 * size))[0]).toBe('fill net');
      expect(purposes(open, bar(0))[0]).toBe('fill top');
    });

    it('what covers is for the eye', () => {
      expect(purposes(zigzag(vec(0, 0), vec(20, 0), 4, 0.4))).toEqual(['satin top']);
      expect(purposes(rows(0.4, 12, block(0, 20)))).toEqual(['fill top']);
      expect(purposes(walk(2.5, vec(0, 0), vec(20, 0), vec(20, 20)))).toEqual(['run top']);
    });

    it('a run elsewhere is no placement', () => {
      const away = ringRun(radius, 2.5).map((p) => vec(p.x + 2.4 * radius, p.y));
      expect(purposes(away, ringZigzag(radius, 4, 0.4))).toEqual(['run top', 'satin top']);
      expect(purposes(ringRun(radius / 2, 2.5), ringZigzag(radius, 4, 0.4))).toEqual([
        'run top',
        'satin top',
      ]);
    });
  },
);

describe('the cover of an applied piece', () => {
  const board = (first: Vec[]) =>
    new Board()
      .sew(first)
      .move('colour')
      .sew(ringZigzag(15, 4, 0.4));

  it('is told as such', () => {
    expect(findObjects(board(ringRun(15, 2.5)).stitches).map(({ overPiece }) => overPiece)).toEqual([
      false,
      true,
    ]);
    expect(findObjects(board(ringRun(40, 2.5)).stitches).map(({ overPiece }) => overPiece)).toEqual([
      false,
      false,
    ]);
  });

  it('has what is sewn right before it without a stop as its underlay instead', () => {
    const stitches = new Board().sew(ringRun(15, 2.5)).sew(ringZigzag(15, 4, 0.4)).stitches;
    expect(findObjects(stitches)).toMatchObject([{ kind: 'satin', underlay: { kinds: ['center-run'] } }]);
  });
});

describe('foam', () => {
  const length = 30;
  const bar = (spacing: number) => zigzag(vec(0, 0), vec(length, 0), 6, spacing);
  const cap = (x: number) => zigzag(vec(x, -2.8), vec(x, 2.8), 1.4, 0.8);

  it.each(TURNS)('is told by a very dense column with caps under its ends (by $degrees°)', (turn) => {
    const sew = (...parts: Vec[][]) =>
      findObjects(new Board().sew(...parts.map((p) => turned(p, turn))).stitches);
    const capped = sew(
      cap(1),
      walk(6, vec(1, 2.8), vec(length - 1, -2.8)),
      cap(length - 1),
      [...bar(0.18)].reverse(),
    );
    expect(capped).toMatchObject([{ kind: 'satin', foam: true, split: false }]);
    expect(capped[0].from.length).toBeGreaterThan(0.95 * 2 * (length / 0.18));
    // the way from cap to cap is no underlay, and what holds the foam down is
    expect(capped).toMatchObject([{ underlay: { kinds: [], range: null }, confidence: 1 }]);
    const lined = sew(
      cap(1),
      walk(6, vec(1, 2.8), vec(length - 1, -2.8)),
      cap(length - 1),
      walk(2, vec(27, 1.8), vec(3, 1.8), vec(3, -1.8), vec(27, -1.8)),
      [...bar(0.18)].reverse(),
    );
    expect(lined).toMatchObject([{ foam: true, underlay: { kinds: ['edge-run'] } }]);
    expect(sew(bar(0.18))).toMatchObject([{ kind: 'satin', foam: false }]);
    expect(
      sew(cap(1), walk(6, vec(1, 2.8), vec(length - 1, -2.8)), [...bar(0.4)].reverse()),
    ).not.toMatchObject([{ foam: true }]);
  });
});
