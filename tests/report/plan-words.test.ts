import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { AdviseReport } from '../../lib/report/advise-report.js';
import { costWords, failureWords, planHoopWords, relayCommand } from '../../lib/report/plan-words.js';
import { cardInput, PLAN } from './card-input.js';
import { littleCrest } from './little-design.js';

const { advice } = cardInput(littleCrest());
const report = (changes: Partial<AdviseReport>): AdviseReport => ({ ...advice, ...changes });

describe('the cost of a plan in words', () => {
  it('has parts that add up to the total as they are printed, none a cent off', () => {
    const amount = fc.integer({ min: 0, max: 20_000 }).map((thousandths) => thousandths / 1000);
    fc.assert(
      fc.property(amount, amount, amount, (backing, thread, machine) => {
        const cost = { ...PLAN.cost, total: backing + thread + machine, backing, thread, machine };
        const words = costWords({ ...PLAN, cost });
        const cents = (text: string): number => Math.round(Number(text) * 100);
        const parts = ['backing', 'thread', 'machine'].map((part) =>
          cents(new RegExp(`${part} (\\d+\\.\\d\\d)`).exec(words.parts)![1]),
        );
        expect(parts.reduce((sum, part) => sum + part, 0)).toBe(cents(words.total.split(' ')[0]));
        for (const [i, exact] of [backing, thread, machine].entries())
          expect(Math.abs(parts[i] - exact * 100)).toBeLessThan(1);
      }),
      { numRuns: 60 },
    );
  });
});

describe('the command that lays the underlay of a plan', () => {
  const plan = (ids: number[], to: 'fill' | 'edge-run+fill' = 'fill') => ({
    ...PLAN,
    underlay: ids.map((object) => ({ object, to })),
  });

  it('names the objects as --objects takes them, and another underlay than a light fill', () => {
    expect(relayCommand(plan([3, 1, 2, 7]))).toBe('lieflat relay --objects 1-3,7');
    expect(relayCommand(plan([5], 'edge-run+fill'))).toBe('lieflat relay --objects 5 --to edge-run+fill');
    expect(relayCommand(plan([]))).toBeNull();
  });

  it('leaves the objects out where there are too many to type off', () => {
    const everySecond = Array.from({ length: 40 }, (_, i) => 2 * i + 1);
    expect(relayCommand(plan(everySecond))).toBe('lieflat relay --objects …');
    expect(relayCommand(plan(everySecond, 'edge-run+fill'))).toMatch(/… --to edge-run\+fill$/);
  });
});

describe('the hoop of a plan in words', () => {
  it('warns of one that the design stands out of, and says where none is known', () => {
    const hoop = { id: 'round-90', name: 'round hoop, 90 mm', holds: true };
    expect(planHoopWords(report({ hoop }))).toBe('round hoop, 90 mm');
    expect(planHoopWords(report({ hoop: { ...hoop, holds: false } }))).toMatch(/^NOT round hoop.*needle/);
    expect(planHoopWords(report({ hoop: null }))).toContain('NONE THAT IS KNOWN');
  });
});

describe('what is wrong with the file of a plan', () => {
  it('is named, but not twice what the hoop is told of', () => {
    expect(failureWords(report({ failures: [] }))).toEqual([]);
    expect(failureWords(report({ failures: ['does-not-fit-hoop'] }))).toEqual([]);
    const [line] = failureWords(report({ failures: ['needle-points-piled', 'does-not-fit-hoop'] }));
    expect(line).toMatch(/^DO NOT SEW.*: needle-points-piled; lieflat vet/);
  });
});
