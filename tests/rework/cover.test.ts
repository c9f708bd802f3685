import { readdirSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readDesignFile } from '../../lib/index.js';
import { coverOf } from '../../lib/rework/cover.js';
import type { Enlarge, Enlargement } from '../../lib/rework/enlargement.js';
import { machineScaled } from '../../lib/rework/machine-scaled.js';
import { regenerated } from '../../lib/rework/regenerate.js';
import { asWritten } from '../../lib/rework/resew-written.js';
import { widened } from '../../lib/rework/widen.js';
import { FAMILIES } from '../generators/families/index.js';
import { Random } from '../generators/random.js';
import { IN_FULL, someOf } from '../in-full.js';
import { Needle } from '../report/little-design.js';
import { bruteDistance, sewnOf } from './brute-cover.js';

/** The others wait for the long runs. */
const SMALL = /^(name-drop|cap-front)/;
const SAMPLES = new URL('../../samples/', import.meta.url).pathname;
/** Width that 40-weight thread covers, mm; common practice, no source. */
const THREAD = 0.4;

/** Pairs of a hole and a thread that are compared in one design at most: of a large one holes are drawn. */
const COMPARED = 6e6;

/** Holds the cover of an enlarged design against every thread: for every hole, or for as many as are drawn where that is too much. */
function expectAsBrute(
  before: ReturnType<typeof sewnOf>,
  by: Enlargement,
  most: number,
  enlarge: Enlarge = machineScaled,
): void {
  const { stitches, objects } = asWritten(
    enlarge(before.design, before.stitches, before.objects)(by).whole(),
  );
  const cover = coverOf(stitches, objects, THREAD);
  const { count } = before.stitches;
  const random = new Random(count, 'holes');
  const drawn = count * stitches.count > most ? most / (count * stitches.count) : 1;
  const wrong: object[] = [];
  for (let h = 0; h < count; h++) {
    if (drawn < 1 && !random.chance(drawn)) continue;
    const [px, py] = [before.stitches.x[h], before.stitches.y[h]];
    const distance = bruteDistance(stitches, objects, px, py);
    const [under, gap] = [cover.underThread(px, py), cover.gapMm(px, py)];
    // within the last digits of a sum either answer is right
    const underAsBrute = Math.abs(distance - THREAD / 2) <= 1e-8 || under === distance < THREAD / 2;
    const gapAsBrute =
      distance === Number.POSITIVE_INFINITY
        ? gap === null
        : gap !== null && Math.abs(gap - Math.max(0, distance - THREAD / 2)) < 5e-10;
    const hides = cover.hides(px, py);
    const hidesAsTold = hides ? distance - THREAD / 2 <= 0.1 + 1e-8 : !under;
    if (!underAsBrute || !gapAsBrute || !hidesAsTold) wrong.push({ hole: h, distance, under, gap, hides });
  }
  expect(wrong).toEqual([]);
}

describe('the cover of a design', () => {
  it.each(readdirSync(SAMPLES).filter((name) => name.endsWith('.dst') && (IN_FULL || SMALL.test(name))))(
    'tells holes under a thread of %s as looking at every thread does, however it is made larger',
    async (name) => {
      const { design } = await readDesignFile(SAMPLES + name);
      const before = sewnOf(design);
      for (const enlarge of [machineScaled, regenerated, widened])
        expectAsBrute(before, { x: 0.05, y: 0.05, dx: 0, dy: 0 }, COMPARED, enlarge);
    },
  );

  it('does so for designs of all kinds, however they are grown and moved', () => {
    const growth = fc.integer({ min: 0, max: 120 }).map((n) => n / 1000);
    const move = fc.integer({ min: -20, max: 20 }).map((n) => n / 10);
    fc.assert(
      fc.property(
        fc.constantFrom(...Object.keys(FAMILIES)),
        fc.nat(1e6),
        fc.record({ x: growth, y: growth, dx: move, dy: move }),
        fc.constantFrom(machineScaled, regenerated, widened),
        (family, seed, by, enlarge) => {
          const before = sewnOf(FAMILIES[family](seed).design);
          expectAsBrute(before, by, COMPARED / 3, enlarge);
        },
      ),
      { numRuns: someOf(40) },
    );
  });

  it('hides the inside of a column as long as its lines are at most a thread apart', () => {
    // spacing on one rail is twice the distance of the lines
    for (const [spacing, hidden] of [
      [0.4, true],
      [0.6, true],
      // beside the rails the lines lie twice as far apart as in the middle
      [0.8, false],
      [1, false],
    ] as const) {
      const { stitches, objects } = sewnOf(
        new Needle().column(0, 0, { width: 6, height: 20, spacing }).end(),
      );
      const cover = coverOf(stitches, objects, THREAD);
      // just inside the left rail, halfway between two needle points: the spacing alone hides, if a thread is as near as a step of the file
      const y = spacing * 20.5;
      expect([cover.underThread(0.02, y), cover.hides(0.02, y)]).toEqual([spacing === 0.4, hidden]);
      expect(cover.hides(-0.21, y)).toBe(false);
    }
  });

  it('hides nothing in a fill of open rows but what its threads lie on', () => {
    const { stitches, objects } = sewnOf(new Needle().fill(0, 0, { spacing: 0.6 }).end());
    const cover = coverOf(stitches, objects, THREAD);
    expect([cover.hides(10, 3), cover.hides(10, 3.2), cover.hides(10, 3.3)]).toEqual([true, true, false]);
    expect(cover.gapMm(10, 3.3)).toBeCloseTo(0.1, 9);
  });

  it('lets underlay, ties and travel hide nothing', () => {
    const { stitches, objects } = sewnOf(
      new Needle().column(0, 0, { width: 4, height: 20, underlay: 'center-run' }).end(),
    );
    expect(objects.map(({ kind, underlay }) => [kind, underlay.kinds])).toEqual([['satin', ['center-run']]]);
    const [first, last] = objects[0].range;
    // the column taken away from over its underlay: ties and underlay lie bare
    const bare = { ...stitches, x: stitches.x.map((x, i) => (i >= first && i <= last ? x + 20 : x)) };
    const cover = coverOf(bare, objects, THREAD);
    for (let i = 0; i < first; i++) expect(cover.hides(stitches.x[i], stitches.y[i])).toBe(false);
    expect(first).toBeGreaterThan(10);
    expect(coverOf(stitches, [], THREAD).gapMm(2, 2)).toBeNull();
  });
});
