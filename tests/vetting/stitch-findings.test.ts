import { describe, expect, it } from 'vitest';
import { rowsOf, Sketch, type Vec } from '../measure/sketch.js';
import { said } from './said.js';
import { found } from './vetted.js';

const line = (length: number, stitch: number, y = 0): Vec[] =>
  Array.from({ length: Math.round(length / stitch) + 1 }, (_, i): Vec => [i * stitch, y]);

describe('fills', () => {
  const fill = (spacing: number, stitch = 3) =>
    new Sketch().rows(
      rowsOf(spacing, 12, () => [0, 20]),
      { stitch },
    );

  it('are too dense below 0.3 mm between rows, and a failure below 0.2 mm', () => {
    expect(found('fill-too-dense', fill(0.35))).toEqual([]);
    expect(found('fill-too-dense', fill(0.25))).toMatchObject([
      { severity: 'warn', object: 1, stitch: 0, limit: 0.3 },
    ]);
    expect(found('fill-too-dense', fill(0.15))).toMatchObject([{ severity: 'fail', limit: 0.2 }]);
  });

  it('are too open above 0.6 mm, a warning above 0.9 mm', () => {
    expect(found('fill-too-open', fill(0.55))).toEqual([]);
    expect(found('fill-too-open', fill(0.75))).toMatchObject([{ severity: 'note', limit: 0.6 }]);
    expect(found('fill-too-open', fill(1.2))).toMatchObject([{ severity: 'warn', limit: 0.9 }]);
  });

  it('can have too many needle points at an ordinary row distance', () => {
    expect(found('fill-too-many-points', fill(0.4))).toEqual([]);
    const [finding] = found('fill-too-many-points', fill(0.4, 0.5));
    expect(finding).toMatchObject({ severity: 'warn', object: 1, stitch: 0, limit: 4, unit: 'points/mm²' });
    // a point each 0.5 mm on rows 0.4 mm apart
    expect(finding.measured).toBeGreaterThan(4.5);
    expect(finding.measured).toBeLessThan(5.5);
  });
});

describe('stitches too short', () => {
  const withShort = (short: number, times: number) => {
    const points = line(60, 3);
    const last = points[points.length - 1][0];
    for (let i = 1; i <= times; i++) points.push([last + 3 * i - short, 0], [last + 3 * i, 0]);
    points.push([last + 3 * times + 3, 0]);
    return new Sketch().run(points);
  };

  it('are a note while they are few and a warning when they are many', () => {
    expect(found('stitch-too-short', withShort(0.6, 10))).toEqual([]);
    const [few] = found('stitch-too-short', withShort(0.3, 1));
    expect(few).toMatchObject({ severity: 'note', object: 1, limit: 0.5, unit: 'mm' });
    expect(few.measured).toBeCloseTo(0.3, 9);
    expect(said(few)).toContain('One stitch is only');
    // stitches of 0.6 mm beside it are not short
    const beside: Vec[] = [...line(30, 3), [30.6, 0], [33, 0], [33.6, 0], [36, 0], [36.3, 0], [39, 0]];
    expect(said(found('stitch-too-short', new Sketch().run(beside))[0])).toContain('One stitch is only');
    const [many] = found('stitch-too-short', withShort(0.3, 5));
    expect(many).toMatchObject({ severity: 'warn', object: 1 });
    expect(said(many)).toContain('5 stitches are shorter');
  });

  it('are one finding, at the shortest', () => {
    const points: Vec[] = [...line(30, 3), [30.4, 0], [33, 0], [33.1, 0], [36, 0], [36.4, 0], [39, 0]];
    expect(found('stitch-too-short', new Sketch().run(points))).toMatchObject([
      { stitch: 13, at: { x: 33.1, y: 0 } },
    ]);
  });

  it('are a note when there are three of them in a thousand', () => {
    const points = line(3000, 3);
    for (const x of [3002, 3004, 3006]) points.push([x, 0], [x + 0.2, 0]);
    expect(found('stitch-too-short', new Sketch().run(points))).toMatchObject([{ severity: 'note' }]);
  });

  it('are not the lock stitches at the ends of a thread', () => {
    const lock: Vec[] = [
      [0, 0],
      [0.4, 0],
      [0, 0],
      [0.4, 0],
      [0, 0],
    ];
    const sketch = new Sketch().run([...lock, ...line(30, 3), [29.6, 0], [30, 0], [29.6, 0]]);
    expect(found('stitch-too-short', sketch)).toEqual([]);
  });

  it('are not the steps from row to row, whichever way the rows lie', () => {
    for (const degrees of [0, 30, 45, 90, 137]) {
      for (const stepInRow of [false, true]) {
        const sketch = new Sketch(0, { degrees, dx: 4, dy: 9, mirror: false });
        sketch.rows(
          rowsOf(0.4, 12, () => [0, 20]),
          { stepInRow },
        );
        expect(found('stitch-too-short', sketch)).toEqual([]);
      }
    }
  });
});

