import { LieflatError } from '../core/errors.js';
import { type Catalogue, find } from './catalogue.js';
import type { Fabric } from './fabrics.js';
import { type GarmentKind, garmentsNamed } from './garments.js';

/** A fabric as a person names it. */
export interface NamedFabric {
  readonly fabric: Fabric;
  /** The garment that was named in its place, or null where the fabric itself was. */
  readonly garment: GarmentKind | null;
}

/**
 * The fabric of that id, or that the garment of that everyday name is most likely made of.
 *
 * @throws LieflatError `unknown-id` where neither is known, or where a name may mean garments of several fabrics
 * @example
 * fabricNamed(CATALOGUE, 'hoodie').fabric.id; // 'fleece'
 */
export function fabricNamed(catalogue: Catalogue, typed: string): NamedFabric {
  if (Object.hasOwn(catalogue.fabrics, typed)) return { fabric: catalogue.fabrics[typed], garment: null };
  const meant = garmentsNamed(typed).filter(({ fabric }) => Object.hasOwn(catalogue.fabrics, fabric));
  if (meant.length === 1) return { fabric: catalogue.fabrics[meant[0].fabric], garment: meant[0] };
  if (meant.length === 0) return { fabric: find(catalogue, 'fabrics', typed), garment: null };
  throw new LieflatError({
    code: 'unknown-id',
    place: `fabric "${typed}"`,
    what: 'that may mean several fabrics',
    todo: `choose ${meant.map(({ fabric, names }) => `${fabric} (${names[0]})`).join(' or ')}`,
  });
}
