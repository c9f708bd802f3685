import { describe, expect, it } from 'vitest';
import type { Stitches } from '../../lib/format/stitches.js';
import { LegFinder } from '../../lib/segment/legs.js';
import { findPatches, type Patch } from '../../lib/segment/patches.js';
import { arc } from '../generators/curve.js';
import { stitchCurve, type Vec, vec } from '../generators/plane.js';
import { Board, block, rows, sewn, walk, zigzag } from './board.js';

const found = (stitches: Stitches): Patch[] =>
  findPatches(stitches, new LegFinder(stitches, stitches.count).find(0, stitches.count - 1));
function only(points: readonly Vec[]): Patch {
  const patches = found(sewn(points));
  expect(patches).toHaveLength(1);
  return patches[0];
}

describe('a patch of swings', () => {
  it('has every swing of a column, half as far apart as the points of one rail', () => {
    const patch = only(zigzag(vec(0, 0), vec(12, 0), 5, 0.4));
    expect([patch.kind, patch.split, patch.from.length]).toEqual(['swings', false, 60]);
    expect(Math.abs(patch.pitchMm - 0.2)).toBeLessThan(0.01);
    expect(Math.abs(patch.legMm - 5)).toBeLessThan(0.02);
  });

  it.each([
    [0.35, 8, 1],
    [0.4, 10, 2],
    [0.5, 8, 1],
    [0.4, 12, 3],
  ])(
    'is split where swings are broken: %s mm apart on a rail, %s mm wide, %s points inside',
    (spacing, width, inside) => {
      const patch = only(zigzag(vec(0, 0), vec(20, 0), width, spacing, inside));
      expect([patch.kind, patch.split]).toEqual(['swings', true]);
      expect(patch.from.length).toBe(Math.round(40 / spacing));
      for (let k = 0; k < patch.from.length; k++) expect(patch.to[k] - patch.from[k]).toBe(inside + 1);
    },
  );

  it('leaves out a long way in and out that passes for a swing', () => {
    const column = zigzag(vec(0, 0), vec(12, 0), 4, 0.4);
    const last = column[column.length - 1];
    const patch = only([vec(0.4, -9), ...column, vec(last.x + 0.4, last.y - 8)]);
    expect([patch.from[0], patch.to[patch.to.length - 1]]).toEqual([1, 61]);
  });

  it('leaves out a short stitch at the side that is turned against the swings', () => {
    const column = zigzag(vec(0, 0), vec(12, 0), 4, 0.4);
    const patch = only([vec(-1, 0.6), ...column]);
    expect(patch.from[0]).toBe(1);
  });
});

describe.each(['at its start', 'at its end'])('the end of a column: %s', (which) => {
  const isStart = which === 'at its start';
  /** How many legs are left out where the column begins, or ends. */
  const leftOut = (points: readonly Vec[]) => {
    const [patch, ...more] = found(new Board(0).sew(isStart ? points : [...points].reverse()).stitches);
    expect(more).toEqual([]);
    return isStart ? patch.from[0] : points.length - 1 - patch.to[patch.to.length - 1];
  };
  const column = zigzag(vec(0, 0), vec(12, 0), 4, 0.4);
  /** A way into it, so long and turned by so much against its first swing. */
  const into = (mm: number, degrees: number) => {
    const [{ x, y }, next] = column;
    const angle = Math.atan2(next.y - y, next.x - x) + (degrees * Math.PI) / 180;
    return [vec(x + mm * Math.cos(angle), y + mm * Math.sin(angle)), ...column];
  };

  it('a way in shorter than a swing is none of them where it is turned, and one where it is not', () => {
    expect(leftOut(into(2.5, -21))).toBe(1);
    expect(leftOut(into(2.5, -19))).toBe(0);
  });

  it('short swings turned the same way are left out one after another', () => {
    const [first] = into(2.4, -30);
    const twice = [vec(first.x + 1.9, first.y + 1.5), first, ...column];
    expect(leftOut(twice)).toBe(2);
  });

  it('of few swings so many are kept that it is one', () => {
    const few = [vec(0.4, -9), ...zigzag(vec(0, 0), vec(0.6, 0), 4, 0.4), vec(0.4, 9)];
    expect(leftOut(few)).toBe(isStart ? 1 : 0);
    expect(only(few).from).toHaveLength(4);
  });

  it('as many stitches as a lock may have are left out, and no more', () => {
    const tied = (stitches: number) => {
      const tie = Array.from({ length: stitches }, (_, k) => {
        const x = -0.2 * (stitches - k);
        return vec(x, (stitches - k) % 2 ? 1.1 : 2);
      });
      return [...tie, ...column];
    };
    expect(leftOut(tied(3))).toBe(3);
    expect(leftOut(tied(9))).toBe(9);
    expect(leftOut(tied(12))).toBe(0);
  });
});

describe('a patch of rows', () => {
  it.each([
    [0.4, 3],
    [0.25, 2.2],
    [0.6, 4.5],
    [3, 3],
  ])('has every row without the steps between: rows %s mm apart, stitches of %s mm', (apart, stitch) => {
    const patch = only(rows(apart, 24 * apart, block(0, 21), { stitch }));
    expect([patch.kind, patch.split, patch.from.length]).toEqual(['rows', false, 25]);
    expect(Math.abs(patch.pitchMm - apart)).toBeLessThan(0.02);
    expect(Math.abs(patch.legMm - 21)).toBeLessThan(0.05);
  });

  it.each([
    ['of many stitches each', 0.4, 24, 3],
    ['of a few long stitches, too far apart for swings', 0.45, 12, 4],
    ['of a few short stitches, longer than a column is wide', 0.3, 16, 2.5],
  ])('may lead straight on to the next: %s', (_, apart, reach, stitch) => {
    const patch = only(rows(apart, 30 * apart, block(0, reach), { stitch, direct: true }));
    expect([patch.kind, patch.split]).toEqual(['rows', false]);
    expect(patch.from.length).toBeGreaterThanOrEqual(30);
  });

  it('begins after an edge run that turns back into it but lies on its first row', () => {
    const edge = walk(2.5, vec(20, 0), vec(0, 0));
    const patch = only([...edge, ...rows(0.4, 8, block(0, 20))]);
    expect(patch.kind).toBe('rows');
    expect(patch.from[0]).toBeGreaterThanOrEqual(edge.length - 1);
    expect(patch.from.length).toBeGreaterThanOrEqual(20);
  });
});

