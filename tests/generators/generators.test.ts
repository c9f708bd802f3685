/** The generated designs themselves: what they claim of their stitches must hold before anything is judged by them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Kind } from '../../lib/format/design.js';
import { FAMILIES } from './families/index.js';

describe.each(Object.keys(FAMILIES))('%s', (family) => {
  it('is on the raster, within one record a move, and true to its own ranges', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000 }), (seed) => {
        const made = FAMILIES[family](seed);
        const { x, y, kind } = made.design;
        for (let i = 0; i < x.length; i++) {
          expect(Math.abs(x[i] * 10 - Math.round(x[i] * 10))).toBeLessThan(1e-6);
          expect(Math.abs(y[i] * 10 - Math.round(y[i] * 10))).toBeLessThan(1e-6);
          const [px, py] = i > 0 ? [x[i - 1], y[i - 1]] : [0, 0];
          // A trim stands for several jumps, and a colour change behind one for none: only they may step further.
          if (kind[i] === Kind.stitch || kind[i] === Kind.jump)
            expect(Math.max(Math.abs(x[i] - px), Math.abs(y[i] - py))).toBeLessThan(12.1 + 1e-6);
        }
        expect(made.owner).toHaveLength(made.totals.stitches);
        let last = -1;
        for (const o of made.objects) {
          expect(o.range[0]).toBeGreaterThan(last);
          expect(o.range[1]).toBeGreaterThan(o.range[0]);
          last = o.range[1];
          if (o.kind === 'run') expect([o.widthMm, o.spacingMm, o.angleDeg]).toEqual([null, null, null]);
          if (o.kind === 'satin') expect(o.widthMm).toBeGreaterThan(0.5);
          expect(o.underlay.range === null).toBe(o.underlay.kinds.length === 0);
        }
        expect(last).toBeLessThan(made.totals.stitches);
      }),
      { numRuns: 8, seed: 3 },
    );
  });

  it('is the same every time', () => {
    const [one, two] = [FAMILIES[family](11), FAMILIES[family](11)];
    expect(Array.from(one.design.x)).toEqual(Array.from(two.design.x));
    expect(one.objects).toEqual(two.objects);
  });
});
