import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Break, penetrations, type Stitches } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type StitchObject, UNDERLAY_KINDS } from '../../lib/segment/objects.js';
import { FAMILIES } from '../generators/families/index.js';
import { type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, walk, zigzag } from './board.js';

/** What must hold of objects whatever was sewn. */
function expectSound(stitches: Stitches, objects: readonly StitchObject[]): void {
  let end = -1;
  let group = 0;
  objects.forEach((o, i) => {
    expect(o.id).toBe(i + 1);
    const [first, last] = o.range;
    expect(first).toBeGreaterThan(end);
    expect(last).toBeGreaterThan(first);
    expect(last).toBeLessThan(stitches.count);
    end = last;
    expect(o.block).toBe(stitches.block[first] + 1);
    expect(stitches.block[last]).toBe(stitches.block[first]);
    const uncut = (b: number, k: number) => k === 0 || b < Break.trim;
    expect(stitches.breakBefore.subarray(first, last + 1).every(uncut)).toBe(true);
    expect([group, group + 1]).toContain(o.group);
    group = o.group;

    expect(o.to).toHaveLength(o.from.length);
    const inOrder = (from: number, k: number) => from >= (k === 0 ? first : o.to[k - 1]) && o.to[k] > from;
    expect(o.from.every(inOrder)).toBe(true);
    expect(o.to[o.to.length - 1] ?? last).toBeLessThanOrEqual(last);
    expect(o.from.length > 0).toBe(o.kind !== 'run');
    expect(o.sections.length > 0).toBe(o.kind === 'fill');
    o.sections.forEach((s, k) => {
      expect(s).toBeGreaterThanOrEqual(k === 0 ? 0 : o.sections[k - 1] + 1);
      expect(s).toBeLessThan(o.from.length);
    });
    if (o.kind !== 'satin') expect(o.split).toBe(false);

    const { kinds, range, stitches: under, spacingMm } = o.underlay;
    expect(new Set(kinds).size).toBe(kinds.length);
    for (const kind of kinds) expect(UNDERLAY_KINDS).toContain(kind);
    expect(range === null).toBe(kinds.length === 0);
    if (range === null) expect([under, spacingMm]).toEqual([0, null]);
    else {
      expect(range[0]).toBeGreaterThanOrEqual(0);
      expect(range[1]).toBeGreaterThanOrEqual(range[0]);
      expect(range[1]).toBeLessThan(first);
      expect(under).toBeGreaterThan(0);
      expect(under).toBeLessThanOrEqual(range[1] - range[0] + 1);
    }
    if (spacingMm !== null) expect(spacingMm).toBeGreaterThan(0);
  });
}

describe('nothing to find', () => {
  it('in a design without stitches', () => {
    expect(findObjects(new Board().stitches)).toEqual([]);
    expect(findObjects(new Board().move('jump').move('trim').move('colour').stitches)).toEqual([]);
  });

  it('in one needle point, or two', () => {
    expect(findObjects(new Board().sew([vec(2, 3)]).stitches)).toEqual([]);
    expect(findObjects(new Board().sew([vec(2, 3), vec(9, 3)]).stitches)).toEqual([]);
  });

  it.each([3, 10, 500])('in %s needle points that are all one', (count) => {
    expect(findObjects(new Board().sew(Array.from({ length: count }, () => vec(4, -7))).stitches)).toEqual(
      [],
    );
  });

  it('in points that are cut from each other', () => {
    const board = new Board();
    for (let k = 0; k < 30; k++) board.sew([vec(k * 3, (k * 7) % 11)]).move(k % 2 ? 'trim' : 'colour');
    expect(findObjects(board.stitches)).toEqual([]);
  });
});

