import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { niceSteps } from '../../lib/report/nice-steps.js';

describe('round steps of a legend', () => {
  it('takes steps of 1, 2 or 5', () => {
    expect(niceSteps(9.4, 6)).toEqual([2, 4, 6, 8, 10]);
    expect(niceSteps(0.37, 6)).toEqual([0.1, 0.2, 0.3, 0.4]);
    expect(niceSteps(21.6, 1)).toEqual([50]);
    expect(niceSteps(6, 6)).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it('has one step for nothing', () => {
    expect(niceSteps(0, 6)).toEqual([1]);
    expect(niceSteps(Number.NaN, 6)).toEqual([1]);
  });

  it('covers the range evenly with no more steps than allowed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-9, max: 1e9, noNaN: true }),
        fc.integer({ min: 1, max: 12 }),
        (max, most) => {
          const steps = niceSteps(max, most);
          expect(steps.length).toBeLessThanOrEqual(most);
          expect(steps.at(-1)!).toBeGreaterThanOrEqual(max * (1 - 1e-6));
          const lead = steps[0] / 10 ** Math.floor(Math.log10(steps[0]) + 1e-9);
          expect([1, 2, 5].some((nice) => Math.abs(lead - nice) < 1e-6)).toBe(true);
          steps.forEach((step, i) => {
            expect(Math.abs(step - steps[0] * (i + 1))).toBeLessThan(1e-5 * step);
          });
        },
      ),
    );
  });
});
