import { describe, expect, it } from 'vitest';
import { DEFAULT_SHOP, readProfile } from '../../lib/profile.js';

const read = (profile: object) => readProfile(JSON.stringify(profile), 'shop.json');

describe('prices and the accepted grade in a profile', () => {
  it('take the place of the built-in ones, key by key', async () => {
    const shop = await read({
      prices: { sheets: { 'cap-backing': 0.2 }, machinePerHour: 30 },
      accept: { washedGrade: 4 },
    });
    expect(shop.prices).toEqual({
      ...DEFAULT_SHOP.prices,
      sheets: { 'cap-backing': 0.2 },
      machinePerHour: 30,
    });
    expect(shop.accept).toEqual({ ...DEFAULT_SHOP.accept, washedGrade: 4 });
  });

  it('never mix two currencies', async () => {
    await expect(read({ prices: { currency: 'EUR', sheets: { 'cap-backing': 0.2 } } })).rejects.toThrow(
      /prices\.threadPer1000m.*give it in EUR/,
    );
  });

  it.each([
    [
      { prices: { machinePerHours: 1 } },
      /unknown key prices\.machinePerHours; did you mean machinePerHour\?/,
    ],
    [{ accept: { grades: 3 } }, /unknown key accept\.grades; did you mean grade\?/],
    [{ accept: { grade: 3.3 } }, /accept\.grade/],
    [{ accept: { washes: 1.5 } }, /accept\.washes/],
    [{ prices: { currency: 'euro' } }, /three capitals/],
  ])('%j is refused, naming the key', async (profile, message) => {
    await expect(read(profile)).rejects.toThrow(message);
  });
});
