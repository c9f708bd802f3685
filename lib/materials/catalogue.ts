import { distance } from 'fastest-levenshtein';
import { LieflatError } from '../core/errors.js';
import { FABRICS, type Fabric } from './fabrics.js';
import { NEEDLES, type Needle } from './needles.js';
import { SHEETS, type Sheet } from './sheets.js';
import { THREADS, type Thread } from './threads.js';
import { TOPPINGS, type Topping } from './toppings.js';

/** Everything that can lie in, under or over a design, by id. */
export interface Catalogue {
  readonly fabrics: Readonly<Record<string, Fabric>>;
  readonly sheets: Readonly<Record<string, Sheet>>;
  readonly toppings: Readonly<Record<string, Topping>>;
  readonly threads: Readonly<Record<string, Thread>>;
  readonly needles: Readonly<Record<string, Needle>>;
}

export const CATALOGUE: Catalogue = {
  fabrics: FABRICS,
  sheets: SHEETS,
  toppings: TOPPINGS,
  threads: THREADS,
  needles: NEEDLES,
};

export const CATALOGUE_SHELVES = ['fabrics', 'sheets', 'toppings', 'threads', 'needles'] as const;
export type Shelf = (typeof CATALOGUE_SHELVES)[number];

const ONE_OF: Record<Shelf, string> = {
  fabrics: 'fabric',
  sheets: 'backing sheet',
  toppings: 'topping',
  threads: 'thread',
  needles: 'needle',
};

/**
 * The material with that id.
 * @throws LieflatError `unknown-id`, naming the nearest ids and then all of them.
 */
export function find<S extends Shelf>(catalogue: Catalogue, shelf: S, id: string): Catalogue[S][string] {
  const shelved: Catalogue[S] = catalogue[shelf];
  if (Object.hasOwn(shelved, id)) return shelved[id] as Catalogue[S][string];
  const ids = Object.keys(shelved);
  const nearest = [...ids]
    .map((known) => ({ known, off: distance(id.toLowerCase(), known) }))
    .sort((a, b) => a.off - b.off || (a.known < b.known ? -1 : 1))
    .slice(0, 3)
    .map(({ known }) => known);
  throw new LieflatError({
    code: 'unknown-id',
    place: `${ONE_OF[shelf]} "${id}"`,
    what: `there is no ${ONE_OF[shelf]} of that name`,
    todo: `nearest are ${nearest.join(', ')}; known are ${ids.join(', ')}`,
  });
}
