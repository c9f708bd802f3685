/** A shop's own figures in place of the built-in ones, read from its profile. */
import { USUALLY_ACCEPTED } from './advice/accepted.js';
import { LieflatError } from './core/errors.js';
import { nearestName } from './core/nearest-name.js';
import type { Sourced } from './core/sourced.js';
import type { Catalogue } from './materials/catalogue.js';
import { COMMERCIAL_HEAD } from './materials/machine.js';
import { PLACES, type Place } from './materials/places.js';
import { CATALOGUE_CURRENCY, CATALOGUE_PRICES, type Prices } from './materials/prices.js';
import { USUAL_THREAD_USE } from './materials/thread-use.js';
import type { ParameterOverrides } from './mechanics/parameter-overrides.js';
import type { MechanicsParameters } from './mechanics/parameters.js';
import { FIT_AGAIN, hasFirstEdition, withoutGone } from './profile/first-edition.js';
import { allowedKeys, PRICE_KEYS } from './profile/keys.js';
import type { Shop } from './profile/shop.js';
import type { ProfileSource } from './profile/source.js';
import { LIMITS, type LimitOverride, withLimits } from './vetting/limits.js';

export { DEFAULT_SHOP, type Shop } from './profile/shop.js';

/** The file that is looked for from the working directory upward. */
export const PROFILE_NAME = 'lieflat.config.json';

const BASIS = 'shop profile';

/**
 * Reads a profile: JSON, with comments and trailing commas where someone likes them, of any of `limits` (a limit's id to a number, or to `{note, warn, fail}`), `machine`,
 * `thread` (figures in the unit of their name), `places` (an id to `{name?, widthMm, heightMm, frame?}`, built
 * in or new), `catalogue` (by shelf, by id, the values that differ, as `withOverrides` takes them) and `calibration` (a parameter of the
 * pucker model to a number, or to `{value, low?, high?, basis?}`), `prices` (`currency`, and by id `sheets` and `toppings` for a piece that
 * fits a left-chest hoop; `threadPer1000m`, `bobbinPer1000m`, `machinePerHour`) and `accept` (`grade`, `washedGrade`, `washes`). What it leaves out
 * stays built in. A calibration of the pucker model's first edition is passed over, and the shop's `notes` say so.
 *
 * @param text the file's content
 * @param path what the file is called in errors
 * @throws LieflatError `bad-profile`, with the line: no JSON, an unknown key (named, with the nearest allowed one), a wrong value
 */
