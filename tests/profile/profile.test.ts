import fc from 'fast-check';
import { parse as parseJsonc } from 'jsonc-parser';
import { describe, expect, it } from 'vitest';
import * as z from 'zod';
import { LieflatError } from '../../lib/core/errors.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { differencesOf } from '../../lib/profile/differences.js';
import { profileReport } from '../../lib/profile/profile-report.js';
import { profileDescription, profileJsonSchema } from '../../lib/profile/schema.js';
import { groupIn, keysAt, settingOf, settingWords } from '../../lib/profile/setting.js';
import { starterProfile } from '../../lib/profile/starter.js';
import { withCalibration } from '../../lib/profile/with-calibration.js';
import { BUILT_IN_FIGURES, readProfile } from '../../lib/profile.js';
import { profileToText } from '../../lib/report/profile/document.js';
import { LIMITS } from '../../lib/vetting/limits.js';

const { profile: description } = await profileDescription();
const PROFILE_KEYS = keysAt(description, []).filter((key) => key !== '$schema');
const CALIBRATION_KEYS = keysAt(description, ['calibration']);

const read = (text: string) => readProfile(text, 'shop.json');
const refusal = async (text: string): Promise<LieflatError> => {
  const error = await read(text).catch((e: unknown) => e);
  expect(error).toBeInstanceOf(LieflatError);
  expect(error).toMatchObject({ code: 'bad-profile' });
  return error as LieflatError;
};

describe('the text of a profile', () => {
  it('may have comments, trailing commas and the reference that editors follow', async () => {
    const shop = await read(`\ufeff// ours
    {
      "$schema": "./x.json", /* for the editor */
      "machine": {
        "speedSpm": 650, // the old head
      },
    }`);
    expect(shop.machine.speedSpm).toMatchObject({ value: 650, basis: 'shop profile' });
  });

  it.each([
    ['{\n  "limits": {\n    "satin-to-wide": 9\n  }\n}', 'line 3', 'unknown key limits.satin-to-wide'],
    [
      '{\n  "machine": {\n\n    "speedSpm": "fast" } }',
      'line 4',
      'machine.speedSpm is wrong: it is neither a number',
    ],
    ['{\n  "limits": {\n    "satin-too-wide":\n      { "warn": 13 } } }', 'line 3', 'milder'],
    [
      '{ "catalogue": {\n "sheets": {\n "cutaway-2.5oz": {\n "price": -1 } } } }',
      'line 4',
      'catalogue.sheets.cutaway-2.5oz.price is wrong: it must be at least 0',
    ],
    [
      '{\n "prices": {\n "sheets": { "cutaway-9oz": 1 } } }',
      'line 3',
      'prices.sheets.cutaway-9oz is wrong: there is no backing sheet of that name',
    ],
    ['{\n "prices": {\n "currency": "EUR" } }', 'line 3', 'prices.sheets is missing'],
    [
      '{\n "garments": {\n "hoodie": {\n "like": "flece" } } }',
      'line 4',
      'garments.hoodie.like is wrong: there is no fabric',
    ],
    [
      '{\n "garments": {\n "hoodie": { "stretch": "some" } } }',
      'line 3',
      'garments.hoodie.like is wrong: it is missing',
    ],
    [
      '{\n "garments": {\n "hoodie": { "like": "fleece",\n "stretch": "lots" } } }',
      'line 4',
      'garments.hoodie.stretch is wrong: it must be one of none, some, double, several-times',
    ],
    [
      '{ "garments": { "tee": { "like": "poplin" },\n "Tees": { "like": "twill" } } }',
      'line 2',
      'garments.Tees is there already under another spelling',
    ],
    ['{\n "accept": {},\n "accept": {}\n}', 'line 3', 'the key accept stands twice'],
    ['{\n "__proto__": { "limits": {} }\n}', 'line 2', 'the key __proto__ is not allowed'],
    [
      '{\n "places": {\n "__proto__": { "widthMm": 1, "heightMm": 1 } } }',
      'line 3',
      'places.__proto__ is not allowed',
    ],
    ['{ "catalogue": { "fabrics": {\n "constructor": {} } } }', 'line 2', 'constructor is not allowed'],
    ['{ "machine": {\n "speedSpm": 1e999 } }', 'line 2', 'machine.speedSpm is 1e999'],
    ['{ "machine": {\n "speedSpm": 12345678 } }', 'line 2', 'machine.speedSpm is 12345678'],
    ['{ "machine": {\n "speedSpm": NaN } }', 'line 2', 'this is not JSON'],
    ['{ "machine": {\n "speedSpm": -Infinity } }', 'line 2', 'this is not JSON'],
    ['', 'line 1', 'this is not JSON'],
    ['// nothing', 'line 1', 'this is not JSON'],
    ['{} {}', 'line 1', 'this is not JSON'],
    [`${'['.repeat(50)}1${']'.repeat(50)}`, 'line 1', 'nested deeper'],
    ['['.repeat(200_000), 'line 1', ''],
  ])('is refused with its line: %j', async (text, place, what) => {
    const error = await refusal(text);
    expect(error.place).toContain(`shop.json: ${place}`);
    expect(error.what).toContain(what);
    expect(error.todo).not.toBe('');
    expect(({} as Record<string, unknown>).limits).toBeUndefined();
  });

  it('is read or refused, whatever it says', async () => {
    const key = fc.oneof(
      fc.constantFrom(
        ...PROFILE_KEYS,
        ...CALIBRATION_KEYS,
        '__proto__',
        'constructor',
        'satin-too-wide',
        'value',
        'sheets',
        'pique-knit',
        'left-chest',
        'widthMm',
      ),
      fc.string(),
    );
    const { tree } = fc.letrec((tie) => ({
      tree: fc.oneof(
        { maxDepth: 4 },
        fc.oneof(fc.double(), fc.integer(), fc.string(), fc.boolean(), fc.constant(null)),
        fc.dictionary(key, tie('tree'), { maxKeys: 4 }),
        fc.array(tie('tree'), { maxLength: 3 }),
      ),
    }));
    const profile = fc.dictionary(fc.constantFrom(...PROFILE_KEYS), fc.dictionary(key, tree, { maxKeys: 3 }));
    const text = fc.oneof(
      profile.map((value) => JSON.stringify(value)),
      tree.map((value) => JSON.stringify(value) ?? ''),
      fc.string(),
      fc
        .array(fc.constantFrom('{', '}', '[', ']', ',', ':', '"limits"', '//', '/*', '1', '\n'))
        .map((t) => t.join('')),
    );
    await fc.assert(
      fc.asyncProperty(text, async (given) => {
        try {
          const shop = await readProfile(given, 'shop.json');
          for (const { value, low, high } of Object.values(shop.parameters ?? PARAMETERS))
            expect(low >= 0 && low <= value && value <= high && high < Infinity).toBe(true);
        } catch (error) {
          if (!(error instanceof LieflatError)) throw error;
          expect(error.place).toMatch(/^shop\.json/);
        }
      }),
      { numRuns: 200, seed: 5 },
    );
  });
});

