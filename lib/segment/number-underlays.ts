import type { StitchObject, StitchRange } from './objects.js';

/** Numbers the pieces of underlay from 1 in the order in which they are sewn. */
export function numberUnderlays(objects: readonly StitchObject[]): StitchObject[] {
  const key = ([a, b]: StitchRange) => `${a} ${b}`;
  const ranges = objects.flatMap(({ underlay: { range, also } }) => [
    ...(range ? [range] : []),
    ...also.map((piece) => piece.range),
  ]);
  ranges.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const numbers = new Map<string, number>();
  for (const range of ranges) {
    const name = key(range);
    if (!numbers.has(name)) numbers.set(name, numbers.size + 1);
  }
  return objects.map((object) => {
    const { underlay } = object;
    if (underlay.range === null) return object;
    const also = underlay.also.map((piece) => ({ ...piece, id: numbers.get(key(piece.range))! }));
    return { ...object, underlay: { ...underlay, id: numbers.get(key(underlay.range))!, also } };
  });
}
