/**
 * AATCC TM124 and ISO 7768: replicas 1, 2, 3, 3.5, 4 and 5, 5 the smoothest; a grade midway between whole numbers only where there is no
 * half standard (texts seen). The map from millimetres to a grade is our own assumption: no published one was found.
 */
import { describe, expect, it } from 'vitest';
import { gradeOf, scoreOf } from '../../lib/mechanics/score.js';

const REPLICAS = [1, 2, 3, 3.5, 4, 5];

/** Replicas, and midway between whole-number neighbours. */
const ALLOWED = new Set([
  ...REPLICAS,
  ...REPLICAS.slice(1).flatMap((g, i) =>
    Number.isInteger(g) && Number.isInteger(REPLICAS[i]) ? [(g + REPLICAS[i]) / 2] : [],
  ),
]);

describe('grade', () => {
  it('is one that the standards allow, for every score', () => {
    const seen = new Set(Array.from({ length: 1001 }, (_, i) => gradeOf(i / 10)));
    for (const grade of seen) expect(ALLOWED).toContain(grade);
    expect([...seen].sort()).toEqual([...ALLOWED].sort());
  });

  it('falls as the score rises, from 5 to 1', () => {
    expect(gradeOf(0)).toBe(5);
    expect(gradeOf(100)).toBe(1);
    for (let s = 0; s < 100; s++) expect(gradeOf(s + 1)).toBeLessThanOrEqual(gradeOf(s));
  });
});

describe('score', () => {
  it('rises with the height, from 0 towards 100, and is 50 at its half height', () => {
    expect(scoreOf(0, 0.35)).toBe(0);
    expect(scoreOf(0.35, 0.35)).toBe(50);
    for (let w = 0; w < 4; w += 0.05) expect(scoreOf(w + 0.05, 0.35)).toBeGreaterThan(scoreOf(w, 0.35));
    expect(scoreOf(1e6, 0.35)).toBe(100);
  });
});
