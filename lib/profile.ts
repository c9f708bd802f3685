/** A shop's own figures in place of the built-in ones, read from its profile. */
import { type Accepted, USUALLY_ACCEPTED } from './advice/accepted.js';
import { LieflatError } from './core/errors.js';
import { nearestName } from './core/nearest-name.js';
import type { Sourced } from './core/sourced.js';
import type { Catalogue, Shelf } from './materials/catalogue.js';
import { COMMERCIAL_HEAD } from './materials/machine.js';
import { PLACES, type Place } from './materials/places.js';
import { CATALOGUE_CURRENCY, CATALOGUE_PRICES, type Prices } from './materials/prices.js';
import { USUAL_THREAD_USE } from './materials/thread-use.js';
import type { MachineProfile } from './measure/sew-time.js';
import type { ThreadUse } from './measure/thread-length.js';
import type { ParameterOverrides } from './mechanics/parameter-overrides.js';
import type { MechanicsParameters } from './mechanics/parameters.js';
import { issueWords } from './profile-words.js';
import { LIMITS, type LimitOverride, type Limits, withLimits } from './vetting/limits.js';

/** The file that is looked for from the working directory upward. */
export const PROFILE_NAME = 'lieflat.config.json';

/** Every figure that a shop may set, complete. */
export interface Shop {
  limits: Limits;
  machine: MachineProfile;
  threadUse: ThreadUse;
  places: readonly Place[];
  prices: Prices;
  /** The lowest grades that may leave the shop. */
  accept: Accepted;
  /** Materials; the built-in ones without it. */
  catalogue?: Catalogue;
  /** What the pucker model leaves open; fitted to facts of the trade without it. */
  parameters?: MechanicsParameters;
}

/** The shop without a profile. */
export const DEFAULT_SHOP: Shop = {
  limits: LIMITS,
  machine: COMMERCIAL_HEAD,
  threadUse: USUAL_THREAD_USE,
  places: PLACES,
  prices: CATALOGUE_PRICES,
  accept: USUALLY_ACCEPTED,
};

const BASIS = 'shop profile';
const MACHINE_KEYS = [
  'speedSpm',
  'fullSpeedMm',
  'slowestSpm',
  'trimSeconds',
  'colourSeconds',
  'stopSeconds',
] as const satisfies readonly (keyof MachineProfile)[];
const SHELVES = ['fabrics', 'sheets', 'toppings', 'threads', 'needles'] as const satisfies readonly Shelf[];
const CALIBRATION_KEYS = [
  'tension',
  'bedIn',
  'fullTacking',
  'hooped',
  'ownPoints',
  'threshold',
  'longestSpan',
  'perforation',
  'firstWash',
  'scoreHalf',
] as const satisfies readonly (keyof MechanicsParameters)[];
const PRICE_KEYS = [
  'currency',
  'sheets',
  'toppings',
  'threadPer1000m',
  'bobbinPer1000m',
  'machinePerHour',
] as const satisfies readonly (keyof Prices)[];
const ACCEPT_KEYS = ['grade', 'washedGrade', 'washes'] as const satisfies readonly (keyof Accepted)[];
const FIGURE_KEYS = ['value', 'low', 'high', 'basis'] as const;
const THREAD_KEYS = ['thicknessMm', 'bobbinPerTop'] as const satisfies readonly (keyof ThreadUse)[];

/**
 * Reads a profile: JSON with any of `limits` (a limit's id to a number, or to `{note, warn, fail}`), `machine`,
 * `thread` (figures in the unit of their name), `places` (an id to `{name?, widthMm, heightMm, frame?}`, built
 * in or new), `catalogue` (by shelf, by id, the values that differ, as `withOverrides` takes them) and `calibration` (a parameter of the
 * pucker model to a number, or to `{value, low?, high?, basis?}`), `prices` (`currency`, and by id `sheets` and `toppings` for a piece that
 * fits a left-chest hoop; `threadPer1000m`, `bobbinPer1000m`, `machinePerHour`) and `accept` (`grade`, `washedGrade`, `washes`). What it leaves out stays built in.
 *
 * @param text the file's content
 * @param path what the file is called in errors
 * @throws LieflatError `bad-profile`: no JSON, an unknown key (named, with the nearest allowed one), a wrong value
 */
