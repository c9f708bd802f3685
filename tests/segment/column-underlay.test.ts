import { describe, expect, it } from 'vitest';
import { type ColumnFrame, columnFrame } from '../../lib/geometry/column-frame.js';
import {
  readColumnUnderlay,
  shareAlongMiddle,
  type UnderlayReading,
} from '../../lib/segment/column-underlay.js';
import type { UnderlayKind } from '../../lib/segment/objects.js';
import { type Column, columnTop, place, type TopStyle } from '../generators/column.js';
import { arc, Curve, ellipse, path, segment } from '../generators/curve.js';
import { type Vec, vec } from '../generators/plane.js';
import { Random } from '../generators/random.js';
import { layUnderlay } from '../generators/satin.js';
import { sewn, walk, zigzag } from './board.js';

const TOP: TopStyle = { spacing: 0.4, zag: 'symmetric', comp: 0, split: null, short: 0, overlap: 0 };

/** Reads stitching under a column. A null among the points is a place where the thread left the column. */
function read(column: Column, under: readonly (Vec | null)[], fromEnd = false): UnderlayReading {
  const { frame, x, y, indexes } = laidOut(column, under, fromEnd);
  return readColumnUnderlay(frame, x, y, indexes);
}

function laidOut(
  column: Column,
  under: readonly (Vec | null)[],
  fromEnd: boolean,
): { frame: ColumnFrame; x: Float64Array; y: Float64Array; indexes: number[] } {
  const points = under.filter((p) => p !== null);
  const top = columnTop(column, TOP, fromEnd, 1, new Random(1), '').needles;
  const { x, y } = sewn(points, top);
  const from = Int32Array.from({ length: top.length - 1 }, (_, k) => points.length + k);
  let next = 0;
  const indexes = under.map((p) => (p === null ? -1 : next++));
  return {
    frame: columnFrame(
      x,
      y,
      from,
      from.map((i) => i + 1),
    ),
    x,
    y,
    indexes,
  };
}

const ACROSS = { kind: 'across' } as const;
const SHAPES: Record<string, (width: number) => Column> = {
  straight: (w) => ({ centre: segment(vec(0, 0), vec(30, 0)), half: () => w / 2, lie: ACROSS }),
  slanted: (w) => ({
    centre: segment(vec(0, 0), vec(30, 0)),
    half: () => w / 2,
    lie: { kind: 'slant', degrees: 30 },
  }),
  'bow-shaped': (w) => ({ centre: new Curve(arc(vec(0, 0), 15, 0, 2.2)), half: () => w / 2, lie: ACROSS }),
  winding: (w) => ({
    centre: new Curve(path((t) => vec(t, 4 * Math.sin(t / 5)), 0, 35, 45)),
    half: () => w / 2,
    lie: ACROSS,
  }),
  closed: (w) => ({
    centre: new Curve(ellipse(vec(0, 0), 14, 14).slice(0, -1), true),
    half: () => w / 2,
    lie: ACROSS,
  }),
};

const RUNS_AND_ZIGZAGS: UnderlayKind[][] = [
  ['center-run'],
  ['edge-run'],
  ['zigzag'],
  ['double-zigzag'],
  ['center-run', 'edge-run'],
  ['center-run', 'zigzag'],
  ['center-run', 'double-zigzag'],
  ['edge-run', 'zigzag'],
  ['edge-run', 'double-zigzag'],
  ['center-run', 'edge-run', 'zigzag'],
];

interface Laid {
  from: 0 | 1;
  rowsLie?: 'across' | 'along' | 'diagonal';
  seed: number;
}

function laid(column: Column, width: number, kinds: readonly UnderlayKind[], how: Laid): Vec[] {
  const style = {
    top: TOP,
    underlay: kinds,
    inset: Math.min(0.6, width * 0.26),
    zigzagSpacing: 2.4,
    rowsLie: how.rowsLie ?? 'across',
    rowsApart: 2.5,
    rowsStitch: 2,
    thereAndBack: how.seed % 2 === 0,
    restart: false,
  };
  return layUnderlay(column, style, how.from, new Random(how.seed)).flatMap((p) => p.points);
}

