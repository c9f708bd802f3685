import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { grownBy } from '../../lib/core/bounds.js';
import { type Design, Kind } from '../../lib/format/design.js';
import { boundsOf } from '../../lib/format/extent.js';
import { Break } from '../../lib/format/stitches.js';
import { coverOf, coverOfGrowing } from '../../lib/rework/cover.js';
import { machineScaled } from '../../lib/rework/machine-scaled.js';
import { regenerated } from '../../lib/rework/regenerate.js';
import { type ResewWish, resew } from '../../lib/rework/resew.js';
import { HoleTests, holesOf } from '../../lib/rework/resew-holes.js';
import { MOST_STEPS, smallestScale } from '../../lib/rework/resew-search.js';
import { asWritten } from '../../lib/rework/resew-written.js';
import { widened } from '../../lib/rework/widen.js';
import { FAMILIES } from '../generators/families/index.js';
import { itInFull, someOf } from '../in-full.js';
import { sewnOf } from './brute-cover.js';

const THREAD = 0.4;
const wish = (by: Partial<{ x: number; y: number; dx: number; dy: number }>): ResewWish => ({
  mode: 'machine',
  by: { x: 0.05, y: 0.05, dx: 0, dy: 0, ...by },
  offsetGiven: true,
  threadMm: THREAD,
  slackMm: 0,
});

/** A design of needle points alone; a trim before each piece but the first. */
function sewn(...pieces: (readonly [x: number, y: number])[][]): Design {
  const records = pieces.flatMap((piece, p) => [
    ...(p > 0 ? [[...piece[0], Kind.trim]] : []),
    ...piece.map(([x, y]) => [x, y, Kind.stitch]),
  ]);
  return {
    x: Float64Array.from(records, ([x]) => x),
    y: Float64Array.from(records, ([, y]) => y),
    kind: Uint8Array.from(records, ([, , kind]) => kind),
    thread: null,
    header: [],
    diagnostics: [],
    format: 'dst',
  };
}

/** Needle points of an upright column around (`x`, 0), its lines 0.2 mm apart, rail to rail. */
const column = (x: number, width: number, height: number): [number, number][] =>
  Array.from({ length: Math.round(height / 0.2) + 1 }, (_, i) => [
    x + (i % 2 ? width / 2 : -width / 2),
    -height / 2 + i * 0.2,
  ]);

describe('what a column sewn again hides', () => {
  const design = sewn(column(0, 6, 20));

  it('is every hole where it is hooped as it was: its rails grow outward', () => {
    const { chosen, holes } = resew(sewnOf(design), wish({}));
    expect(chosen.exposed).toEqual([]);
    expect(holes.count).toBe(101);
    expect(chosen.smallest).toBe(0);
  });

  it('needs half the growth of its width to make up for a move aside, but for half a step of the file', () => {
    // By hand: the left rail of holes is at −3. Moved by 0.3 the new rail is at −3(1 + s) + 0.3, and the file has it at −3.0 or beyond when
    // that is below −2.95, so when s > 0.25 / 3 = 8.33 %. Short of that a hole halfway between two needle points of the new rail has
    // no thread within 0.2 mm.
    const { chosen } = resew(sewnOf(design), wish({ dx: 0.3 }));
    expect(chosen.smallest).toBe(0.084);
    // at 5 % the file has the rail at −2.9 (from −2.85): only left holes are seen
    expect(chosen.exposed.length).toBeGreaterThan(0);
    for (const { hole, gapMm } of chosen.exposed) {
      expect(design.x[hole]).toBe(-3);
      expect(gapMm).toBeGreaterThan(0);
      expect(gapMm).toBeLessThan(Math.hypot(0.1, 0.21) - THREAD / 2 + 1e-9);
    }
  });

  it('says that none does where a move is more than any growth makes up for', () => {
    // 3 × 12 % is 0.36 mm, and half a thread does not bridge what is missing to 0.8
    const { chosen } = resew(sewnOf(design), wish({ dx: 0.8 }));
    expect([chosen.smallest, chosen.complete]).toEqual([null, true]);
    // and finds that moving it back is what helps
    expect(chosen.better).toMatchObject({ exposed: 0 });
    expect(chosen.better!.dx).toBeLessThan(-0.5);
  });

  it('moves the design by itself only where it looks for the scale and no move was asked for, and says so', () => {
    const find = { find: true, dx: 0.8, dy: 0 } as const;
    const free = resew(sewnOf(design), { ...wish({}), by: find, offsetGiven: false }).chosen;
    expect([free.movedToHide, free.exposed.length]).toEqual([true, 0]);
    expect(free.by.dx).toBeLessThan(0.3);
    const held = resew(sewnOf(design), { ...wish({}), by: find }).chosen;
    expect([held.movedToHide, held.by.dx]).toEqual([false, 0.8]);
  });

  it('leaves as much room to hoop it off as growth and thread give', () => {
    // By hand: at 10 % the rail is 0.3 mm beyond the holes, the end 1 mm; off by 0.3 along x a hole lies on the edge, off by more it is
    // beyond the rail, and halfway between two needle points nothing is near enough
    const { chosen } = resew(sewnOf(design), wish({ x: 0.1, y: 0.1 }));
    expect(chosen.roomMm).toBeCloseTo(0.3, 9);
  });
});

