/** Prices reckoned by hand. How a shop prices is its own: every figure here is invented for the example. */
import { describe, expect, it } from 'vitest';
import { planPrice } from '../../lib/advice/plan-price.js';
import {
  laborMinutes,
  machineMinutes,
  offPercent,
  type Pricing,
  pieceCost,
  piecePrice,
  piecesToHave,
  ratesAreBuiltIn,
  runPrice,
  type ShopWork,
  USUAL_PRICING,
  USUAL_WORK,
} from '../../lib/advice/price.js';

const work: ShopWork = { heads: 4, laborPerHour: 20, hoopingMinutes: 2, trimmingMinutes: 1 };
const pricing: Pricing = {
  setupFee: 15,
  digitizing: 30,
  marginPercent: 50,
  spoilagePercent: 10,
  // Not in order: a shop writes them as they come.
  quantityBreaks: [
    { from: 48, offPercent: 20 },
    { from: 12, offPercent: 10 },
  ],
  leastEach: 0,
};
const rates = { work, pricing, currency: 'USD' };

describe('a piece', () => {
  it('costs what is sewn and the labor, each with its part of the pieces that spoil', () => {
    // 2.00 at the machine; 3 min at 20 an hour are 1.00; a tenth more of both
    const { sewing, labor, each } = pieceCost(2, rates);
    expect(sewing).toBeCloseTo(2.2, 12);
    expect(labor).toBeCloseTo(1.1, 12);
    expect(each).toBeCloseTo(3.3, 12);
  });

  it('is priced so that the margin is a part of the price, less the break that its job reaches', () => {
    const piece = pieceCost(2, rates);
    // 3.30 / (1 - 0.5)
    expect(piecePrice(piece, 11, pricing)).toBe(6.6);
    expect(piecePrice(piece, 12, pricing)).toBe(5.94);
    expect(piecePrice(piece, 47, pricing)).toBe(5.94);
    expect(piecePrice(piece, 48, pricing)).toBe(5.28);
    expect(piecePrice({ ...piece, each: 1.005 }, 1, { ...pricing, marginPercent: 0 })).toBe(1.01);
  });

  it('is never charged less than the least price of a piece, whatever its job takes off', () => {
    const piece = pieceCost(2, rates);
    const least = { ...pricing, leastEach: 5.5 };
    expect(piecePrice(piece, 12, least)).toBe(5.94);
    expect(piecePrice(piece, 48, least)).toBe(5.5);
    const run = runPrice([{ quantity: 48, piece }], 0, least);
    expect(run.price).toBe(48 * 5.5 + 15);
  });

  it('goes by built-in rates until one figure differs', () => {
    const built = { work: USUAL_WORK, pricing: USUAL_PRICING };
    expect(ratesAreBuiltIn(built)).toBe(true);
    expect(
      ratesAreBuiltIn({ work: { ...USUAL_WORK }, pricing: { ...USUAL_PRICING, quantityBreaks: [] } }),
    ).toBe(true);
    expect(ratesAreBuiltIn({ ...built, work: { ...USUAL_WORK, heads: 2, hoopingMinutes: 1 } })).toBe(true);
    expect(ratesAreBuiltIn({ ...built, work: { ...USUAL_WORK, laborPerHour: 22 } })).toBe(false);
    expect(ratesAreBuiltIn({ ...built, pricing: { ...USUAL_PRICING, leastEach: 6 } })).toBe(false);
    const quantityBreaks = [{ from: 24, offPercent: 5 }];
    expect(ratesAreBuiltIn({ ...built, pricing: { ...USUAL_PRICING, quantityBreaks } })).toBe(false);
  });

  it('cannot be priced without a price of labor: the key is named', () => {
    const abroad = { ...rates, work: { ...work, laborPerHour: null }, currency: 'EUR' };
    expect(() => pieceCost(2, abroad)).toThrow(/work\.laborPerHour.*in EUR/);
  });
});

