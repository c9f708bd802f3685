import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countLockStitches, locksBetween } from '../../lib/segment/locks.js';
import { turned, type Vec, vec } from '../generators/plane.js';
import { block, rows, sewn, walk, zigzag } from './board.js';

/** Tiny stitches that begin at the origin; the thread then goes on along x. */
const STYLES: Record<string, { points: Vec[]; stitches: number }> = {
  'to and fro twice': {
    points: [vec(0, 0), vec(0.5, 0), vec(0, 0), vec(0.5, 0), vec(0, 0)],
    stitches: 4,
  },
  'to and fro once, across': { points: [vec(0, 0), vec(0, 0.6), vec(0, 0)], stitches: 2 },
  'forth, back and forth': { points: [vec(0, 0), vec(0.7, 0), vec(0, 0), vec(0.7, 0)], stitches: 3 },
  'a triangle': { points: [vec(0, 0), vec(0.6, 0), vec(0.3, 0.5), vec(0, 0)], stitches: 3 },
  'straight on': { points: [vec(0, 0), vec(0.5, 0), vec(1, 0), vec(1.5, 0)], stitches: 3 },
  'straight on, two': { points: [vec(0, 0), vec(0.4, 0), vec(0.8, 0)], stitches: 2 },
};
const atStart = (points: readonly Vec[]) => countLockStitches(sewn(points), 0, 1, points.length - 1);
const atEnd = (points: readonly Vec[]) => countLockStitches(sewn(points), points.length - 1, -1, 0);
const names = Object.keys(STYLES);

describe('lock stitches', () => {
  it.each(names)('are counted where a thread begins and where it ends: %s', (name) => {
    const { points, stitches } = STYLES[name];
    const thread = [...points, ...walk(2.5, vec(4, 0), vec(24, 0))];
    expect(atStart(thread)).toBe(stitches);
    expect(atEnd(thread)).toBe(0);
    expect(atEnd([...thread].reverse())).toBe(stitches);
  });

  it.each(names)('are counted before a column, whichever way they are turned: %s', (name) => {
    const { points, stitches } = STYLES[name];
    const column = zigzag(vec(0, 0), vec(15, 0), 5, 0.4).map((p) => vec(p.x, p.y - 2.5));
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }), (angle) => {
        const locked = [...points.map((p) => turned(p, angle)), ...column.slice(1)];
        const counted = atStart(locked);
        // on the grid a place may be met again one stitch sooner or later
        expect(Math.abs(counted - stitches)).toBeLessThanOrEqual(1);
        expect(counted).toBeGreaterThanOrEqual(2);
      }),
      { numRuns: 40 },
    );
  });

  it('are a square that misses its beginning by a step or two of the file, but not by three', () => {
    const square = (off: number) => [
      vec(0, 0),
      vec(0.6, 0),
      vec(0.6, 0.6),
      vec(0, 0.6),
      vec(-off, -off),
      ...walk(2.5, vec(3, -1), vec(20, -1)),
    ];
    expect(atStart(square(0.2))).toBe(4);
    expect(atStart(square(0.3))).toBe(0);
    // there and back is the same place
    const back = (off: number) => [vec(0, 0), vec(0.6, 0), vec(0, off), ...walk(2.5, vec(3, 2), vec(20, 2))];
    expect(atStart(back(0.1))).toBe(2);
    expect(atStart(back(0.2))).toBe(0);
  });

  it('are not looked for beyond the other end of the thread', () => {
    const points = STYLES['to and fro twice'].points;
    expect(countLockStitches(sewn(points), 0, 1, 2)).toBe(2);
    expect(countLockStitches(sewn(points), 0, 1, 1)).toBe(0);
    expect(countLockStitches(sewn([vec(0, 0)]), 0, 1, 0)).toBe(0);
  });
});

describe('no lock stitches', () => {
  it('are the first swings of a column that narrows to a tip', () => {
    const tip = fc.record({
      least: fc.double({ min: 0, max: 1, noNaN: true }),
      slope: fc.double({ min: 0.05, max: 0.8, noNaN: true }),
      spacing: fc.double({ min: 0.3, max: 0.6, noNaN: true }),
    });
    fc.assert(
      fc.property(tip, ({ least, slope, spacing }) => {
        const points = Array.from({ length: 80 }, (_, k) => {
          const s = (k * spacing) / 2;
          return vec(s, ((k % 2 ? 1 : -1) * (least + slope * s)) / 2);
        });
        expect(atStart(points)).toBe(0);
        expect(atEnd([...points].reverse())).toBe(0);
      }),
      { numRuns: 300 },
    );
  });

  it('are the swings of a column that is narrow all along', () => {
    for (const width of [0.6, 0.8, 1]) {
      expect(atStart(zigzag(vec(0, 0), vec(12, 0), width, 0.4))).toBe(0);
    }
  });

  it('are the short first rows of a fill that begins in a corner', () => {
    const corner = rows(0.4, 12, (y) => [-y, y + 0.2], { stitch: 3 });
    expect(atStart(corner)).toBe(0);
    expect(atEnd([...corner].reverse())).toBe(0);
    const flat = rows(0.5, 12, (y) => [-3 * y, 3 * y + 0.4], { stitch: 3 });
    expect(atStart(flat)).toBe(0);
  });

  it('are ordinary stitches, or a single tiny one', () => {
    expect(atStart(walk(2.5, vec(0, 0), vec(20, 0)))).toBe(0);
    expect(atStart([vec(0, 0), vec(0.5, 0), vec(3, 0), vec(6, 0)])).toBe(0);
    expect(atStart(rows(0.4, 12, block(0, 15)))).toBe(0);
  });

  it('are the stitches of a run that is tiny all along, be it long or short', () => {
    expect(atStart(walk(0.8, vec(0, 0), vec(16, 0)))).toBe(0);
    expect(atStart(walk(1, vec(0, 0), vec(4, 0)))).toBe(0);
    expect(atStart([...walk(0.8, vec(0, 0), vec(7.2, 0)), vec(10, 0), vec(13, 0)])).toBe(0);
  });

  it('are a lock where the needle comes down on one spot again and again', () => {
    expect(atStart([vec(0, 0), vec(0.1, 0), vec(0, 0), vec(0.1, 0.1), vec(3, 0), vec(6, 0)])).toBe(3);
  });

  it('are file noise on one place', () => {
    expect(atStart([vec(0, 0), vec(0.1, 0), vec(0, 0), vec(3, 0), vec(6, 0)])).toBe(0);
  });
});

