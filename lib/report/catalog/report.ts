/** What may be chosen from: materials, places and hoops, with every value as it is. */
import { CATALOGUE_SHELVES, type Catalogue, find, type Shelf } from '../../materials/catalogue.js';
import type { HoopField, Place } from '../../materials/places.js';

/** One or more shelves of the catalogue; each is left out where it was not asked for. */
export type CatalogReport = { schema: 'lieflat/catalog@1' } & Partial<Catalogue> & {
    places?: readonly Place[];
    hoops?: readonly HoopField[];
  };

/**
 * @param shelves those wanted, in order; all without it
 * @param id that material of theirs alone
 * @throws LieflatError `unknown-id`
 */
export function materialsCatalog(
  catalogue: Catalogue,
  shelves: readonly Shelf[] = CATALOGUE_SHELVES,
  id?: string,
): CatalogReport {
  const wanted = (shelf: Shelf) =>
    id === undefined ? catalogue[shelf] : { [id]: find(catalogue, shelf, id) };
  return {
    schema: 'lieflat/catalog@1',
    ...Object.fromEntries(shelves.map((shelf) => [shelf, wanted(shelf)])),
  };
}

/** What `--place` and `--hoop` may be called; a list that is not given is left out. */
export function placesCatalog(
  places: readonly Place[] | undefined,
  hoops: readonly HoopField[] | undefined,
): CatalogReport {
  return { schema: 'lieflat/catalog@1', ...(places && { places }), ...(hoops && { hoops }) };
}
