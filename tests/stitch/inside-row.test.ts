import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Inside } from '../../lib/stitch/editable.js';
import { insideOf } from '../../lib/stitch/inside-row.js';
import { NEAR_MM, type Row, readInside } from '../../lib/stitch/read-inside.js';

/** Rows along +X, 0.4 mm apart, of these lengths from these starts; every second one sewn back, as rows are. */
const rowsWith = (
  inside: Inside,
  lengths: readonly number[],
  starts: readonly number[] = lengths.map(() => 0),
): Row[] =>
  lengths.map((length, k) => {
    const span = {
      k,
      turn: k,
      a: [starts[k], 0.4 * k] as [number, number],
      b: [starts[k] + length, 0.4 * k] as [number, number],
    };
    const places = insideOf(inside, span, null);
    return { ...span, inside: places, aside: places.map(() => 0) };
  });

const many = (n: number, of: (k: number) => number) => Array.from({ length: n }, (_, k) => of(k));
const BRICK: Inside = {
  kind: 'staggered',
  from: 'axis',
  angleDeg: 0,
  stitchMm: 4,
  clearMm: 0.9,
  phasesMm: [0, 2],
  driftMm: 0,
};

describe('needle points inside a row', () => {
  const span = { k: 0, turn: 0, a: [0, 0] as [number, number], b: [10, 0] as [number, number] };

  it('of a whole swing are none', () => {
    expect(insideOf({ kind: 'whole' }, span, null)).toEqual([]);
  });

  it('of even stitches part the row in as few as are not longer', () => {
    expect(insideOf({ kind: 'even', stitchMm: 3 }, span, null)).toEqual([2.5, 5, 7.5]);
    expect(insideOf({ kind: 'even', stitchMm: 5 }, span, null)).toEqual([5]);
    expect(insideOf({ kind: 'even', stitchMm: 10 }, span, null)).toEqual([]);
  });

  it('at shares of the row take turns, and a short row is not broken', () => {
    const split: Inside = { kind: 'shares', overMm: 6, turns: [[[0.4]], [[0.6]]] };
    expect(insideOf(split, span, null)).toEqual([4]);
    expect(insideOf(split, { ...span, k: 1, turn: 1 }, null)).toEqual([6]);
    expect(insideOf(split, { ...span, b: [5, 0] }, null)).toEqual([]);
  });

  it('that are staggered lie on a grid of their own and keep clear of the ends', () => {
    expect(insideOf(BRICK, span, null)).toEqual([4, 8]);
    expect(insideOf(BRICK, { ...span, k: 1, turn: 1 }, null)).toEqual([2, 6]);
    expect(insideOf({ ...BRICK, clearMm: 2.5 }, span, null)).toEqual([4]);
  });

  it('of a row with its own rule are where that says', () => {
    expect(insideOf(BRICK, span, null, { row: 0, atMm: [1, 2] })).toEqual([1, 2]);
    expect(insideOf(BRICK, span, null, { row: 0, clearMm: [5, 0] })).toEqual([8]);
    expect(insideOf(BRICK, span, null, { row: 0, clearMm: [0, 0], phaseMm: 1 })).toEqual([1, 5, 9]);
  });

  it('are told from the edge or from where a row begins', () => {
    const shifted = { k: 1, turn: 1, a: [100.3, 0] as [number, number], b: [110.3, 0] as [number, number] };
    const from = (from: 'edge' | 'begin') =>
      insideOf({ ...BRICK, from, phasesMm: [1], clearMm: 0.5 }, shifted, null);
    expect(from('edge')).toEqual([1, 5, 9]);
    expect(from('begin').map((mm) => Math.round(mm * 1e9) / 1e9)).toEqual([1, 5, 9]);
    const once = insideOf(
      { ...BRICK, from: 'begin', phasesMm: [1], stitchMm: 20, clearMm: 0.5 },
      shifted,
      null,
    );
    expect(once).toEqual([9]);
  });
});

describe('the pattern read from rows', () => {
  const PATTERNS: [string, Inside, number][] = [
    ['whole swings', { kind: 'whole' }, 0],
    ['swings broken by turns', { kind: 'shares', overMm: 8, turns: [[[0.42]], [[0.58]]] }, 0],
    ['bricks', BRICK, 0],
    ['thirds', { ...BRICK, phasesMm: [0, 4 / 3, 8 / 3] }, 0],
    ['stitches from each edge', { ...BRICK, from: 'edge', phasesMm: [2] }, 0],
  ];
  it.each(PATTERNS)('of %s has no row that is odd', (_, inside) => {
    fc.assert(
      fc.property(fc.integer({ min: 16, max: 40 }), fc.integer({ min: 0, max: 1000 }), (n, seed) => {
        const rows = rowsWith(
          inside,
          many(n, (k) => 12 + 3 * Math.sin(k / 7 + seed)),
          many(n, (k) => 2 * Math.sin(k / 5 + seed)),
        );
        const { inside: told, own } = readInside([rows]);
        const [{ odd, phasesMm }] = own;
        const again = rows.map((row) =>
          insideOf(
            told,
            row,
            phasesMm,
            odd.find(({ row: k }) => k === row.k),
          ),
        );
        again.forEach((places, k) => {
          expect(places).toHaveLength(rows[k].inside.length);
          places.forEach((mm, j) => {
            expect(Math.abs(mm - rows[k].inside[j])).toBeLessThanOrEqual(NEAR_MM);
          });
        });
        // where a needle point falls near the limit of the ends, rounding may make a row odd
        expect(odd.length).toBeLessThanOrEqual(1 + n / 10);
      }),
      { numRuns: 20 },
    );
  });

  it('names one row that is unlike the rest', () => {
    const rows = rowsWith(
      BRICK,
      many(20, () => 21.3),
    );
    rows[7] = { ...rows[7], inside: [3.1, 9.9, 17.4], aside: [0, 0, 0] };
    expect(readInside([rows]).own[0].odd).toEqual([{ row: 7, atMm: [3.1, 9.9, 17.4] }]);
  });

  it('keeps how far the needle points of a crooked row lie aside', () => {
    const rows = rowsWith(
      BRICK,
      many(20, () => 21.3),
    );
    rows[4] = { ...rows[4], aside: rows[4].aside.map(() => 0.5) };
    expect(readInside([rows]).own[0].odd).toEqual([{ row: 4, atMm: rows[4].inside, asideMm: rows[4].aside }]);
  });
});