describe('the profile to start from', () => {
  it('changes nothing as it stands, whatever it repeats', async () => {
    const text = await starterProfile('./schema.json');
    const shop = await read(text);
    expect(await differencesOf(shop)).toEqual([]);
    expect(shop.limits).toEqual(LIMITS);
    const { id: _, name: __, ...machine } = shop.machine;
    expect(BUILT_IN_FIGURES.machine).toMatchObject(machine);
    expect(shop.threadUse).toEqual(BUILT_IN_FIGURES.threadUse);
    expect(shop.accept).toEqual(BUILT_IN_FIGURES.accept);
  });

  it('says of every limit what it rests on, beside its value', async () => {
    const text = await starterProfile();
    expect(text).not.toContain('$schema');
    const plain = text.replace(/\n\s*\/\/ /g, ' ');
    for (const [id, { basis, meaning }] of Object.entries(LIMITS)) {
      const before = plain.slice(0, plain.indexOf(`"${id}"`));
      expect(before.trimEnd().endsWith(basis), id).toBe(true);
      expect(before).toContain(meaning);
    }
    for (const line of text.split('\n').filter((l) => l.trim().startsWith('//')))
      expect(line.length).toBeLessThan(115);
  });
});

describe('what differs from the built-in figures', () => {
  it('is every figure that was set, and no other', async () => {
    const shop = await read(`{
      "limits": { "satin-too-wide": { "warn": 6, "fail": null } },
      "machine": { "speedSpm": 650, "trimSeconds": 7 },
      "prices": { "sheets": { "woven-polyester": 0.3 } },
      "places": { "dog-coat": { "widthMm": 150, "heightMm": 60 } },
      "accept": { "washes": 4 },
      "catalogue": { "fabrics": { "denim": { "mass": 400 } } },
      "calibration": { "tension": 0.2 }
    }`);
    const differences = await differencesOf(shop);
    expect(differences.map(({ key, value, builtIn }) => [key, value, builtIn])).toEqual([
      ['limits.satin-too-wide.warn', 6, 7],
      ['limits.satin-too-wide.fail', null, 12.1],
      ['machine.speedSpm', 650, 800],
      ['places.dog-coat.name', 'dog-coat', null],
      ['places.dog-coat.widthMm', 150, null],
      ['places.dog-coat.heightMm', 60, null],
      ['places.dog-coat.frame', false, null],
      ['catalogue.fabrics.denim.mass', 400, expect.any(Number)],
      ['calibration.tension', 0.2, PARAMETERS.tension.value],
      ['prices.sheets.woven-polyester', 0.3, 0.25],
      ['accept.washes', 4, 8],
    ]);
    const text = profileToText(await profileReport('shop.json', shop), { width: 80, units: 'mm' }, 'x.json');
    expect(text).toContain('shop.json is in use: it changes 11 built-in figures.');
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });
});

