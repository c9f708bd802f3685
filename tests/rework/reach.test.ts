import { describe, expect, it } from 'vitest';
import { ThreadReach } from '../../lib/rework/reach.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { findSections } from '../../lib/stitch/find-sections.js';
import { shapeOf } from '../../lib/stitch/section-shape.js';
import { findStretches } from '../../lib/stitch/stretches.js';
import { type Vec, vec } from '../generators/plane.js';
import { block, rows, sewn, walk, zigzag } from '../segment/board.js';

const reach = (points: readonly Vec[]) => {
  const stitches = sewn(points);
  const objects = findObjects(stitches);
  const sections = findSections(stitches, objects);
  const stretches = findStretches(stitches, objects, sections);
  const of = new ThreadReach({
    stitches,
    stretches,
    leaning: null,
    shapeOf: (section) => shapeOf(stitches, section),
    stretchAt: (i) => stretches.find(({ first, last }) => i >= first && i <= last)!,
  });
  return { of, stitches };
};

describe('the reach of an object', () => {
  it.each([
    ['a column', zigzag(vec(0, 0), vec(20, 0), 4, 0.4)],
    [
      'a bent column',
      Array.from({ length: 200 }, (_, k) =>
        vec((k % 2 ? 8 : 12) * Math.cos(k / 80), (k % 2 ? 8 : 12) * Math.sin(k / 80)),
      ),
    ],
    ['an area', rows(0.4, 16, block(0, 24))],
    ['a run', walk(2, vec(0, 0), vec(10, 0), vec(10, 10), vec(4, 14))],
  ])('holds every place of the thread of %s', (_, points) => {
    const { of, stitches } = reach(points);
    for (let i = 1; i < stitches.count; i++) {
      for (const f of [0, 0.3, 0.7, 1]) {
        const x = stitches.x[i - 1] + (stitches.x[i] - stitches.x[i - 1]) * f;
        const y = stitches.y[i - 1] + (stitches.y[i] - stitches.y[i - 1]) * f;
        expect(of.mayHold(x, y, 0.05, 0)).toBe(true);
      }
    }
  });

  it('holds no place well beside it, and more the farther edges are moved outward', () => {
    const { of } = reach(zigzag(vec(0, 0), vec(20, 0), 4, 0.4));
    expect(of.mayHold(10, 2.5, 0.2, 0)).toBe(false);
    expect(of.mayHold(10, 2.5, 0.2, 1)).toBe(true);
    expect(of.mayHold(10, 2.5, 0.6, 0)).toBe(true);
    expect(of.mayHold(25, 0, 0.2, 0)).toBe(false);
  });

  it('of a bent column leaves its middle free', () => {
    const bow = Array.from({ length: 240 }, (_, k) =>
      vec((k % 2 ? 8 : 11) * Math.cos(k / 80), (k % 2 ? 8 : 11) * Math.sin(k / 80)),
    );
    const { of } = reach(bow);
    expect(of.mayHold(0, 0, 0.2, 0)).toBe(false);
    expect(of.mayHold(5, 5, 0.2, 0)).toBe(false);
    expect(of.mayHold(9.5 * Math.cos(1), 9.5 * Math.sin(1), 0.2, 0)).toBe(true);
  });
});
