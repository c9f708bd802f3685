import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boundsOf } from '../../lib/format/extent.js';
import { COMMERCIAL_HEAD } from '../../lib/materials/machine.js';
import { USUAL_THREAD_USE } from '../../lib/materials/thread-use.js';
import { layGrid, middleOf } from '../../lib/measure/grid.js';
import { mostBoxesStacked } from '../../lib/measure/layers.js';
import { measureDesign } from '../../lib/measure/measure-design.js';
import { measureObject } from '../../lib/measure/measure-object.js';
import type { DesignMeasures } from '../../lib/measure/measures.js';
import { sewSeconds } from '../../lib/measure/sew-time.js';
import { threadLength } from '../../lib/measure/thread-length.js';
import { rowsOf, Sketch } from './sketch.js';

function measured(sketch: Sketch): DesignMeasures {
  const stitches = sketch.penetrations();
  const objects = sketch.objects.map((object) => measureObject(stitches, object));
  return measureDesign(sketch.design(), stitches, objects, COMMERCIAL_HEAD, USUAL_THREAD_USE);
}

describe('totals', () => {
  const sketch = new Sketch()
    .sew([-3, 1], [2, 9])
    .jump([4, 4], [6, 6])
    .sew([7, -2])
    .cut([90, 90])
    .cut([90, 90], 'colour')
    .cut([90, 90], 'stop')
    .jump([3, 3])
    .sew([3, 3]);
  const whole = measured(sketch);

  it('count the records by kind', () => {
    expect(whole).toMatchObject({ stitches: 4, jumps: 3, trims: 1, colourChanges: 1, stops: 1 });
  });

  it('span the needle penetrations and nothing else', () => {
    expect(whole.bounds).toEqual({ minX: -3, minY: -2, maxX: 7, maxY: 9 });
    expect([whole.widthMm, whole.heightMm]).toEqual([10, 11]);
  });

  it('hold thread and time', () => {
    expect(whole.sewSeconds).toBe(sewSeconds(sketch.design(), COMMERCIAL_HEAD));
    expect(whole).toMatchObject(threadLength(sketch.penetrations(), USUAL_THREAD_USE));
  });

  it('are all nothing for a design without stitches', () => {
    const empty = measured(new Sketch().jump([5, 5]).cut([9, 9]));
    expect(empty).toMatchObject({
      stitches: 0,
      jumps: 1,
      trims: 1,
      bounds: { minX: 0, minY: 0, maxX: 0, maxY: 0 },
      threadMm: 0,
      densest: null,
      layers: null,
    });
  });
});

describe('densest place', () => {
  it('is the 2 × 2 mm with the most needle points, and where they are', () => {
    const sketch = new Sketch().sew([0, 0], [40, 40]);
    // twelve points on a spot and eight on another
    for (let i = 0; i < 12; i++) sketch.sew([20.2 + 0.05 * (i % 2), 10.3]);
    for (let i = 0; i < 8; i++) sketch.sew([30, 30]);
    const { densest } = measured(sketch);
    expect(densest?.perMm2).toBe(3);
    expect(densest?.x).toBeCloseTo(20.225, 9);
    expect(densest?.y).toBeCloseTo(10.3, 9);
    expect(densest?.stitch).toBe(13);
  });

  it('is found across the border of cells', () => {
    const sketch = new Sketch().sew([0, 0]);
    for (const [dx, dy] of [
      [-1, -1],
      [1, -1],
      [-1, 1],
      [1, 1],
    ]) {
      for (let i = 0; i < 3; i++) sketch.sew([5 + 0.1 * dx, 5 + 0.1 * dy]);
    }
    expect(measured(sketch).densest?.perMm2).toBe(3);
  });

  it('does not drown in a stray point a kilometre off', () => {
    const sketch = new Sketch().sew([0, 0], [1e6, 1e6]);
    expect(measured(sketch).densest?.stitch).toBe(0);
  });
});

describe('layers', () => {
  it('are found where they are, wherever the design lies', () => {
    const sketch = new Sketch(0, { degrees: 0, dx: -137, dy: 58, mirror: false });
    sketch.run([
      [0, 0],
      [60, 60],
    ]);
    for (let k = 0; k < 2; k++) sketch.satin([40, 20], { width: 5, length: 6 });
    const { layers } = measured(sketch);
    expect(layers?.count).toBe(2);
    expect(Math.abs((layers?.x ?? 0) - (42.5 - 137))).toBeLessThan(3);
    expect(Math.abs((layers?.y ?? 0) - (23 + 58))).toBeLessThan(3);
  });

  const field = (dx: number) => rowsOf(0.4, 20, () => [dx, dx + 20]);

  it('count what lies one over another', () => {
    const sketch = new Sketch().rows(field(0)).rows(field(10)).satin([14, 2], { width: 4, length: 12 });
    const { layers } = measured(sketch);
    expect(layers?.count).toBe(3);
    expect(layers?.x).toBeGreaterThan(13);
    expect(layers?.x).toBeLessThan(19);
    expect(layers?.y).toBeGreaterThan(1);
    expect(layers?.y).toBeLessThan(15);
  });

  it('do not count neighbours that touch, nor lines across', () => {
    const sketch = new Sketch().rows(field(0)).rows(field(20));
    sketch.run([
      [0, 10],
      [40, 10],
      [0, 10.2],
    ]);
    expect(measured(sketch).layers?.count).toBe(1);
  });

  it('count a wide column in its middle, where no needle goes', () => {
    const sketch = new Sketch()
      .satin([0, 0], { width: 8, length: 10 })
      .satin([0, 0], { width: 8, length: 10 });
    expect(measured(sketch).layers?.count).toBe(2);
  });

  it('are never more than boxes lie one over another, wherever they lie', () => {
    const place = fc.double({ min: -20, max: 20, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(place, place, fc.integer({ min: 2, max: 9 })), { minLength: 1, maxLength: 12 }),
        (columns) => {
          const sketch = new Sketch();
          for (const [x, y, size] of columns) sketch.satin([x, y], { width: size, length: 2 * size });
          const stitches = sketch.penetrations();
          const objects = sketch.objects.map((object) => measureObject(stitches, object));
          const boxes = mostBoxesStacked(stitches, objects, boundsOf(stitches));
          expect(boxes).toBeGreaterThanOrEqual(measured(sketch).layers?.count ?? 0);
          expect(boxes).toBeLessThanOrEqual(columns.length);
        },
      ),
    );
  });

  it('are none for lines alone', () => {
    expect(
      measured(
        new Sketch().run([
          [0, 0],
          [5, 0],
        ]),
      ).layers,
    ).toBeNull();
  });
});

