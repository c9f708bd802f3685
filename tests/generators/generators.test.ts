/** The generated designs themselves: what they claim of their stitches must hold before anything is judged by them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Kind } from '../../lib/format/design.js';
import { someOf } from '../in-full.js';
import { FAMILIES } from './families/index.js';
import type { Case } from './pen.js';
import { PRODUCTION } from './production/index.js';

const ALL = { ...FAMILIES, ...PRODUCTION };

describe.each(Object.keys(ALL))('%s', (family) => {
  it('is on the raster, within one record a move, and true to its own ranges', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1_000_000 }), (seed) => {
        const made = ALL[family](seed);
        const { x, y, kind } = made.design;
        const offRaster = (at: number) => !(Math.abs(at * 10 - Math.round(at * 10)) < 1e-6);
        expect([...x].findIndex(offRaster), 'off the raster in x').toBe(-1);
        expect([...y].findIndex(offRaster), 'off the raster in y').toBe(-1);
        // A trim stands for several jumps, and a colour change behind one for none: only they may step further.
        const tooFar = [...kind].findIndex((k, i) => {
          const [px, py] = i > 0 ? [x[i - 1], y[i - 1]] : [0, 0];
          const step = Math.max(Math.abs(x[i] - px), Math.abs(y[i] - py));
          return (k === Kind.stitch || k === Kind.jump) && !(step < 12.1 + 1e-6);
        });
        expect(tooFar, 'too far for one record').toBe(-1);
        expect(made.owner).toHaveLength(made.totals.stitches);
        let last = -1;
        for (const o of made.objects) {
          expect(o.range[0]).toBeGreaterThan(last);
          expect(o.range[1]).toBeGreaterThan(o.range[0]);
          last = o.range[1];
          if (o.kind === 'run') expect([o.widthMm, o.spacingMm, o.angleDeg]).toEqual([null, null, null]);
          if (o.kind === 'satin') expect(o.widthMm).toBeGreaterThan(0.5);
          expect(o.underlay.range === null).toBe(o.underlay.kinds.length === 0);
          expect(o.pieces.length === 0).toBe(o.underlay.kinds.length === 0);
          expect(o.patterns.every((p) => (p === null) === (o.kind !== 'fill'))).toBe(true);
          for (const of of [o.purposes, o.passes]) expect(of.length).toBeGreaterThan(0);
        }
        expect(last).toBeLessThan(made.totals.stitches);
        holdsUnderlays(made);
        for (const k of [Kind.trim, Kind.colour, Kind.stop] as const)
          expect(kind.filter((v) => v === k)).toHaveLength(
            {
              [Kind.trim]: made.totals.trims,
              [Kind.colour]: made.totals.colourChanges,
              [Kind.stop]: made.totals.stops,
            }[k],
          );
      }),
      { numRuns: someOf(4), seed: 3 },
    );
  });

  it('is the same every time', () => {
    const [one, two] = [ALL[family](11), ALL[family](11)];
    expect(Array.from(one.design.x)).toEqual(Array.from(two.design.x));
    expect(one.objects).toEqual(two.objects);
    expect(one.underlays).toEqual(two.underlays);
  });

  it('is another design for another seed', () => {
    const [one, two] = [ALL[family](21), ALL[family](22)];
    expect(Array.from(one.design.x)).not.toEqual(Array.from(two.design.x));
  });
});

/** Every piece lies within the design, is underlay where it begins and ends, and is sewn before the last of what it serves. */
function holdsUnderlays(made: Case): void {
  for (const [u, { kinds, range, serves }] of made.underlays.entries()) {
    expect(kinds.length).toBeGreaterThan(0);
    expect(serves.length).toBeGreaterThan(0);
    expect(range[0]).toBeGreaterThanOrEqual(0);
    expect(range[1]).toBeLessThan(made.totals.stitches);
    for (const end of range) expect(made.role[end]).toBe('underlay');
    for (const o of serves) {
      expect(made.objects[o].pieces).toContain(u);
      expect(made.objects[o].range[1]).toBeGreaterThan(range[0]);
    }
  }
}
