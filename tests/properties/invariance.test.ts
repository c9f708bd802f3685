/** What does not depend on where a design lies, how it is turned, or from which end a column is sewn must not change with it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { moved, reversed } from '../generators/changes.js';
import { FAMILIES } from '../generators/families/index.js';
import { findAndMeasure } from '../generators/find-and-measure.js';
import type { FoundObject } from '../generators/score.js';

const RUNS = { numRuns: 40, seed: 5 };
const anyFamily = fc.constantFrom(...Object.keys(FAMILIES));
const anySeed = fc.integer({ min: 0, max: 1_000_000 });

/** All that is said of an object but its direction. */
const told = (o: FoundObject) => ({
  kind: o.kind,
  block: o.block,
  group: o.group,
  range: [...o.range],
  kinds: [...o.underlay.kinds],
  under: o.underlay.range && [...o.underlay.range],
  split: o.split,
  locks: { ...o.locks },
});

function sameApartFromDirection(
  before: FoundObject[],
  after: FoundObject[],
  turn: (degrees: number) => number,
): void {
  expect(after.map(told)).toEqual(before.map(told));
  before.forEach((o, i) => {
    const p = after[i];
    for (const key of ['widthMm', 'spacingMm'] as const) {
      if (o[key] === null) expect(p[key]).toBeNull();
      else expect(p[key]).toBeCloseTo(o[key], 6);
    }
    if (o.angleDeg === null || p.angleDeg === null) expect(p.angleDeg).toBe(o.angleDeg);
    else {
      const d = Math.abs(turn(o.angleDeg) - p.angleDeg) % 180;
      expect(Math.min(Math.abs(d), 180 - Math.abs(d))).toBeLessThan(1e-4);
    }
  });
}

describe('the same objects are found', () => {
  it('wherever the design lies', () => {
    fc.assert(
      fc.property(
        anyFamily,
        anySeed,
        fc.integer({ min: -900, max: 900 }),
        fc.integer({ min: -900, max: 900 }),
        (family, seed, dx, dy) => {
          const made = FAMILIES[family](seed);
          const after = findAndMeasure(moved(made.design, (x, y) => [x + dx / 10, y + dy / 10]));
          sameApartFromDirection(findAndMeasure(made.design).objects, after.objects, (a) => a);
        },
      ),
      RUNS,
    );
  });

  it('turned by a quarter', () => {
    fc.assert(
      fc.property(anyFamily, anySeed, (family, seed) => {
        const made = FAMILIES[family](seed);
        const after = findAndMeasure(moved(made.design, (x, y) => [-y, x]));
        sameApartFromDirection(findAndMeasure(made.design).objects, after.objects, (a) => a + 90);
      }),
      RUNS,
    );
  });

  it('mirrored', () => {
    fc.assert(
      fc.property(anyFamily, anySeed, (family, seed) => {
        const made = FAMILIES[family](seed);
        const after = findAndMeasure(moved(made.design, (x, y) => [-x, y]));
        sameApartFromDirection(findAndMeasure(made.design).objects, after.objects, (a) => 180 - a);
      }),
      RUNS,
    );
  });

  it('and a column without underlay is the same sewn from its other end', () => {
    const columns = [
      'satin-straight',
      'satin-slant',
      'satin-curved',
      'satin-taper',
      'satin-fixed',
      'satin-split',
    ];
    fc.assert(
      fc.property(fc.constantFrom(...columns), anySeed, (family, seed) => {
        const made = FAMILIES[family](seed);
        fc.pre(made.objects[0].underlay.kinds.length === 0);
        const before = findAndMeasure(made.design).objects;
        const after = findAndMeasure(reversed(made.design)).objects;
        const last = made.totals.stitches - 1;
        expect(after).toHaveLength(before.length);
        before.forEach((o, i) => {
          const p = after[after.length - 1 - i];
          expect([p.kind, p.split, p.underlay.kinds, p.locks]).toEqual([
            o.kind,
            o.split,
            o.underlay.kinds,
            { start: o.locks.end, end: o.locks.start },
          ]);
          // The first and last swings may be given to the locks from one side and to the column from the other.
          expect(Math.abs(last - p.range[1] - o.range[0])).toBeLessThanOrEqual(2);
          expect(Math.abs(last - p.range[0] - o.range[1])).toBeLessThanOrEqual(2);
          expect(Math.abs((p.widthMm as number) - (o.widthMm as number))).toBeLessThan(0.05);
          expect(Math.abs((p.spacingMm as number) - (o.spacingMm as number))).toBeLessThan(0.02);
        });
      }),
      { numRuns: 40, seed: 9 },
    );
  });
});