describe('no patch', () => {
  it('is a run there and back over itself, however often', () => {
    const line = walk(2.5, vec(0, 0), vec(15, 0));
    const toAndFro = [0, 1, 2, 3, 4, 5].flatMap((k) => (k % 2 === 0 ? line : [...line].reverse()));
    expect(found(sewn(toAndFro))).toEqual([]);
  });

  it('are legs nearer to each other than a file can tell', () => {
    const lines = Array.from({ length: 9 }, (_, k) => vec(k % 2 ? 9 : 0, k * 0.04));
    expect(found(new Board(0).sew(lines).stitches)).toEqual([]);
    expect(found(new Board(0).sew(lines.map((p) => vec(p.x, p.y * 10))).stitches)).toHaveLength(1);
    // with needle points inside no two of them are taken for the to and fro of a triple run
    const stitched = lines.flatMap((p, k) => (k === 0 ? [p] : walk(2.1 + k / 10, lines[k - 1], p).slice(1)));
    expect(found(new Board(0).sew(stitched).stitches)).toEqual([]);
  });

  it.each([[[2, 2, 1, 1.5, 2.5, 0.5, 3, 1.5]], [[3, 1.5, 3, 3.5, 0, 2, 1, 4, 1, 1.5]]])(
    'is a scribble to and fro that gets nowhere',
    (places) => {
      expect(found(sewn(places.map((x, k) => vec(x, k % 2 ? 8 : 0))))).toEqual([]);
    },
  );

  it('are legs that cross each other and get nowhere', () => {
    const crossed = Array.from({ length: 10 }, (_, k) =>
      vec((k % 2 ? -1 : 1) * 0.7 * (k >> 1), k % 2 ? 12 : 0),
    );
    expect(found(sewn(crossed))).toEqual([]);
  });

  it('is a curve, a square, or fewer than four swings', () => {
    expect(found(sewn(stitchCurve(arc(vec(0, 0), 9, 0, 6), 2)))).toEqual([]);
    expect(found(sewn(walk(2, vec(0, 0), vec(9, 0), vec(9, 9), vec(0, 9), vec(0, 0))))).toEqual([]);
    expect(found(sewn(zigzag(vec(0, 0), vec(0.6, 0), 4, 0.4)))).toEqual([]);
  });

  it('is a tangle of stitches that turn back by chance', () => {
    const tangle = [
      [0, 0],
      [9, 4],
      [1, 7],
      [8, -6],
      [0, 3],
      [7, 9],
      [2, -8],
      [9, 1],
      [-1, 2],
    ].map(([x, y]) => vec(x, y));
    expect(found(sewn(tangle))).toEqual([]);
  });
});

describe('open rows', () => {
  /** Lines along x, 1.6 mm apart, each with a bend in its middle that rises so far. */
  const lines = (rises: readonly number[]): Vec[] =>
    rises.flatMap((rise, k) => {
      const line = [0, 3, 6, 9, 12].map((x) => vec(x, 1.6 * k + rise * (1 - Math.abs(x - 6) / 6)));
      return k % 2 === 0 ? line : line.reverse();
    });
  const repeat = (...rises: number[]) => Array.from({ length: 12 }, (_, k) => rises[k % rises.length]);

  it('are straight, and the bent lines of an ornament are no rows', () => {
    expect(found(sewn(lines(repeat(0)))).map(({ kind }) => kind)).toEqual(['rows']);
    expect(found(sewn(lines(repeat(1.2)))).map(({ kind }) => kind)).toEqual(['rows']);
    expect(found(sewn(lines(repeat(2.4))))).toEqual([]);
  });

  it('are rows where a third of them are bent, and none where half are', () => {
    expect(found(sewn(lines(repeat(2.4, 0, 0)))).map(({ kind }) => kind)).toEqual(['rows']);
    expect(found(sewn(lines(repeat(2.4, 0))))).toEqual([]);
  });

  it('may step over to the next within their last stitch', () => {
    const stepping = Array.from({ length: 12 }, (_, k) => {
      const line = [
        vec(0, 1.6 * k),
        vec(4, 1.6 * k),
        vec(8, 1.6 * k),
        vec(11, 1.6 * k),
        vec(12, 1.6 * k + 1.6),
      ];
      return k % 2 === 0 ? line : line.map((p) => vec(12 - p.x, p.y));
    }).flat();
    expect(found(sewn(stepping)).map(({ kind }) => kind)).toEqual(['rows']);
  });
});

it('an open zigzag and the dense column over it are two patches', () => {
  const under = zigzag(vec(0, 0), vec(24, 0), 3, 3);
  const over = zigzag(vec(24, 0), vec(0, 0), -4, 0.4);
  const [first, second, ...more] = found(sewn([...under, ...over]));
  expect(more).toEqual([]);
  expect(Math.abs(first.pitchMm - 1.5)).toBeLessThan(0.1);
  expect(Math.abs(second.pitchMm - 0.2)).toBeLessThan(0.02);
  expect(second.from[0]).toBeGreaterThanOrEqual(first.to[first.to.length - 1]);
});
