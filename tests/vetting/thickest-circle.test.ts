import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gatherCells, slotOf } from '../../lib/vetting/needle-cells.js';
import { CircleSearch } from '../../lib/vetting/thickest-circle.js';
import { someOf } from '../in-full.js';
import { Sketch, type Vec } from '../measure/sketch.js';

const ACROSS = 0.3;
const gathered = (points: readonly Vec[]) => {
  const stitches = new Sketch().sew(...points).penetrations();
  return gatherCells(
    stitches,
    Int32Array.from(points, (_, i) => i),
    ACROSS,
  );
};
const inCircle = (points: readonly Vec[], x: number, y: number) =>
  points.filter(([px, py]) => Math.hypot(px - x, py - y) <= ACROSS / 2 + 2e-6).length;

/** The fullest circle by turning one about every point, in small steps: another way than that of the code. */
function turned(points: readonly Vec[]): number {
  let most = 0;
  for (const [px, py] of points) {
    most = Math.max(most, inCircle(points, px, py));
    for (let step = 0; step < 1440; step++) {
      const a = (step * 2 * Math.PI) / 1440;
      const r = 0.9999 * (ACROSS / 2);
      most = Math.max(most, inCircle(points, px + r * Math.cos(a), py + r * Math.sin(a)));
    }
  }
  return most;
}

const cloud = fc
  .tuple(
    fc.double({ min: 0.2, max: 0.8, noNaN: true }),
    fc.array(fc.tuple(fc.nat(100), fc.nat(100)), { minLength: 4, maxLength: 18 }),
  )
  .map(([side, raw]) => raw.map(([a, b]): Vec => [(a * side) / 100 - 0.2, (b * side) / 100 + 7]));

const fullest = (points: readonly Vec[], work: number) => {
  const cells = gathered(points);
  const search = new CircleSearch(cells, work);
  let best = { points: 0, x: 0, y: 0, last: -1 };
  for (let slot = 0; slot < cells.head.length; slot++) {
    if (cells.head[slot] < 0) continue;
    const pile = search.around(slot, 0);
    if (pile && pile.points > best.points) best = pile;
  }
  return best;
};

describe('cells', () => {
  it('hold every point once, in the cell that it lies in', () => {
    const place = fc.double({ min: -1e5, max: 1e5, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(place, place), { maxLength: 60 }), (points) => {
        const cells = gathered(points);
        const met: number[] = [];
        for (let slot = 0; slot < cells.head.length; slot++) {
          let size = 0;
          for (let k = cells.head[slot]; k >= 0; k = cells.next[k], size++) {
            met.push(k);
            const [x, y] = points[k];
            expect(slotOf(cells, Math.floor(x / ACROSS), Math.floor(y / ACROSS))).toBe(slot);
          }
          expect(cells.size[slot]).toBe(size);
        }
        expect(met.sort((a, b) => a - b)).toEqual(points.map((_, i) => i));
      }),
    );
  });

  it('take only the points named', () => {
    const stitches = new Sketch().sew([0, 0], [5, 5], [9, 9]).penetrations();
    const cells = gatherCells(stitches, Int32Array.of(2), ACROSS);
    expect([...cells.x]).toEqual([9]);
  });
});

describe('the fullest circle', () => {
  it('holds as many points as one turned about every point does', () => {
    fc.assert(
      fc.property(cloud, (points) => {
        const found = fullest(points, 1e9);
        expect(found.points).toBe(inCircle(points, found.x, found.y));
        expect(found.points).toBeGreaterThanOrEqual(turned(points));
      }),
      { numRuns: someOf(60) },
    );
  });

  it('holds what it is said to hold where the exact search is too much, and a spot whole', () => {
    fc.assert(
      fc.property(cloud, (points) => {
        const found = fullest(points, 0);
        expect(found.points).toBe(inCircle(points, found.x, found.y));
      }),
    );
    const spot = [...Array.from({ length: 9 }, (): Vec => [4.1, 4.1]), [4.35, 4.1] as Vec];
    expect(fullest(spot, 0)).toMatchObject({ points: 9, last: 8 });
  });

  it('names the last of its points', () => {
    const points: Vec[] = [
      [0.1, 0.1],
      [9, 9],
      [0.2, 0.1],
      [0.1, 0.1],
      [9, 9.9],
    ];
    expect(fullest(points, 1e9)).toMatchObject({ points: 3, last: 3 });
  });

  it('is not looked for where the block cannot hold enough', () => {
    const cells = gathered([
      [0.1, 0.1],
      [0.2, 0.1],
      [5, 5],
    ]);
    const slot = slotOf(cells, 0, 0);
    expect(new CircleSearch(cells, 1e9).around(slot, 2)).toBeNull();
    expect(new CircleSearch(cells, 1e9).around(slot, 1)?.points).toBe(2);
  });
});
