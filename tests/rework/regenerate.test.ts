/** A design made larger at its own spacing: figures of the objects, outlines (by an independent geometry library), what is sewn after what. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axisDifferenceDeg, foldDeg180 } from '../../lib/core/axis.js';
import { type Design, Kind } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { centreOf } from '../../lib/rework/machine-scaled.js';
import { regenerated } from '../../lib/rework/regenerate.js';
import { widened } from '../../lib/rework/widen.js';
import type { StitchObject } from '../../lib/segment/objects.js';
import { moved } from '../generators/changes.js';
import { FAMILIES } from '../generators/families/index.js';
import { IN_FULL, someOf } from '../in-full.js';
import { enlargedBy, type Read, read, told, written } from './enlarged.js';
import { apart, edgesOf, outside, type Spot, sectionsOf } from './outline.js';

/** Spacing keeps within this, mm, and outlines within that; row ends of the design itself are off by the second in the mean, as its file rounds them. */
const SPACING_MM = 0.03;
const OUTLINE_MM = 0.1;
const ROUNDED_MM = 0.025;
/**
 * Rows are whole. In a piece of fewer than these, half a row more or less that the growth asks for shows in the spacing, in the corner at which it ends, and
 * in the mean direction of its swings, which lean to and fro by turns.
 */
const FEW_ROWS = 25;
/** Nor may a row, shared among all, be more than this, mm. */
const FEW_SHARE_MM = 0.016;
/** And fewer than these say nothing of spacing or outline. */
const FEWEST_ROWS = 8;
const anyFamily = fc.constantFrom(...Object.keys(FAMILIES));
const anySeed = fc.integer({ min: 0, max: 1_000_000 });
const anyShare = fc.constantFrom(0.02, 0.05, 0.08, 0.12);
const RUNS = { numRuns: someOf(30), seed: 3 };

const controls = (kinds: Uint8Array) => kinds.filter((kind) => kind !== Kind.stitch && kind !== Kind.jump);

/** How far an object that is laid anew is off what it is to be. */
interface Deviation {
  readonly name: string;
  readonly few: boolean;
  readonly kind: string;
  readonly pitchMm: number;
  readonly spacingMm: number;
  readonly turnedDeg: number | null;
  /** Furthest that a row end lies off the outline as exactly scaled: of a fill outside it, of a column to either side. */
  readonly outMm: number;
  /** Furthest that a corner of the outline as exactly scaled lies outside the new one. */
  readonly missedMm: number;
}

/** All columns and fills of a design but those of which the enlargement says that it leaves them. */
function deviationsOf(design: Design, gx: number, gy: number): Deviation[] {
  const { before, after, left } = enlargedBy(regenerated, design, gx, gy);
  const c = centreOf(before.stitches);
  const grown = ([x, y]: Spot): Spot => [x + (x - c.x) * gx, y + (y - c.y) * gy];
  return before.objects.flatMap((object, i) => {
    if (
      object.kind === 'run' ||
      object.from.length < FEWEST_ROWS ||
      left?.some((part) => part.object === object.id && part.part === 'top')
    )
      return [];
    const [was, is] = [before.measures[i], after.measures[i]];
    let [missed, out]: number[][] = [[], []];
    if (object.kind === 'fill') {
      const made = sectionsOf(after.stitches, after.objects[i]);
      sectionsOf(before.stitches, object).forEach(({ ends, outline }, k) => {
        missed.push(...outside(ends.map(grown), made[k].outline));
        out.push(...outside(made[k].ends, outline.map(grown)));
      });
    } else {
      const goal = edgesOf(before.stitches, object).map((chain) => chain.map(grown));
      const made = edgesOf(after.stitches, after.objects[i]);
      const stride = Math.ceil(object.from.length / 60);
      missed = apart(goal, made, stride);
      out = apart(made, goal, stride);
    }
    return {
      name: `object ${object.id} (${object.kind}, ${object.from.length} rows)`,
      few:
        object.from.length <
        Math.max(1, object.sections.length) * Math.max(FEW_ROWS, was.spacingMm!.median / FEW_SHARE_MM),
      kind: object.kind,
      pitchMm: was.spacingMm!.median,
      spacingMm: Math.abs(is.spacingMm!.median - was.spacingMm!.median),
      // where x and y grow apart all that slants turns; the mean over a column that bends hangs on how many swings each stretch of it has
      turnedDeg:
        gx !== gy || was.angleDeg === null || isBent(before, object)
          ? null
          : axisDifferenceDeg(leanFree(before, object), leanFree(after, after.objects[i])),
      // the last swing of a column may be its tie, or on its way to the next
      outMm:
        object.kind === 'fill' ? Math.max(...out) : out.sort((a, b) => b - a)[Math.floor(out.length / 50)],
      missedMm: Math.max(...missed),
    };
  });
}