describe('stitches too long', () => {
  it('are said from 7 mm, a failure from 12.1 mm, a note while they are few', () => {
    expect(found('stitch-too-long', new Sketch().run(line(60, 6.5)))).toEqual([]);
    const [finding] = found('stitch-too-long', new Sketch().run(line(72, 8)));
    expect(finding).toMatchObject({ severity: 'warn', object: 1, limit: 7, measured: 8 });
    expect(said(finding)).toContain('9 stitches are longer');
    expect(found('stitch-too-long', new Sketch().run(line(65, 13)))).toMatchObject([
      { severity: 'fail', limit: 12.1 },
    ]);
    expect(
      found(
        'stitch-too-long',
        new Sketch().run([
          [0, 0],
          [3, 0],
          [12, 0],
          [15, 0],
        ]),
      ),
    ).toMatchObject([{ severity: 'note', stitch: 2, at: { x: 12, y: 0 }, measured: 9 }]);
  });

  it('are not said again of a column that is too wide', () => {
    const wide = new Sketch().satin([0, 0], { width: 9, length: 12 });
    expect(found('satin-too-wide', wide)).toHaveLength(1);
    expect(found('stitch-too-long', wide)).toEqual([]);
  });

  it('are said of a narrow column with steeply slanted swings, and of split satin with long parts', () => {
    const rails = Array.from({ length: 81 }, (_, i): Vec => [(i % 2) * 5, i * 0.2 + (i % 2) * 6]);
    expect(found('stitch-too-long', new Sketch().column(rails))).toMatchObject([{ severity: 'warn' }]);
    const split = new Sketch().satin([0, 0], { width: 18, length: 12, broken: true });
    expect(found('stitch-too-long', split)).toMatchObject([{ severity: 'warn' }]);
  });
});

