import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Break } from '../../lib/format/stitches.js';
import { type Grid, gridAbout } from '../../lib/mechanics/grid.js';
import { nearestPoint } from '../../lib/mechanics/nearest-point.js';
import { Role, stitchRoles } from '../../lib/mechanics/stitch-roles.js';
import { engagement, perforated, tackDensity } from '../../lib/mechanics/tacking.js';
import { launderedPrestress, rasterise, stitchTension } from '../../lib/mechanics/thread-load.js';
import { COLUMN, FILL, rectangle, Sewing, word } from './designs.js';

const total = (field: Float64Array) => field.reduce((sum, v) => sum + v, 0);
const grid: Grid = { nx: 64, ny: 64, cellMm: 0.5, x0: -16, y0: -16 };

describe('tension of a stitch', () => {
  it('is half at the bed-in length, all of it in an endless stitch, none in none', () => {
    expect(stitchTension(6, 0.13, 6)).toBeCloseTo(0.065, 12);
    expect(stitchTension(1e9, 0.13, 6)).toBeCloseTo(0.13, 8);
    expect(stitchTension(0, 0.13, 6)).toBe(0);
  });
});

describe('prestress', () => {
  it('of parallel lines at spacing s is T/s along the lines', () => {
    const lines = Array.from({ length: 41 }, (_, k): [number, number][] => {
      const y = -4 + k * 0.2;
      return k % 2
        ? [
            [6, y],
            [-6, y],
          ]
        : [
            [-6, y],
            [6, y],
          ];
    });
    const sewing = new Sewing();
    for (const line of lines) sewing.run(line);
    const { stitches } = sewing.done();
    const { prestress, lines: density } = rasterise(grid, stitches, (_, i) => (i % 2 ? 0.07 : -1));
    const middle = 32 * 64 + 32;
    expect(prestress.xx[middle]).toBeCloseTo(0.07 / 0.2, 2);
    expect(density[middle]).toBeCloseTo(1 / 0.2, 1);
    expect(Math.abs(prestress.yy[middle])).toBeLessThan(1e-12);
    expect(Math.abs(prestress.xy[middle])).toBeLessThan(1e-12);
  });

  it('holds Σ T·l·t⊗t over the sheet, however stitches lie on the grid (property)', () => {
    const coordinate = fc.double({ min: -14, max: 14, noNaN: true });
    fc.assert(
      fc.property(coordinate, coordinate, coordinate, coordinate, (ax, ay, bx, by) => {
        const { stitches } = new Sewing()
          .run([
            [ax, ay],
            [bx, by],
          ])
          .done();
        const { prestress } = rasterise(grid, stitches, () => 0.1);
        const [dx, dy] = [bx - ax, by - ay];
        const length = Math.hypot(dx, dy);
        const scale = length > 0 ? 0.1 / length / 0.25 : 0;
        expect(total(prestress.xx)).toBeCloseTo(scale * dx * dx, 8);
        expect(total(prestress.yy)).toBeCloseTo(scale * dy * dy, 8);
        expect(total(prestress.xy)).toBeCloseTo(scale * dx * dy, 8);
      }),
      { numRuns: 100, seed: 5 },
    );
  });

  it('counts each thread once: underlay as underlay, trims and loose moves not at all', () => {
    const { stitches, objects } = word('IT', 15, { ...COLUMN, underlay: ['zigzag'] });
    const { thread, owner } = stitchRoles(stitches, objects);
    for (let i = 0; i < stitches.count; i++)
      if (stitches.breakBefore[i] >= Break.trim) expect(thread[i]).toBe(Role.none);
    objects.forEach(({ range, underlay }, k) => {
      expect(thread[range[0] + 1]).toBe(Role.top);
      expect(owner[range[1]]).toBe(k);
      expect(thread[(underlay.range?.[0] ?? 0) + 1]).toBe(Role.underlay);
    });
    const jumping = {
      ...stitches,
      breakBefore: stitches.breakBefore.map((b) => (b === Break.trim ? Break.jump : b)),
    };
    const loose = stitchRoles(jumping, objects).thread;
    objects.slice(1).forEach(({ underlay }) => {
      expect(loose[underlay.range?.[0] ?? 0]).toBe(Role.none);
    });
    const split = { ...stitches, breakBefore: stitches.breakBefore.slice() };
    split.breakBefore[objects[0].range[0] + 5] = Break.jump;
    expect(stitchRoles(split, objects).thread[objects[0].range[0] + 5]).toBe(Role.top);
  });

  it('of laundering shortens soft goods as much as the thread, and stiff goods hardly', () => {
    const field = (v: number) => Float64Array.of(v);
    // 5 lines/mm at T/T0 = ½: prestress at 1 N is 2.5; thread stiffness EA·2.5 = 250 N/mm.
    const sewn = { xx: field(2.5), yy: field(0), xy: field(0) };
    const strainAt = (goods: number) => launderedPrestress(sewn, 100, 0.01, goods).xx[0] / goods;
    expect(strainAt(1)).toBeCloseTo(0.01 * (250 / 251), 10);
    expect(strainAt(250)).toBeCloseTo(0.005, 10);
    expect(strainAt(1e6)).toBeLessThan(1e-5);
  });
});

