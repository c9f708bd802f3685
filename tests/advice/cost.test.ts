/** Costs reckoned by hand, and the thread that they rest on against the published consumption of a lockstitch. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { costOf } from '../../lib/advice/cost.js';
import { decodeDesign } from '../../lib/format/decode.js';
import { HOOP_FIELDS } from '../../lib/materials/places.js';
import type { Prices } from '../../lib/materials/prices.js';
import { lockstitchMm } from '../../lib/measure/thread-length.js';
import { SHOP } from '../built-in-shop.js';

const prices: Prices = {
  currency: 'EUR',
  sheets: { bonded: 0.1, woven: 0.25 },
  toppings: { film: 0.08 },
  threadPer1000m: 1.5,
  bobbinPer1000m: 2,
  machinePerHour: 12,
};
const field = (id: string) => HOOP_FIELDS.find((hoop) => hoop.id === id)!;
const job = {
  stack: [
    { sheet: 'woven', angleDeg: 0 },
    { sheet: 'woven', angleDeg: 45 },
  ],
  topping: 'film',
  hoop: field('flat-100x100'),
  design: { widthMm: 80, heightMm: 60 },
  threadMm: 60_000,
  bobbinMm: 20_000,
  sewSeconds: 900,
  prices,
};

describe('the cost of a piece, reckoned by hand', () => {
  it('left chest: whole sheets, 60 m and 20 m of thread, a quarter of an hour', () => {
    const { total, backing, thread, machine, currency, parts } = costOf(job);
    // 2 × 0.25 + 0.08; 60/1000 × 1.50 + 20/1000 × 2.00; 12 / 4
    expect(backing).toBeCloseTo(0.58, 9);
    expect(thread).toBeCloseTo(0.09 + 0.04, 9);
    expect(machine).toBeCloseTo(3, 9);
    expect(total).toBeCloseTo(3.71, 9);
    expect(currency).toBe('EUR');
    expect(parts.machineMinutes).toBe(15);
  });

  it('a field of 200 × 300 mm takes a piece of 300 × 400, three times that of 200 × 200', () => {
    const one = { ...job, stack: [{ sheet: 'bonded', angleDeg: 0 }], topping: null };
    expect(costOf({ ...one, hoop: field('flat-200x300') }).parts.sheets).toBeCloseTo(0.3, 9);
    // A smaller hoop takes a whole sheet all the same.
    expect(costOf({ ...one, hoop: field('round-90') }).parts.sheets).toBeCloseTo(0.1, 9);
    // Where no hoop holds it: 300 × 300 for a design of 200 × 200.
    const large = { ...one, hoop: null, design: { widthMm: 200, heightMm: 200 } };
    expect(costOf(large).parts.sheets).toBeCloseTo(0.1 * (9 / 4), 9);
  });
});

it('what has no price makes no sum: the key is named', () => {
  expect(() => costOf({ ...job, topping: 'heat-film' })).toThrow(/prices\.toppings\.heat-film.*in EUR/);
  expect(() => costOf({ ...job, stack: [{ sheet: 'felt', angleDeg: 0 }] })).toThrow(/prices\.sheets\.felt/);
});

describe('thread', () => {
  it('a lockstitch takes what ISO 4915 type 301 does: C = 2 + 2TS inch an inch', () => {
    // T 0.01 in, S 10 stitches an inch: 2.2 inch an inch (printed); 3 mm through 0.5 mm: 7.0 mm
    expect(10 * lockstitchMm(0.1, 0.01)).toBeCloseTo(2.2, 12);
    expect(lockstitchMm(3, 0.5)).toBeCloseTo(7, 12);
  });

  // Common practice, no source: 4.5 to 6 m of top thread a 1,000 stitches in ordinary designs, bobbin about a third. Bold satin takes more.
  it.each(['crest.dst', 'cap-front.dst'])('%s', async (name) => {
    const bytes = readFileSync(new URL(`../../samples/${name}`, import.meta.url));
    const file = { path: name, format: 'dst', bytes: bytes.length, sha256: '0' } as const;
    const { stitches, threadMm, bobbinMm } = SHOP.vet(await decodeDesign(bytes, 'dst'), {
      file,
    }).designMeasures;
    const metresPer1000 = threadMm / stitches;
    expect(metresPer1000).toBeGreaterThan(4.5);
    expect(metresPer1000).toBeLessThan(6);
    expect(bobbinMm / threadMm).toBeCloseTo(1 / 3, 6);
  });
});
