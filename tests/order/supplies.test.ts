import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { USUAL_PRICING } from '../../lib/advice/price.js';
import { type LineNeeds, suppliesOf } from '../../lib/order/supplies.js';

const sheet = fc.constantFrom('cutaway-2.5oz', 'woven-polyester', 'cap-backing');
const needs: fc.Arbitrary<LineNeeds> = fc.record({
  quantity: fc.integer({ min: 1, max: 500 }),
  tests: fc.integer({ min: 0, max: 1 }),
  stack: fc.array(
    sheet.map((id) => ({ sheet: id, angleDeg: 0 })),
    { maxLength: 3 },
  ),
  topping: fc.constantFrom(null, 'soluble-film'),
  needle: fc.constantFrom('75-11-ball', '75-11-sharp'),
  cut: fc.constantFrom({ widthMm: 200, heightMm: 200 }, { widthMm: 170, heightMm: 220 }),
  threads: fc.array(
    fc.record({
      color: fc.constantFrom(null, 'navy', 'white'),
      lengthMm: fc.integer({ min: 0, max: 100_000 }),
    }),
    { maxLength: 4 },
  ),
  bobbinMm: fc.integer({ min: 0, max: 50_000 }),
});

const sum = (numbers: readonly number[]): number => numbers.reduce((all, one) => all + one, 0);

describe('what an order takes from the shelf', () => {
  it('is the sum of its lines: sheets, toppings, thread by color, bobbin', () => {
    fc.assert(
      fc.property(fc.array(needs, { maxLength: 12 }), (lines) => {
        const { sheets, toppings, threads, bobbinMm, needles } = suppliesOf(lines, USUAL_PRICING);
        for (const id of new Set(lines.flatMap(({ stack }) => stack.map((one) => one.sheet))))
          expect(sum(sheets.filter((one) => one.sheet === id).map(({ pieces }) => pieces))).toBe(
            sum(
              lines.map(({ quantity, stack }) => quantity * stack.filter((one) => one.sheet === id).length),
            ),
          );
        expect(sum(sheets.map(({ forTests }) => forTests))).toBe(
          sum(lines.map(({ tests, stack }) => tests * stack.length)),
        );
        expect(sum(sheets.map(({ areaM2 }) => areaM2))).toBeCloseTo(
          sum(
            lines.map(
              ({ quantity, stack, cut }) => (quantity * stack.length * cut.widthMm * cut.heightMm) / 1e6,
            ),
          ),
          6,
        );
        expect(sum(toppings.map(({ pieces }) => pieces))).toBe(
          sum(lines.map(({ quantity, topping }) => (topping === null ? 0 : quantity))),
        );
        for (const color of [null, 'navy', 'white'])
          expect(threads.find((one) => one.color === color)?.lengthMm ?? 0).toBe(
            sum(
              lines.flatMap(({ quantity, threads: own }) =>
                own.filter((one) => one.color === color).map(({ lengthMm }) => quantity * lengthMm),
              ),
            ),
          );
        expect(bobbinMm).toBe(sum(lines.map((line) => line.quantity * line.bobbinMm)));
        expect(new Set(needles)).toEqual(new Set(lines.map(({ needle }) => needle)));
      }),
    );
  });

  it('has spare pieces for what spoils, whole ones, of each kind together', () => {
    const line: LineNeeds = {
      quantity: 1,
      tests: 0,
      stack: [{ sheet: 'cutaway-2.5oz', angleDeg: 0 }],
      topping: null,
      needle: '75-11-ball',
      cut: { widthMm: 200, heightMm: 200 },
      threads: [],
      bobbinMm: 0,
    };
    const twelve = Array.from({ length: 12 }, () => line);
    const [{ pieces, spare }] = suppliesOf(twelve, { ...USUAL_PRICING, spoilagePercent: 2 }).sheets;
    expect([pieces, spare]).toEqual([12, 1]);
    expect(suppliesOf(twelve, { ...USUAL_PRICING, spoilagePercent: 0 }).sheets[0].spare).toBe(0);
    // One garment that spoils takes both of its sheets.
    const crossed = { ...line, stack: [0, 45].map((angleDeg) => ({ sheet: 'cutaway-2.5oz', angleDeg })) };
    const [both] = suppliesOf([...twelve, crossed], { ...USUAL_PRICING, spoilagePercent: 2 }).sheets;
    expect([both.pieces, both.spare]).toEqual([14, 2]);
  });

  it('has the sheets of a test beside them, as many as lie under a piece', () => {
    const crossed: LineNeeds = {
      ...{ quantity: 24, tests: 1, topping: 'soluble-film', needle: '75-11-ball' },
      stack: [0, 45].map((angleDeg) => ({ sheet: 'woven-polyester', angleDeg })),
      cut: { widthMm: 200, heightMm: 200 },
      ...{ threads: [], bobbinMm: 0 },
    };
    const { sheets, toppings } = suppliesOf([crossed, { ...crossed, tests: 0 }], USUAL_PRICING);
    expect([sheets[0].pieces, sheets[0].forTests, toppings[0].forTests]).toEqual([96, 2, 1]);
  });
});
