import { describe, expect, it } from 'vitest';
import { measureRows } from '../../lib/geometry/rows.js';
import { Allowance } from '../../lib/rework/allowance.js';
import { fillLines, widenRows } from '../../lib/rework/widen-rows.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { edgeAt } from '../../lib/stitch/edge.js';
import { findSections } from '../../lib/stitch/find-sections.js';
import { shapeOf } from '../../lib/stitch/section-shape.js';
import { block, rows, sewn } from '../segment/board.js';

const widened = (ends: (y: number) => readonly [number, number], by: { x: number; y: number }) => {
  const stitches = sewn(rows(0.4, 16, ends));
  const [object] = findObjects(stitches);
  const [section] = findSections(stitches, [object]);
  const shape = shapeOf(stitches, section);
  const whole = measureRows(stitches.x, stitches.y, object.from, object.to, object.sections);
  const lines = fillLines(stitches, section, shape, whole);
  return { lines, shape, edges: widenRows(lines, shape, new Allowance({ ...by, dx: 0, dy: 0 }, 8), [0, 0]) };
};

/** Left and right end of the row at a count, mm. */
const across = ({ edges }: ReturnType<typeof widened>, t: number) =>
  [edgeAt(edges.a, t)[0], edgeAt(edges.b, t)[0]].sort((p, q) => p - q);

describe('the edges of rows moved outward', () => {
  it('of a block lie half the growth farther out on all four sides', () => {
    const wide = widened(block(0, 24), { x: 0.1, y: 0.1 });
    for (const t of [0, 12, 30]) {
      expect(across(wide, t)[0]).toBeCloseTo(-0.4, 1);
      expect(across(wide, t)[1]).toBeCloseTo(24.4, 1);
    }
    // 0.4 mm are one row
    expect(wide.edges.before).toBeCloseTo(1, 1);
    expect(wide.edges.after).toBeCloseTo(1, 1);
    expect(wide.lines.pitch).toBeCloseTo(0.4, 2);
  });

  it('along one axis alone move along that', () => {
    const wide = widened(block(0, 24), { x: 0.1, y: 0 });
    expect(across(wide, 20)[1]).toBeCloseTo(24.4, 1);
    expect(wide.edges.before).toBeCloseTo(0, 6);
    const high = widened(block(0, 24), { x: 0, y: 0.1 });
    expect(across(high, 20)[1]).toBeCloseTo(24, 1);
    expect(high.edges.before).toBeCloseTo(1, 1);
  });

  it('of a slanting outline come out square to it', () => {
    const wide = widened((y) => [0, 24 + y], { x: 0.1, y: 0.1 });
    // 0.4 mm square to 45° are 0.4·√2 along the rows
    expect(across(wide, 20)[1]).toBeCloseTo(24 + 8 + 0.4 * Math.SQRT2, 1);
  });

  it('of a ledge widen the longer rows, and reach no farther beyond them than they are moved', () => {
    const wide = widened((y) => [0, y < 8 ? 24 : 18], { x: 0.1, y: 0.1 });
    expect(across(wide, 10)[1]).toBeCloseTo(24.4, 1);
    expect(across(wide, 32)[1]).toBeCloseTo(18.4, 1);
  });
});