export async function readProfile(text: string, path: string): Promise<Shop> {
  const json = parseJson(text, path);
  const { z } = await import('zod');
  const positive = z.number().positive();
  const price = z.number().min(0);
  const grade = z.number().min(1).max(5).multipleOf(0.5);
  const step = z.number().nullable().optional();
  const override = z.union([z.number(), z.strictObject({ note: step, warn: step, fail: step })]);
  const allOptional = <T>(keys: readonly string[], value: T): Record<string, T> =>
    Object.fromEntries(keys.map((key) => [key, value]));
  const figure = z.strictObject({
    value: z.number(),
    low: z.number().optional(),
    high: z.number().optional(),
    basis: z.string().optional(),
  });
  // What a word may be is told here; numbers and names of fields are told by the catalogue itself.
  const words = {
    fabrics: z.looseObject({ structure: z.enum(['knit', 'woven']).optional() }),
    sheets: z.looseObject({ kind: z.enum(['cut-away', 'tear-away', 'woven', 'soluble']).optional() }),
    toppings: z.looseObject({ removedBy: z.enum(['water', 'heat']).optional() }),
    threads: z.looseObject({
      weight: z.literal([40, 60]).optional(),
      fibre: z.enum(['polyester', 'rayon']).optional(),
    }),
    needles: z.looseObject({ point: z.enum(['sharp', 'ball']).optional() }),
  } satisfies Record<Shelf, unknown>;
  const id = z
    .string()
    .regex(/^[a-z0-9]+([.-][a-z0-9]+)*$/, 'an id is small letters, digits, hyphens and points');
  const schema = z.strictObject({
    catalogue: z
      .strictObject({
        fabrics: z.record(id, words.fabrics).optional(),
        sheets: z.record(id, words.sheets).optional(),
        toppings: z.record(id, words.toppings).optional(),
        threads: z.record(id, words.threads).optional(),
        needles: z.record(id, words.needles).optional(),
      })
      .optional(),
    calibration: z
      .strictObject(allOptional(CALIBRATION_KEYS, z.union([z.number(), figure]).optional()))
      .optional(),
    limits: z.strictObject(allOptional(Object.keys(LIMITS), override.optional())).optional(),
    machine: z.strictObject(allOptional(MACHINE_KEYS, positive.optional())).optional(),
    thread: z.strictObject(allOptional(THREAD_KEYS, positive.optional())).optional(),
    prices: z
      .strictObject({
        currency: z
          .string()
          .regex(/^[A-Z]{3}$/, 'a currency is three capitals, as USD')
          .optional(),
        sheets: z.record(id, price).optional(),
        toppings: z.record(id, price).optional(),
        threadPer1000m: price.optional(),
        bobbinPer1000m: price.optional(),
        machinePerHour: price.optional(),
      })
      .optional(),
    accept: z
      .strictObject({
        grade: grade.optional(),
        washedGrade: grade.optional(),
        washes: z.number().int().min(0).max(200).optional(),
      })
      .optional(),
    places: z
      .record(
        z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'an id is small letters, digits and single hyphens'),
        z.strictObject({
          name: z.string().min(1).optional(),
          widthMm: positive,
          heightMm: positive,
          frame: z.boolean().optional(),
        }),
      )
      .optional(),
  });
  const parsed = schema.safeParse(json);
  if (!parsed.success) throw await firstIssue(parsed.error.issues, path, json);
  const { limits, machine, thread, places, catalogue, calibration, prices, accept } = parsed.data;
  const own = catalogue && (await shopCatalogue(catalogue, path));
  if (prices) {
    requireWholePrices(prices, path);
    await requireKnownIds(prices, own, path);
  }
  return {
    ...(own && { catalogue: own }),
    ...(calibration && { parameters: await shopParameters(calibration, path) }),
    limits: limits ? inFile(path, () => withLimits(limits as Record<string, LimitOverride>)) : LIMITS,
    machine: machine
      ? { ...overridden(COMMERCIAL_HEAD, machine), id: 'shop', name: "the shop's own machine" }
      : COMMERCIAL_HEAD,
    threadUse: thread ? overridden(USUAL_THREAD_USE, thread) : USUAL_THREAD_USE,
    places: places ? mergedPlaces(places) : PLACES,
    prices: { ...CATALOGUE_PRICES, ...prices },
    accept: { ...USUALLY_ACCEPTED, ...accept },
  };
}

/** Built-in prices are in one currency: a shop with another has to give its own. */
function requireWholePrices(prices: Partial<Prices>, path: string): void {
  if ((prices.currency ?? CATALOGUE_CURRENCY) === CATALOGUE_CURRENCY) return;
  const missing = PRICE_KEYS.find((key) => key !== 'toppings' && prices[key] === undefined);
  if (!missing) return;
  throw new LieflatError({
    code: 'bad-profile',
    place: `${path}: prices.${missing}`,
    what: `is missing, and the built-in price is in ${CATALOGUE_CURRENCY}, not in ${prices.currency}`,
    todo: `give it in ${prices.currency}`,
  });
}

/** A price of a sheet that there is none of would be left out of every plan, unseen. */
async function requireKnownIds(
  prices: Partial<Pick<Prices, 'sheets' | 'toppings'>>,
  own: Catalogue | undefined,
  path: string,
): Promise<void> {
  for (const shelf of ['sheets', 'toppings'] as const) {
    const ids = Object.keys(prices[shelf] ?? {});
    if (ids.length === 0) continue;
    const known = Object.keys((own ?? (await import('./materials/catalogue.js')).CATALOGUE)[shelf]);
    const unknown = ids.find((id) => !known.includes(id));
    if (unknown !== undefined) throw await unknownKey(path, `prices.${shelf}`, unknown, known);
  }
}

