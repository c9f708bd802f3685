/** What a shop's figures are other than the built-in ones. */
import { isSourced } from '../core/sourced.js';
import { CATALOGUE } from '../materials/catalogue.js';
import { withCataloguePrices } from '../materials/prices.js';
import { PARAMETERS } from '../mechanics/parameters.js';
import { USUAL_PAPER } from '../report/card/paper.js';
import type { Difference, ProfileFigure } from '../report/profile/report.js';
import { type ProfileKey, profileDescription } from './schema.js';
import { keysAt } from './setting.js';
import { BUILT_IN_FIGURES, type ShopFigures } from './shop.js';

interface Leaf {
  readonly value: ProfileFigure;
  readonly unit: string;
}

/** In the order of the profile's keys. Nothing is changed. */
export async function differencesOf(shop: ShopFigures): Promise<Difference[]> {
  const { profile } = await profileDescription();
  const own = new Map<string, Leaf>();
  const builtIn = new Map<string, Leaf>();
  const groups = groupsOf(shop);
  const usual = groupsOf(BUILT_IN_FIGURES);
  for (const key of Object.keys(groups) as ProfileKey[]) {
    const keys = keysAt(profile, [key]);
    gather(own, key, groups[key], keys);
    gather(builtIn, key, usual[key], keys);
  }
  return [...own].flatMap(([key, { value, unit }]) => {
    const before = builtIn.get(key)?.value ?? null;
    return before === value ? [] : [{ key, value, builtIn: before, unit }];
  });
}

/** A shop under the keys of a profile. */
function groupsOf({
  limits,
  machine,
  threadUse,
  places,
  catalogue = CATALOGUE,
  garments = {},
  threadColors = {},
  designThreads = {},
  paper = USUAL_PAPER,
  parameters,
  prices,
  stock,
  work,
  pricing,
  accept,
}: ShopFigures) {
  // Told as garments.
  const told = new Set(catalogue.garments?.map(({ fabric }) => fabric));
  const fabrics = Object.entries(catalogue.fabrics).filter(([id]) => !told.has(id));
  return {
    limits: Object.fromEntries(
      Object.entries(limits).map(([id, { note, warn, fail, unit }]) => {
        const step = (value: number | null) => ({ value, unit, basis: '' });
        return [id, { note: step(note), warn: step(warn), fail: step(fail) }];
      }),
    ),
    machine,
    thread: threadUse,
    places: Object.fromEntries(places.map(({ id, ...place }) => [id, place])),
    catalogue: { ...catalogue, fabrics: Object.fromEntries(fabrics) },
    garments,
    threadColors,
    designs: Object.fromEntries(Object.entries(designThreads).map(([sha, threads]) => [sha, { threads }])),
    paper,
    calibration: parameters ?? PARAMETERS,
    // A built-in price that the shop has in force counts as built in.
    prices: withCataloguePrices(prices, CATALOGUE),
    stock: stock.join(', '),
    work,
    pricing,
    accept,
  } satisfies Record<ProfileKey, object | string>;
}

/** @param keys what is gathered of the value; everything where it is empty */
function gather(out: Map<string, Leaf>, key: string, value: unknown, keys: readonly string[] = []): void {
  if (typeof value !== 'object' || value === null) out.set(key, { value: value as ProfileFigure, unit: '' });
  else if (isSourced(value)) out.set(key, { value: value.value, unit: value.unit });
  else
    for (const [name, inner] of Object.entries(value))
      if (keys.length === 0 || keys.includes(name)) gather(out, `${key}.${name}`, inner);
}
