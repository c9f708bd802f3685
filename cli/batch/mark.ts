import type { ShopFigures } from '../../lib/index.js';
import { sha256 } from '../../lib/io/index.js';
import { packageVersion } from '../version.js';

/**
 * A short mark of everything that a vet report depends on beside the file: limits and other figures of the shop, place, hoop, fabric,
 * and the program's version. Reports with the same mark can stand for each other. What the shop has set right in one design is no
 * matter of the others: see {@link markOf}.
 */
export function settingsMark({ shop, ...others }: { shop: ShopFigures; [other: string]: unknown }): string {
  const { setObjects: _, ...figures } = shop;
  const settings = { ...others, shop: figures };
  return sha256(JSON.stringify([packageVersion(), inOrder(settings)])).slice(0, 16);
}

/** The same with the keys of every object sorted, so that the order in which a profile is written does not matter. */
function inOrder(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(inOrder);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).filter(([, inner]) => inner !== undefined);
  return Object.fromEntries(
    entries.sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, inner]) => [key, inOrder(inner)]),
  );
}

/** The mark of one file: another one where the shop has set objects of it right. */
export function markOf(mark: string, { setObjects }: ShopFigures, sha: string): string {
  const objects = setObjects?.get(sha)?.objects;
  return objects === undefined ? mark : sha256(JSON.stringify([mark, objects])).slice(0, 16);
}