describe('a way round in longer stitches', () => {
  const tie = [vec(0, 0), vec(0.5, 0.4), vec(0.9, -0.4), vec(1.1, 0.3), vec(0, 0)];

  it('is a lock where it comes back to its first place, and no run there and back', () => {
    expect(atStart([...tie, ...walk(2.5, vec(0, -3), vec(0, -20))])).toBe(4);
    expect(atEnd([...walk(2.5, vec(0, -20), vec(0, -3)), ...tie])).toBe(4);
    const open = [...tie.slice(0, -1), vec(0.3, 0)];
    expect(atEnd([...walk(2.5, vec(0, -20), vec(0, -3)), ...open])).toBe(0);
    const bean = [vec(0, 0), vec(1.2, 0), vec(0, 0), vec(1.2, 0), vec(0, 0)];
    expect(atEnd([...walk(2.5, vec(-20, 0), vec(-3, 0)), ...bean])).toBe(0);
  });
});

describe('locks in the middle of a thread', () => {
  const lead = walk(2.5, vec(-20, 0), vec(0, 0));
  const tail = walk(2.5, vec(2.5, 0), vec(20, 0));
  const at = lead.length - 1;
  const middle = (points: readonly Vec[]) => sewn([...lead, ...points.slice(1), ...tail]);

  it.each([
    ['to and fro twice', true],
    ['to and fro once, across', true],
    ['forth, back and forth', true],
    ['a triangle', true],
    ['straight on, two', true],
    ['straight on', true],
  ])('go back over their own places, or straight on: %s', (name, found) => {
    const stitches = middle(STYLES[name].points);
    expect(locksBetween(stitches, at - 3, at + 3, stitches.count - 1, at)).toBe(found);
  });

  it('are not the swings of a column as narrow as a lock, however they come back', () => {
    const narrow = zigzag(vec(0, 0), vec(12, 0), 1, 0.2);
    const stitches = sewn([...narrow, ...narrow.slice(0, -1).reverse()]);
    for (const home of [0, 30, narrow.length - 1, stitches.count - 5])
      expect(locksBetween(stitches, home - 4, home + 4, stitches.count - 1, home)).toBe(false);
  });

  it('are looked for only where they may begin, and where they may end', () => {
    const stitches = middle(STYLES['to and fro once, across'].points);
    const last = stitches.count - 1;
    expect(locksBetween(stitches, at, at, last, at)).toBe(true);
    expect(locksBetween(stitches, at + 1, last, last, at)).toBe(false);
    expect(locksBetween(stitches, 0, at - 1, last, at)).toBe(false);
    expect(locksBetween(stitches, at, at, at + 1, at)).toBe(false);
    // three stitches round and back take three to reach their end
    const round = middle(STYLES['a triangle'].points);
    expect(locksBetween(round, at, at, at + 3, at)).toBe(true);
    expect(locksBetween(round, at, at, at + 2, at)).toBe(false);
  });

  it('lock the end that they lie at, not one a stitch away', () => {
    const stitches = middle(STYLES['a triangle'].points);
    const last = stitches.count - 1;
    expect(locksBetween(stitches, at - 3, at + 3, last, at + 3)).toBe(true);
    expect(locksBetween(stitches, at - 3, at + 3, last, at - 1)).toBe(false);
    expect(locksBetween(stitches, at - 3, at + 3, last, at + 4)).toBe(false);
  });

  it('are told by the stitch after the next as well', () => {
    const short = walk(0.7, vec(-3.5, 0), vec(0, 0));
    const tie = [vec(0.5, 0), vec(0, 0), vec(0.5, 0), vec(0.5, 0.7)];
    const home = short.length - 1;
    const asked = (...after: Vec[]) => {
      const stitches = sewn([...short, ...tie, ...after]);
      return locksBetween(stitches, home, home + 2, stitches.count - 1, home);
    };
    expect(asked(vec(3.5, 0.7), vec(6.5, 0.7))).toBe(true);
    expect(asked(vec(0.5, 1.4), vec(0.5, 2.1), vec(3.5, 2.1))).toBe(false);
  });

  it('may be asked for before the first stitch and behind the last', () => {
    const stitches = middle(STYLES['a triangle'].points);
    const { count } = stitches;
    expect(locksBetween(stitches, -4, 1, count - 1, 0)).toBe(false);
    expect(locksBetween(stitches, count - 2, count + 6, count + 9, count - 1)).toBe(false);
  });
});