export async function readProfile(text: string, path: string): Promise<Shop> {
  const [{ parseProfile }, { profileSchema }] = await Promise.all([
    import('./profile/source.js'),
    import('./profile/schema.js'),
  ]);
  const source = await parseProfile(text, path);
  const outdated = hasFirstEdition(source.value);
  const parsed = (await profileSchema()).safeParse(outdated ? withoutGone(source.value) : source.value);
  if (!parsed.success) throw await firstIssue(parsed.error.issues, source);
  const { limits, machine, thread, places, catalogue, calibration, prices, accept } = parsed.data;
  const own = catalogue && (await shopCatalogue(catalogue, source));
  if (prices) {
    requireWholePrices(prices, source);
    await requireKnownIds(prices, own, source);
  }
  return {
    ...(own && { catalogue: own }),
    ...(calibration && !outdated && { parameters: await shopParameters(calibration, source) }),
    ...(outdated && { notes: [`${source.placeOf(['calibration'])}: ${FIT_AGAIN}`] }),
    limits: limits ? inFile(source, () => withLimits(limits as Record<string, LimitOverride>)) : LIMITS,
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
function requireWholePrices(prices: Partial<Prices>, source: ProfileSource): void {
  if ((prices.currency ?? CATALOGUE_CURRENCY) === CATALOGUE_CURRENCY) return;
  const missing = PRICE_KEYS.find((key) => key !== 'toppings' && prices[key] === undefined);
  if (!missing) return;
  throw new LieflatError({
    code: 'bad-profile',
    place: `${source.placeOf(['prices', 'currency'])}: prices.${missing}`,
    what: `is missing, and the built-in price is in ${CATALOGUE_CURRENCY}, not in ${prices.currency}`,
    todo: `give it in ${prices.currency}`,
  });
}

/** A price of a sheet that there is none of would be left out of every plan, unseen. */
async function requireKnownIds(
  prices: Partial<Pick<Prices, 'sheets' | 'toppings'>>,
  own: Catalogue | undefined,
  source: ProfileSource,
): Promise<void> {
  for (const shelf of ['sheets', 'toppings'] as const) {
    const ids = Object.keys(prices[shelf] ?? {});
    if (ids.length === 0) continue;
    const known = Object.keys((own ?? (await import('./materials/catalogue.js')).CATALOGUE)[shelf]);
    const unknown = ids.find((id) => !known.includes(id));
    if (unknown !== undefined) throw await unknownKey(source, ['prices', shelf], unknown, known);
  }
}

// Materials and mechanics are loaded only for a shop that says something of them.
async function shopCatalogue(overrides: object, source: ProfileSource): Promise<Catalogue> {
  const [{ CATALOGUE }, { withOverrides }] = await Promise.all([
    import('./materials/catalogue.js'),
    import('./materials/overrides.js'),
  ]);
  return inFile(source, () => withOverrides(CATALOGUE, overrides));
}

async function shopParameters(
  overrides: ParameterOverrides,
  source: ProfileSource,
): Promise<MechanicsParameters> {
  const [{ PARAMETERS }, { withParameters }] = await Promise.all([
    import('./mechanics/parameters.js'),
    import('./mechanics/parameter-overrides.js'),
  ]);
  return inFile(source, () => withParameters(PARAMETERS, overrides));
}

type Issue = import('zod').core.$ZodIssue;

async function firstIssue(issues: readonly Issue[], source: ProfileSource): Promise<LieflatError> {
  const { issueWords } = await import('./profile/words.js');
  // An unknown key says more than a wrong value does.
  const issue = issues.find((i) => i.code === 'unrecognized_keys') ?? deepest(issues[0]);
  const at = issue.path.map(String);
  if (issue.code === 'unrecognized_keys') return unknownKey(source, at, issue.keys[0], allowedKeys(at));
  return new LieflatError({
    code: 'bad-profile',
    place: source.placeOf(issue.path),
    what: `${at.join('.') || 'the profile'} is wrong: ${issueWords(issue, valueAt(source.value, issue.path))}`,
    todo: 'correct it or leave it out',
  });
}

async function unknownKey(
  source: ProfileSource,
  at: readonly string[],
  key: string,
  allowed: readonly string[],
): Promise<LieflatError> {
  const near = await nearestName(key, allowed);
  return new LieflatError({
    code: 'bad-profile',
    place: source.placeOf([...at, key]),
    what: `unknown key ${[...at, key].join('.')}`,
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

/** Names the file and the line in an error that knows only the key. */
function inFile<T>(source: ProfileSource, make: () => T): T {
  try {
    return make();
  } catch (error) {
    if (!(error instanceof LieflatError)) throw error;
    throw new LieflatError({ ...error, place: `${source.placeOfDotted(error.place)}: ${error.place}` });
  }
}

/** A shop knows its own figure: it has no range. */
function shopFigure(value: number, unit: string): Sourced {
  return { value, low: value, high: value, unit, basis: BASIS };
}

function overridden<T extends object>(base: T, figures: Readonly<Record<string, number | undefined>>): T {
  const result = { ...base } as Record<string, unknown>;
  for (const [key, value] of Object.entries(figures)) {
    const builtIn = result[key] as Sourced;
    // Who repeats the built-in figure, as the profile to start from does, has not said that it is their own.
    if (value !== undefined && value !== builtIn.value) result[key] = shopFigure(value, builtIn.unit);
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