describe('anything at all', () => {
  const tenths = fc.integer({ min: -400, max: 400 }).map((v) => v / 10);
  const point = fc.record({ x: tenths, y: tenths });
  const near = fc.record({
    x: fc.integer({ min: -30, max: 30 }).map((v) => v / 10),
    y: fc.integer({ min: -30, max: 30 }).map((v) => v / 10),
  });
  const wander = fc.array(near, { minLength: 1, maxLength: 80 }).map((steps) => {
    let at = vec(0, 0);
    return steps.map((d) => {
      at = vec(at.x + d.x, at.y + d.y);
      return at;
    });
  });
  const size = fc.record({
    from: point,
    to: point,
    width: fc.double({ min: 0.3, max: 14, noNaN: true }),
    spacing: fc.double({ min: 0.2, max: 4, noNaN: true }),
    broken: fc.integer({ min: 0, max: 3 }),
  });
  const column = size
    .filter(({ from, to }) => Math.hypot(to.x - from.x, to.y - from.y) > 1)
    .map(({ from, to, width, spacing, broken }) => zigzag(from, to, width, spacing, broken).slice(0, 400));
  const fill = fc
    .record({
      at: point,
      apart: fc.double({ min: 0.3, max: 4, noNaN: true }),
      count: fc.integer({ min: 1, max: 40 }),
      wide: fc.double({ min: 1, max: 40, noNaN: true }),
      stitch: fc.double({ min: 1.5, max: 6, noNaN: true }),
      direct: fc.boolean(),
    })
    .map(({ at, apart, count, wide, stitch, direct }) =>
      rows(apart, apart * count, block(0, wide), { stitch, direct }).map((p) => vec(p.x + at.x, p.y + at.y)),
    );
  const twice = (points: readonly Vec[]) => [...points, ...[...points].reverse()];
  const piece = fc.oneof(
    fc.array(point, { minLength: 1, maxLength: 60 }),
    wander,
    column,
    fill,
    column.map(twice),
    wander.map(twice),
    point.map((p) => Array.from({ length: 12 }, () => p)),
  );
  const move = fc.constantFrom('sewn on', 'jump', 'trim', 'colour', 'stop');
  const design = fc.array(fc.tuple(piece, move), { minLength: 1, maxLength: 7 });

  function sewnAll(parts: readonly [Vec[], string][]): Stitches {
    const board = new Board();
    for (const [points, way] of parts) {
      board.sew(points);
      if (way !== 'sewn on') board.move(way as 'jump');
    }
    return board.stitches;
  }

  it('is read as objects in order, each within its thread', () => {
    fc.assert(
      fc.property(design, (parts) => {
        const stitches = sewnAll(parts);
        expectSound(stitches, findObjects(stitches));
      }),
      { numRuns: 300 },
    );
  });

  it('is read the same again, and left as it was', () => {
    fc.assert(
      fc.property(design, (parts) => {
        const stitches = sewnAll(parts);
        const before = structuredClone(stitches);
        const objects = findObjects(stitches);
        expect(stitches).toEqual(before);
        expect(findObjects(stitches)).toEqual(objects);
      }),
      { numRuns: 50 },
    );
  });
});

describe('designs as they are sewn', () => {
  it.each(['letters-word', 'sequence-border', 'underlay-fill', 'crest'])(
    'are read as objects in order, and left as they were: %s',
    (family) => {
      for (const seed of [1, 2]) {
        const board = FAMILIES[family](seed).design;
        const stitches = penetrations(board);
        const before = structuredClone(stitches);
        const objects = findObjects(stitches);
        expect(objects.length).toBeGreaterThan(0);
        expectSound(stitches, objects);
        expect(stitches).toEqual(before);
      }
    },
  );
});

describe('locks of objects joined to their neighbours', () => {
  const lock = (at: Vec) => [vec(at.x + 0.5, at.y), at, vec(at.x + 0.5, at.y), at];
  const bar = (x: number) => zigzag(vec(x, 0), vec(x + 12, 0), 4, 0.4);
  const end = (points: readonly Vec[]) => points[points.length - 1];
  const locks = (board: Board) => findObjects(board.stitches).map((o) => o.locks);

  it('are those of the thread at its two ends alone', () => {
    const [first, second] = [bar(0), bar(16)];
    const board = new Board().sew(lock(first[0]), first, second, lock(end(second)));
    expect(locks(board)).toEqual([
      { start: true, end: false },
      { start: false, end: true },
    ]);
  });

  it('are their own where they have some in the middle of the thread', () => {
    const [first, second] = [bar(0), bar(16)];
    expect(locks(new Board().sew(first, lock(end(first)), second))).toEqual([
      { start: false, end: true },
      { start: false, end: false },
    ]);
    const way = walk(2.5, vec(13, 0), vec(15, 0));
    expect(locks(new Board().sew(first, way, lock(second[0]), second))).toEqual([
      { start: false, end: false },
      { start: true, end: false },
    ]);
  });

  it('are none where there are none', () => {
    expect(locks(new Board().sew(bar(0)).move('trim').sew(bar(16)))).toEqual([
      { start: false, end: false },
      { start: false, end: false },
    ]);
  });
});