describe('grid', () => {
  it('keeps every place in a cell of its own bounds', () => {
    const place = fc.double({ min: -1e5, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(
        fc.array(fc.tuple(place, place), { minLength: 1, maxLength: 30 }),
        fc.integer({ min: 2, max: 5000 }),
        (points, most) => {
          const stitches = new Sketch().sew(...points).penetrations();
          const grid = layGrid(boundsOf(stitches), 1, most);
          expect(grid.columns * grid.rows).toBeLessThanOrEqual(most);
          for (const [x, y] of points) {
            const [i, j] = [(x - grid.minX) / grid.cellMm, (y - grid.minY) / grid.cellMm].map(Math.floor);
            const cell = j * grid.columns + i;
            const column = cell % grid.columns;
            const row = Math.floor(cell / grid.columns);
            expect(row).toBeLessThan(grid.rows);
            expect(middleOf(grid, cell).x).toBe(grid.minX + (column + 0.5) * grid.cellMm);
            expect(middleOf(grid, cell).y).toBe(grid.minY + (row + 0.5) * grid.cellMm);
            expect(Math.abs(grid.minX + (column + 0.5) * grid.cellMm - x)).toBeLessThanOrEqual(
              0.5001 * grid.cellMm,
            );
            expect(Math.abs(grid.minY + (row + 0.5) * grid.cellMm - y)).toBeLessThanOrEqual(
              0.5001 * grid.cellMm,
            );
          }
        },
      ),
    );
  });

  it('has the cells asked for where they fit', () => {
    expect(layGrid({ minX: 0, minY: 0, maxX: 10, maxY: 4.5 }, 1, 1000)).toMatchObject({
      cellMm: 1,
      columns: 11,
      rows: 5,
    });
  });
});

describe('measures of a design', () => {
  it('are the same after turning by a quarter, moving and mirroring', () => {
    // the trim at the start keeps the way from the origin out of the time
    const draw = (sketch: Sketch) =>
      sketch
        .cut([0, 0])
        .rows(rowsOf(0.4, 12, () => [0, 18]))
        .cut([0, 30])
        .satin([2, 30], { width: 5, length: 12 });
    const still = measured(draw(new Sketch()));
    const turn = fc.record({
      degrees: fc.constantFrom(0, 90, 180, 270),
      dx: fc.integer({ min: -99, max: 99 }),
      dy: fc.integer({ min: -99, max: 99 }),
      mirror: fc.boolean(),
    });
    fc.assert(
      fc.property(turn, (t) => {
        const moved = measured(draw(new Sketch(0, t)));
        expect(moved.threadMm).toBeCloseTo(still.threadMm, 6);
        expect(moved.sewSeconds).toBeCloseTo(still.sewSeconds, 6);
        const sides =
          t.degrees % 180 === 0 ? [still.widthMm, still.heightMm] : [still.heightMm, still.widthMm];
        expect(moved.widthMm).toBeCloseTo(sides[0], 6);
        expect(moved.heightMm).toBeCloseTo(sides[1], 6);
        expect(moved.layers?.count).toBe(still.layers?.count);
      }),
    );
  });

  it('hold no number that is not finite, and change nothing', () => {
    const place = fc.oneof(fc.double({ min: -1e6, max: 1e6, noNaN: true }), fc.integer({ min: -2, max: 2 }));
    fc.assert(
      fc.property(fc.array(fc.tuple(place, place), { maxLength: 30 }), (points) => {
        const sketch = new Sketch();
        if (points.length > 4) sketch.column(points);
        const before = structuredClone(sketch.design());
        const design = Object.freeze(sketch.design());
        const stitches = Object.freeze(sketch.penetrations());
        const objects = sketch.objects.map((o) => measureObject(stitches, o));
        const whole = measureDesign(design, stitches, objects, COMMERCIAL_HEAD, USUAL_THREAD_USE);
        expect(
          JSON.stringify(whole, (_, v) => (typeof v === 'number' && !Number.isFinite(v) ? 'BAD' : v)),
        ).not.toContain('BAD');
        expect(design).toEqual(before);
      }),
    );
  });
});
