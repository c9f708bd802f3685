import { LieflatError } from '../core/errors.js';
import { type Catalogue, find } from './catalogue.js';
import type { Fabric } from './fabric.js';
import { type GarmentKind, garmentId, garmentsAkin, garmentsNamed } from './garments.js';

/** A fabric as a person names it. */
export interface NamedFabric {
  readonly fabric: Fabric;
  /** The garment that was named in its place, or null where the fabric itself was. */
  readonly garment: GarmentKind | null;
}

/**
 * The fabric of that id, or that the garment of that everyday name is most likely made of. A garment that a shop has named itself goes before both.
 *
 * @throws LieflatError `unknown-id` where neither is known, or where a name may mean garments of several fabrics
 * @example
 * fabricNamed(CATALOGUE, 'hoodie').fabric.id; // 'fleece'
 */
export function fabricNamed(catalogue: Catalogue, typed: string): NamedFabric {
  const { fabrics, garments = [] } = catalogue;
  const own = garments.find(({ fabric }) => fabric === garmentId(typed));
  if (own) return { fabric: fabrics[own.fabric], garment: own };
  if (Object.hasOwn(fabrics, typed)) return { fabric: fabrics[typed], garment: null };
  const meant = garmentsNamed(typed, garments).filter(({ fabric }) => Object.hasOwn(fabrics, fabric));
  if (meant.length === 1) return { fabric: fabrics[meant[0].fabric], garment: meant[0] };
  /** What a name may be, where that is more than one thing. */
  const unsure = (what: string, todo: string) =>
    new LieflatError({ code: 'unknown-id', place: `fabric "${typed}"`, what, todo });
  if (meant.length > 1)
    throw unsure(
      'that may mean several fabrics',
      `choose ${meant.map(({ fabric, names }) => `${fabric} (${names[0]})`).join(' or ')}`,
    );
  const akin = garmentsAkin(typed, garments);
  if (akin.length > 0) throw unsure('that may be several garments', `say which: ${akin.join(', ')}`);
  return { fabric: find(catalogue, 'fabrics', typed), garment: null };
}

/** Whether a name leads to some fabric, be it to several. */
export const isFabricNamed = ({ fabrics, garments = [] }: Catalogue, typed: string): boolean =>
  Object.hasOwn(fabrics, typed) || garmentsNamed(typed, garments).length > 0;
