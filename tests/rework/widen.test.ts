/** A design widened where it stands: widths, spacing, outlines (by an independent geometry library), runs over their old holes. */
import { readFileSync } from 'node:fs';
import Flatten from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spreadInPlace } from '../../lib/core/stats.js';
import { type Design, Kind } from '../../lib/format/design.js';
import { decodeDst } from '../../lib/format/dst-decode.js';
import { Allowance } from '../../lib/rework/allowance.js';
import { widened } from '../../lib/rework/widen.js';
import { moved } from '../generators/changes.js';
import { FAMILIES } from '../generators/families/index.js';
import { someOf } from '../in-full.js';
import { enlargedBy, type Read, read, told, written } from './enlarged.js';

const FEW_ROWS = 25;
const anyFamily = fc.constantFrom(...Object.keys(FAMILIES));
const anySeed = fc.integer({ min: 0, max: 1_000_000 });
const anyShare = fc.constantFrom(0.03, 0.05, 0.12);

const controls = (kinds: Uint8Array) => kinds.filter((kind) => kind !== Kind.stitch && kind !== Kind.jump);

/** Median of the median widths of a design's columns, mm; 4 where there is none (the project's own choice). */
const usualWidth = ({ measures }: Read) =>
  spreadInPlace(Float64Array.from(measures.flatMap(({ widthMm }) => (widthMm ? [widthMm.median] : []))))
    ?.median ?? 4;

/** Needle points as a design of one thread. */
function sewn(points: readonly (readonly [number, number])[]): Design {
  return {
    x: Float64Array.from(points, ([x]) => x),
    y: Float64Array.from(points, ([, y]) => y),
    kind: new Uint8Array(points.length),
    thread: null,
    header: [],
    diagnostics: [],
    format: 'dst',
  };
}

const column = (width: number, swings: number, lean = 0): Design =>
  sewn(Array.from({ length: swings + 1 }, (_, k) => [0.2 * k + (k % 2) * lean, (k % 2) * width]));

