import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Judged, paretoFront, SAME_HEIGHT_MM } from '../../lib/advice/pareto-front.js';

const judged = fc.record({
  total: fc.integer({ min: 1, max: 12 }).map((n) => n / 10),
  nowMm: fc.double({ min: 0, max: 0.4, noNaN: true }),
  washedMm: fc.double({ min: 0, max: 0.6, noNaN: true }),
  effort: fc.integer({ min: 0, max: 30 }),
});
const seen = (mm: number): number => Math.round(mm / SAME_HEIGHT_MM);

describe('the front between cost and risk', () => {
  it('holds exactly the plans that no other beats, whatever the order they come in', () => {
    fc.assert(
      fc.property(fc.array(judged, { minLength: 1, maxLength: 40 }), (plans) => {
        const front = paretoFront(plans);
        const beats = (a: Judged, b: Judged) =>
          a.total <= b.total &&
          seen(a.washedMm) <= seen(b.washedMm) &&
          (a.total < b.total || seen(a.washedMm) < seen(b.washedMm));
        for (const plan of plans) {
          const beaten = plans.some((other) => beats(other, plan));
          const standsFor = front.some(
            (f) => f.total === plan.total && seen(f.washedMm) === seen(plan.washedMm),
          );
          expect(standsFor).toBe(!beaten);
        }
        for (let k = 1; k < front.length; k++) {
          expect(front[k].total).toBeGreaterThan(front[k - 1].total);
          expect(seen(front[k].washedMm)).toBeLessThan(seen(front[k - 1].washedMm));
        }
        const values = (list: readonly Judged[]) =>
          list.map(({ total, washedMm }) => [total, seen(washedMm)]);
        expect(values(paretoFront(plans.toReversed()))).toEqual(values(front));
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it('takes the simpler of two plans that cost and do the same', () => {
    const plain = { total: 1, nowMm: 0.1, washedMm: 0.2, effort: 10 };
    const turned = { ...plain, effort: 11, washedMm: 0.2 + SAME_HEIGHT_MM / 10 };
    expect(paretoFront([turned, plain])).toEqual([plain]);
  });
});