describe('the schema for editors', () => {
  it('knows every key that a profile may have, with words beside it, and no other', async () => {
    const schema = (await profileJsonSchema()) as {
      $schema: string;
      additionalProperties: boolean;
      properties: Record<
        string,
        { description?: string; properties?: Record<string, { description?: string }> }
      >;
    };
    expect(schema.$schema).toContain('json-schema.org');
    expect(schema.additionalProperties).toBe(false);
    expect(Object.keys(schema.properties).sort()).toEqual(['$schema', ...PROFILE_KEYS].sort());
    for (const { description } of Object.values(schema.properties)) expect(description).toBeTruthy();
    const { properties } = schema.properties.limits;
    expect(Object.keys(properties!)).toEqual(Object.keys(LIMITS));
    expect(properties!['satin-too-wide'].description).toContain(LIMITS['satin-too-wide'].meaning);
    expect(Object.keys(schema.properties.calibration.properties!)).toEqual(Object.keys(PARAMETERS));
  });
});

describe('the description', () => {
  it('has words of their own for all that stands side by side, and the unit of what is built in', async () => {
    const { profile, settings } = await profileDescription();
    const walk = (schema: Parameters<typeof settingOf>[1], at: string): void => {
      const setting = settingOf(settings, schema)!;
      expect(setting?.words, at).toBeTruthy();
      const group = groupIn(schema);
      // A figure, too, may be given as a group, of its value, its range and its basis.
      if (group === null || setting.unit !== undefined) return;
      const inner =
        group.type === 'object' ? Object.entries(group.shape) : ([['*', group.valueType]] as const);
      const told = inner.map(([, one]) => settingOf(settings, one)).filter((one) => one !== undefined);
      expect(new Set(told.map(settingWords)).size, at).toBe(told.length);
      if (group.type === 'object') for (const [key, one] of inner) walk(one, `${at}.${key}`);
    };
    for (const key of PROFILE_KEYS) walk(profile.shape[key as keyof typeof profile.shape], key);
  });

  it('takes what the catalog prints of a value, in its own unit and in no other', async () => {
    const { mass } = CATALOGUE.fabrics.denim;
    const denim = (given: unknown) =>
      read(JSON.stringify({ catalogue: { fabrics: { denim: { mass: given } } } }));
    expect((await denim(mass)).catalogue!.fabrics.denim.mass).toEqual(mass);
    await expect(denim({ ...mass, unit: 'oz/yd²' })).rejects.toThrow(
      'catalogue.fabrics.denim.mass.unit is wrong: it must be one of g/m²',
    );
  });

  it('is the same for an editor as for the reader', async () => {
    const schema = z.fromJSONSchema((await profileJsonSchema()) as never);
    const start = parseJsonc(await starterProfile('./x.json')) as Record<string, Record<string, unknown>>;
    expect(schema.safeParse(start).success).toBe(true);
    for (const [group, key, value] of [
      ['machine', 'speedspm', 650],
      ['machine', 'speedSpm', 0],
      ['limits', 'satin-too-wide', 'wide'],
      ['calibration', 'topShare', 1.2],
      ['accept', 'grade', 3.25],
      ['prices', 'currency', 'usd'],
      ['places', 'Left Chest', { widthMm: 1, heightMm: 1 }],
    ] as const) {
      const wrong = { ...start, [group]: { ...start[group], [key]: value } };
      expect(schema.safeParse(wrong).success, `${group}.${key}`).toBe(false);
      await expect(read(JSON.stringify(wrong))).rejects.toThrow(`${group}`);
    }
  });
});

describe('a fit written into a profile', () => {
  const fitted = {
    tension: { value: 0.11, low: 0.1, high: 0.12, basis: 'sew-outs' },
    scoreHalf: { value: 0.4 },
  };

  it('stands beside all that was there, comments and all', async () => {
    const before = `{
  // the old head
  "machine": { "speedSpm": 650 }, // slow
  "calibration": {
    /* measured */ "bedIn": 6,
    "tension": 0.2
  },
}
`;
    const after = await withCalibration(before, fitted);
    for (const comment of ['// the old head', '// slow', '/* measured */']) expect(after).toContain(comment);
    const shop = await read(after);
    expect(shop.machine.speedSpm.value).toBe(650);
    expect(shop.parameters).toMatchObject({
      bedIn: { value: 6 },
      tension: { value: 0.11, low: 0.1, high: 0.12, basis: 'sew-outs' },
      scoreHalf: { value: 0.4 },
    });
    expect(await withCalibration(after, fitted)).toBe(after);
  });

  it('takes the place of one of the model before this one, whatever else stays', async () => {
    const before =
      '{\n  "accept": { "washes": 4 }, // ours\n  "calibration": { "threshold": 4.1, "tension": 0.1, },\n}\n';
    const after = await withCalibration(before, fitted);
    const shop = await read(after);
    expect(after).toContain('// ours');
    expect(after).not.toContain('threshold');
    expect(shop.notes).toBeUndefined();
    expect(shop.parameters!.tension.value).toBe(0.11);
    expect(shop.accept.washes).toBe(4);
  });

  it('makes a profile where there is none', async () => {
    const text = await withCalibration(null, fitted);
    expect(text.endsWith('}\n')).toBe(true);
    expect(Object.keys(JSON.parse(text) as object)).toEqual(['calibration']);
    expect((await read(await withCalibration('// empty\n{}', fitted))).parameters!.tension.value).toBe(0.11);
  });
});