describe('a design widened where it stands', () => {
  it('keeps spacing, kinds and order, and makes every column wider by the same', () => {
    fc.assert(
      fc.property(anyFamily, anySeed, anyShare, (family, seed, share) => {
        const { before, after } = enlargedBy(widened, FAMILIES[family](seed).design, share);
        const wider = share * usualWidth(before);
        expect(controls(after.design.kind)).toEqual(controls(before.design.kind));
        expect(after.objects.map(told)).toEqual(before.objects.map(told));
        before.measures.forEach((was, i) => {
          const is = after.measures[i];
          if (was.widthMm !== null) {
            expect(Math.abs(is.widthMm!.median - was.widthMm.median - wider)).toBeLessThan(0.1);
          }
          if (
            was.spacingMm !== null &&
            was.object.from.length >= FEW_ROWS * Math.max(1, was.object.sections.length)
          ) {
            expect(Math.abs(is.spacingMm!.median - was.spacingMm.median)).toBeLessThan(0.03);
          }
        });
      }),
      { numRuns: someOf(20), seed: 3 },
    );
  });

  it('is read from its file as the same objects, nearly always', () => {
    let same = 0;
    let all = 0;
    fc.assert(
      fc.property(anyFamily, anySeed, (family, seed) => {
        const { before, after } = enlargedBy(widened, FAMILIES[family](seed).design, 0.05);
        const file = written(after.design);
        fc.pre(file !== null);
        all++;
        if (JSON.stringify(read(file!).objects.map(told)) === JSON.stringify(before.objects.map(told)))
          same++;
      }),
      { numRuns: 20, seed: 8 },
    );
    expect(same).toBeGreaterThanOrEqual(0.9 * all);
  });

  it.each([0, 1.5])(
    'moves the rails and the ends of a column outward by half of the growth, swings leaning by %s mm',
    (lean) => {
      const { before, after } = enlargedBy(widened, column(5, 120, lean), 0.08, 0.08, { dx: 2, dy: 1 });
      const half = 0.04 * usualWidth(before);
      const corners = [
        [0, 0],
        [24, 0],
        [24 + lean, 5],
        [lean, 5],
      ].map(([x, y]) => [x + 2, y + 1] as [number, number]);
      const old = new Flatten.Polygon(corners);
      const distances: number[] = [];
      for (let i = 0; i < after.stitches.count; i++) {
        const point = new Flatten.Point(after.stitches.x[i], after.stitches.y[i]);
        expect(old.contains(point)).toBe(false);
        distances.push(
          Math.min(...[...old.edges].map((edge) => point.distanceTo(edge.shape as Flatten.Segment)[0])),
        );
      }
      // swings end on the widened rails; only a corner lies farther from the old outline than they
      distances.sort((a, b) => a - b);
      expect(distances[0]).toBeGreaterThan(half - 0.02);
      expect(distances[Math.floor(0.95 * distances.length)]).toBeLessThan(half + 0.03);
      const swing = ({ stitches: { x, y } }: Read, dx: number, dy: number) =>
        new Flatten.Segment(new Flatten.Point(x[0] + dx, y[0] + dy), new Flatten.Point(x[1] + dx, y[1] + dy));
      const [gap] = swing(after, 0, 0).distanceTo(swing(before, 2, 1));
      expect(gap).toBeCloseTo(half, 1);
    },
  );

  it('grows more along the axis along which more is asked', () => {
    const along = enlargedBy(widened, column(5, 120), 0, 0.1);
    expect(along.after.measures[0].widthMm!.median).toBeCloseTo(5.5, 1);
    expect(Math.min(...along.after.stitches.x)).toBeCloseTo(0, 2);
    const across = enlargedBy(widened, column(5, 120), 0.1, 0);
    expect(across.after.measures[0].widthMm!.median).toBeCloseTo(5, 1);
    expect(Math.min(...across.after.stitches.x)).toBeCloseTo(-0.25, 1);
  });

  it('moves the outline of a filled area outward all round', () => {
    const points: [number, number][] = [];
    for (let row = 0; row <= 40; row++) {
      const xs = Array.from({ length: 9 }, (_, k) => Math.min(20, Math.max(0, 3 * k - (row % 3))));
      const across = [...new Set([0, ...xs, 20])].sort((a, b) => a - b);
      for (const x of row % 2 ? across.reverse() : across) points.push([x, 0.4 * row]);
    }
    const { before, after } = enlargedBy(widened, sewn(points), 0.1);
    expect(before.objects.map(({ kind }) => kind)).toEqual(['fill']);
    const half = 0.05 * usualWidth(before);
    const { minX, maxX, minY, maxY } = after.measures[0].bounds;
    expect([minX, minY]).toEqual([expect.closeTo(-half, 1), expect.closeTo(-half, 1)]);
    expect([maxX, maxY]).toEqual([expect.closeTo(20 + half, 1), expect.closeTo(16 + half, 1)]);
    expect(Math.abs(after.measures[0].spacingMm!.median - 0.4)).toBeLessThan(0.03);
  });

  it('sews a run along its path with the needle between its old holes', () => {
    fc.assert(
      fc.property(fc.constantFrom('run-single', 'run-double', 'plain-lines'), anySeed, (family, seed) => {
        const { before, after, left } = enlargedBy(widened, FAMILIES[family](seed).design, 0.05);
        const chain = (from: Read, range: readonly [number, number]) => {
          const points = [];
          for (let i = range[0]; i <= range[1]; i++) {
            points.push(new Flatten.Point(from.stitches.x[i], from.stitches.y[i]));
          }
          return points;
        };
        before.objects.forEach((object, i) => {
          if (object.kind !== 'run') return;
          expect(left!.some((part) => part.object === object.id)).toBe(true);
          const old = chain(before, object.range);
          const now = chain(after, after.objects[i].range);
          const threads = now
            .slice(1)
            .flatMap((p, k) => (p.equalTo(now[k]) ? [] : [new Flatten.Segment(now[k], p)]));
          for (const hole of old) {
            // half of the 0.4 mm that 40-weight thread covers (common practice, no source), and some for the bend of a curve
            expect(Math.min(...threads.map((thread) => thread.distanceTo(hole)[0]))).toBeLessThan(0.3);
          }
        });
      }),
      { numRuns: someOf(10), seed: 2 },
    );
  });

  it('does not care how the design is turned', () => {
    fc.assert(
      fc.property(fc.constantFrom('satin-curved', 'fill-holes', 'letters-word'), anySeed, (family, seed) => {
        const design = FAMILIES[family](seed).design;
        const straight = enlargedBy(widened, design, 0.05).after;
        const turned = enlargedBy(
          widened,
          moved(design, (x, y) => [-y, x]),
          0.05,
        ).after;
        expect(turned.stitches.count).toBe(straight.stitches.count);
        turned.stitches.x.forEach((x, i) => {
          expect(x).toBeCloseTo(-straight.stitches.y[i], 3);
        });
      }),
      { numRuns: someOf(6), seed: 6 },
    );
  });

  it.each(['cap-front', 'incoming'])(
    'widens the columns of %s by the same and keeps their spacing',
    (name) => {
      const { before, after } = enlargedBy(widened, decodeDst(readFileSync(`samples/${name}.dst`)), 0.05);
      const wider = 0.05 * usualWidth(before);
      const off = before.measures.filter(({ widthMm, spacingMm, object }, i) => {
        if (object.kind === 'run' || object.from.length < 12) return false;
        const is = after.measures[i];
        return (
          Math.abs(is.spacingMm!.median - spacingMm!.median) > 0.03 ||
          (widthMm !== null && Math.abs(is.widthMm!.median - widthMm.median - wider) > 0.1)
        );
      });
      expect(off.map(({ object }) => object.id)).toEqual([]);
    },
  );
});

describe('an allowance', () => {
  it('of the same growth all round is a circle', () => {
    const allowance = new Allowance({ x: 0.1, y: 0.1, dx: 0, dy: 0 }, 6);
    expect(allowance.outward(0.6, 0.8)).toBeCloseTo(0.3, 12);
    expect(allowance.along(0.6, 0.8, 0)).toBeCloseTo(0.3, 12);
    expect(allowance.along(1, 0, 0.18)).toBeCloseTo(0.24, 12);
    expect(allowance.along(1, 0, 0.31)).toBeNull();
  });

  it('of different growth is an ellipse along the axes', () => {
    const allowance = new Allowance({ x: 0.2, y: 0.1, dx: 0, dy: 0 }, 6);
    expect([allowance.outward(1, 0), allowance.outward(0, 1)]).toEqual([
      expect.closeTo(0.6, 12),
      expect.closeTo(0.3, 12),
    ]);
    // ellipse (x/0.6)² + (y/0.3)² = 1 at y = 0.18: x = 0.6·0.8
    expect(allowance.along(1, 0, 0.18)).toBeCloseTo(0.48, 12);
  });
});
