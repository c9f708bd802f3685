import { describe, expect, it } from 'vitest';
import { meetsAt, upperMiss } from '../../lib/advice/meets.js';

const risk = (score: number, wrinkleMm: number, washes: number) => ({
  range: { score: [0, score] as const, wrinkleMm: [0, wrinkleMm] as const },
  washes,
});
const STANDARD = { grade: 3.5, washedGrade: 3.5, washes: 8 };

describe('the upper end of a range', () => {
  it('is what may miss the standard: that which falls farther short, as sewn or washed', () => {
    // A score of 50 is grade 3, one of 60 grade 2.5, one of 10 grade 4.5: 25 points of the score a grade.
    const [flat, three, worse] = [
      [10, 0.05],
      [50, 0.31],
      [60, 0.4],
    ] as const;
    const of = (now: readonly [number, number], washed: readonly [number, number]) =>
      upperMiss({ riskNow: risk(...now, 0), riskWashed: risk(...washed, 8) }, STANDARD);
    expect(of(flat, three)).toEqual({ wrinkleMm: 0.31, grade: 3, washes: 8 });
    expect(of(three, flat)).toEqual({ wrinkleMm: 0.31, grade: 3, washes: 0 });
    expect(of(worse, three)).toMatchObject({ grade: 2.5, washes: 0 });
    // Of two that fall as short, the later is what the customer sees.
    expect(of(three, three)).toMatchObject({ washes: 8 });
    expect(of(flat, flat)).toBeNull();
  });

  it('goes by the standard of its own time', () => {
    const strict = { grade: 3, washedGrade: 4.5, washes: 8 };
    const both = { riskNow: risk(50, 0.31, 0), riskWashed: risk(25, 0.15, 8) };
    expect(upperMiss(both, strict)).toEqual({ wrinkleMm: 0.15, grade: 4, washes: 8 });
  });
});

it('is met surely in nine draws of ten', () => {
  expect([0, 0.1, 0.11, 0.89, 0.9, 1].map(meetsAt)).toEqual(['no', 'no', 'may', 'may', 'yes', 'yes']);
});
