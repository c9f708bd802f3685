import { describe, expect, it } from 'vitest';
import type { Edge, EdgePoint } from '../../lib/stitch/edge.js';
import type { NewEdges } from '../../lib/stitch/new-edges.js';
import { countRows, offAt } from '../../lib/stitch/row-counts.js';
import type { SectionEdge, SectionShape } from '../../lib/stitch/section-shape.js';

const NO_END_OFF: ReadonlyMap<number, EdgePoint> = new Map();
const counts = (from: number, to: number, step = 1) =>
  Array.from({ length: Math.floor((to - from) / step + 1e-9) + 1 }, (_, k) => from + k * step);

/** An edge along X, 0.4 mm from count to count, at a height that may change with the count. */
const edge = (t: readonly number[], height: (t: number) => number): Edge => ({
  t,
  x: t.map((at) => 0.4 * at),
  y: t.map(height),
});

interface Bar {
  readonly span: number;
  readonly swings: boolean;
  readonly heightA?: (t: number) => number;
}

/** A bar of rows that step over, or of swings, 6 mm high. */
function bar({ span, swings, heightA = () => 0 }: Bar): SectionShape {
  const [a, b] = swings ? [counts(0, span, 2), counts(1, span, 2)] : [counts(0, span), counts(0, span)];
  const side = (t: number[], height: (t: number) => number): SectionEdge => ({
    line: edge(t, height),
    ends: t,
    off: NO_END_OFF,
  });
  return {
    a: side(a, heightA),
    b: side(b, () => 6),
    span,
    rows: [],
    swings,
    leastStepMm: 0.5,
    longestMm: 4,
    stepMm: 4,
  };
}

const edgesOf = ({ a, b, span }: SectionShape, grown: number, more: Partial<NewEdges> = {}): NewEdges => ({
  a: a.line,
  b: b.line,
  to: (x, y) => [x, y],
  grown: new Float64Array(span).fill(grown),
  before: 0,
  after: 0,
  spacingMm: 0.4,
  ...more,
});

describe('the rows of a section', () => {
  it('lie where they lay if nothing grows', () => {
    for (const swings of [true, false]) {
      const shape = bar({ span: 17, swings });
      const { ends, crossed, rate } = countRows(shape, edgesOf(shape, 1), swings, true);
      expect(ends).toEqual([counts(0, 17), counts(0, 17)]);
      expect([crossed, rate]).toEqual([false, 1]);
    }
  });

  it('are as many more as the section is longer, evenly', () => {
    const shape = bar({ span: 20, swings: true });
    const { ends, rate } = countRows(shape, edgesOf(shape, 2), true, false);
    expect(ends[0]).toHaveLength(41);
    ends[0].forEach((t, row) => {
      expect(t).toBeCloseTo(row / 2, 9);
    });
    expect(rate).toBeCloseTo(1, 9);
  });

  it('are more only where the section grows', () => {
    const shape = bar({ span: 20, swings: true });
    const grown = Float64Array.from({ length: 20 }, (_, k) => (k < 10 ? 1 : 3));
    const [on] = countRows(shape, edgesOf(shape, 1, { grown }), true, false).ends;
    expect(on).toHaveLength(41);
    expect(on.slice(0, 11).map((t) => Math.round(t * 1e9) / 1e9)).toEqual(counts(0, 10));
    expect(on[13]).toBeCloseTo(11, 9);
    expect(on[40]).toBe(20);
  });

  it('go on beyond the first and the last where the edges do', () => {
    const shape = bar({ span: 20, swings: true });
    const { ends } = countRows(shape, edgesOf(shape, 1, { before: 3, after: 1 }), true, false);
    expect(ends[0]).toEqual(counts(-3, 21));
  });

  it('end on the edge on which they ended, unless that would change the spacing and they may cross', () => {
    // 21 ways are to be 22.1: 23 lead to the same edge and are 0.016 mm closer, at 1 mm apart 0.039
    const shape = bar({ span: 21, swings: true });
    const of = (spacingMm: number, mayCross: boolean) => {
      const { ends, crossed, rate } = countRows(
        shape,
        edgesOf(shape, 22.1 / 21, { spacingMm }),
        true,
        mayCross,
      );
      return [ends[0].length - 1, crossed, Math.round(rate * 1e4) / 1e4];
    };
    expect(of(0.4, true)).toEqual([23, false, 1.0407]);
    expect(of(1, true)).toEqual([22, true, 0.9955]);
    expect(of(1, false)).toEqual([23, false, 1.0407]);
  });

  it('are one at least, and two where they have to come back', () => {
    const one = bar({ span: 1, swings: true });
    expect(countRows(one, edgesOf(one, 0.2), true, false).ends[0]).toEqual([0, 1]);
    const two = bar({ span: 2, swings: true });
    expect(countRows(two, edgesOf(two, 0.2), true, false).ends[0]).toEqual([0, 1, 2]);
  });

  it('have one on each corner that would be missed', () => {
    // at count 7 edge A turns down by 45°; of 24 rows in place of 20 the nearest would lie at 6.67
    const shape = bar({ span: 20, swings: false, heightA: (t) => -0.4 * Math.max(0, t - 7) });
    const [onA, onB] = countRows(shape, edgesOf(shape, 1.2), false, false).ends;
    expect(onA).toHaveLength(25);
    expect(onA.some((t) => Math.abs(t - 7) < 1e-9)).toBe(true);
    // neither gapes more than a quarter, nor does one row pass another
    const usual = 20 / (onA.length - 1);
    for (const ends of [onA, onB])
      ends.slice(1).forEach((t, k) => {
        expect(t - ends[k]).toBeGreaterThan(0.5 * usual);
        expect(t - ends[k]).toBeLessThan(1.26 * usual);
      });
  });

  it('are not moved for a corner that hardly shows', () => {
    const shape = bar({ span: 20, swings: false, heightA: (t) => -0.04 * Math.max(0, t - 7) });
    const [onA, onB] = countRows(shape, edgesOf(shape, 1.2), false, false).ends;
    expect(onA).toEqual(onB);
    expect(onA[8]).toBeCloseTo(20 / 3, 9);
  });
});

describe('an end off its edge', () => {
  const off = new Map<number, EdgePoint>([
    [2, [1, 0]],
    [3, [2, 0]],
  ]);

  it('is that of the nearest end of the edge, where rows share their ends', () => {
    const side: SectionEdge = { line: edge([0, 2, 4, 6, 8], () => 0), ends: [0, 2, 4, 6, 8], off };
    expect(offAt(side, 4, 0, true)).toEqual([1, 0]);
    expect(offAt(side, 4.9, 0, true)).toEqual([1, 0]);
    expect(offAt(side, 5.1, 0, true)).toEqual([2, 0]);
    expect(offAt(side, 2.9, 0, true)).toBeUndefined();
  });

  it('is that of a row sewn the same way, where they step over', () => {
    const side: SectionEdge = { line: edge(counts(0, 9), () => 0), ends: counts(0, 9), off };
    // rows 0, 2, 4 … are sewn one way, the others back
    expect(offAt(side, 2.4, 4, false)).toEqual([1, 0]);
    expect(offAt(side, 2.4, 5, false)).toEqual([2, 0]);
    expect(offAt(side, 5.2, 4, false)).toBeUndefined();
    expect(offAt({ ...side, off: NO_END_OFF }, 2, 2, false)).toBeUndefined();
  });
});
