/** What a shop says of the objects of a design that it knows better than the finder. */
import { type ObjectKind, PURPOSES, type Purpose, type StitchRange } from '../objects.js';

export const KINDS_SAID = ['satin', 'fill', 'run'] as const satisfies readonly ObjectKind[];

/** All that can be said: what it is, that it is underlay, what it is sewn for. */
export const SAYINGS = [...KINDS_SAID, 'underlay', ...PURPOSES] as const;
export type Saying = ObjectKind | 'underlay' | Purpose;

/** What was said of one object, which is known by its stitches: they stay what they are, numbers may be given anew. */
export interface SetObject {
  readonly stitches: StitchRange;
  /** One kind and one purpose at most, or `underlay` alone. */
  readonly is: readonly Saying[];
}

/** Why an object cannot be what was said. */
export type NotSet = 'no-object' | 'not-covered' | 'no-swings' | 'several-sections' | 'no-rows';

/** What came of what was said: of which object, and why not where it cannot be. */
export interface SetOutcome extends SetObject {
  /** Null where there is no object of those stitches. */
  readonly object: number | null;
  readonly not: NotSet | null;
}

export const isKind = (said: Saying): said is ObjectKind => (KINDS_SAID as readonly string[]).includes(said);
export const isPurpose = (said: Saying): said is Purpose => (PURPOSES as readonly string[]).includes(said);

/** What stands after one more thing was said: the new goes before the old where both say the same of it. */
export function saidToo(before: readonly Saying[], said: Saying): readonly Saying[] {
  if (said === 'underlay') return [said];
  const same = isKind(said) ? isKind : isPurpose;
  return [...before.filter((old) => old !== 'underlay' && !same(old)), said].sort(
    (a, b) => SAYINGS.indexOf(a) - SAYINGS.indexOf(b),
  );
}
