import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { adviceSentences, drawnOut, needSentences } from '../../lib/report/advise/objects.js';
import type { ObjectAdviceReport } from '../../lib/report/advise/plan-report.js';
import { wordsFor } from '../../lib/report/phrases/words.js';

const words = wordsFor({ units: 'mm', detail: 'full' });
const needs = (object: number, more: Partial<ObjectAdviceReport>): ObjectAdviceReport => ({
  object,
  relay: null,
  split: false,
  locks: false,
  pullCompensationMm: null,
  drawsInMm: null,
  text: [],
  ...more,
});
const relay = (own: number, relaid: number, from: 'zigzag' | 'double-zigzag' = 'zigzag') => ({
  from: [from],
  to: 'fill' as const,
  wrinkleMm: { now: [0, 0] as [number, number], washed: [own, relaid] as [number, number] },
});

describe('what objects need, put together', () => {
  it('names those that need the same once, with the range of their figures', () => {
    const advised = [needs(1, { relay: relay(0.2, 0.1) }), needs(2, { relay: relay(0.5, 0.1254) })];
    expect(adviceSentences(advised, 8, words)).toEqual([
      'Lay a light fill under objects 1 and 2 instead of zigzag: wrinkles around them 0.1 to 0.13 mm (0.004 to 0.005 in) instead of 0.2 to 0.5 mm (0.008 to 0.02 in) after 8 washes.',
    ]);
    const [inches] = adviceSentences(advised, 8, wordsFor({ units: 'in', detail: 'full' }));
    expect(inches).toContain('0.004 to 0.005 in (0.1 to 0.13 mm) instead of');
  });

  it('promises nothing where the fabric lies flat with either, and names no underlay that only some have', () => {
    const advised = [needs(3, { relay: relay(0.004, 0) }), needs(4, { relay: relay(0, 0, 'double-zigzag') })];
    expect(adviceSentences(advised, 8, words)).toEqual([
      'Lay a light fill under objects 3 and 4 instead of any underlay in the file: the fabric around them lies flat either way, and the design as a whole gains.',
    ]);
  });

  it('speaks of edges that draw in as of a matter of size, and never of another backing', () => {
    const [line] = adviceSentences([needs(1, { drawsInMm: 1.29 })], 0, words);
    expect(line).toMatch(/^Add 1 mm .* to object 1, .* It comes out smaller .* 1\.29 mm \(0\.051 in\)/);
    expect(line).not.toContain('backing');
  });

  it('puts every object to be drawn out under one amount, within half a step of its own', () => {
    const amounts = fc.array(fc.option(fc.double({ min: 0.1, max: 1, noNaN: true })), { maxLength: 40 });
    fc.assert(
      fc.property(amounts, (mm) => {
        const advised = mm.map((pullCompensationMm, i) => needs(i + 1, { pullCompensationMm }));
        const rows = drawnOut(advised);
        expect(rows.map((row) => row.mm)).toEqual(rows.map((row) => row.mm).toSorted((a, b) => a - b));
        expect(rows.flatMap(({ objects }) => objects).sort((a, b) => a - b)).toEqual(
          mm.flatMap((amount, i) => (amount === null ? [] : [i + 1])),
        );
        for (const row of rows)
          for (const id of row.objects)
            expect(Math.abs(row.mm - mm[id - 1]!)).toBeLessThanOrEqual(0.025 + 1e-9);
        expect(needSentences(advised, 0, words)).toHaveLength(rows.length > 0 ? 1 : 0);
      }),
      { numRuns: 40, seed: 3 },
    );
  });
});
