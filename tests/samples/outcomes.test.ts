import { describe, expect, it } from 'vitest';
import { axisDifferenceDeg, foldDeg180 } from '../../lib/core/axis.js';
import { radToDeg } from '../../lib/core/units.js';
import { Kind } from '../../lib/format/design.js';
import { Break } from '../../lib/format/stitches.js';
import type { TrueObject } from '../../samples/stitching/truth.js';
import { type Met, median, met } from './reading.js';

/** Directions of the steps within an object, as axes, each weighted by the step's length. */
function meanStepAxisDeg({ stitches: { x, y } }: Met, [first, last]: readonly [number, number]): number {
  let c = 0;
  let s = 0;
  for (let i = first + 1; i <= last; i++) {
    const [dx, dy] = [x[i] - x[i - 1], y[i] - y[i - 1]];
    const length = Math.hypot(dx, dy);
    const twice = 2 * Math.atan2(dy, dx);
    c += length * Math.cos(twice);
    s += length * Math.sin(twice);
  }
  return foldDeg180(radToDeg(Math.atan2(s, c) / 2));
}

/** Straight satin whose every step is a full swing. */
const plain = (o: TrueObject): boolean =>
  o.kind === 'satin' && !o.split && o.shortened === 0 && o.angleDeg !== null && o.stitches >= 20;

describe.each(met)('what is expected of $file', (sample) => {
  const { outcome, stitches, design, parts } = sample;

  it('counts and sizes what the file holds', () => {
    const trims = design.kind.filter((k) => k === Kind.trim).length;
    const colours = design.kind.filter((k) => k === Kind.colour).length;
    expect(stitches.count).toBe(outcome.stitches);
    expect(parts).toHaveLength(outcome.stitches);
    expect(colours).toBe(outcome.colourChanges);
    // The way from the origin to the first stitch may read as one trim more.
    expect(trims - outcome.trims).toBeGreaterThanOrEqual(0);
    expect(trims - outcome.trims).toBeLessThanOrEqual(1);
    const span = (v: Float64Array): number =>
      v.reduce((a, b) => Math.max(a, b)) - v.reduce((a, b) => Math.min(a, b));
    expect(span(stitches.x)).toBeCloseTo(outcome.widthMm, 6);
    expect(span(stitches.y)).toBeCloseTo(outcome.heightMm, 6);
  });

  it('gives every underlay and top stitch to one object, in sewing order', () => {
    const owner = new Int32Array(stitches.count);
    let before = -1;
    for (const o of outcome.objects) {
      expect(o.stitchRange[0]).toBeGreaterThan(before);
      before = o.stitchRange[1];
      const spans: [readonly [number, number] | null, string][] = [
        [o.underlay.stitchRange, 'u'],
        [o.stitchRange, 's'],
      ];
      for (const [range, letter] of spans) {
        if (!range) continue;
        expect(parts.slice(range[0], range[1] + 1)).toBe(letter.repeat(range[1] - range[0] + 1));
        for (let i = range[0]; i <= range[1]; i++) owner[i]++;
      }
      expect(o.stitches).toBe(o.stitchRange[1] - o.stitchRange[0] + 1);
      expect(o.underlay.kinds.length > 0).toBe(o.underlay.stitchRange !== null);
    }
    const due = Array.from(parts, (part) => (part === 'u' || part === 's' ? 1 : 0));
    expect(owner.findIndex((n, i) => n !== due[i])).toBe(-1);
  });

  it('puts objects into the colour block and the thread they are sewn in', () => {
    for (const o of outcome.objects) {
      expect(stitches.block[o.stitchRange[0]] + 1).toBe(o.block);
      const within = stitches.breakBefore.subarray(o.stitchRange[0] + 1, o.stitchRange[1] + 1);
      expect(
        within.every((b) => b === Break.none),
        o.label,
      ).toBe(true);
    }
  });

  it('states widths and spacings that the needle points of straight columns have', () => {
    const { x, y } = stitches;
    for (const o of outcome.objects.filter(plain)) {
      const [first, last] = o.stitchRange;
      const heights: number[] = [];
      const steps: number[] = [];
      for (let i = first + 1; i < last; i++) {
        const [dx, dy] = [x[i + 1] - x[i - 1], y[i + 1] - y[i - 1]];
        const step = Math.hypot(dx, dy);
        steps.push(step);
        // Height of the triangle of three points: the way across the column from the middle one to the other rail.
        heights.push(Math.abs((x[i] - x[i - 1]) * dy - (y[i] - y[i - 1]) * dx) / step);
      }
      const width = o.widthMm as NonNullable<typeof o.widthMm>;
      const spacing = o.spacingMm as NonNullable<typeof o.spacingMm>;
      // Positions are on a grid of 0.1 mm, which turns the short base of each triangle by some degrees.
      expect(Math.abs(median(heights) - width.median), `${o.label}: width`).toBeLessThan(
        0.15 + width.median * 0.02,
      );
      expect(Math.abs(median(steps) - spacing.median), `${o.label}: spacing`).toBeLessThan(0.08);
    }
  });

  it('states directions that the stitches have', () => {
    for (const o of outcome.objects) {
      if (o.angleDeg === null || o.kind === 'run' || o.stitches < 20) continue;
      const off = axisDifferenceDeg(meanStepAxisDeg(sample, o.stitchRange), o.angleDeg);
      expect(off, o.label).toBeLessThan(o.kind === 'fill' ? 3 : 6);
    }
  });

  it('states row spacings that the rows of fills have', () => {
    const { x, y } = stitches;
    for (const o of outcome.objects.filter(({ kind }) => kind === 'fill')) {
      const spacing = (o.spacingMm as NonNullable<typeof o.spacingMm>).median;
      const a = ((o.angleDeg as number) * Math.PI) / 180;
      const across = (i: number): number => -x[i] * Math.sin(a) + y[i] * Math.cos(a);
      const levels = Array.from({ length: o.stitches }, (_, i) => across(o.stitchRange[0] + i));
      // Points fall on evenly spaced lines: the phases of their levels agree (mean resultant length of the circle).
      const phase = levels.map((v) => (2 * Math.PI * v) / spacing);
      const c = phase.reduce((sum, p) => sum + Math.cos(p), 0) / phase.length;
      const s = phase.reduce((sum, p) => sum + Math.sin(p), 0) / phase.length;
      expect(Math.hypot(c, s), o.label).toBeGreaterThan(spacing < 0.3 ? 0.3 : 0.6);
    }
  });
});