/** Whether the swings of a column turn by more than 20° against its first. */
function isBent({ stitches: { x, y } }: Read, { kind, from, to }: StitchObject): boolean {
  const deg = Array.from(from, (a, k) =>
    foldDeg180((Math.atan2(y[to[k]] - y[a], x[to[k]] - x[a]) * 180) / Math.PI),
  );
  return kind === 'satin' && deg.some((at, k) => axisDifferenceDeg(at, deg[k % 2]) > 20);
}

/**
 * Mean of the directions that rows or swings have in the middle, forth and back: as they lean to and fro by turns, the mean over all would hang on whether their number
 * is odd, and on how long the last are.
 */
function leanFree({ stitches: { x, y } }: Read, { from, to }: StitchObject): number {
  const deg = (k: number) => (Math.atan2(y[to[k]] - y[from[k]], x[to[k]] - x[from[k]]) * 180) / Math.PI;
  const off = [0, 1].map((back) => {
    const rows = Array.from(from, (_, k) => k).filter((k) => k % 2 === back);
    const turned = rows.map((k) => ((deg(k) - deg(0) + 270) % 180) - 90).sort((a, b) => a - b);
    return turned[turned.length >> 1];
  });
  return foldDeg180(deg(0) + (off[0] + off[1]) / 2);
}

const isKept = ({ spacingMm, turnedDeg, outMm }: Deviation): boolean =>
  spacingMm < SPACING_MM && (turnedDeg ?? 0) < 1 && outMm < OUTLINE_MM + ROUNDED_MM;

/** What holds of any object, of those of few rows as well. */
function expectNear({ name, pitchMm, spacingMm, outMm, missedMm }: Deviation): void {
  expect(spacingMm, `spacing of ${name}`).toBeLessThan(SPACING_MM + pitchMm / 8);
  expect(outMm, `row ends of ${name}`).toBeLessThan(OUTLINE_MM + pitchMm);
  // a corner between two rows is reached by neither, as little as one of the design is
  expect(missedMm, `corners of ${name}`).toBeLessThan(OUTLINE_MM + 1.5 * pitchMm);
}

