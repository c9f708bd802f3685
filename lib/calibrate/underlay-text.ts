import { LAID_UNDERLAYS, type LaidUnderlay } from '../stitch/laid-underlay.js';
import type { Fault } from './row-fault.js';

/** Underlay as it lies in the file. */
export const AS_IS = 'as-is';

/** Underlay laid under an object in place of its own. */
export interface UnderlayAsSewn {
  readonly object: number;
  readonly to: LaidUnderlay;
}

/** `as-is`, or a kind and the ids of the objects that it is laid under: `fill:1 2 7`; kinds are joined by `;`. */
export function underlayText(changes: readonly UnderlayAsSewn[]): string {
  if (changes.length === 0) return AS_IS;
  const byKind = new Map<string, number[]>();
  for (const { object, to } of changes) byKind.set(to, [...(byKind.get(to) ?? []), object]);
  return [...byKind].map(([to, ids]) => `${to}:${ids.join(' ')}`).join(';');
}

const isLaid = (kind: string): kind is LaidUnderlay => (LAID_UNDERLAYS as readonly string[]).includes(kind);

/**
 * Reads what {@link underlayText} writes; capitals, further blanks and an empty text (as it lies in the file) are taken as well.
 * @returns the changes by rising object, or what is wrong with the text
 */
export function readUnderlay(text: string): UnderlayAsSewn[] | Fault {
  const plain = text.trim().toLowerCase();
  if (plain === '' || plain === AS_IS) return [];
  const byObject = new Map<number, LaidUnderlay>();
  for (const part of plain.split(';').map((p) => p.trim())) {
    if (part === '') continue;
    const [kind, ids, ...rest] = part.split(':').map((p) => p.trim());
    const params = { part, kinds: LAID_UNDERLAYS };
    if (!isLaid(kind) || rest.length > 0) return { code: 'underlay-unknown', params };
    if (!/^\d{1,6}( +\d{1,6})*$/.test(ids ?? '')) return { code: 'underlay-of-nothing', params };
    for (const id of ids.split(/ +/).map(Number)) {
      const before = byObject.get(id);
      if (before && before !== kind)
        return { code: 'underlay-twice', params: { object: id, kinds: [before, kind] } };
      byObject.set(id, kind);
    }
  }
  return [...byObject].map(([object, to]) => ({ object, to })).sort((a, b) => a.object - b.object);
}
