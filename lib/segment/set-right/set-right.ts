/**
 * Puts what a shop says of its objects in the place of what was found. Numbers stay: where an object becomes underlay its
 * number is left out, and those of the others are as they were.
 */
import type { Stitches } from '../../format/stitches.js';
import { numberGroups } from '../groups.js';
import { numberUnderlays } from '../number-underlays.js';
import type { StitchObject, StitchRange } from '../objects.js';
import { asKind } from './as-kind.js';
import { asUnderlay } from './as-underlay.js';
import { isKind, isPurpose, type NotSet, type SetObject, type SetOutcome } from './saying.js';

/** Share of their stitches that two ranges have in common if they are of one object, however a later finder draws its ends. */
const SAME_OBJECT = 0.8;

export interface SetRight {
  readonly objects: readonly StitchObject[];
  /** What came of everything that was said, in its order. */
  readonly set: readonly SetOutcome[];
}

/**
 * @param objects what was found, in sewing order
 * @param said of objects by their stitches; neither is changed
 */
export function setRight(
  stitches: Stitches,
  objects: readonly StitchObject[],
  said: readonly SetObject[],
): SetRight {
  if (said.length === 0) return { objects, set: [] };
  const outcomes = said.map((one): SetOutcome => {
    const object = objectAt(objects, one.stitches);
    return { ...one, object: object?.id ?? null, not: object ? null : 'no-object' };
  });
  const byId = new Map(objects.map((object) => [object.id, object]));
  const fail = (k: number, not: NotSet) => {
    outcomes[k] = { ...outcomes[k], not };
  };
  outcomes.forEach(({ object: id, is }, k) => {
    if (id === null) return;
    const object = byId.get(id)!;
    const kind = is.find(isKind);
    const made = kind ? asKind(stitches, object, kind) : object;
    if (typeof made === 'string') fail(k, made);
    else if (!is.includes('underlay'))
      byId.set(id, {
        ...made,
        purpose: is.find(isPurpose) ?? made.purpose,
        confidence: 1,
        doubt: null,
        setByShop: true,
      });
  });
  let all = [...byId.values()];
  const lows = outcomes.flatMap(({ object: id, is }, k) =>
    id !== null && is.includes('underlay') ? [{ k, id }] : [],
  );
  const under = new Set(lows.map(({ id }) => id));
  // The highest first: what lies under underlay lies under the same objects.
  for (const { k, id } of lows.toReversed()) {
    const tops = all.filter((object) => object.id === id || !under.has(object.id));
    const without = asUnderlay(stitches, tops, byId.get(id)!);
    if (without === null) fail(k, 'not-covered');
    else {
      const changed = new Map(without.map((object) => [object.id, object]));
      all = all.flatMap((object) => (object.id === id ? [] : [changed.get(object.id) ?? object]));
    }
    under.delete(id);
  }
  return { objects: numberGroups(stitches, numberUnderlays(all)), set: outcomes };
}

/** The object that has most of some stitches, and hardly any others. */
export function objectAt(objects: readonly StitchObject[], [a, b]: StitchRange): StitchObject | null {
  let best: StitchObject | null = null;
  let share = SAME_OBJECT;
  for (const object of objects) {
    const [first, last] = object.range;
    const both = Math.min(b, last) - Math.max(a, first) + 1;
    const either = Math.max(b, last) - Math.min(a, first) + 1;
    if (both / either < share) continue;
    best = object;
    share = both / either;
  }
  return best;
}

/** What was said, at the stitches that a rewriting has moved; what is no longer there is left out. */
export const movedSaid = (said: readonly SetObject[], movedTo: Int32Array): SetObject[] =>
  said.flatMap(({ stitches: [first, last], is }) => {
    const [from, to] = [movedTo[first], movedTo[last]];
    return from >= 0 && to >= from ? [{ stitches: [from, to] as const, is }] : [];
  });

/** Objects numbered as those of the design that theirs was made from, if they are as many. */
export const numberedAs = (
  objects: readonly StitchObject[],
  before: readonly { readonly id: number }[],
): readonly StitchObject[] =>
  objects.length === before.length ? objects.map((object, k) => ({ ...object, id: before[k].id })) : objects;

/** A design and what is in it, before and after it was made larger. */
interface GrownDesign {
  readonly stitches: Pick<Stitches, 'count'>;
  readonly objects: readonly StitchObject[];
}

/** What was said, at the stitches of the same objects in a design made anew; what cannot be told there is left out. */
export function saidAnew(
  said: readonly SetObject[],
  before: GrownDesign,
  after: GrownDesign,
): readonly SetObject[] {
  // Stitch for stitch the same, only elsewhere.
  if (before.stitches.count === after.stitches.count) return said;
  const moved = new Map<string, StitchRange>();
  const pair = (was: StitchRange | null, is: StitchRange | null) => {
    if (was && is) moved.set(was.join(), is);
  };
  before.objects.forEach((object, k) => {
    const anew = after.objects[k];
    pair(object.underlay.range, anew.underlay.range);
    object.underlay.also.forEach((piece, n) => {
      pair(piece.range, anew.underlay.also[n]?.range ?? null);
    });
    pair(object.range, anew.range);
  });
  return said.flatMap(({ stitches, is }) => {
    const range = moved.get((objectAt(before.objects, stitches)?.range ?? stitches).join());
    return range ? [{ stitches: range, is }] : [];
  });
}