describe('a design made larger at its own spacing', () => {
  it('keeps spacing, kinds and order, and grows by what was asked', () => {
    fc.assert(
      fc.property(anyFamily, anySeed, anyShare, (family, seed, share) => {
        const { before, after } = enlargedBy(regenerated, FAMILIES[family](seed).design, share);
        expect(controls(after.design.kind)).toEqual(controls(before.design.kind));
        expect(after.objects.map(told)).toEqual(before.objects.map(told));
        before.measures.forEach((was, i) => {
          const is = after.measures[i];
          if (
            was.spacingMm !== null &&
            was.object.from.length >= FEW_ROWS * Math.max(1, was.object.sections.length)
          ) {
            expect(Math.abs(is.spacingMm!.median - was.spacingMm.median)).toBeLessThan(SPACING_MM);
          }
          if (was.widthMm !== null) {
            expect(Math.abs(is.widthMm!.median - (1 + share) * was.widthMm.median)).toBeLessThan(0.1);
          }
          // rows may hold the steps between them or not, and lean with them: those of fills are read again below
          if (was.object.kind === 'satin' && was.angleDeg !== null && is.angleDeg !== null) {
            expect(axisDifferenceDeg(is.angleDeg, was.angleDeg)).toBeLessThan(1);
          }
        });
      }),
      RUNS,
    );
  });

  it('is read from its file as the same objects, nearly always', () => {
    let same = 0;
    let all = 0;
    const close: boolean[] = [];
    fc.assert(
      fc.property(anyFamily, anySeed, fc.constantFrom(0.05, 0.12), (family, seed, share) => {
        const { before, after } = enlargedBy(regenerated, FAMILIES[family](seed).design, share);
        const file = written(after.design);
        fc.pre(file !== null);
        const again = read(file!);
        all++;
        if (JSON.stringify(again.objects.map(told)) !== JSON.stringify(before.objects.map(told))) return;
        same++;
        before.measures.forEach(({ spacingMm, angleDeg, object }, i) => {
          const now = again.measures[i];
          if (spacingMm === null || object.from.length < FEW_ROWS * Math.max(1, object.sections.length))
            return;
          const turned = angleDeg === null ? 0 : axisDifferenceDeg(angleDeg, now.angleDeg!);
          close.push(Math.abs(now.spacingMm!.median - spacingMm.median) <= SPACING_MM && turned < 1);
        });
      }),
      { numRuns: someOf(30), seed: 8 },
    );
    // what is found in a generated design differs now and then even between two ways of turning it
    expect(same).toBeGreaterThanOrEqual(0.9 * all);
    expect(close.filter(Boolean).length).toBeGreaterThanOrEqual(0.95 * close.length);
  });

  it('keeps spacing, angle and the grown outline of the objects of generated designs', () => {
    const all: Deviation[] = [];
    fc.assert(
      fc.property(
        anyFamily,
        anySeed,
        fc.constantFrom([0.05, 0.08], [0.02, 0.02], [0.12, 0.12]),
        (family, seed, [gx, gy]) => {
          const found = deviationsOf(FAMILIES[family](seed).design, gx, gy);
          found.forEach(expectNear);
          all.push(...found.filter(({ few }) => !few));
        },
      ),
      { numRuns: someOf(40) },
    );
    // what the finder takes in at the ends of a generated column is now and then no swing of it
    expect(all.filter(isKept).length).toBeGreaterThanOrEqual(0.95 * all.length);
  });

  it.each([
    ['cap-front', 0.12],
    ['crest', 0.05],
    ['incoming', 0.05],
    ...(IN_FULL ? ([['jacket-back', 0.05]] as const) : []),
    ['name-drop', 0.12],
    ['towel-monogram', 0.12],
  ] as const)(
    'keeps spacing, angle and the grown outline of every object of %s, %s larger',
    (name, share) => {
      const all = deviationsOf(decodeDst(readFileSync(`samples/${name}.dst`)), share, share);
      expect(all.length).toBeGreaterThan(5);
      all.forEach(expectNear);
      expect(all.filter((object) => !object.few && !isKept(object))).toEqual([]);
    },
  );

  it('grown by nothing is itself, moved by the offset', () => {
    const { before, after } = enlargedBy(regenerated, FAMILIES['letters-word'](5).design, 0, 0, {
      dx: 4,
      dy: -1,
    });
    expect(after.stitches.count).toBe(before.stitches.count);
    after.stitches.x.forEach((x, i) => {
      expect(x).toBeCloseTo(before.stitches.x[i] + 4, 9);
      expect(after.stitches.y[i]).toBeCloseTo(before.stitches.y[i] - 1, 9);
    });
  });

  it.each([
    ['regenerate', regenerated],
    ['widen', widened],
  ] as const)('grown by next to nothing (%s) is what it was', (mode, enlarge) => {
    let same = 0;
    let all = 0;
    fc.assert(
      fc.property(anyFamily, anySeed, (family, seed) => {
        const { before, after } = enlargedBy(enlarge, FAMILIES[family](seed).design, 1e-9);
        before.measures.forEach((was, i) => {
          const is = after.measures[i];
          if (was.object.kind === 'run') return;
          for (const key of ['spacingMm', 'widthMm'] as const) {
            if (was[key] !== null) expect(Math.abs(is[key]!.median - was[key].median)).toBeLessThan(0.01);
          }
        });
        // runs are to be sewn between their old holes where columns are widened
        if (mode === 'widen' && before.objects.some(({ kind }) => kind === 'run')) return;
        all++;
        if (after.stitches.count !== before.stitches.count) return;
        const moved = after.stitches.x.map((x, k) =>
          Math.hypot(x - before.stitches.x[k], after.stitches.y[k] - before.stitches.y[k]),
        );
        // where a needle place is met again a little off, it is met there
        if (Math.max(...moved) < 0.2) same++;
      }),
      { numRuns: someOf(30), seed: 9 },
    );
    expect(same).toBeGreaterThanOrEqual(0.85 * all);
  });

  // The largest takes as long as all others together, and waits for the long runs.
  it.each([
    ...['cap-front', 'crest', 'incoming', 'name-drop', 'towel-monogram'],
    ...(IN_FULL ? ['jacket-back'] : []),
  ])('laid anew at its own size, all objects of %s measure what they did', (name) => {
    const { before, after } = enlargedBy(regenerated, decodeDst(readFileSync(`samples/${name}.dst`)), 1e-9);
    expect(after.objects.map(told)).toEqual(before.objects.map(told));
    before.measures.forEach((was, i) => {
      const is = after.measures[i];
      const off = (key: 'spacingMm' | 'widthMm' | 'stitchLengthMm') =>
        Math.abs((is[key]?.median ?? 0) - (was[key]?.median ?? 0));
      expect([off('spacingMm') < 0.01, off('widthMm') < 0.01, off('stitchLengthMm') < 0.11]).toEqual([
        true,
        true,
        true,
      ]);
      if (was.angleDeg !== null) expect(axisDifferenceDeg(was.angleDeg, is.angleDeg!)).toBeLessThan(0.3);
      // a needle place that is met again a little off is met there, and needs one point less
      expect(Math.abs(is.stitches - was.stitches)).toBeLessThanOrEqual(Math.max(1, 0.05 * was.stitches));
    });
  });

  it('does not care how the design is turned', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('satin-curved', 'plain-columns', 'fill-holes', 'letters-word'),
        anySeed,
        (family, seed) => {
          const design = FAMILIES[family](seed).design;
          const straight = enlargedBy(regenerated, design, 0.05).after;
          const turned = enlargedBy(
            regenerated,
            moved(design, (x, y) => [-y, x]),
            0.05,
          ).after;
          expect(turned.stitches.count).toBe(straight.stitches.count);
          turned.stitches.x.forEach((x, i) => {
            expect(x).toBeCloseTo(-straight.stitches.y[i], 4);
          });
        },
      ),
      { numRuns: someOf(8), seed: 6 },
    );
  });

  it('makes no stitch shorter than thread bears that was not so short before', () => {
    fc.assert(
      fc.property(anyFamily, anySeed, anyShare, (family, seed, share) => {
        const { before, after } = enlargedBy(regenerated, FAMILIES[family](seed).design, share);
        const short = ({ stitches: { x, y, count, breakBefore } }: typeof before) => {
          let n = 0;
          // a tenth of a millimetre of rounding makes a stitch of half a millimetre a shorter one
          for (let i = 1; i < count; i++) {
            if (breakBefore[i] === 0 && Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]) < 0.35) n++;
          }
          return n;
        };
        expect(short(after)).toBeLessThanOrEqual(1.1 * short(before) + 0.002 * before.stitches.count + 1);
      }),
      RUNS,
    );
  });

  it('makes no short step in the fills of a design that has none', () => {
    const { before, after } = enlargedBy(regenerated, decodeDst(readFileSync('samples/crest.dst')), 0.12);
    const shortest = ({ stitches: { x, y, count, breakBefore } }: typeof before) => {
      let least = Number.POSITIVE_INFINITY;
      for (let i = 1; i < count; i++) {
        if (breakBefore[i] === 0) least = Math.min(least, Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]));
      }
      return least;
    };
    expect(shortest(before)).toBeGreaterThanOrEqual(0.5 - 1e-9);
    expect(shortest(after)).toBeGreaterThanOrEqual(0.5 - 1e-9);
  });
});