// Materials and mechanics are loaded only for a shop that says something of them.
async function shopCatalogue(overrides: object, path: string): Promise<Catalogue> {
  const [{ CATALOGUE }, { withOverrides }] = await Promise.all([
    import('./materials/catalogue.js'),
    import('./materials/overrides.js'),
  ]);
  return inFile(path, () => withOverrides(CATALOGUE, overrides));
}

async function shopParameters(overrides: ParameterOverrides, path: string): Promise<MechanicsParameters> {
  const [{ PARAMETERS }, { withParameters }] = await Promise.all([
    import('./mechanics/parameters.js'),
    import('./mechanics/parameter-overrides.js'),
  ]);
  return inFile(path, () => withParameters(PARAMETERS, overrides));
}

function parseJson(text: string, path: string): unknown {
  try {
    return JSON.parse(text.replace(/^\ufeff/, ''));
  } catch (error) {
    const position = /position (\d+)/.exec(String(error))?.[1];
    const line = position === undefined ? '' : `: line ${text.slice(0, Number(position)).split('\n').length}`;
    throw new LieflatError({
      code: 'bad-profile',
      place: `${path}${line}`,
      what: 'this is not JSON',
      todo: 'look for a missing or extra comma, quote or bracket there',
    });
  }
}

type Issue = import('zod').core.$ZodIssue;

async function firstIssue(issues: readonly Issue[], path: string, json: unknown): Promise<LieflatError> {
  // An unknown key says more than a wrong value does.
  const issue = issues.find((i) => i.code === 'unrecognized_keys') ?? deepest(issues[0]);
  const at = issue.path.map(String).join('.');
  if (issue.code === 'unrecognized_keys') {
    return unknownKey(path, at, issue.keys[0], allowedKeys(issue.path.map(String)));
  }
  return new LieflatError({
    code: 'bad-profile',
    place: path,
    what: `${at || 'the profile'} is wrong: ${issueWords(issue, valueAt(json, issue.path))}`,
    todo: 'correct it or leave it out',
  });
}

async function unknownKey(
  path: string,
  at: string,
  key: string,
  allowed: readonly string[],
): Promise<LieflatError> {
  const near = await nearestName(key, allowed);
  return new LieflatError({
    code: 'bad-profile',
    place: path,
    what: `unknown key ${at ? `${at}.` : ''}${key}`,
    todo: near ? `did you mean ${near}?` : `the keys here are ${allowed.join(', ')}`,
  });
}

function valueAt(json: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((value, key) => (value as Record<PropertyKey, unknown> | null)?.[key], json);
}

/** Of the ways a value could have been right, the one that got furthest. */
function deepest(issue: Issue): Issue {
  if (issue.code !== 'invalid_union') return issue;
  const within = issue.errors
    .flat()
    .find((inner) => inner.code === 'unrecognized_keys' || inner.path.length > 0);
  return within ? { ...within, path: [...issue.path, ...within.path] } : issue;
}

function allowedKeys(at: readonly string[]): readonly string[] {
  if (at.length === 0)
    return ['limits', 'machine', 'thread', 'places', 'catalogue', 'calibration', 'prices', 'accept'];
  if (at[0] === 'limits') return at.length === 1 ? Object.keys(LIMITS) : ['note', 'warn', 'fail'];
  if (at[0] === 'machine') return MACHINE_KEYS;
  if (at[0] === 'thread') return THREAD_KEYS;
  if (at[0] === 'prices') return PRICE_KEYS;
  if (at[0] === 'accept') return ACCEPT_KEYS;
  if (at[0] === 'catalogue') return SHELVES;
  if (at[0] === 'calibration') return at.length === 1 ? CALIBRATION_KEYS : FIGURE_KEYS;
  return ['name', 'widthMm', 'heightMm', 'frame'];
}

/** Names the file in an error that knows only the key. */
function inFile<T>(path: string, make: () => T): T {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof LieflatError)) throw error;
    throw new LieflatError({ ...error, place: `${path}: ${error.place}` });
  }
}

/** A shop knows its own figure: it has no range. */
function shopFigure(value: number, unit: string): Sourced {
  return { value, low: value, high: value, unit, basis: BASIS };
}

function overridden<T extends object>(base: T, figures: Readonly<Record<string, number | undefined>>): T {
  const result = { ...base } as Record<string, unknown>;
  for (const [key, value] of Object.entries(figures)) {
    if (value !== undefined) result[key] = shopFigure(value, (result[key] as Sourced).unit);
  }
  return result as T;
}

type PlaceOverride = { name?: string; widthMm: number; heightMm: number; frame?: boolean };

function mergedPlaces(overrides: Readonly<Record<string, PlaceOverride>>): Place[] {
  const places = new Map(PLACES.map((place) => [place.id, place]));
  for (const [id, { name, widthMm, heightMm, frame }] of Object.entries(overrides)) {
    const known = places.get(id);
    places.set(id, {
      id,
      name: name ?? known?.name ?? id,
      widthMm: shopFigure(widthMm, 'mm'),
      heightMm: shopFigure(heightMm, 'mm'),
      frame: frame ?? known?.frame ?? false,
    });
  }
  return [...places.values()];
}