describe('tacking', () => {
  it('counts every needle point once', () => {
    const { stitches } = rectangle(new Sewing(), 0, 0, 10, 6, FILL).done();
    const density = tackDensity(grid, stitches, () => 1);
    expect(total(density) * 0.25).toBeCloseTo(stitches.count, 6);
  });

  it('holds more goods with points spread than with points clumped', () => {
    const spread = Array.from({ length: 16 }, (_, k): [number, number] => [
      -6 + 4 * (k % 4),
      -6 + 4 * Math.floor(k / 4),
    ]);
    const clump = spread.map(([x, y]): [number, number] => [x / 20, y / 20]);
    const held = (points: [number, number][]) =>
      total(
        engagement(
          tackDensity(grid, new Sewing().run(points).done().stitches, () => 1),
          0.3,
          0.05,
        ),
      );
    expect(held(spread)).toBeGreaterThan(1.1 * held(clump));
  });

  it('lies between what the hoop holds and all, and rises with the points', () => {
    const eta = engagement(Float64Array.of(0, 0.1, 0.3, 1, 50), 0.3, 0.05);
    expect(eta[0]).toBeCloseTo(0.05, 12);
    expect(eta[2]).toBeCloseTo(1 - 0.95 / Math.E, 12);
    for (let k = 1; k < eta.length; k++) expect(eta[k]).toBeGreaterThan(eta[k - 1]);
    expect(eta[4]).toBeLessThanOrEqual(1);
  });

  it('halves a sheet along a line of so many points a mm', () => {
    const points = Array.from({ length: 41 }, (_, k): [number, number] => [0, -10 + k * 0.5]);
    const density = tackDensity(grid, new Sewing().run(points).done().stitches, () => 1);
    const left = perforated(density, 2);
    // Cells stand a quarter of a millimetre beside the line, where the spread has fallen by 3 %.
    expect(left[32 * 64 + 32]).toBeCloseTo(0.5, 1);
    expect(left[0]).toBeCloseTo(1, 6);
  });
});

describe('nearest needle point', () => {
  it('is within a third of a cell of the true distance (property)', () => {
    const small: Grid = { nx: 32, ny: 16, cellMm: 1, x0: 0, y0: 0 };
    const point = fc.tuple(
      fc.double({ min: 0, max: 31.9, noNaN: true }),
      fc.double({ min: 0, max: 15.9, noNaN: true }),
    );
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 30 }), (points) => {
        const { stitches } = new Sewing().run(points).done();
        const { distance } = nearestPoint(small, stitches);
        for (let p = 0; p < distance.length; p++) {
          const [cx, cy] = [(p % 32) + 0.5, Math.floor(p / 32) + 0.5];
          const true_ = Math.min(...points.map(([x, y]) => Math.hypot(x - cx, y - cy)));
          expect(distance[p]).toBeGreaterThanOrEqual(true_ - 1e-9);
          expect(distance[p]).toBeLessThanOrEqual(true_ + 1 / 3);
        }
      }),
      { numRuns: 200, seed: 3 },
    );
  });

  it('is endless without any', () => {
    const { distance, stitch } = nearestPoint(grid, new Sewing().done().stitches);
    expect(distance.every((d) => d === Infinity)).toBe(true);
    expect(stitch.every((i) => i === -1)).toBe(true);
  });
});

describe('grid', () => {
  it('leaves at least 18 mm and a quarter of the design free, in cells of the size asked', () => {
    for (const [w, h, cell] of [
      [0, 0, 1],
      [100, 20, 0.7],
      [300, 90, 0.9],
    ]) {
      const g = gridAbout({ minX: 5, maxX: 5 + w, minY: -3, maxY: h - 3 }, cell);
      const margin = Math.max(18, Math.max(w, h) / 4);
      expect(g.cellMm).toBe(cell);
      expect(g.x0).toBeLessThanOrEqual(5 - margin + 1e-9);
      expect(g.x0 + g.nx * cell).toBeGreaterThanOrEqual(5 + w + margin - 1e-9);
      expect(g.y0).toBeLessThanOrEqual(-3 - margin + 1e-9);
    }
  });

  it('refuses what is not finite or too fine', () => {
    expect(() => gridAbout({ minX: 0, maxX: Number.NaN, minY: 0, maxY: 1 }, 1)).toThrow(RangeError);
    expect(() => gridAbout({ minX: 0, maxX: 1e6, minY: 0, maxY: 1 }, 1)).toThrow(RangeError);
    expect(() => gridAbout({ minX: 0, maxX: 10, minY: 0, maxY: 1 }, 0)).toThrow(RangeError);
  });
});