describe('what a ring sewn again hides', () => {
  // a column of 4 mm around a circle of 10 mm: rails at 8 and 12 mm
  const swings = 316;
  const design = sewn(
    Array.from({ length: swings + 1 }, (_, i): [number, number] => {
      const angle = (2 * Math.PI * i) / swings;
      const radius = i % 2 ? 12 : 8;
      return [radius * Math.cos(angle), radius * Math.sin(angle)];
    }).map(([x, y]): [number, number] => [Math.round(x * 10) / 10, Math.round(y * 10) / 10]),
  );
  const radius = (hole: number) => Math.hypot(design.x[hole], design.y[hole]);

  it('is all but its inner holes: the ring moves off them', () => {
    // By hand: at 5 % the inner rail is at 8.4 mm: 0.4 mm away, of which half a thread covers 0.2; rounding adds or takes a diagonal of half steps, twice
    const { chosen } = resew(sewnOf(design), wish({}));
    const inner = Array.from({ length: swings + 1 }, (_, h) => h).filter((h) => radius(h) < 10);
    expect(chosen.exposed.map(({ hole }) => hole)).toEqual(inner);
    for (const { gapMm } of chosen.exposed) expect(Math.abs(gapMm! - 0.2)).toBeLessThan(0.142);
  });

  it('hides all up to where the inner rail has gone half a thread', () => {
    const before = sewnOf(design);
    // 8 mm × 0.7 % is 0.056 mm, with rounding 0.2 at most; 8 × 4.5 % is 0.36, with rounding 0.22 at least
    expect(resew(before, wish({ x: 0.007, y: 0.007 })).chosen.exposed).toEqual([]);
    expect(resew(before, wish({ x: 0.045, y: 0.045 })).chosen.exposed).toHaveLength(swings / 2 + 1);
  });
});

describe('what a row of small letters far from the middle hides', () => {
  const places = [-30, -10, 0, 10, 30];
  const design = sewn(...places.map((x) => column(x, 1.2, 6)));

  it('is less the further out a letter stands: it moves further than it is wide', () => {
    // By hand, at 5 %: the letter at 30 moves by 1.5 mm; its new left rail, 31.5 − 0.63, is in the file at 30.9, so its old right rail, 30.6, is seen 0.1 mm from the
    // edge of a thread at best, its old left rail, 29.4, 1.3 mm. That at 10 moves by 0.5: the old right rail, 10.6, is inside, the left, 9.4, is seen 0.3 mm from
    // 9.9. That in the middle hides its own.
    const before = sewnOf(design);
    const { chosen, holes } = resew(before, wish({}));
    expect(before.objects).toHaveLength(5);
    const seen = new Set(chosen.exposed.map(({ hole }) => hole));
    for (let h = 0; h < holes.count; h++) {
      const x = Math.round(before.stitches.x[h] * 10) / 10;
      const at = Math.abs(x);
      expect([seen.has(h), x]).toEqual([at > 20 || (at > 5 && at < 10), x]);
    }
    const gapAt = (x: number) =>
      Math.min(
        ...chosen.exposed
          .filter(({ hole }) => Math.abs(before.stitches.x[hole] - x) < 1e-9)
          .map(({ gapMm }) => gapMm!),
      );
    expect(gapAt(30.6)).toBeGreaterThanOrEqual(0.1 - 1e-9);
    expect(gapAt(30.6)).toBeLessThan(0.13);
    expect(gapAt(29.4)).toBeLessThan(1.33);
    expect(gapAt(9.4)).toBeGreaterThanOrEqual(0.3 - 1e-9);
    expect(gapAt(9.4)).toBeLessThan(0.33);
  });
});