describe('a job', () => {
  const [dear, cheap] = [pieceCost(2, rates), pieceCost(1, rates)];

  it('of one line: its pieces, setup fee and digitizing once and as they are', () => {
    const run = runPrice([{ quantity: 24, piece: dear }], 1, pricing);
    // cost 24 × 3.30; price 24 × 5.94 + 15 + 30: what is charged once is no cost
    expect(run.cost).toBe(79.2);
    expect(run.price).toBe(187.56);
    expect(run.prices).toEqual([5.94]);
    expect(run).toMatchObject({ quantity: 24, setupFee: 15, digitizing: 30, offPercent: 10 });
  });

  it('of several lines: one setup fee, and a break that all pieces reach together', () => {
    const lines = [
      { quantity: 6, piece: dear },
      { quantity: 6, piece: cheap },
    ];
    const run = runPrice(lines, 2, pricing);
    // 2.20 a piece of the second: 4.40 less a tenth
    expect(run.prices).toEqual([5.94, 3.96]);
    expect(run.cost).toBeCloseTo(6 * 3.3 + 6 * 2.2, 9);
    expect(run.price).toBe(6 * 5.94 + 6 * 3.96 + 75);
    expect(runPrice([], 0, pricing)).toMatchObject({ quantity: 0, cost: 0, price: 15, offPercent: 0 });
  });

  it('charges what its pieces are shown at: the run is never off by the cents of a rounding', () => {
    for (let quantity = 1; quantity < 300; quantity++) {
      const piece = pieceCost(0.37 + quantity / 700, rates);
      const { price, prices, setupFee, digitizing } = runPrice([{ quantity, piece }], 1, pricing);
      expect(Math.round(price * 100)).toBe(
        Math.round(prices[0] * 100) * quantity + 100 * (setupFee + digitizing),
      );
    }
  });

  it('costs what its pieces are shown at, to the cent, line by line', () => {
    const cents = (amount: number) => Math.round(amount * 100);
    for (let quantity = 1; quantity < 300; quantity++) {
      const lines = [
        { quantity, piece: pieceCost(0.37 + quantity / 700, rates) },
        { quantity: 12, piece: pieceCost(1 / 3, rates) },
      ];
      const shown = lines.map((line) => line.quantity * Number(line.piece.each.toFixed(2)));
      expect(runPrice(lines, 1, pricing).cost).toBe(cents(shown[0] + shown[1]) / 100);
      for (const { sewing, labor, each } of lines.map(({ piece }) => piece))
        expect(cents(sewing) + cents(labor)).toBe(cents(each));
    }
  });

  it('costs no less a piece for more pieces, and its price falls at a break alone', () => {
    const each = Array.from({ length: 60 }, (_, k) => piecePrice(dear, k + 1, pricing));
    const falls = each.flatMap((price, k) => (k > 0 && price < each[k - 1] ? [k + 1] : []));
    expect(falls).toEqual([12, 48]);
    expect(offPercent(1_000_000, pricing)).toBe(20);
    expect(offPercent(5, { ...pricing, quantityBreaks: [] })).toBe(0);
  });

  it('takes whole pieces, whole rounds of all heads, and the time of people by the piece', () => {
    expect(piecesToHave(10, pricing)).toBe(11);
    expect(piecesToHave(12, pricing)).toBe(14);
    expect(piecesToHave(12, { ...pricing, spoilagePercent: 0 })).toBe(12);
    // 9 pieces on 4 heads: three rounds
    expect(machineMinutes(9, 10, work)).toBe(30);
    expect(machineMinutes(8, 10, work)).toBe(20);
    expect(laborMinutes(9, work)).toBe(27);
  });
});

it('the price of a plan says all that it is made of', () => {
  const cost = {
    total: 2,
    backing: 0.5,
    thread: 0.1,
    machine: 1.4,
    currency: 'USD',
    parts: { sheets: 0.5, topping: 0, topThread: 0.06, bobbin: 0.04, machineMinutes: 7 },
  };
  const price = planPrice(cost, { quantity: 24, rates });
  expect(price).toMatchObject({
    quantity: 24,
    each: 5.94,
    run: 187.56,
    setupFee: 15,
    digitizing: 30,
    marginPercent: 50,
    offPercent: 10,
    spoilagePercent: 10,
    heads: 4,
    machineMinutes: 42,
    laborMinutes: 72,
  });
  expect(price.cost.each).toBeCloseTo(3.3, 12);
  expect(price.cost.run).toBe(79.2);
  expect(price.labor).toBeCloseTo(1.1, 12);
});
