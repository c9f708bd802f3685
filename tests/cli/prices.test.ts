import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { BUILT_IN_FIGURES, readProfile } from '../../lib/profile.js';

const read = (profile: object) => readProfile(JSON.stringify(profile), 'shop.json');

describe('prices and the accepted grade in a profile', () => {
  it('take the place of the built-in ones, key by key', async () => {
    const shop = await read({
      prices: { sheets: { 'cap-backing': 0.2 }, machinePerHour: 30 },
      accept: { washedGrade: 4 },
    });
    expect(shop.prices).toEqual({
      ...BUILT_IN_FIGURES.prices,
      sheets: { 'cap-backing': 0.2 },
      machinePerHour: 30,
    });
    expect(shop.accept).toEqual({ ...BUILT_IN_FIGURES.accept, washedGrade: 4 });
  });

  it('never mix two currencies', async () => {
    await expect(read({ prices: { currency: 'EUR', sheets: { 'cap-backing': 0.2 } } })).rejects.toThrow(
      /prices\.threadPer1000m.*give it in EUR/,
    );
  });

  it('may be of materials that the shop added', async () => {
    const { id: _, name: __, ...felt } = CATALOGUE.sheets['cutaway-3oz'];
    const profile = { catalogue: { sheets: { felt: { ...felt, name: 'felt' } } } };
    expect((await read({ ...profile, prices: { sheets: { felt: 0.3 } } })).prices.sheets).toEqual({
      felt: 0.3,
    });
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
    [
      { prices: { sheets: { 'cutaway-2.5': 0.1 } } },
      /prices\.sheets\.cutaway-2\.5 is wrong: there is no backing sheet of that name; did you mean cutaway-2\.5oz/,
    ],
    [
      { prices: { toppings: { 'cap-backing': 0.1 } } },
      /prices\.toppings\.cap-backing is wrong: there is no topping of that name/,
    ],
    [
      { prices: { sheets: { 'cap-backing': -0.1 } } },
      /prices\.sheets\.cap-backing is wrong: it must be at least 0/,
    ],
    [
      { prices: { sheets: { 'cap-backing': '0.10 USD' } } },
      /prices\.sheets\.cap-backing is wrong: it is no number/,
    ],
    [{ prices: 3 }, /prices is wrong: it is no group of settings/],
    [{ accept: { grade: 3.3 } }, /accept\.grade is wrong: it goes in steps of 0\.5/],
    [{ accept: { grade: 5.5 } }, /accept\.grade is wrong: it must be at most 5/],
    [{ accept: { washedGrade: 0.5 } }, /accept\.washedGrade is wrong: it must be at least 1/],
    [{ accept: { washes: 1.5 } }, /accept\.washes is wrong: it is no whole number/],
    [{ accept: { washes: -1 } }, /accept\.washes is wrong: it must be at least 0/],
    [{ machine: { speedSpm: 0 } }, /machine\.speedSpm is wrong: it must be above 0/],
    [{ places: { cuff: { widthMm: 1 } } }, /places\.cuff\.heightMm is wrong: it is missing/],
    [{ places: { cuff: { widthMm: 1, heightMm: 1, name: '' } } }, /places\.cuff\.name is wrong: it is empty/],
    [
      { places: { 'Left Chest': { widthMm: 1, heightMm: 1 } } },
      /Left Chest is wrong: an id is small letters/,
    ],
    [{ limits: { 'satin-too-wide': 'x' } }, /satin-too-wide is wrong: it is neither a number nor a group/],
    [
      { catalogue: { sheets: { 'cap-backing': { kind: 'felt' } } } },
      /kind is wrong: it must be one of cut-away, /,
    ],
    [[], /the profile is wrong: it is no group of settings/],
  ])('%j is refused, naming the key', async (profile, message) => {
    await expect(read(profile)).rejects.toThrow(message);
    // What the library that checks values says is no shop's language.
    await expect(read(profile)).rejects.not.toThrow(/Invalid|expected|received/);
  });
});
