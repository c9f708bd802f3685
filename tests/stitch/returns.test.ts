import { describe, expect, it } from 'vitest';
import { penetrations } from '../../lib/format/stitches.js';
import { findObjects } from '../../lib/segment/find-objects.js';
import { findSections, isTop, type Section } from '../../lib/stitch/find-sections.js';
import { returningSections, returnsNear, sewsBack } from '../../lib/stitch/returns.js';
import { shapeOf } from '../../lib/stitch/section-shape.js';
import { vec } from '../generators/plane.js';
import { PRODUCTION } from '../generators/production/index.js';
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
    expect(sewsBack(stitches, section, shape)).toBe(true);
    const y = stitches.y.map((v, i) => (i === section.to[5] ? v + 0.6 : v));
    expect(sewsBack({ x: stitches.x, y }, section, shape)).toBe(false);
  });
});

describe('the sections of an object', () => {
  const { design } = PRODUCTION['fill-stripes'](61);
  const stitches = penetrations(design);
  const objects = findObjects(stitches);
  const shape = (section: Section) => shapeOf(stitches, section);

  it('are told with each row on its own line where they would not sew back otherwise', () => {
    const tops = findSections(stitches, objects).filter(isTop);
    expect(tops.filter((section) => !sewsBack(stitches, section, shape(section)))).not.toEqual([]);
    const { sections, unlike } = returningSections(stitches, objects, new Set(), shape);
    expect([...unlike]).toEqual([]);
    expect(new Set(sections.filter(isTop).map(({ object }) => object.id))).toEqual(
      new Set(tops.map(({ object }) => object.id)),
    );
    const begun = sections.map(({ from }) => from[0]);
    expect(begun).toEqual(begun.toSorted((p, q) => p - q));
  });

  it('are none of an object that is to be left', () => {
    const { sections } = returningSections(stitches, objects, new Set([objects[0].id]), shape);
    expect(sections.filter(({ object }) => object === objects[0])).toEqual([]);
  });
});
