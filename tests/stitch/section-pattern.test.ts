import { describe, expect, it } from 'vitest';
import type { EdgePoint } from '../../lib/stitch/edge.js';
import { insideOf } from '../../lib/stitch/inside-row.js';
import { IN_ORDER, MovedPattern, patternsOf, type SectionPattern } from '../../lib/stitch/section-pattern.js';
import { type RowInside, shapeFrom } from '../../lib/stitch/section-shape.js';

const STITCH = 3;
/** Rows along +X from 0 to 20 mm, 0.4 mm apart, with needle points at these places. */
const area = (rows: number, phase: (k: number) => number) => {
  const all = Array.from({ length: rows }, (_, k): RowInside => {
    const inside = Array.from(
      { length: Math.floor((19.2 - phase(k)) / STITCH) + 1 },
      (_, n) => phase(k) + STITCH * n,
    );
    return {
      ax: 0,
      ay: 0.4 * k,
      bx: 20,
      by: 0.4 * k,
      inside,
      aside: inside.map(() => 0),
      steps: 1,
      bent: [],
    };
  });
  const edge = (x: number) => {
    const t = all.map((_, k) => k);
    return { line: { t, x: t.map(() => x), y: t.map((k) => 0.4 * k) }, ends: t, off: new Map() };
  };
  return { shape: shapeFrom(all, false, false, { a: edge(0), b: edge(20) }), joined: false };
};
const bricks = (k: number) => (k % 2 === 0 ? 1 : 2.5);
const still = (x: number, y: number): EdgePoint => [x, y];
const row = (k: number, to = 20) => ({
  k,
  turn: k,
  a: [0, 0.4 * k] as EdgePoint,
  b: [to, 0.4 * k] as EdgePoint,
});
const close = (places: readonly number[], to: readonly number[]) => {
  expect(places).toHaveLength(to.length);
  for (const [n, mm] of places.entries()) expect(mm).toBeCloseTo(to[n], 1);
};

describe('the pattern of sections', () => {
  it('is one for all of an object, whichever way each is sewn', () => {
    const [first, second] = patternsOf([area(12, bricks), area(9, bricks)]);
    expect(second.inside).toEqual(first.inside);
    expect([...first.odd, ...second.odd]).toEqual([]);
    close(insideOf(first.inside, row(3), null), [2.5, 5.5, 8.5, 11.5, 14.5, 17.5]);
  });

  it('goes on in rows beyond those as found, and in longer ones', () => {
    const [pattern] = patternsOf([area(12, bricks)]);
    const moved = new MovedPattern(pattern, still);
    close(moved.places(row(40, 23), 11, false), [1, 4, 7, 10, 13, 16, 19, 22]);
    close(moved.places(row(41, 23), 11, true), [2.5, 5.5, 8.5, 11.5, 14.5, 17.5, 20.5]);
  });

  it('moves with the design and turns with its rows', () => {
    const [pattern] = patternsOf([area(12, bricks)]);
    const moved = new MovedPattern(pattern, (x, y) => [x + 7, y - 2]);
    const here = row(4);
    close(moved.places({ ...here, a: [7, -0.4], b: [27, -0.4] }, 4, false), [1, 4, 7, 10, 13, 16, 19]);
  });
});

describe('rows begun at random', () => {
  const phases = [0.9, 2.1, 1.4, 2.8, 0.6, 1.9, 1.1, 2.4, 0.7, 2.2, 1.6, 2.9, 0.8, 2.6];
  const [pattern] = patternsOf([area(phases.length, (k) => phases[k])]);
  const moved = new MovedPattern(pattern, still);

  it('begin as the row that they are like, and half a stitch on where that one has been sewn', () => {
    const at = (mm: number) => ((mm % STITCH) + STITCH) % STITCH;
    expect(at(moved.places(row(5), 3, false)[1])).toBeCloseTo(2.8, 1);
    expect(at(moved.places(row(6), 3, true)[1])).toBeCloseTo(1.3, 1);
  });
});

describe('a swing that is longer than any as found', () => {
  const split: SectionPattern = {
    inside: { kind: 'shares', overMm: 6, turns: [[[0.4]], [[0.6]]] },
    phasesMm: null,
    odd: new Map(),
    rows: IN_ORDER,
  };

  it('is broken as often as its length asks for', () => {
    const moved = new MovedPattern(split, still);
    close(moved.places(row(0, 10), 0, false), [4]);
    close(moved.places(row(0, 15), 0, false), [5, 10]);
    expect(moved.places(row(0, 5), 0, false)).toEqual([]);
  });
});

describe('a row told by itself', () => {
  const pattern: SectionPattern = {
    inside: { kind: 'whole' },
    phasesMm: null,
    odd: new Map([[2, { row: 2, atMm: [4, 9] }]]),
    rows: IN_ORDER,
  };

  it('gives no rule for the rows beside it', () => {
    expect(new MovedPattern(pattern, still).places(row(2), 2, false)).toEqual([]);
  });
});
