import { mkdirSync, writeFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { PLACES } from '../../lib/materials/places.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { BUILT_IN_FIGURES, readProfile } from '../../lib/profile.js';
import type { VetReport } from '../../lib/report/vet/report.js';
import { LIMITS } from '../../lib/vetting/limits.js';
import { lieflat, shopFolder } from './at-a-terminal.js';

const read = (profile: unknown) => readProfile(JSON.stringify(profile), 'shop.json');

describe("a shop's profile", () => {
  it('leaves everything built in where it says nothing', async () => {
    expect(await read({})).toEqual(BUILT_IN_FIGURES);
    expect(await readProfile('\ufeff{}', 'shop.json')).toEqual(BUILT_IN_FIGURES);
  });

  it('puts its own figures, marked as its own', async () => {
    const shop = await read({
      limits: { 'satin-too-wide': 9, 'fill-too-open': { note: null, warn: 1.2 } },
      machine: { speedSpm: 650, trimSeconds: 10 },
      thread: { bobbinPerTop: 0.3 },
      places: {
        'left-chest': { widthMm: 90, heightMm: 80 },
        'dog-coat': { name: 'dog coat', widthMm: 150, heightMm: 60, frame: true },
      },
    });
    expect(shop.limits['satin-too-wide']).toMatchObject({ warn: 9, fail: 12.1, basis: 'shop profile' });
    expect(shop.limits['fill-too-open']).toMatchObject({ note: null, warn: 1.2 });
    expect(shop.limits['satin-too-narrow']).toEqual(LIMITS['satin-too-narrow']);
    expect(shop.machine.speedSpm).toEqual({
      value: 650,
      low: 650,
      high: 650,
      unit: 'stitches/min',
      basis: 'shop profile',
    });
    expect(shop.machine.stopSeconds).toEqual(BUILT_IN_FIGURES.machine.stopSeconds);
    expect(shop.threadUse.bobbinPerTop.value).toBe(0.3);
    expect(shop.places).toHaveLength(PLACES.length + 1);
    expect(shop.places.find((p) => p.id === 'left-chest')).toMatchObject({
      name: 'left chest',
      widthMm: { value: 90 },
      frame: false,
    });
    expect(shop.places.at(-1)).toMatchObject({ id: 'dog-coat', name: 'dog coat', frame: true });
  });

  it('puts its own materials and its own fit of the model over the built-in ones', async () => {
    const shop = await read({
      catalogue: {
        fabrics: {
          'pique-knit': { bendingAlong: { value: 7, low: 6, high: 8, basis: 'cantilever, our own' } },
        },
        sheets: { 'cutaway-2.5oz': { price: 0.12 } },
      },
      calibration: { tension: 0.15, bedIn: { value: 6, low: 5, high: 8 } },
    });
    expect(shop.catalogue!.fabrics['pique-knit'].bendingAlong).toEqual({
      value: 7,
      low: 6,
      high: 8,
      unit: 'µN·m',
      basis: 'cantilever, our own',
    });
    expect(shop.catalogue!.sheets['cutaway-2.5oz'].price).toMatchObject({ value: 0.12, unit: 'USD/sheet' });
    expect(shop.catalogue!.fabrics.denim).toBe(CATALOGUE.fabrics.denim);
    expect(shop.parameters!.tension).toMatchObject({ value: 0.15, low: 0.15, high: 0.15, unit: 'N' });
    expect(shop.parameters!.bedIn).toMatchObject({ value: 6, low: 5, high: 8, unit: 'mm' });
    expect(shop.parameters!.longestSpan).toBe(PARAMETERS.longestSpan);
    expect(Object.keys(shop.parameters!)).toEqual(Object.keys(PARAMETERS));
  });

  it.each([
    { fullTacking: 0.267, tension: 0.0941 },
    { hooped: 0.05 },
    {
      tension: {
        value: 0.0941,
        low: 0.084,
        high: 0.105,
        basis: "fitted to 54 graded sew-outs of the shop's own; built-in 0.135",
      },
    },
  ])('passes a calibration of the model before this one over with one note: %j', async (calibration) => {
    const shop = await read({ accept: { washes: 4 }, calibration });
    expect(shop.parameters).toBeUndefined();
    expect(shop.accept.washes).toBe(4);
    expect(shop.notes).toHaveLength(1);
    expect(shop.notes![0]).toMatch(/^shop\.json: line 1: .*fit again: the model changed/);
  });

  it('takes every parameter of the model', async () => {
    const own = Object.fromEntries(Object.entries(PARAMETERS).map(([key, { value }]) => [key, value]));
    const { parameters } = await read({ calibration: own });
    for (const [key, { value }] of Object.entries(PARAMETERS))
      expect(parameters![key as keyof typeof PARAMETERS].value).toBe(value);
  });

  it.each([
    [{ catalogue: { fabric: {} } }, 'unknown key catalogue.fabric', 'did you mean fabrics?'],
    [
      { catalogue: { fabrics: { denim: { bendng: 3 } } } },
      'catalogue.fabrics.denim.bendng',
      'the keys here are name',
    ],
    [{ catalogue: { fabrics: { denim: { mass: -3 } } } }, 'catalogue.fabrics.denim.mass', 'give'],
    [{ catalogue: { fabrics: { felt: { mass: 300 } } } }, 'catalogue.fabrics.felt', 'give every field'],
    [
      { catalogue: { sheets: { 'cap-backing': { kind: 'felt' } } } },
      'cap-backing.kind is wrong',
      'correct it',
    ],
    [{ catalogue: { fabrics: { 'My Felt': {} } } }, 'catalogue.fabrics', 'correct it'],
    [{ calibration: { tensoin: 0.1 } }, 'unknown key calibration.tensoin', 'did you mean tension?'],
    [
      { calibration: { tension: { value: 1, lo: 0 } } },
      'unknown key calibration.tension.lo',
      'did you mean low?',
    ],
    [{ calibration: { tension: 'tight' } }, 'calibration.tension is wrong', 'give a number in N'],
    [{ calibration: { tension: -1 } }, 'calibration.tension is wrong: it must be above 0', 'in N'],
    [{ calibration: { topShare: 1.2 } }, 'calibration.topShare is wrong: it must be at most 1', 'correct it'],
    [{ calibration: { cutFibers: -1 } }, 'calibration.cutFibers is wrong: it must be at least 0', 'in mm²'],
    [
      { calibration: { hooped: 0.1, tensoin: 0.1 } },
      'unknown key calibration.tensoin',
      'did you mean tension?',
    ],
    [
      { calibration: { hooped: 0.1, tension: 'tight' } },
      'calibration.tension is wrong',
      'give a number in N',
    ],
    [{ calibration: { tension: { value: 1, low: 2 } } }, 'calibration.tension', 'give low ≤ value'],
  ])('refuses %j', async (profile, what, todo) => {
    const error = await read(profile).catch((e: unknown) => e);
    expect(error).toMatchObject({ code: 'bad-profile' });
    expect(String(error)).toContain('shop.json');
    expect(String(error)).toContain(what);
    expect(String(error)).toContain(todo);
  });

  it.each([
    [{ limit: {} }, 'unknown key limit', 'did you mean limits?'],
    [{ limits: { 'satin-to-wide': 9 } }, 'unknown key limits.satin-to-wide', 'did you mean satin-too-wide?'],
    [
      { limits: { 'satin-too-wide': { wrn: 9 } } },
      'unknown key limits.satin-too-wide.wrn',
      'did you mean warn?',
    ],
    [{ machine: { speedspm: 9 } }, 'unknown key machine.speedspm', 'did you mean speedSpm?'],
    [{ machine: { needles: 15 } }, 'unknown key machine.needles', 'the keys here are speedSpm'],
    [
      { places: { cuff: { widthMm: 1, heightMm: 1, hight: 2 } } },
      'unknown key places.cuff.hight',
      'the keys here are',
    ],
    [{ machine: { speedSpm: -1 } }, 'machine.speedSpm is wrong', 'give a number in stitches/min'],
    [{ machine: { speedSpm: 'fast' } }, 'machine.speedSpm is wrong', 'give a number in stitches/min'],
    [{ limits: { 'satin-too-wide': 'narrow' } }, 'limits.satin-too-wide is wrong', 'give a number in mm'],
    [
      { limits: { 'satin-too-wide': { warn: 'x' } } },
      'limits.satin-too-wide.warn is wrong',
      'give a number in mm',
    ],
    [{ limits: { 'satin-too-wide': { warn: 13 } } }, 'shop.json: line 1: limits.satin-too-wide', 'in order'],
    [{ places: { 'Left Chest': { widthMm: 1, heightMm: 1 } } }, 'places', 'correct it'],
    [{ places: { cuff: { widthMm: 1 } } }, 'places.cuff.heightMm is wrong', 'give a number in mm'],
    [[], 'the profile is wrong', 'correct it'],
    [null, 'the profile is wrong', 'correct it'],
  ])('refuses %j', async (profile, what, todo) => {
    const error = await read(profile).catch((e: unknown) => e);
    expect(error).toMatchObject({ code: 'bad-profile' });
    expect(String(error)).toContain('shop.json');
    expect(String(error)).toContain(what);
    expect(String(error)).toContain(todo);
  });

  it('says in which line it is no JSON', async () => {
    const error = await readProfile('{\n  "limits": {\n    "satin-too-wide": 9,,\n  }\n}', 'shop.json').catch(
      (e: unknown) => e,
    );
    expect(error).toMatchObject({ code: 'bad-profile', place: 'shop.json: line 3' });
  });
});

describe('the profile on the command line', () => {
  const warned = (out: string): string[] =>
    (JSON.parse(out) as VetReport).findings.map((f) => `${f.code} ${f.severity}`);

  it('is read where --profile says', async () => {
    const { at } = shopFolder();
    writeFileSync(at('shop.json'), JSON.stringify({ limits: { 'satin-too-narrow': { warn: 4 } } }));
    const args = ['vet', at('plain.dst'), '--format', 'json'];
    expect(warned((await lieflat(args)).out)).not.toContain('satin-too-narrow warn');
    expect(warned((await lieflat([...args, '--profile', at('shop.json')])).out)).toContain(
      'satin-too-narrow warn',
    );
  });

  it('is found from the working directory upward, the nearest first', async () => {
    const { at } = shopFolder();
    mkdirSync(at('orders/today'), { recursive: true });
    const args = ['vet', at('plain.dst'), '--format', 'json'];
    writeFileSync(at('lieflat.config.json'), JSON.stringify({ limits: { 'satin-too-narrow': { warn: 4 } } }));
    expect(warned((await lieflat(args, { cwd: at('orders/today') })).out)).toContain('satin-too-narrow warn');
    writeFileSync(at('orders/lieflat.config.json'), '{}');
    expect(warned((await lieflat(args, { cwd: at('orders/today') })).out)).not.toContain(
      'satin-too-narrow warn',
    );
  });

  it('lends its places to --place and to the catalogue', async () => {
    const { folder, at } = shopFolder();
    writeFileSync(
      at('lieflat.config.json'),
      JSON.stringify({ places: { 'dog-coat': { widthMm: 15, heightMm: 60 } } }),
    );
    const vetted = await lieflat(['vet', at('crest.dst'), '--place', 'dog-coat', '--format', 'json'], {
      cwd: folder,
    });
    expect(warned(vetted.out)).toContain('does-not-fit-place fail');
    expect((await lieflat(['catalog', 'places'], { cwd: folder })).out).toMatch(
      /dog-coat +15 +60 +shop profile/,
    );
  });

  it('stops the run when it is wrong or missing', async () => {
    const { folder, at } = shopFolder();
    writeFileSync(at('lieflat.config.json'), '{"limts": {}}');
    const wrong = await lieflat(['vet', at('plain.dst')], { cwd: folder });
    expect([wrong.code, wrong.out]).toEqual([2, '']);
    expect(wrong.err).toBe(
      `lieflat: ${at('lieflat.config.json')}: line 1: unknown key limts; did you mean limits?\n`,
    );
    const missing = await lieflat(['vet', at('plain.dst'), '--profile', at('none.json')]);
    expect(missing.code).toBe(2);
    expect(missing.err).toContain('none.json');
  });
});