describe('needle points piled on one spot', () => {
  const spot = (times: number, spread = 0) => {
    const points: Vec[] = line(30, 3);
    for (let i = 0; i < times; i++) {
      points.push([30 + spread * Math.cos(2.4 * i), 4 + spread * Math.sin(2.4 * i)], [33, 7 + i]);
    }
    return new Sketch().run(points);
  };

  it('are said from six on, a failure from twelve on, with their number and place', () => {
    expect(found('needle-points-piled', spot(5))).toEqual([]);
    const [six] = found('needle-points-piled', spot(6, 0.1));
    expect(six).toMatchObject({ severity: 'warn', object: 1, measured: 6, limit: 5, stitch: 21 });
    expect(Math.hypot((six.at?.x ?? 0) - 30, (six.at?.y ?? 0) - 4)).toBeLessThan(0.1);
    expect(found('needle-points-piled', spot(12, 0.14))).toMatchObject([
      { severity: 'fail', measured: 12, limit: 11 },
    ]);
  });

  it('are found wherever they lie, across the borders of any cells', () => {
    for (let dx = 0; dx < 0.3; dx += 0.037) {
      for (let dy = 0; dy < 0.3; dy += 0.041) {
        const sketch = new Sketch(0, { degrees: 31, dx, dy, mirror: false });
        const points: Vec[] = [
          [-20, -20],
          [20, 20],
        ];
        for (let i = 0; i < 8; i++) points.push([0.14 * Math.cos(i), 0.14 * Math.sin(i)], [5, 3 + i]);
        expect(found('needle-points-piled', sketch.run(points))).toMatchObject([{ measured: 8 }]);
      }
    }
  });

  it('are as many as lie within 0.3 mm of each other and no more', () => {
    const points: Vec[] = line(30, 3);
    // six on one spot and six more 0.4 mm off: two spots, not one
    for (let i = 0; i < 6; i++) points.push([40, 4], [44, 7 + i], [40.4, 4], [36, 7 + i]);
    expect(found('needle-points-piled', new Sketch().run(points))).toMatchObject([{ measured: 6 }]);
  });

  it('are on one spot at exactly 0.3 mm from each other, and not beyond', () => {
    const pair = (apart: number) => {
      const points: Vec[] = line(30, 3);
      for (let i = 0; i < 3; i++) points.push([40, 4], [44, 7 + i], [40 + apart, 4], [36, 7 + i]);
      return found('needle-points-piled', new Sketch().run(points));
    };
    expect(pair(0.3)).toMatchObject([{ measured: 6 }]);
    expect(pair(0.31)).toEqual([]);
  });

  it('are what a knot has beyond the nine stitches of a lock', () => {
    const lock = (points: number): Vec[] =>
      Array.from({ length: points }, (_, i): Vec => [i % 2 === 0 ? 0 : 0.2, 0]);
    const more: Vec[] = [
      [3, 0],
      [0.1, 0],
      [3, 3],
      [0.1, 0],
      [3, 6],
      [0.1, 0],
      [3, 9],
      [6, 9],
    ];
    expect(found('needle-points-piled', new Sketch().run([...lock(12), ...more]))).toEqual([]);
    expect(found('needle-points-piled', new Sketch().run([...lock(13), ...more]))).toMatchObject([
      { measured: 6 },
    ]);
  });

  it('are not the locks where one thread ends and the next begins', () => {
    const lock: Vec[] = [
      [30, 0],
      [30.2, 0],
      [30, 0],
      [30.2, 0],
    ];
    const sketch = new Sketch()
      .run([...line(27, 3), ...lock])
      .cut([30, 0])
      .run([...lock, ...line(27, 3)]);
    expect(found('needle-points-piled', sketch)).toEqual([]);
  });

  it('are a knot of ever so many lock stitches all the same', () => {
    const knot: Vec[] = Array.from({ length: 24 }, (_, i): Vec => [(i % 2) * 0.2, 0]);
    const [finding] = found('needle-points-piled', new Sketch().run([...knot, ...line(30, 3)]));
    expect(finding.severity).toBe('fail');
  });

  it('are not an ordinary tight bend, nor dense rows', () => {
    // 4 mm wide around a bend of 3 mm: the inner rail turns at 1 mm with swings 0.13 mm apart
    const bend = Array.from({ length: 48 }, (_, i): Vec => {
      const a = (i / 47) * Math.PI;
      const r = i % 2 === 0 ? 1 : 5;
      return [r * Math.cos(a), r * Math.sin(a)];
    });
    expect(found('needle-points-piled', new Sketch(0.1).column(bend))).toEqual([]);
    const dense = new Sketch(0.1).rows(
      rowsOf(0.3, 9, () => [0, 9]),
      { stitch: 1 },
    );
    expect(found('needle-points-piled', dense)).toEqual([]);
  });

  it('are a bend that turns about one point', () => {
    const fan = Array.from({ length: 48 }, (_, i): Vec => {
      const a = (i / 47) * Math.PI;
      return i % 2 === 0 ? [0, 0] : [4 * Math.cos(a), 4 * Math.sin(a)];
    });
    expect(found('needle-points-piled', new Sketch(0.1).column(fan))).toMatchObject([
      { severity: 'fail', measured: 24 },
    ]);
  });

  it('are counted exactly however many there are', () => {
    const points: Vec[] = [[-5, -5]];
    for (let i = 0; i < 700; i++) points.push([0, 0], [8, 8 + i]);
    expect(found('needle-points-piled', new Sketch().run(points))).toMatchObject([{ measured: 700 }]);
  });
});

describe('dense and thick places', () => {
  it('are said of the densest 2 × 2 mm, with the object that is sewn there', () => {
    const points = (n: number): Vec[] =>
      Array.from({ length: n }, (_, i): Vec => [0.05 + (i % 7) * 0.27, 0.05 + ((i * 3) % 8) * 0.24]);
    const sketch = (n: number) =>
      new Sketch()
        .run([
          [0, 0],
          [30, 30],
        ])
        .run(points(n));
    expect(found('dense-place', sketch(36))).toEqual([]);
    expect(found('dense-place', sketch(50))).toMatchObject([{ severity: 'warn', object: 2, limit: 10 }]);
    expect(found('dense-place', sketch(70))).toMatchObject([{ severity: 'fail', limit: 16 }]);
  });

  it('are said of four layers as a note and of five as a warning', () => {
    const stack = (n: number) => {
      const sketch = new Sketch();
      for (let k = 0; k < n; k++) sketch.rows(rowsOf(0.4, 8, () => [0.13 * k, 10]));
      return found('layers-stacked', sketch);
    };
    expect(stack(3)).toEqual([]);
    expect(stack(4)).toMatchObject([{ severity: 'note', measured: 4, object: null }]);
    expect(stack(5)).toMatchObject([{ severity: 'warn', measured: 5, limit: 4 }]);
  });
});
