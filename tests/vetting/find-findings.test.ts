import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { HOOP_FIELDS, PLACES } from '../../lib/materials/places.js';
import { wordsOf } from '../../lib/report/phrases/words-of.js';
import { findFindings } from '../../lib/vetting/find-findings.js';
import { rowsOf, Sketch, type Vec } from '../measure/sketch.js';
import { contextOf, vetted } from './vetted.js';

/** One thread with its locks, as a careful hand would sew it. */
const locked = (at: Vec): Vec[] => [at, [at[0] + 0.8, at[1]], at, [at[0] + 0.8, at[1]]];

function careful(): Sketch {
  const sketch = new Sketch(0.1);
  sketch
    .sew(...locked([0, 0]))
    .rows(rowsOf(0.4, 20, () => [0, 30]))
    .sew(...locked([30, 20]));
  sketch.cut([40, 0]).sew(...locked([40, 0]));
  sketch.satin([40, 0], { width: 3, length: 20 }, { under: ['edge-run'] }).sew(...locked([40, 20]));
  sketch.cut([0, 30], 'colour').sew(...locked([0, 30]));
  sketch.run(Array.from({ length: 12 }, (_, i): Vec => [2.5 * i, 30])).sew(...locked([27.5, 30]));
  return sketch;
}

describe('findings', () => {
  it('are none for a careful design that fits', () => {
    const place = PLACES.find(({ id }) => id === 'left-chest');
    const hoop = HOOP_FIELDS.find(({ id }) => id === 'round-120');
    expect(vetted(careful(), { place, hoop })).toEqual([]);
  });

  it('come severest first, then of the whole design, then in sewing order', () => {
    const sketch = new Sketch();
    sketch.satin([0, 0], { width: 0.7, length: 20 });
    sketch.cut([20, 0]).satin([20, 0], { width: 8, length: 20 });
    sketch.cut([40, 0]).satin([40, 0], { width: 14, length: 20 });
    sketch.diagnostics.push({
      code: 'file-record-count',
      params: { key: 'ST', claimed: 9, counted: 8 },
      byte: 3,
    });
    const order = vetted(sketch).map(({ severity, stitch }) => [severity, stitch ?? -1] as const);
    const rank = { fail: 0, warn: 1, note: 2 };
    const sorted = [...order].sort((a, b) => rank[a[0]] - rank[b[0]] || a[1] - b[1]);
    expect(order).toEqual(sorted);
    expect(order[0][0]).toBe('fail');
    expect(order.filter(([severity]) => severity === 'warn')[0][1]).toBe(-1);
  });

  it('are one a fault and object, however often the fault is there', () => {
    const sketch = new Sketch();
    for (let k = 0; k < 3; k++) {
      if (k > 0) sketch.cut([20 * k, 0]);
      const points = Array.from({ length: 400 }, (_, i): Vec => [20 * k + (i % 2 === 0 ? 0 : 0.2), 0.3 * i]);
      sketch.run(points, { locks: { start: false, end: false } });
    }
    const findings = vetted(sketch);
    const keys = findings.map(({ code, object }) => `${code} ${object}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(findings.filter(({ code }) => code === 'stitch-too-short')).toHaveLength(3);
  });

  it('say in plain words what is wrong and what to do, and rest on something', () => {
    const sketch = new Sketch();
    sketch.satin([0, 0], { width: 14, length: 20, spacing: 0.15 }, { locks: { start: false, end: false } });
    sketch.jump([60, 0], [70, 0]).rows(rowsOf(1.5, 20, () => [80, 99]));
    const findings = vetted(sketch, { place: PLACES[0], hoop: HOOP_FIELDS[0] });
    expect(findings.length).toBeGreaterThan(5);
    for (const finding of findings) {
      const { code, basis, measured } = finding;
      const message = wordsOf(finding, { units: 'mm', detail: 'full' });
      expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
      expect(message).toMatch(/^[A-Z0-9].*\.$/);
      expect(message).not.toMatch(/NaN|undefined|null|Infinity/);
      expect(basis).not.toBe('');
      expect(measured).not.toBeNull();
    }
  });

  it('hold only finite figures and places of their own stitches, and change nothing', () => {
    const place = fc.oneof(fc.double({ min: -300, max: 300, noNaN: true }), fc.integer({ min: -2, max: 2 }));
    const points = fc.array(fc.tuple(place, place), { minLength: 5, maxLength: 60 });
    // Places that differ, though the square of their distance comes out as nothing.
    const onePlace = [
      [0, 0.15000100000000002],
      [0, 0],
      [0, 1],
      [0, 2],
      [0, 0],
      [0, 0],
    ] as [number, number][];
    const almostOnePlace = [
      [0, 0],
      [0, 0],
      [0, 0],
      [-5e-324, 0],
      [1, -1],
    ] as [number, number][];
    fc.assert(
      fc.property(points, points, fc.constantFrom('jump', 'trim', 'stop'), (a, b, way) => {
        const sketch = new Sketch().column(a);
        if (way === 'jump') sketch.jump(b[0]);
        else sketch.cut(b[0], way);
        sketch.run(b, { locks: { start: false, end: true } });
        const context = contextOf(sketch, { place: PLACES[1], hoop: HOOP_FIELDS[0] });
        const before = structuredClone({ ...context, limits: null });
        const findings = findFindings(Object.freeze(context));
        expect({ ...context, limits: null }).toEqual(before);
        for (const finding of findings) {
          const { measured, at, stitch } = finding;
          const message = wordsOf(finding, { units: 'mm', detail: 'full' });
          if (typeof measured === 'number') expect(Number.isFinite(measured)).toBe(true);
          if (at) expect(Number.isFinite(at.x + at.y)).toBe(true);
          if (stitch !== null) expect(stitch).toBeLessThan(context.stitches.count);
          expect(message).not.toMatch(/NaN|undefined|Infinity/);
        }
      }),
      { examples: [[onePlace, almostOnePlace, 'jump']] },
    );
  });

  it('are the same wherever the design lies', () => {
    const faulty = (sketch: Sketch) => {
      sketch.satin([0, 0], { width: 8, length: 20 });
      sketch.jump([20, 0]).rows(rowsOf(0.25, 12, () => [25, 40]));
      return sketch;
    };
    const codes = (sketch: Sketch) =>
      vetted(faulty(sketch)).map(({ code, severity, object }) => [code, severity, object]);
    const still = codes(new Sketch());
    const turn = fc.record({
      degrees: fc.double({ min: 0, max: 360, noNaN: true }),
      dx: fc.double({ min: -200, max: 200, noNaN: true }),
      dy: fc.double({ min: -200, max: 200, noNaN: true }),
      mirror: fc.boolean(),
    });
    expect(still.length).toBeGreaterThan(3);
    fc.assert(
      fc.property(turn, (t) => {
        expect(codes(new Sketch(0, t))).toEqual(still);
      }),
      { numRuns: 40 },
    );
  });
});