const inOrder = (kinds: readonly UnderlayKind[]) => [...kinds].sort();

describe.each(Object.keys(SHAPES))('under a %s column', (name) => {
  it.each(RUNS_AND_ZIGZAGS.map((kinds) => ({ kinds, says: kinds.join(' + ') })))('$says', ({ kinds }) => {
    for (const width of [3, 5, 8]) {
      for (const seed of [0, 1]) {
        for (const fromEnd of [false, true]) {
          const column = SHAPES[name](width);
          const points = laid(column, width, kinds, { from: fromEnd ? 1 : 0, seed });
          expect(inOrder(read(column, points, !fromEnd).kinds)).toEqual(inOrder(kinds));
          expect(inOrder(read(column, points.reverse(), fromEnd).kinds)).toEqual(inOrder(kinds));
        }
      }
    }
  });
});

describe.each(['straight', 'slanted'])('a light fill under a %s column', (name) => {
  it.each([
    { kinds: ['fill'], rowsLie: 'across', width: 7 },
    { kinds: ['fill'], rowsLie: 'diagonal', width: 7 },
    { kinds: ['fill'], rowsLie: 'along', width: 8 },
    { kinds: ['edge-run', 'fill'], rowsLie: 'across', width: 7 },
    { kinds: ['edge-run', 'fill'], rowsLie: 'along', width: 11 },
  ] as const)('$kinds, rows $rowsLie', ({ kinds, rowsLie, width }) => {
    for (const seed of [0, 1, 2]) {
      const column = SHAPES[name](width);
      const points = laid(column, width, kinds, { from: 0, rowsLie, seed });
      for (const reading of [read(column, points), read(column, [...points].reverse(), true)]) {
        expect(inOrder(reading.kinds)).toEqual(kinds);
        // rows laid as the swings slant lie nearer to each other by the cosine of the slant
        const apart = name === 'slanted' ? 2.5 * Math.cos(Math.PI / 6) : 2.5;
        if (rowsLie === 'across') expect(Math.abs((reading.spacingMm ?? 0) - apart)).toBeLessThan(0.1);
      }
    }
  });
});

describe('under a narrow column', () => {
  it.each(Object.keys(SHAPES))('a center run shows, and is no edge run: %s', (name) => {
    const column = SHAPES[name](1.2);
    expect(read(column, laid(column, 1.2, ['center-run'], { from: 0, seed: 1 })).kinds).toEqual([
      'center-run',
    ]);
  });
});

describe('the spacing of underlay', () => {
  const column = SHAPES.straight(6);

  it.each([1.6, 2.4, 4])('of a zigzag is that of the points on one side: %s mm', (spacing) => {
    const once = zigzag(vec(1, 0), vec(29, 0), 4.6, spacing);
    const single = read(column, once);
    expect(single.kinds).toEqual(['zigzag']);
    expect(Math.abs((single.spacingMm ?? 0) - spacing)).toBeLessThan(0.1);
    const double = read(column, [...once, ...zigzag(vec(29, 0), vec(1, 0), 4.6, spacing)]);
    expect(double.kinds).toEqual(['double-zigzag']);
    expect(Math.abs((double.spacingMm ?? 0) - spacing)).toBeLessThan(0.2);
  });

  it('of a zigzag that comes back half of the way is that of a double one', () => {
    const half = [...zigzag(vec(1, 0), vec(29, 0), 4.6, 2), ...zigzag(vec(29, 0), vec(16, 0), 4.6, 2)];
    const reading = read(column, half);
    expect(reading.kinds).toEqual(['double-zigzag']);
    expect(Math.abs((reading.spacingMm ?? 0) - 2)).toBeLessThan(0.1);
  });

  it('of runs is none', () => {
    expect(read(column, walk(2.5, vec(0.5, 0), vec(29, 0)))).toEqual({
      kinds: ['center-run'],
      spacingMm: null,
    });
  });

  it('of rows along the column is the distance between them', () => {
    const along = [-2, 0, 2].flatMap((v, k) =>
      k % 2 === 0 ? walk(2, vec(1, v), vec(29, v)) : walk(2, vec(29, v), vec(1, v)),
    );
    const reading = read(column, along);
    expect(reading.kinds).toEqual(['fill']);
    expect(Math.abs((reading.spacingMm ?? 0) - 2)).toBeLessThan(0.05);
  });
});

