/** An order in words: what may miss the standard, which lines are told of by themselves, and amounts that add up. */
import { describe, expect, it } from 'vitest';
import type { Why } from '../../lib/advice/reason.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { orderToText } from '../../lib/report/order/document.js';
import { type DoneLine, orderReport } from '../../lib/report/order/report.js';
import { PLAN } from './card-input.js';

const RATES = {
  work: { heads: 1, laborPerHour: 17, hoopingMinutes: 1.5, trimmingMinutes: 1 },
  pricing: {
    setupFee: 25,
    digitizing: 0,
    marginPercent: 40,
    spoilagePercent: 2,
    quantityBreaks: [],
    leastEach: 0,
  },
  currency: 'USD',
};
const ACCEPTED = { grade: 3.5, washedGrade: 3.5, washes: 8 };

const done = (number: number, more: Partial<DoneLine['worked']> = {}, quantity = 7): DoneLine => ({
  line: {
    ...{ line: number, file: `${number}.dst`, garment: 'pique-knit', fabric: 'pique-knit', quantity },
    ...{ place: null, stack: null, threads: '', garmentColor: '', order: '', customer: '', due: '' },
    remarks: '',
  },
  worked: {
    ...{
      chance: 1,
      meets: 'yes',
      verdict: 'sound',
      verdictReasons: [],
      plan: PLAN,
      failures: [],
      warnings: [],
      changes: [],
      capOrder: [],
      cautionCodes: [],
    },
    ...{ accepted: ACCEPTED, fabricName: 'piqué knit', garment: null },
    hoop: { id: 'round-120', name: 'round hoop, 120 mm (4.7 in)', holds: true, roomMm: 9 },
    cut: { widthMm: 200, heightMm: 200 },
    ...{ threads: [], bobbinMm: 0, objectsRelaid: 0, stitches: 900, widthMm: 60, heightMm: 20 },
    design: `design ${number}`,
    files: { relaid: null, card: `cards/${number}.html`, proof: `proofs/${number}.svg` },
    ...more,
  },
  group: 'pique-knit',
  path: `../${number}.dst`,
});

const made = (...lines: DoneLine[]) => orderReport(lines, [], RATES, CATALOGUE);
const said = (...lines: DoneLine[]): string =>
  orderToText(made(...lines), { width: 80, units: 'mm' }).replace(/\s+/g, ' ');

describe('an order', () => {
  it('says where a hoop leaves hardly any room', () => {
    const cap = { id: 'cap-frame', name: 'cap frame', holds: true, roomMm: 0.35 };
    expect(said(done(1, { hoop: cap }))).toContain(
      'Line 1: cap frame: only 0.35 mm (0.014 in) of its field is left on each side: center it well and trace it first.',
    );
    expect(said(done(1))).not.toContain('trace it first');
  });

  it('says under its lines why one is not good to sew', () => {
    const more = {
      verdict: 'warn',
      verdictReasons: [{ because: 'warnings', codes: ['missing-lock'] }],
      warnings: ['missing-lock'],
    } as const;
    expect(said(done(1), done(2, more))).toContain('CHECK FIRST ../2.dst Line 2: no lock stitches.');
  });

  it('names the hoop of a setup, and of each line where they take several', () => {
    expect(said(done(1))).toContain('hoop round hoop, 120 mm (4.7 in) lies flat?');
    const small = { id: 'round-90', name: 'round hoop, 90 mm (3.5 in)', holds: true, roomMm: 9 };
    expect(said(done(1), done(2, { hoop: small }), done(3))).toContain(
      'hoop round hoop, 120 mm (4.7 in) for lines 1 and 3 and round hoop, 90 mm (3.5 in) for line 2',
    );
    expect(said(done(1, { hoop: { ...small, holds: false } }))).not.toContain('hoop round');
  });

  it('counts the backing of a test once for a design on a fabric', () => {
    const twice = done(2, { design: 'design 1' });
    // The plan has two sheets of one kind.
    expect(made(done(1), twice, done(3)).supplies.sheets).toMatchObject([{ pieces: 42, forTests: 4 }]);
    expect(said(done(1))).toMatch(/14 \+ 2 spare \+ 2 to test/);
  });

  it('says with its height and grade what may miss the standard, of the setup and line by line', () => {
    const washed = { ...PLAN.riskWashed, washes: 8 };
    const high = { ...washed, range: { score: [5, 50], wrinkleMm: [0.02, 0.31] } } satisfies typeof washed;
    const higher = { ...washed, range: { score: [5, 60], wrinkleMm: [0.02, 0.4] } } satisfies typeof washed;
    const riskNow = {
      ...PLAN.riskNow,
      range: { score: [0, 2], wrinkleMm: [0, 0.01] },
    } satisfies typeof washed;
    const may = (number: number, riskWashed: typeof washed) =>
      done(number, { meets: 'may', plan: { ...PLAN, riskNow, riskWashed } });
    const lines = [done(2), may(3, high), may(4, higher)];
    expect(made(...lines).lines.map(({ upper }) => upper)).toEqual([
      null,
      { wrinkleMm: 0.31, grade: 3, washes: 8 },
      { wrinkleMm: 0.4, grade: 2.5, washes: 8 },
    ]);
    const text = said(...lines);
    expect(text).toContain(
      'may miss your standard (grade 3.5, new and after 8 washes): wrinkles may come out as high as 0.4 mm (0.016 in) after 8 washes, grade 2.5',
    );
    expect(text).toContain(
      'Line 3: wrinkles may come out as high as 0.31 mm (0.012 in) after 8 washes, grade 3, more than you accept.',
    );
  });

  it('has no file to load where the verdict is not to sew', () => {
    const files = { relaid: 'relaid/1.dst', card: 'cards/1.html', proof: 'proofs/1.svg' };
    const verdicts = (verdict: 'warn' | 'fail') => said(done(1, { verdict, files }));
    expect(verdicts('warn')).toMatch(/Load the relaid file.*relaid\/1\.dst/);
    const stopped = verdicts('fail');
    expect(stopped).toContain('DO NOT SEW');
    expect(stopped).not.toContain('relaid');
  });

  it('tells of a cap that is sewn in another order than a cap wants', () => {
    expect(said(done(1, { capOrder: [4, 6] }))).toMatch(
      /What to watch.*Line 1: Caps sew from the bill up.*object 4/,
    );
    expect(said(done(1))).not.toContain('bill');
  });

  it('tells of a line of small letters by itself', () => {
    const reasons: Why[] = [{ code: 'needle', params: { because: 'narrow-for-thread' } }];
    const text = said(done(2), done(3, { plan: { ...PLAN, reasons } }));
    expect(text).toMatch(
      /Line 3: strokes as narrow as in letters under about 5 mm .*60-weight.*65\/9 needle\./,
    );
    expect(said(done(2))).not.toContain('60-weight');
  });

  it('has totals that are the sum of its lines to the cent, the setup fee in the price alone', () => {
    const cheap = { ...PLAN.cost, total: 0.377 };
    const { lines, totals } = made(done(2), done(3, { plan: { ...PLAN, cost: cheap } }, 24));
    const sum = (of: (line: (typeof lines)[number]) => number) =>
      Math.round(lines.reduce((all, line) => all + line.quantity * of(line) * 100, 0)) / 100;
    expect(totals.cost).toBe(sum(({ costEach }) => costEach));
    expect(totals.price).toBe(Math.round((sum(({ priceEach }) => priceEach) + 25) * 100) / 100);
    for (const { costEach } of lines) expect(costEach).toBe(Number(costEach.toFixed(2)));
  });
});
