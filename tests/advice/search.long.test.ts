import { beforeAll, describe, expect, it } from 'vitest';
import type { Advice } from '../../lib/advice/advise.js';
import { SAME_HEIGHT_MM } from '../../lib/advice/front.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { gradeOf, scoreOf } from '../../lib/mechanics/score.js';
import { adviseOn, type Vetting, vetDesign } from '../../lib/pipeline.js';
import { DEFAULT_SHOP, type Shop } from '../../lib/profile.js';
import { HEAVY_UNDERLAY } from '../../lib/report/columns.js';
import { Needle } from '../report/little-design.js';
import { type BrutePlan, everyPlan, everyStack } from './brute-force.js';

const WASHES = 8;
const SHEETS = ['cutaway-2.5oz', 'woven-polyester'] as const;
const catalogue = {
  ...CATALOGUE,
  sheets: Object.fromEntries(SHEETS.map((id) => [id, CATALOGUE.sheets[id]])),
};
const shop: Shop = { ...DEFAULT_SHOP, catalogue };
const file = { path: 'two.dst', format: 'dst', bytes: 1, sha256: '0' } as const;

/** Two bold strokes over zigzag. */
const design = new Needle()
  .column(0, 0, { width: 5.5, height: 16, underlay: 'zigzag' })
  .column(8, 2, { width: 6, height: 12, underlay: 'zigzag' })
  .end();

describe('the search over a small catalogue, against every plan worked out by a full solve', () => {
  let vetting: Vetting;
  let advice: Advice;
  let brute: BrutePlan[];
  const heavy: number[] = [];

  beforeAll(async () => {
    vetting = vetDesign(design, { file, shop });
    for (const f of vetting.findings) if (f.code === HEAVY_UNDERLAY && f.object) heavy.push(f.object);
    advice = await adviseOn(vetting, { fabric: 'jersey-knit', washes: WASHES }, shop);
    const stacks = everyStack(SHEETS).filter((stack) => stack.length > 0);
    brute = everyPlan(vetting, heavy, stacks, 'jersey-knit', WASHES, catalogue);
  }, 600_000);

  const sheetsCost = (stack: BrutePlan['stack']) =>
    stack.reduce((sum, { sheet }) => sum + CATALOGUE.sheets[sheet].price.value, 0);
  /** Three hundredths of the height, or twice the step below which two look the same. */
  const tolerance = (mm: number) => Math.max(0.03 * mm, 2 * SAME_HEIGHT_MM);

  it('asks for both wide columns', () => {
    expect(heavy).toEqual([1, 2]);
    expect(brute.length).toBe(3 * (6 + 21 + 56));
  });

  it('gives every plan the height that a full solve of that plan gives', () => {
    expect(advice.search.plans.length).toBeGreaterThan(1);
    for (const plan of advice.search.plans) {
      const same = brute.find(
        ({ stack, to }) =>
          to === (plan.underlay[0]?.to ?? null) &&
          JSON.stringify([...stack].map((s) => `${s.sheet}@${s.angleDeg}`).sort()) ===
            JSON.stringify(plan.stack.map((s) => `${s.sheet}@${s.angleDeg}`).sort()),
      )!;
      expect(Math.abs(plan.riskNow.wrinkleMm - same.nowMm)).toBeLessThan(tolerance(same.nowMm));
      expect(Math.abs(plan.riskWashed.wrinkleMm - same.washedMm)).toBeLessThan(tolerance(same.washedMm));
    }
  });

  it('has on its front the flattest plan that any amount of backing buys', () => {
    const { plans } = advice.search;
    const spent = [...new Set(brute.map(({ stack }) => Math.round(1e6 * sheetsCost(stack)) / 1e6))];
    expect(spent.length).toBeGreaterThan(6);
    for (const most of spent) {
      const affordable = (cost: number) => cost <= most + 1e-9;
      const flattest = Math.min(
        ...brute.filter(({ stack }) => affordable(sheetsCost(stack))).map(({ washedMm }) => washedMm),
      );
      const found = Math.min(
        ...plans
          .filter(({ cost }) => affordable(cost.parts.sheets))
          .map(({ riskWashed }) => riskWashed.wrinkleMm),
      );
      expect(found).toBeLessThan(flattest + 2 * tolerance(flattest));
      expect(found).toBeGreaterThan(flattest - tolerance(flattest) - SAME_HEIGHT_MM);
    }
  });

  it('recommends the cheapest that the shop accepts', () => {
    const { recommended } = advice.search;
    const { grade, washedGrade } = shop.accept;
    const half = 0.32;
    const good = brute.filter(
      ({ nowMm, washedMm }) =>
        gradeOf(scoreOf(nowMm, half)) >= grade && gradeOf(scoreOf(washedMm, half)) >= washedGrade,
    );
    expect(good.length).toBeGreaterThan(0);
    expect(recommended!.cost.parts.sheets).toBeCloseTo(
      Math.min(...good.map(({ stack }) => sheetsCost(stack))),
      6,
    );
  });
});

describe('what the shop accepts', () => {
  const wish = { fabric: 'jersey-knit' } as const;

  it('never recommends a plan below it, and the cheapest of those that keep it', async () => {
    const vetting = vetDesign(design, { file, shop });
    for (const washedGrade of [2, 3, 4, 5]) {
      const strict: Shop = { ...shop, accept: { grade: 3.5, washedGrade, washes: WASHES } };
      const { search } = await adviseOn(vetting, wish, strict);
      const keeps = search.plans.filter(
        ({ riskNow, riskWashed }) => riskNow.grade >= 3.5 && riskWashed.grade >= washedGrade,
      );
      expect(search.recommended).toBe(keeps[0] ?? null);
    }
  });

  it('says what would have to change where nothing is good enough', async () => {
    const vetting = vetDesign(design, { file, shop });
    const { search, mustChange } = await adviseOn(vetting, { fabric: 'performance-knit' }, shop);
    expect(search.recommended === null).toBe(mustChange.length > 0);
    const none = await adviseOn(
      vetting,
      { fabric: 'jersey-knit', stack: 'cutaway-2.5oz' },
      { ...shop, accept: { grade: 5, washedGrade: 5, washes: 8 } },
    );
    expect(none.search.recommended).toBeNull();
    expect(none.mustChange[0]).toMatch(/narrower|underlay|firmer|spacing/);
    expect(none.search.plans.every(({ why }) => why[0].includes('no plan does'))).toBe(true);
  });

  it('looks at one stack alone where one is given', async () => {
    const vetting = vetDesign(design, { file, shop });
    const { search } = await adviseOn(vetting, { ...wish, stack: 'woven-polyester@45' }, shop);
    expect(search.considered.stacks).toBe(1);
    for (const { stack } of search.plans) expect(stack).toEqual([{ sheet: 'woven-polyester', angleDeg: 45 }]);
  });
});