describe('the search for the smallest scale', () => {
  it.each([
    ['machine', machineScaled, 900, 16],
    ['regenerate', regenerated, 400, 8],
    ['widen', widened, 400, 8],
  ] as const)(
    'gives what trying all holes at all steps of whole designs gives, with and without slack: %s',
    (_, enlarge, most, numRuns) => {
      fc.assert(
        fc.property(
          fc.constantFrom(...Object.keys(FAMILIES)),
          fc.nat(1e6),
          fc.integer({ min: -5, max: 5 }),
          fc.constantFrom(0, 0, 0.1, 0.2),
          (family, seed, tenths, slackMm) => {
            const { design, stitches, objects } = sewnOf(FAMILIES[family](seed).design);
            const holes = holesOf(stitches, objects);
            fc.pre(holes.count < most);
            const grow = enlarge(design, stitches, objects);
            const at = (step: number) => grow({ x: step / 1000, y: step / 1000, dx: tenths / 10, dy: 0 });
            const covers = Array.from({ length: MOST_STEPS + 1 }, (_, step) => {
              const made = asWritten(at(step).whole());
              return coverOf(made.stitches, made.objects, THREAD);
            });
            const bare = new HoleTests();
            const hides = (step: number, owner: number | null) => {
              for (let h = 0; h < holes.count; h++) {
                if (owner !== null && holes.owner[h] !== owner) continue;
                if (!bare.hiddenWithin(holes, h, covers[step], slackMm)) return false;
              }
              return true;
            };
            const first = (owner: number | null) => {
              const step = covers.findIndex((_, k) => hides(k, owner));
              return step < 0 ? null : step;
            };
            const found = smallestScale(
              holes,
              (step) => coverOfGrowing(at(step), objects.length, THREAD),
              new HoleTests(),
              slackMm,
              Number.POSITIVE_INFINITY,
            );
            expect(found.complete).toBe(true);
            expect(found.step).toBe(first(null));
            for (let owner = 0; owner < holes.owners; owner++)
              if (found.step === null || found.byOwner[owner] !== null)
                expect(found.byOwner[owner]).toBe(first(owner));
          },
        ),
        { numRuns: someOf(numRuns) },
      );
    },
  );
});

describe('an object of a design made larger', () => {
  itInFull('is by itself what it is in the whole, and lies within the reach that was told', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(machineScaled, regenerated, widened),
        fc.constantFrom(...Object.keys(FAMILIES)),
        fc.nat(1e6),
        fc.double({ min: 0, max: 0.12, noNaN: true }),
        fc.double({ min: 0, max: 0.12, noNaN: true }),
        (enlarge, family, seed, x, y) => {
          const { design, stitches, objects } = sewnOf(FAMILIES[family](seed).design);
          const growing = enlarge(design, stitches, objects)({ x, y, dx: 0.3, dy: -0.2 });
          const whole = asWritten(growing.whole());
          objects.forEach((_, k) => {
            const bare = growing.alone(k);
            const alone = asWritten(bare);
            const sewn = ({ stitches, objects }: typeof alone, n: number) => {
              const { range, from, to, sections, kind } = objects[n];
              const [a, b] = range;
              return {
                kind,
                x: [...stitches.x.slice(a, b + 1)],
                y: [...stitches.y.slice(a, b + 1)],
                breaks: [...stitches.breakBefore.slice(a + 1, b + 1)],
                from: Array.from(from, (i) => i - a),
                to: Array.from(to, (i) => i - a),
                sections: [...sections],
              };
            };
            expect(sewn(alone, 0)).toEqual(sewn(whole, k));
            const [a, b] = bare.objects[0].range;
            const box = grownBy(growing.reach(k), 1e-9);
            const laid = boundsOf(bare.stitches, a, b);
            expect(laid.minX).toBeGreaterThanOrEqual(box.minX);
            expect(laid.maxX).toBeLessThanOrEqual(box.maxX);
            expect(laid.minY).toBeGreaterThanOrEqual(box.minY);
            expect(laid.maxY).toBeLessThanOrEqual(box.maxY);
            const { x: px, y: py, breakBefore } = bare.stitches;
            for (let i = a + 1; i <= b; i++) {
              if (breakBefore[i] >= Break.trim) continue;
              for (const f of [0, 0.25, 0.5, 0.75, 1]) {
                const [qx, qy] = [px[i - 1] + (px[i] - px[i - 1]) * f, py[i - 1] + (py[i] - py[i - 1]) * f];
                expect([growing.mayHold(k, qx, qy, 1e-6), i, f]).toEqual([true, i, f]);
              }
            }
          });
        },
      ),
      { numRuns: someOf(60) },
    );
  });
});
