import { distance } from 'fastest-levenshtein';
import { LieflatError } from '../core/errors.js';
import type { Fabric } from './fabric.js';
import { FABRICS } from './fabrics.js';
import type { GarmentKind } from './garments.js';
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
  /** Garments that a shop has names of its own for; none without it. */
  readonly garments?: readonly GarmentKind[];
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

/** Ids named in an error; a list of all is a command away. */
const MOST_NAMED = 6;
/** Where no id holds a word that was typed, as many of the nearest by spelling are named. */
const NEAREST_BY_SPELLING = 3;

/**
 * The material with that id.
 * @throws LieflatError `unknown-id`, naming the ids that were likely meant and where all are listed.
 */
export function find<S extends Shelf>(catalogue: Catalogue, shelf: S, id: string): Catalogue[S][string] {
  const shelved: Catalogue[S] = catalogue[shelf];
  if (Object.hasOwn(shelved, id)) return shelved[id] as Catalogue[S][string];
  const meant = likelyMeant(id, Object.keys(shelved), shelf !== 'fabrics');
  const list = `lieflat catalog ${shelf} lists all`;
  const names = meant.length === 1 ? `did you mean ${meant[0]}?` : `the nearest are ${meant.join(', ')};`;
  throw new LieflatError({
    code: 'unknown-id',
    place: `${ONE_OF[shelf]} "${id}"`,
    what: `there is no ${ONE_OF[shelf]} of that name`,
    todo:
      meant.length === 0
        ? `say what the garment is in everyday words, as hoodie, polo or towel; ${list}`
        : `${names} ${list}`,
  });
}

/**
 * Ids that hold most of the words typed, else the nearest in spelling by the Levenshtein distance, the nearest first. A fabric is never
 * guessed by spelling: one that is spelled alike may need another backing.
 */
function likelyMeant(typed: string, ids: readonly string[], bySpelling: boolean): string[] {
  // Ids are plain letters: an accent is taken off (Unicode normalisation form D), so that piqué finds pique-knit.
  const wanted = typed
    .trim()
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[\s_]+/g, '-');
  const words = wanted.split('-').filter((word) => word !== '');
  const scored = ids
    .map((id) => ({
      id,
      held: words.filter((word) => id.includes(word)).length,
      off: distance(wanted, id),
    }))
    .sort((a, b) => b.held - a.held || a.off - b.off || (a.id < b.id ? -1 : 1));
  const most = scored[0]?.held ?? 0;
  const meant =
    most > 0
      ? scored.filter(({ held }) => held === most)
      : scored.slice(0, bySpelling ? NEAREST_BY_SPELLING : 0);
  return meant.slice(0, MOST_NAMED).map(({ id }) => id);
}
