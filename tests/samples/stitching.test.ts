import { describe, expect, it } from 'vitest';
import { areaOf, signedArea } from '../../samples/stitching/area.js';
import { columnAlong } from '../../samples/stitching/column.js';
import { fill } from '../../samples/stitching/fill.js';
import { hiddenWay } from '../../samples/stitching/hidden-way.js';
import { arc, distance, point } from '../../samples/stitching/plane.js';
import { rowsOf } from '../../samples/stitching/rows.js';
import { run } from '../../samples/stitching/run.js';
import { satin } from '../../samples/stitching/satin.js';
import { columnUnderlay } from '../../samples/stitching/underlay.js';

const ring = (r: number) => arc(point(0, 0), r, r, 0, 360).slice(0, -1);
const annulus = areaOf(ring(20), [ring(15)]);
const plan = { angleDeg: 0, spacingMm: 0.4, stitchMm: 3.5, pullMm: 0 };

describe('rows of a fill', () => {
  it.each([0, 30, 90, 135])(
    'cover an annulus of radii 20 and 15 at %i degrees: length times spacing is its area',
    (angleDeg) => {
      const { stretches } = rowsOf(annulus, angleDeg, 0.4, 0);
      const covered = stretches.reduce((sum, s) => sum + (s.x1 - s.x0) * 0.4, 0);
      // Closed form: π(20² − 15²) = 549.7787. Polygons for circles and rows dropped at the poles take off less than one percent.
      expect(covered / 549.7787).toBeGreaterThan(0.985);
      expect(covered / 549.7787).toBeLessThan(1.005);
    },
  );

  it('falls into four sections round one hole', () => {
    expect(rowsOf(annulus, 0, 0.4, 0).sections).toHaveLength(4);
  });

  it('sews every section once, all stitches inside the area', () => {
    const { points, sections } = fill(annulus, plan, point(-19, 0));
    expect(sections).toBe(4);
    points.forEach((p) => {
      expect(Math.hypot(p.x, p.y)).toBeLessThan(20.05);
      expect(Math.hypot(p.x, p.y)).toBeGreaterThan(14.9);
    });
    for (let i = 1; i < points.length; i++) {
      const middle = point((points[i].x + points[i - 1].x) / 2, (points[i].y + points[i - 1].y) / 2);
      // A stitch along the inner edge may cut the round of the hole by its own sagitta, l²/8r.
      expect(Math.hypot(middle.x, middle.y)).toBeGreaterThan(15 - 5 ** 2 / (8 * 15) - 0.1);
    }
  });

  it('travels round a hole, not across it', () => {
    const rows = rowsOf(annulus, 0, 0.4, 0);
    const way = hiddenWay(
      rows,
      point(-17.5, 0.2),
      point(17.5, 0.2),
      rows.stretches.map(() => false),
    );
    const walked = run([point(-17.5, 0.2), ...way], 0.5);
    for (const p of walked) expect(Math.hypot(p.x, p.y)).toBeGreaterThan(14.6);
    expect(distance(walked[walked.length - 1], point(17.5, 0.2))).toBeLessThan(1e-9);
  });

  it('refuses an area in two pieces', () => {
    const waist = areaOf([
      point(0, 0),
      point(20, 0),
      point(10.2, 10),
      point(20, 20),
      point(0, 20),
      point(9.8, 10),
    ]);
    expect(() => rowsOf(waist, 0, 0.4, 0)).toThrow('two fills');
  });
});

describe('satin', () => {
  it('lays one zig and one zag for every spacing of a straight column', () => {
    const { points, widths, split } = satin(columnAlong([point(0, 0), point(0, 20)], 4), {
      spacingMm: 0.4,
      splitOverMm: 7,
    });
    expect(points).toHaveLength(101);
    expect(split).toBe(false);
    for (const w of widths) expect(w).toBeCloseTo(4, 6);
    for (const p of points) expect(Math.abs(p.x)).toBeCloseTo(2, 6);
  });

  it('opens hardly more than half a millimetre on the outside of a tight bend', () => {
    const bend = columnAlong(arc(point(0, 0), 4, 4, 0, 180), 4.9);
    const outer = satin(bend, { spacingMm: 0.4, splitOverMm: 7 }).points.filter(
      (p) => Math.hypot(p.x, p.y) > 6.4,
    );
    for (let i = 1; i < outer.length; i++) expect(distance(outer[i - 1], outer[i])).toBeLessThan(0.52);
  });

  it('breaks swings wider than the limit into pieces that are not', () => {
    const { points, split } = satin(columnAlong([point(0, 0), point(0, 10)], 9.4), {
      spacingMm: 0.4,
      splitOverMm: 7,
    });
    expect(split).toBe(true);
    for (let i = 1; i < points.length; i++) expect(distance(points[i - 1], points[i])).toBeLessThan(7);
  });
});

describe('underlay', () => {
  const column = columnAlong([point(0, 0), point(0, 20)], 5);
  const style = { insetMm: 0.6, zigzagMm: 2.5 };

  it.each(['center-run', 'edge-run', 'zigzag', 'double-zigzag'] as const)(
    '%s stays inside the column',
    (kind) => {
      for (const p of columnUnderlay(column, kind, style)) {
        expect(Math.abs(p.x)).toBeLessThanOrEqual(1.9 + 1e-9);
        expect(p.y).toBeGreaterThan(0.5);
        expect(p.y).toBeLessThan(19.5);
      }
    },
  );

  it('double zigzag goes out on one side of every line and comes back on the other', () => {
    const points = columnUnderlay(column, 'double-zigzag', style);
    const half = (points.length + 1) / 2;
    const out = points.slice(0, half);
    const back = points.slice(half - 1).reverse();
    for (let i = 0; i < half - 1; i++) {
      expect(back[i].y).toBeCloseTo(out[i].y, 9);
      expect(back[i].x).toBeCloseTo(-out[i].x, 9);
    }
  });
});

describe('areas', () => {
  it('takes a ring that turns left as positive', () => {
    // Pentagon (0,0)(40,0)(40,30)(20,45)(0,30): 40·30 + 40·15/2 = 1500.
    expect(signedArea([point(0, 0), point(40, 0), point(40, 30), point(20, 45), point(0, 30)])).toBe(1500);
  });
});
