import { describe, expect, it } from 'vitest';
import { measureObject } from '../../lib/measure/measure-object.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { type Vec, vec } from '../generators/plane.js';
import { sewn, TURNS, turned, walk } from './board.js';

/** A column along x whose half width at each place is told, swings 0.2 mm apart. */
function leaf(length: number, half: (s: number) => number): Vec[] {
  return Array.from({ length: Math.round(length / 0.2) + 1 }, (_, k) => {
    const s = k * 0.2;
    return vec(s, (k % 2 === 0 ? 1 : -1) * half(s));
  });
}

describe.each(TURNS)('turned by $degrees, mirrored $mirror', (turn) => {
  const first = (...parts: readonly Vec[][]) => {
    const stitches = sewn(...parts.map((p) => turned(p, turn)));
    const [object] = findObjects(stitches);
    return { object, stitches, measures: measureObject(stitches, object) };
  };

  it('the swings at both pointed ends belong to the column', () => {
    const points = leaf(24, (s) => Math.min(2, 0.05 + Math.min(s, 24 - s) * 0.4));
    const { object } = first(points);
    expect(object.kind).toBe('satin');
    expect(object.range[0]).toBeLessThanOrEqual(2);
    expect(object.range[1]).toBeGreaterThanOrEqual(points.length - 3);
  });

  it('the last swing belongs to a column though tiny stitches tie it there, and they do not', () => {
    const column = leaf(20, () => 2.5);
    const [last] = column.slice(-1);
    const tie = [vec(last.x - 0.6, last.y), vec(last.x - 0.3, last.y - 0.5), last];
    const run = walk(2.5, vec(26, 4), vec(44, 9));
    for (const parts of [
      [column, tie, run],
      [column, tie.slice(0, 2), run],
      [column, [1, 2, 3].map((k) => vec(last.x, last.y - 0.5 * k)), run],
    ])
      expect(first(...parts).object.range).toEqual([0, column.length - 1]);
    const { stitches } = first(run, tie, [...column].reverse());
    expect(findObjects(stitches).at(-1)?.range).toEqual([run.length + tie.length, stitches.count - 1]);
  });

  it('a run that leads on from a pointed end does not', () => {
    const points = leaf(24, (s) => Math.min(2, 0.05 + (24 - s) * 0.4));
    const { object } = first(points, walk(2, vec(26, 0.5), vec(40, 3), vec(44, 12)));
    expect(object.range[1]).toBeLessThanOrEqual(points.length);
  });

  it('swings shortened on the inside of a bend leave the width what a ruler gives', () => {
    const bend = Array.from({ length: 220 }, (_, k) => {
      const a = k * 0.012;
      const outside = k % 2 === 0;
      // every second swing stops 1.5 mm short of the inner edge
      const r = outside ? 12 : k % 4 === 1 ? 6 : 7.5;
      return vec(r * Math.cos(a), r * Math.sin(a));
    });
    expect(first(bend).measures.widthMm?.median).toBeCloseTo(6, 1);
  });

  it('a column that narrows is measured as narrow as it is', () => {
    const narrowing = first(leaf(30, (s) => 2.5 - s * 0.05));
    expect(narrowing.measures.widthMm?.median).toBeCloseTo(3.5, 1);
    expect(narrowing.measures.widthMm?.min).toBeLessThan(2.3);
  });

  it('a notch of many swings is no shortened stitch', () => {
    const notched = first(leaf(30, (s) => (s > 12 && s < 18 ? 1 : 2.5)));
    expect(notched.measures.widthMm?.min).toBeLessThan(2.2);
  });
});
