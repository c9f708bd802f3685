/** What a shop's figures are other than the built-in ones. */
import type { Sourced } from '../core/sourced.js';
import { withCataloguePrices } from '../materials/prices.js';
import { DEFAULT_SHOP, type Shop } from './shop.js';

export type ProfileFigure = number | string | boolean | null;

export interface Difference {
  /** As the profile says it: `limits.satin-too-wide.warn`. */
  readonly key: string;
  readonly value: ProfileFigure;
  /** Null where nothing is built in. */
  readonly builtIn: ProfileFigure;
  readonly unit: string;
}

interface Leaf {
  readonly value: ProfileFigure;
  readonly unit: string;
}

/** In the order of the profile's keys. Nothing is changed. */
export async function differencesOf(shop: Shop): Promise<Difference[]> {
  const own = await leavesOf(shop);
  const builtIn = await leavesOf(DEFAULT_SHOP);
  return [...own].flatMap(([key, { value, unit }]) => {
    const before = builtIn.get(key)?.value ?? null;
    return before === value ? [] : [{ key, value, builtIn: before, unit }];
  });
}

async function leavesOf(shop: Shop): Promise<Map<string, Leaf>> {
  const [{ CATALOGUE }, { PARAMETERS }] = await Promise.all([
    import('../materials/catalogue.js'),
    import('../mechanics/parameters.js'),
  ]);
  const { limits, machine, threadUse, places, prices, accept } = shop;
  const catalogue = shop.catalogue ?? CATALOGUE;
  const out = new Map<string, Leaf>();
  for (const [id, limit] of Object.entries(limits))
    for (const step of ['note', 'warn', 'fail'] as const)
      out.set(`limits.${id}.${step}`, { value: limit[step], unit: limit.unit });
  const { id: _, name: __, ...head } = machine;
  gather(out, 'machine', head);
  gather(out, 'thread', threadUse);
  for (const { id, ...place } of places) gather(out, `places.${id}`, place);
  gather(out, 'catalogue', catalogue);
  gather(out, 'calibration', shop.parameters ?? PARAMETERS);
  // A built-in price that the shop has in force counts as built in.
  gather(out, 'prices', withCataloguePrices(prices, CATALOGUE));
  gather(out, 'accept', accept);
  return out;
}

const isSourced = (value: object): value is Sourced =>
  'value' in value && 'unit' in value && 'basis' in value;

function gather(out: Map<string, Leaf>, key: string, value: unknown): void {
  if (typeof value !== 'object' || value === null) out.set(key, { value: value as ProfileFigure, unit: '' });
  else if (isSourced(value)) out.set(key, { value: value.value, unit: value.unit });
  else for (const [name, inner] of Object.entries(value)) gather(out, `${key}.${name}`, inner);
}
