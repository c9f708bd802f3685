import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Edge, mapEdge } from '../../lib/stitch/edge.js';
import { findSections } from '../../lib/stitch/find-sections.js';
import { type NewEdges, unchanged } from '../../lib/stitch/new-edges.js';
import { patternsOf } from '../../lib/stitch/section-pattern.js';
import { type SectionShape, shapeOf } from '../../lib/stitch/section-shape.js';
import { type SewnSection, sewSection } from '../../lib/stitch/sew-section.js';
import { type Vec, vec } from '../generators/plane.js';
import { block, rows, sewn, zigzag } from '../segment/board.js';

const shape = (points: readonly Vec[]): { of: SectionShape; joined: boolean } => {
  const stitches = sewn(points);
  const [section] = findSections(stitches, findObjects(stitches));
  return { of: shapeOf(stitches, section), joined: section.joined };
};

const sew = (of: SectionShape, edges: NewEdges, joined: boolean, mayCross: boolean): SewnSection =>
  sewSection(of, edges, () => patternsOf([{ shape: of, joined }])[0], joined, mayCross);

const grown = (of: SectionShape, by: number): NewEdges => {
  const longer = (line: Edge) => mapEdge(line, (x, y) => [x * by, y]);
  return {
    ...unchanged(of),
    a: longer(of.a.line),
    b: longer(of.b.line),
    grown: new Float64Array(of.span).fill(by),
    spacingMm: 0.4,
  };
};

/** Ways from one needle point of an edge to the next, mm. */
const spacings = (x: readonly number[], ends: readonly number[]) =>
  ends.slice(1).map((i, k) => x[i] - x[ends[k]]);

describe('a section sewn between its edges as they are', () => {
  it.each([
    ['a column', zigzag(vec(0, 0), vec(20, 0), 3, 0.4)],
    ['a broken column', zigzag(vec(0, 0), vec(20, 0), 9, 0.4, 1)],
    ['an area', rows(0.4, 16, block(0, 24))],
    ['an area of rows that lead on', rows(0.4, 16, block(0, 24), { direct: true })],
    [
      'a column with short stitches',
      zigzag(vec(0, 0), vec(20, 0), 4, 0.4).map((p, k) => (k % 4 === 3 ? vec(p.x, -0.8) : p)),
    ],
  ])('is %s as found', (_, points) => {
    const { of, joined } = shape(points);
    const made = sew(of, unchanged(of), joined, false);
    const was = sewn(points);
    expect(made.crossed).toBe(false);
    expect(made.spacing).toBeCloseTo(1, 9);
    expect(made.from).toHaveLength(of.rows.length);
    expect(made.like).toEqual(of.rows.map((_, k) => k));
    expect(made.x).toHaveLength(was.count);
    made.x.forEach((x, i) => {
      expect(Math.hypot(x - was.x[i], made.y[i] - was.y[i])).toBeLessThan(0.08);
    });
  });
});

describe('a section sewn between longer edges', () => {
  it('keeps the spacing of a column by more swings', () => {
    const { of, joined } = shape(zigzag(vec(0, 0), vec(20, 0), 3, 0.4));
    const made = sew(of, grown(of, 1.5), joined, false);
    expect(Math.abs(made.from.length - 1.5 * of.rows.length)).toBeLessThanOrEqual(1);
    for (const mm of spacings(
      made.x,
      made.from.filter((_, k) => k % 2 === 0),
    ))
      expect(mm).toBeCloseTo(0.4, 1);
    // it ends on the edge where it ended
    expect(made.from.length % 2).toBe(of.rows.length % 2);
  });

  it('may end on the other edge where that keeps the spacing of few swings', () => {
    const { of, joined } = shape(zigzag(vec(0, 0), vec(4.8, 0), 3, 1.2));
    const edges = { ...grown(of, 1.13), spacingMm: 1.2 };
    expect(sew(of, edges, joined, false).crossed).toBe(false);
    const free = sew(of, edges, joined, true);
    expect(free.crossed).toBe(true);
    expect(free.from.length % 2).not.toBe(of.rows.length % 2);
    expect(Math.abs(free.spacing - 1)).toBeLessThan(0.06);
  });

  it('goes on before the first row and after the last', () => {
    const { of, joined } = shape(zigzag(vec(0, 0), vec(20, 0), 3, 0.4));
    const made = sew(of, { ...unchanged(of), before: 4, after: 6, spacingMm: 0.4 }, joined, false);
    expect(made.from).toHaveLength(of.rows.length + 10);
    expect(made.x[0]).toBeCloseTo(-0.8, 1);
    expect(made.x[made.x.length - 1]).toBeCloseTo(21.2, 1);
  });

  it('gives longer rows more stitches, those of neighbours beside each other as before', () => {
    const { of, joined } = shape(rows(0.4, 16, block(0, 24)));
    const made = sew(
      of,
      {
        ...grown(of, 1.3),
        grown: new Float64Array(of.span).fill(1),
        to: (x, y) => [1.3 * x, y],
      },
      joined,
      false,
    );
    expect(made.from).toHaveLength(of.rows.length);
    const phases = made.from.map((first, k) => {
      const inner = made.x.slice(first + 1, made.to[k]).sort((p, q) => p - q);
      for (const mm of spacings(
        inner,
        inner.map((_, n) => n),
      ))
        expect(mm).toBeCloseTo(3, 0);
      return ((inner[2] % 3) + 3) % 3;
    });
    // bricks: every second row half a stitch on
    for (let k = 2; k < phases.length - 2; k++) {
      const apart = Math.abs(phases[k] - phases[k - 1]);
      expect(Math.min(apart, 3 - apart)).toBeGreaterThan(1);
    }
  });

  it('puts a row on a corner of the outline', () => {
    const step = (y: number): readonly [number, number] => [0, y < 8 - 1e-9 ? 24 : 18];
    const { of, joined } = shape(rows(0.4, 16, step));
    const made = sew(
      of,
      { ...unchanged(of), grown: new Float64Array(of.span).fill(1.07), spacingMm: 0.4 },
      joined,
      false,
    );
    const far = made.from.flatMap((first, k) =>
      Math.max(made.x[first], made.x[made.to[k]]) > 23.5 ? [made.y[first]] : [],
    );
    expect(Math.max(...far)).toBeGreaterThan(7.3);
    expect(Math.max(...far)).toBeLessThan(8);
  });
});
