import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axisDifferenceDeg } from '../../lib/core/axis.js';
import { measureObject } from '../../lib/measure/measure-object.js';
import type { PackedMeasures } from '../../lib/measure/measures.js';
import { rowsOf, Sketch, type Turn, type Vec } from './sketch.js';

const measured = (sketch: Sketch): PackedMeasures => measureObject(sketch.penetrations(), sketch.objects[0]);

/** A column along a circle about the origin: swings from the inner to the outer rail and back. */
function bend(radius: number, width: number, sweepDeg: number, spacing: number): Vec[] {
  const swings = Math.round((2 * radius * sweepDeg * Math.PI) / 180 / spacing);
  return Array.from({ length: swings + 1 }, (_, i): Vec => {
    const a = (i / swings) * ((sweepDeg * Math.PI) / 180);
    const r = radius + (i % 2 === 0 ? -width / 2 : width / 2);
    return [r * Math.cos(a), r * Math.sin(a)];
  });
}

describe('a satin column', () => {
  const column = measured(new Sketch().satin([10, 5], { width: 4, length: 30 }));

  it('has its width, spacing, length, direction and area', () => {
    for (const w of Object.values(column.widthMm ?? {})) expect(w).toBeCloseTo(4, 6);
    for (const s of Object.values(column.spacingMm ?? {})) expect(s).toBeCloseTo(0.4, 6);
    expect(column.lengthMm).toBeCloseTo(30, 0);
    expect(Math.abs(column.areaMm2 / 120 - 1)).toBeLessThan(0.01);
    expect(axisDifferenceDeg(column.angleDeg ?? Number.NaN, 0)).toBeLessThan(0.5);
    expect(column.bounds).toEqual({ minX: 10, minY: 5, maxX: 14, maxY: 35 });
  });

  it('has stitches as long as the thread lies and needle points by the area', () => {
    expect(column.stitches).toBe(151);
    expect(column.stitchLengthMm.median).toBeCloseTo(Math.hypot(4, 0.2), 9);
    expect(column.densityPerMm2).toBeCloseTo(151 / column.areaMm2, 12);
  });

  it('is measured across and not along slanted swings', () => {
    const slant = Math.tan((30 * Math.PI) / 180);
    const rails = Array.from({ length: 151 }, (_, i): Vec => [(i % 2) * 4, i * 0.2 + (i % 2) * 4 * slant]);
    const { widthMm, spacingMm, stitchLengthMm } = measured(new Sketch().column(rails));
    expect(widthMm?.median).toBeCloseTo(4, 2);
    expect(spacingMm?.median).toBeCloseTo(0.4, 2);
    expect(stitchLengthMm.median).toBeGreaterThan(4.5);
  });

  it('keeps to the closed forms on a ring from 15 to 20 mm', () => {
    const ring = measured(new Sketch().column(bend(17.5, 5, 360, 0.4)));
    expect(Math.abs(ring.areaMm2 / 549.7787 - 1)).toBeLessThan(0.01);
    expect(ring.widthMm?.median).toBeCloseTo(5, 1);
    expect(Math.abs((ring.spacingMm?.median ?? 0) - 0.4)).toBeLessThan(0.03);
    expect(Math.abs(ring.lengthMm / (2 * Math.PI * 17.5) - 1)).toBeLessThan(0.02);
    expect(ring.angleDeg).toBeNull();
  });

  it('tells its widest swing by the stitch that begins it', () => {
    const widths = Array.from({ length: 41 }, (_, i) => 2 + 3 * Math.exp(-(((i - 25) / 4) ** 2)));
    const rails = widths.map((w, i): Vec => [i % 2 === 0 ? -w / 2 : w / 2, i * 0.2]);
    const { widestAt, widthMm } = measured(new Sketch().column(rails));
    expect(Math.abs((widestAt?.stitch ?? 0) - 24.5)).toBeLessThan(1.6);
    const at = rails[widestAt?.stitch ?? 0];
    expect([widestAt?.x, widestAt?.y]).toEqual([...at]);
    expect(widthMm?.max).toBeGreaterThan(4.8);
    expect(widthMm?.min).toBeLessThan(2.1);
  });
});

describe('a fill', () => {
  it('has row distance, direction, length of its rows and area, and no width', () => {
    const fill = measured(new Sketch().rows(rowsOf(0.4, 20, () => [0, 30])));
    expect(fill.spacingMm?.median).toBeCloseTo(0.4, 9);
    expect(fill.angleDeg).toBeCloseTo(0, 9);
    expect(fill.areaMm2).toBeCloseTo(600, 6);
    expect(fill.lengthMm).toBeCloseTo(51 * 30, 6);
    expect([fill.widthMm, fill.widestAt]).toEqual([null, null]);
    expect(fill.stitchLengthMm.max).toBeLessThanOrEqual(3.6);
    expect(fill.stitchLengthMm.min).toBeCloseTo(0.4, 9);
    expect(fill.densityPerMm2).toBeCloseTo(fill.stitches / 600, 9);
  });
});

