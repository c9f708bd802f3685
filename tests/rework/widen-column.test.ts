import { describe, expect, it } from 'vitest';
import { measureColumn } from '../../lib/geometry/column.js';
import { Allowance } from '../../lib/rework/allowance.js';
import { columnLines, widenColumn } from '../../lib/rework/widen-column.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { edgeAt } from '../../lib/stitch/edge.js';
import { findSections } from '../../lib/stitch/find-sections.js';
import { shapeOf } from '../../lib/stitch/section-shape.js';
import { type Vec, vec } from '../generators/plane.js';
import { sewn, zigzag } from '../segment/board.js';

const widened = (points: readonly Vec[], by: { x: number; y: number }, move: [number, number] = [0, 0]) => {
  const stitches = sewn(points);
  const [section] = findSections(stitches, findObjects(stitches));
  const shape = shapeOf(stitches, section);
  const column = measureColumn(stitches.x, stitches.y, section.from, section.to);
  const lines = columnLines(column, section.joined, shape);
  return { shape, lines, edges: widenColumn(lines, shape, new Allowance({ ...by, dx: 0, dy: 0 }, 4), move) };
};

describe('the edges of a column moved outward', () => {
  const bar = zigzag(vec(0, 0), vec(20, 0), 4, 0.4);

  it('lie half the growth of a width farther out on both sides, and at both ends', () => {
    const { edges, shape } = widened(bar, { x: 0.1, y: 0.1 });
    for (const t of [0, 20, 50, shape.span]) {
      expect(edgeAt(edges.a, t)[1]).toBeCloseTo(2.2, 1);
      expect(edgeAt(edges.b, t)[1]).toBeCloseTo(-2.2, 1);
    }
    // 0.2 mm in counts of 0.2 mm
    expect(edges.before).toBeCloseTo(1, 1);
    expect(edges.after).toBeCloseTo(1, 1);
    expect(edgeAt(edges.a, -edges.before)[0]).toBeCloseTo(-0.2, 1);
    expect(edges.grown.every((way) => way === 1)).toBe(true);
    expect(edges.spacingMm).toBeCloseTo(0.4, 2);
  });

  it('move by the growth across them alone where growth is not the same along both axes', () => {
    const { edges } = widened(bar, { x: 0.2, y: 0 });
    expect(edgeAt(edges.a, 50)[1]).toBeCloseTo(2, 1);
    expect(edges.before).toBeCloseTo(2, 1);
  });

  it('move with the offset of the design', () => {
    const { edges } = widened(bar, { x: 0.1, y: 0.1 }, [5, -3]);
    expect(edgeAt(edges.a, 50)[0]).toBeCloseTo(15, 1);
    expect(edgeAt(edges.a, 50)[1]).toBeCloseTo(-0.8, 1);
  });

  it('of leaning swings come out along the swings, by as much square to the column', () => {
    const leaning = bar.map((p) => vec(p.x + p.y / 2, p.y));
    const { edges, lines } = widened(leaning, { x: 0.1, y: 0.1 });
    expect(edgeAt(edges.a, 50)[1]).toBeCloseTo(2.2, 1);
    expect(lines.across[50].sine).toBeCloseTo(1 / Math.hypot(1, 0.5), 1);
  });

  it('of a ring have no ends to be moved', () => {
    const ring = Array.from({ length: 401 }, (_, k) => {
      const angle = (2 * Math.PI * k) / 400;
      const radius = k % 2 === 0 ? 11 : 8;
      return vec(radius * Math.cos(angle), radius * Math.sin(angle));
    });
    const { edges } = widened(ring, { x: 0.1, y: 0.1 });
    expect([edges.before, edges.after]).toEqual([0, 0]);
    for (const t of [3, 100, 250]) {
      expect(Math.hypot(...edgeAt(edges.a, t))).toBeCloseTo(11.2, 1);
      expect(Math.hypot(...edgeAt(edges.b, t))).toBeCloseTo(7.8, 1);
    }
  });
});
