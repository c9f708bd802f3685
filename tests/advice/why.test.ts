import { describe, expect, it } from 'vitest';
import type { PlanRisk } from '../../lib/advice/plan.js';
import { whyNotCheaper } from '../../lib/advice/why.js';

const STANDARD = { grade: 3.5, washedGrade: 3.5, washes: 8 };
const risk = (grade: number, score: number, washes: number) =>
  ({ grade, washes, range: { score: [0, score], wrinkleMm: [0, score / 100] } }) as unknown as PlanRisk;
const plan = (total: number, chance: number, washedGrade = 4) => ({
  ...{ total, chance, nowMm: 0, washedMm: 0, effort: 0 },
  // A score of 60 is grade 2.5.
  riskNow: risk(5, 5, 0),
  riskWashed: risk(washedGrade, chance < 0.9 ? 60 : 10, 8),
});

describe('a cheaper plan of the list', () => {
  it('that seems good enough is said why it is not taken: how high it may come out', () => {
    const sure = plan(1.07, 1);
    expect(whyNotCheaper(sure, [plan(1, 0.85), sure], STANDARD)).toEqual([
      {
        code: 'cheaper-may-miss',
        params: { accepted: STANDARD, upper: { wrinkleMm: 0.6, grade: 2.5, washes: 8 } },
      },
    ]);
  });

  it('is no matter where it shows too much anyway, costs more, or the recommended is not sure itself', () => {
    const sure = plan(1.07, 1);
    expect(whyNotCheaper(sure, [plan(1, 0.05, 3), sure, plan(2, 0.85)], STANDARD)).toEqual([]);
    expect(whyNotCheaper(plan(1.07, 0.8), [plan(1, 0.7)], STANDARD)).toEqual([]);
  });
});