describe('a run', () => {
  it('is a length without width, spacing, direction, area or density', () => {
    const run = measured(
      new Sketch().run([
        [0, 0],
        [3, 4],
        [3, 6],
      ]),
    );
    expect(run).toMatchObject({
      lengthMm: 7,
      areaMm2: 0,
      densityPerMm2: 0,
      angleDeg: null,
      widthMm: null,
      spacingMm: null,
      widestAt: null,
      stitchLengthMm: { min: 2, median: 3.5, max: 5 },
    });
  });

  it('counts the thread over jumps, and not the way behind a trim', () => {
    const over = new Sketch().run([]);
    over.sew([0, 0]).jump([7, 0], [13, 0]).sew([14, 0]);
    const [object] = over.objects;
    const pair = { ...object, range: [0, 1] as const };
    expect(measureObject(over.penetrations(), pair).stitchLengthMm.max).toBe(14);
    const behind = new Sketch().sew([0, 0]).cut([14, 0]).sew([14, 0], [15, 0]);
    const cut = measureObject(behind.penetrations(), { ...object, range: [0, 2] as const });
    expect(cut.stitchLengthMm).toEqual({ min: 1, median: 1, max: 1 });
    expect(cut.lengthMm).toBe(1);
  });

  it('of one needle point has no length', () => {
    const dot = measured(new Sketch().run([[4, 4]]));
    expect(dot.stitchLengthMm).toEqual({ min: 0, median: 0, max: 0 });
    expect(dot.lengthMm).toBe(0);
  });
});

const turn: fc.Arbitrary<Turn> = fc.record({
  degrees: fc.double({ min: 0, max: 360, noNaN: true }),
  dx: fc.double({ min: -300, max: 300, noNaN: true }),
  dy: fc.double({ min: -300, max: 300, noNaN: true }),
  mirror: fc.boolean(),
});

describe('measures', () => {
  it('are the same after turning, moving and mirroring', () => {
    const shapes: ((s: Sketch) => Sketch)[] = [
      (s) => s.column(bend(12, 4, 140, 0.4)),
      (s) => s.rows(rowsOf(0.45, 14, (y) => [y / 4, 22 - y / 3])),
    ];
    fc.assert(
      fc.property(turn, fc.constantFrom(...shapes), (t, draw) => {
        const still = measured(draw(new Sketch()));
        const moved = measured(draw(new Sketch(0, t)));
        for (const key of ['areaMm2', 'lengthMm', 'densityPerMm2'] as const) {
          expect(moved[key]).toBeCloseTo(still[key], 5);
        }
        expect(moved.widthMm?.median ?? 0).toBeCloseTo(still.widthMm?.median ?? 0, 5);
        expect(moved.spacingMm?.median).toBeCloseTo(still.spacingMm?.median ?? Number.NaN, 5);
        expect(moved.stitchLengthMm.max).toBeCloseTo(still.stitchLengthMm.max, 6);
        if (still.angleDeg !== null) {
          const expected = (t.mirror ? -1 : 1) * still.angleDeg + t.degrees;
          expect(axisDifferenceDeg(moved.angleDeg ?? Number.NaN, expected)).toBeLessThan(1e-4);
        }
      }),
    );
  });

  it('stay within the grid of a file wherever the column lies', () => {
    fc.assert(
      fc.property(turn, (t) => {
        const onGrid = measured(new Sketch(0.1, t).satin([0, 0], { width: 5, length: 20 }));
        expect(Math.abs((onGrid.widthMm?.median ?? 0) - 5)).toBeLessThan(0.1);
        expect(Math.abs((onGrid.spacingMm?.median ?? 0) - 0.4)).toBeLessThan(0.03);
      }),
    );
  });

  it('hold no number that is not finite, whatever the points', () => {
    const place = fc.oneof(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.integer({ min: -3, max: 3 }));
    const points = fc.array(fc.tuple(place, place), { minLength: 5, maxLength: 40 });
    fc.assert(
      fc.property(points, fc.constantFrom('satin', 'fill', 'run'), (raw, kind) => {
        const sketch = new Sketch();
        if (kind === 'satin') sketch.column(raw);
        else if (kind === 'run') sketch.run(raw);
        else sketch.rows(raw.map(([a, b]) => [b, a, a + Math.abs(b % 7)] as const));
        const { object: _object, ...numbers } = measured(sketch).toJSON();
        const flat = JSON.stringify(numbers, (_, v) =>
          typeof v === 'number' && !Number.isFinite(v) ? 'NOT FINITE' : v,
        );
        expect(flat).not.toContain('NOT FINITE');
      }),
      // An area so small that a density on it is past all numbers.
      {
        examples: [
          [
            [
              [0, 0],
              [0, 0],
              [0, 0],
              [0, -1],
              [1e-323, 0],
            ],
            'satin',
          ],
        ],
      },
    );
  });

  it('change nothing of what they are taken from', () => {
    for (const sketch of [
      new Sketch().satin([0, 0], { width: 4, length: 8 }),
      new Sketch().rows(rowsOf(0.4, 4, () => [0, 12])),
    ]) {
      const stitches = Object.freeze(sketch.penetrations());
      const object = Object.freeze(sketch.objects[0]);
      const before = structuredClone({ stitches, object });
      measureObject(stitches, object);
      expect({ stitches, object }).toEqual(before);
    }
  });
});
