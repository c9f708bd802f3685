import { describe, expect, it } from 'vitest';
import { findObjects } from '../../lib/segment/find-objects.js';
import { findSections } from '../../lib/stitch/find-sections.js';
import { returnsNear, sewsBack } from '../../lib/stitch/returns.js';
import { patternsOf } from '../../lib/stitch/section-pattern.js';
import { shapeOf } from '../../lib/stitch/section-shape.js';
import { vec } from '../generators/plane.js';
import { block, rows, sewn, zigzag } from '../segment/board.js';

const line = (count: number, aside: (k: number) => number) => ({
  x: Array.from({ length: count }, (_, k) => 2 * k),
  y: Array.from({ length: count }, (_, k) => aside(k)),
});
const straight = line(100, () => 0);

describe('needle points sewn again', () => {
  it('are what they were with 95 of 100 within 0.15 mm and none farther than 0.4 mm', () => {
    expect(
      returnsNear(
        straight,
        line(100, () => 0.14),
      ),
    ).toBe(true);
    expect(
      returnsNear(
        straight,
        line(100, () => 0.16),
      ),
    ).toBe(false);
    expect(
      returnsNear(
        straight,
        line(100, (k) => (k % 20 === 7 ? 0.39 : 0)),
      ),
    ).toBe(true);
    expect(
      returnsNear(
        straight,
        line(100, (k) => (k % 16 === 7 ? 0.39 : 0)),
      ),
    ).toBe(false);
    expect(
      returnsNear(
        straight,
        line(100, (k) => (k === 7 ? 0.41 : 0)),
      ),
    ).toBe(false);
  });

  it('are not what they were where some are gone or new', () => {
    const less = { x: straight.x.toSpliced(50, 1), y: straight.y.toSpliced(50, 1) };
    expect(returnsNear(straight, less)).toBe(false);
    expect(returnsNear(less, straight)).toBe(false);
  });
});

describe('a section', () => {
  it.each([
    ['column', zigzag(vec(0, 0), vec(20, 0), 4, 0.4)],
    ['area', rows(0.4, 16, block(0, 24))],
  ])('of a sound %s sews back, and does not with its ends off what was sewn', (_, points) => {
    const stitches = sewn(points);
    const [section] = findSections(stitches, findObjects(stitches));
    const shape = shapeOf(stitches, section);
    const pattern = () => patternsOf([{ shape, joined: section.joined }])[0];
    expect(sewsBack(stitches, section, shape, pattern)).toBe(true);
    const y = stitches.y.map((v, i) => (i === section.to[5] ? v + 0.6 : v));
    expect(sewsBack({ x: stitches.x, y }, section, shape, pattern)).toBe(false);
  });
});
