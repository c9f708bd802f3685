import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type RowPattern, rowPoints } from '../../lib/stitch/row-points.js';

const THREES: RowPattern = { inside: [3, 6, 9], stitchMm: 3, longestMm: 3, leastMm: 0.5 };

describe('needle points inside a row of another length', () => {
  it('stay where they were in a row as long', () => {
    expect(rowPoints(THREES, 0, 12)).toEqual([3, 6, 9]);
  });

  it('are added at the same distance where the row is longer', () => {
    expect(rowPoints(THREES, -4, 16)).toEqual([-3, 0, 3, 6, 9, 12, 15]);
  });

  it('are fewer where it is shorter', () => {
    expect(rowPoints(THREES, 4, 8)).toEqual([6]);
  });

  it('leave no stitch at an end that is too short', () => {
    expect(rowPoints({ ...THREES, longestMm: 4 }, 2.8, 12)).toEqual([6, 9]);
    expect(rowPoints({ ...THREES, longestMm: 4 }, 0, 9.2)).toEqual([3, 6]);
  });

  it('come half way where leaving one out would make a stitch too long', () => {
    expect(rowPoints(THREES, 2.8, 12)).toEqual([4.4, 6, 9]);
    expect(rowPoints({ ...THREES, longestMm: 3.2 }, -3.3, 12)).toEqual([-1.65, 0, 3, 6, 9]);
  });

  it('part a whole swing only where swings are broken at all', () => {
    const whole = { inside: [], stitchMm: 5, longestMm: 4, leastMm: 0.5 };
    expect(rowPoints(whole, 0, 10)).toEqual([10 / 3, 20 / 3]);
    expect(rowPoints(whole, 0, 4)).toEqual([]);
    expect(rowPoints({ ...whole, longestMm: Number.POSITIVE_INFINITY }, 0, 40)).toEqual([]);
  });

  it('make no stitch longer than the longest, nor an end shorter than the least, whatever the row', () => {
    const pattern = fc.record({
      phase: fc.double({ min: 0, max: 3, noNaN: true }),
      start: fc.double({ min: -20, max: 20, noNaN: true }),
      length: fc.double({ min: 3.5, max: 40, noNaN: true }),
    });
    fc.assert(
      fc.property(pattern, ({ phase, start, length }) => {
        const inside = [phase, phase + 3, phase + 6];
        const places = rowPoints(
          { inside, stitchMm: 3, longestMm: 3.5, leastMm: 0.5 },
          start,
          start + length,
        );
        const stops = [start, ...places, start + length];
        const stitches = stops.slice(1).map((mm, n) => mm - stops[n]);
        expect(Math.max(...stitches)).toBeLessThanOrEqual(3.5 + 1e-6);
        expect(Math.min(...stitches)).toBeGreaterThanOrEqual(0.5 - 1e-6);
      }),
    );
  });
});