describe('no underlay', () => {
  const column = SHAPES.straight(6);

  it('is nothing, one point, or the way in', () => {
    for (const points of [[], [vec(3, 1)], [vec(3, 1), vec(1, 2)]]) {
      expect(read(column, points)).toEqual({ kinds: [], spacingMm: null });
    }
  });

  it('is travel along half of the column, in the middle or at a side', () => {
    expect(read(column, walk(2.5, vec(15, 0), vec(0, 0))).kinds).toEqual([]);
    expect(read(column, walk(2.5, vec(15, 2.4), vec(0, 2.4))).kinds).toEqual([]);
  });

  it('is travel along all of one side', () => {
    expect(read(column, walk(2.5, vec(0, 2.4), vec(30, 2.4))).kinds).toEqual([]);
  });

  it('are two stitches across', () => {
    expect(read(column, [vec(2, 2.5), vec(3, -2.5), vec(4, 2.5)]).kinds).toEqual([]);
  });
});

describe('where the thread left the column', () => {
  const column = SHAPES.straight(6);

  it('pieces of a center run add up', () => {
    const first = walk(2.5, vec(1, 0), vec(11, 0));
    const second = walk(2.5, vec(20, 0), vec(29, 0));
    expect(read(column, [...first, null, ...second]).kinds).toEqual(['center-run']);
  });

  it('the way over is none of it', () => {
    // to and fro between the sides would be a zigzag, had it been sewn without leaving
    const stations = [1, 6, 11, 16, 21, 26].map((s, k) => vec(s, k % 2 ? 2.4 : -2.4));
    expect(read(column, stations).kinds).toEqual(['zigzag']);
    expect(
      read(
        column,
        stations.flatMap((p) => [p, null]),
      ).kinds,
    ).toEqual([]);
  });
});

describe('the share along the middle', () => {
  const share = (column: Column, points: readonly Vec[]) => {
    const { frame, x, y, indexes } = laidOut(column, points, false);
    return shareAlongMiddle(frame, x, y, indexes);
  };

  it('is that of the length, and twice that there and back', () => {
    const column = SHAPES.straight(5);
    expect(Math.abs(share(column, walk(2, vec(3, 0), vec(18, 0))) - 0.5)).toBeLessThan(0.01);
    const there = walk(2, vec(1, 0.1), vec(28, 0.1));
    expect(Math.abs(share(column, [...there, ...there.slice(0, -1).reverse()]) - 1.8)).toBeLessThan(0.02);
  });

  it('is none at the side', () => {
    expect(share(SHAPES.straight(5), walk(2, vec(3, 2), vec(18, 2)))).toBe(0);
  });

  it('goes over the place where a ring closes', () => {
    const column = SHAPES.closed(5);
    const { length } = column.centre;
    const way = Array.from({ length: 13 }, (_, k) => place(column, length * (0.8 + (0.4 * k) / 12), 0));
    expect(Math.abs(share(column, way) - 0.4)).toBeLessThan(0.02);
  });
});

it('a zigzag may follow the edge a little here and there, and rows step along it every time', () => {
  const zig = (steps: readonly number[]): Vec[] => {
    return Array.from({ length: 16 }, (_, k) => {
      const at = vec(1.5 * (k + 1) + 1.2 * steps.filter((s) => s < k).length, k % 2 === 0 ? 1.4 : -1.4);
      return steps.includes(k) ? [at, vec(at.x + 1.2, at.y)] : [at];
    }).flat();
  };
  const kinds = (...steps: number[]) => read(SHAPES.straight(4), zig(steps)).kinds;
  expect(kinds()).toEqual(['zigzag']);
  expect(kinds(4, 9)).toEqual(['zigzag']);
  expect(kinds(3, 6, 9)).toEqual(['zigzag']);
  expect(kinds(...Array.from({ length: 15 }, (_, k) => k))).toEqual(['fill']);
});
