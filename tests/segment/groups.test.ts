import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numberGroups } from '../../lib/segment/groups.js';
import { someOf } from '../in-full.js';
import { Sketch } from '../measure/sketch.js';

const SIZE = { width: 4, length: 10 };
const groups = (sketch: Sketch) => numberGroups(sketch.penetrations(), sketch.objects).map((o) => o.group);

describe('objects share a group', () => {
  it('where they touch and are sewn on without a cut', () => {
    expect(groups(new Sketch().satin([0, 0], SIZE).satin([4.5, 0], SIZE).satin([4, 10], SIZE))).toEqual([
      1, 1, 1,
    ]);
  });

  it('though the needle jumps or pauses between them', () => {
    const sketch = new Sketch().satin([0, 0], SIZE).jump([4.5, 0]).satin([4.5, 0], SIZE);
    expect(groups(sketch.cut([9, 0], 'stop').satin([9, 0], SIZE))).toEqual([1, 1, 1]);
  });

  it('where one touches any other of the group, not only the last', () => {
    // an upright, a bar far up, and a foot that touches the upright alone
    const sketch = new Sketch().satin([0, 0], { width: 4, length: 30 }).satin([4.5, 26], SIZE);
    expect(groups(sketch.satin([4.5, 0], SIZE))).toEqual([1, 1, 1]);
  });
});

describe('a new group begins', () => {
  it.each(['trim', 'colour'] as const)('behind a %s, however near', (kind) => {
    const sketch = new Sketch().satin([0, 0], SIZE).cut([4.5, 0], kind).satin([4.5, 0], SIZE);
    expect(groups(sketch.satin([9, 0], SIZE))).toEqual([1, 2, 2]);
  });

  it('where the next object lies apart', () => {
    expect(groups(new Sketch().satin([0, 0], SIZE).satin([30, 0], SIZE).satin([34.5, 0], SIZE))).toEqual([
      1, 2, 2,
    ]);
  });

  it('where the next object touches only one before the last cut', () => {
    const sketch = new Sketch().satin([0, 0], SIZE).cut([30, 0]).satin([30, 0], SIZE);
    expect(groups(sketch.satin([4.5, 0], SIZE))).toEqual([1, 2, 3]);
  });
});

it('objects within a millimetre touch, wherever they lie', () => {
  fc.assert(
    fc.property(fc.integer({ min: -3000, max: 3000 }), fc.integer({ min: 0, max: 30 }), (tenths, apart) => {
      const at = tenths / 10;
      // the left rail of the second has its points level with those of the right rail of the first
      const sketch = new Sketch(0.1).satin([at, at], SIZE).satin([at + 4 + apart / 10, at + 0.2], SIZE);
      expect(groups(sketch)).toEqual(apart <= 10 ? [1, 1] : [1, 2]);
    }),
  );
});

/** The rule itself, every needle point against every other of the group. */
function groupsByRule(sketch: Sketch): number[] {
  const { x, y } = sketch.penetrations();
  const touch = ([a, b]: readonly [number, number], [c, d]: readonly [number, number]): boolean => {
    for (let i = a; i <= b; i++)
      for (let j = c; j <= d; j++) if (Math.hypot(x[i] - x[j], y[i] - y[j]) <= 1.002) return true;
    return false;
  };
  let members: (readonly [number, number])[] = [];
  let group = 0;
  return sketch.objects.map(({ range }) => {
    if (!members.some((m) => touch(m, range))) {
      group++;
      members = [];
    }
    members.push(range);
    return group;
  });
}

it('objects are grouped as the rule says, however they lie and however large they are', () => {
  const column = fc.record({
    at: fc.tuple(fc.integer({ min: -400, max: 400 }), fc.integer({ min: -400, max: 400 })),
    width: fc.integer({ min: 10, max: 90 }),
    length: fc.oneof(fc.integer({ min: 10, max: 120 }), fc.integer({ min: 1000, max: 1600 })),
  });
  let together = 0;
  fc.assert(
    fc.property(fc.array(column, { minLength: 2, maxLength: 9 }), (columns) => {
      const sketch = new Sketch(0.1);
      for (const { at, width, length } of columns)
        sketch.satin([at[0] / 10, at[1] / 10], { width: width / 10, length: length / 10 });
      const found = groups(sketch);
      if (found.some((group, i) => found.indexOf(group) < i)) together++;
      expect(found).toEqual(groupsByRule(sketch));
    }),
    { seed: 11, numRuns: someOf(150) },
  );
  expect(together).toBeGreaterThan(someOf(30));
});

it('five thousand columns that touch without a cut are one group', () => {
  const sketch = new Sketch(0.1);
  for (let i = 0; i < 5000; i++)
    sketch.satin([(i % 100) * 4.5, Math.floor(i / 100) * 3], { width: 4, length: 2.5 });
  // far from all of them, and then beside the very first
  sketch.satin([-50, -50], SIZE).satin([-4.5, 0], { width: 4, length: 2.5 });
  const found = groups(sketch);
  expect(new Set(found.slice(0, 5000))).toEqual(new Set([1]));
  expect(found.slice(5000)).toEqual([2, 3]);
});

it('nothing has no groups, and the objects given are left as they are', () => {
  const sketch = new Sketch().satin([0, 0], SIZE).satin([4.5, 0], SIZE);
  const before = structuredClone(sketch.objects);
  numberGroups(sketch.penetrations(), sketch.objects);
  expect(sketch.objects).toEqual(before);
  expect(numberGroups(sketch.penetrations(), [])).toEqual([]);
});
