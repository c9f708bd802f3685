/** The shop that a profile describes. */
import { USUALLY_ACCEPTED } from '../advice/accepted.js';
import { type ShopWork, USUAL_PRICING, USUAL_WORK } from '../advice/price.js';
import { LieflatError } from '../core/errors.js';
import { CATALOGUE, CATALOGUE_SHELVES, type Catalogue } from '../materials/catalogue.js';
import { COMMERCIAL_HEAD } from '../materials/machine.js';
import { PLACES, type Place } from '../materials/places.js';
import { CATALOGUE_CURRENCY, CATALOGUE_PRICES } from '../materials/prices.js';
import { USUAL_STOCK } from '../materials/stock.js';
import { USUAL_THREAD_USE } from '../materials/thread-use.js';
import { PARAMETERS } from '../mechanics/parameters.js';
import { wordsFor } from '../report/phrases/words.js';
import { colorNamed, colorsNamed, ownColors } from '../report/proof/thread-colors.js';
import { LIMITS, type Limits } from '../vetting/limits.js';
import { hasFirstEdition, withoutGone } from './first-edition.js';
import { withOwnGarments } from './own-garments.js';
import { refusalOf, type SettingsSource } from './refusal.js';
import { type CheckedProfile, profileDescription } from './schema.js';
import { keysAt, type ProfileSettings, schemaAt, settingOf } from './setting.js';
import type { ShopFigures } from './shop.js';

const words = wordsFor({ units: 'mm', detail: 'full' });

type CoreSchema = import('zod').core.$ZodType;

/**
 * The built-in shop with what a profile says over it; neither is changed.
 *
 * @throws LieflatError `bad-profile`, naming the key: an unknown one (with the nearest allowed), a wrong value
 */
export async function figuresOf(source: SettingsSource): Promise<ShopFigures> {
  const { profile, checked, settings } = await profileDescription();
  const outdated = hasFirstEdition(source.value);
  const parsed = checked.safeParse(outdated ? withoutGone(source.value) : source.value);
  if (!parsed.success)
    throw await refusalOf(parsed.error.issues, source, {
      whole: 'the profile',
      todo: 'correct it or leave it out',
      keysAt: (at) => keysAt(profile, at),
      unitAt: (at) => unitAt(profile, settings, at),
    });
  const {
    limits,
    machine,
    thread,
    places,
    catalogue,
    garments,
    calibration,
    prices,
    stock,
    work,
    pricing,
    accept,
  } = parsed.data;
  const { threadColors, designs, paper } = parsed.data;
  refuseOddColors(parsed.data, source);
  const materials = catalogue && withOwnMaterials(catalogue);
  return {
    ...(threadColors && { threadColors }),
    ...(designs && {
      designThreads: Object.fromEntries(Object.entries(designs).map(([sha, { threads }]) => [sha, threads])),
    }),
    ...(paper && { paper }),
    ...(materials && { catalogue: materials }),
    ...(garments && { garments, catalogue: withOwnGarments(materials ?? CATALOGUE, garments, source) }),
    ...(calibration && !outdated && { parameters: over(PARAMETERS, calibration) }),
    ...(outdated && { notes: [words.profile.fitAgain({ place: source.placeOf(['calibration']) })] }),
    limits: limits ? over<Limits>(LIMITS, limits) : LIMITS,
    machine: machine
      ? { ...over(COMMERCIAL_HEAD, machine), id: 'shop', name: "the shop's own machine" }
      : COMMERCIAL_HEAD,
    threadUse: thread ? over(USUAL_THREAD_USE, thread) : USUAL_THREAD_USE,
    places: places ? withOwnPlaces(places) : PLACES,
    prices: over(CATALOGUE_PRICES, prices ?? {}),
    stock: stock ?? usualStock(catalogue?.sheets, prices?.sheets),
    work: over(usualWork(prices?.currency), work ?? {}),
    pricing: over(USUAL_PRICING, pricing ?? {}),
    accept: over(USUALLY_ACCEPTED, accept ?? {}),
  };
}

/** @throws LieflatError `bad-profile` for a color that there is not */
function refuseOddColors({ threadColors = {}, designs = {} }: CheckedProfile, source: SettingsSource): void {
  const held = (at: readonly string[], look: () => unknown): void => {
    try {
      look();
    } catch (error) {
      if (!(error instanceof LieflatError)) throw error;
      const what = `${at.join('.')} is wrong: ${error.place}: ${error.what}`;
      throw new LieflatError({ code: 'bad-profile', place: source.placeOf(at), what, todo: error.todo });
    }
  };
  for (const [name, color] of Object.entries(threadColors))
    held(['threadColors', name], () => colorNamed(color));
  for (const [sha, { threads }] of Object.entries(designs))
    held(['designs', sha, 'threads'], () => colorsNamed(threads, ownColors(threadColors)));
}

/** The usual sheets, and those that the shop describes or prices its own way: a price that is repeated is none of its own. */
function usualStock(own: object = {}, prices: Readonly<Record<string, number>> = {}): string[] {
  const priced = Object.entries(prices).filter(([id, price]) => CATALOGUE.sheets[id]?.price.value !== price);
  return [...new Set([...USUAL_STOCK.ids, ...Object.keys(own), ...priced.map(([id]) => id)])];
}

/** What is built in of labor is in one currency: in another it is not known. */
const usualWork = (currency = CATALOGUE_CURRENCY): ShopWork =>
  currency === CATALOGUE_CURRENCY ? USUAL_WORK : { ...USUAL_WORK, laborPerHour: null };

/** The unit of the figure that a place is, or is a part of. */
function unitAt(profile: CoreSchema, settings: ProfileSettings, at: readonly string[]): string | undefined {
  const place = schemaAt(profile, at);
  const unit = place && settingOf(settings, place)?.unit;
  if (unit !== undefined || at.length < 2) return unit ?? undefined;
  const figure = schemaAt(profile, at.slice(0, -1));
  return figure ? settingOf(settings, figure)?.unit : undefined;
}

/** What is given, over the rest. */
const over = <T extends object>(base: T, given: { readonly [K in keyof T]?: T[K] | undefined }): T => ({
  ...base,
  ...Object.fromEntries(Object.entries(given).filter(([, value]) => value !== undefined)),
});

function withOwnMaterials(own: NonNullable<CheckedProfile['catalogue']>): Catalogue {
  const shelves = CATALOGUE_SHELVES.map((shelf) => {
    const known: Readonly<Record<string, object>> = CATALOGUE[shelf];
    const changed = Object.entries(own[shelf] ?? {}).map(([id, fields]) => [
      id,
      { ...(Object.hasOwn(known, id) && known[id]), id, ...fields },
    ]);
    return [shelf, { ...known, ...Object.fromEntries(changed) }];
  });
  return Object.fromEntries(shelves) as Catalogue;
}

function withOwnPlaces(own: NonNullable<CheckedProfile['places']>): Place[] {
  const places = new Map(PLACES.map((place) => [place.id, place]));
  for (const [id, { name, widthMm, heightMm, frame }] of Object.entries(own)) {
    const known = places.get(id);
    places.set(id, {
      id,
      name: name ?? known?.name ?? id,
      widthMm,
      heightMm,
      frame: frame ?? known?.frame ?? false,
    });
  }
  return [...places.values()];
}
