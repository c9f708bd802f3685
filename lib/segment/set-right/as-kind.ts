/** An object told as another kind than was found, as far as its stitches bear that out. */
import type { Stitches } from '../../format/stitches.js';
import { measureRows } from '../../geometry/rows.js';
import { findField, patternOf } from '../fields.js';
import { cutBetween } from '../groups.js';
import { findLegStrings, type LegString } from '../leg-strings.js';
import { LegFinder } from '../legs.js';
import { NO_UNDERLAY, type ObjectKind, type StitchObject } from '../objects.js';
import { countPasses } from '../run-passes.js';
import type { NotSet } from './saying.js';

/** So many legs that turn back on one another have a width, or a distance from row to row. */
const FEWEST_LEGS = 3;
/** Share of an object's stitches that they have to take up. */
const MOST_OF_IT = 0.6;
const NO_ENDS = new Int32Array(0);

/** The object as that kind, or why it cannot be. */
export function asKind(stitches: Stitches, object: StitchObject, kind: ObjectKind): StitchObject | NotSet {
  if (object.kind === kind) return object;
  if (kind === 'run') return asRun(stitches, object);
  return kind === 'satin' ? asSatin(stitches, object) : asFill(stitches, object);
}

function asRun(stitches: Stitches, object: StitchObject): StitchObject {
  return {
    ...object,
    kind: 'run',
    from: NO_ENDS,
    to: NO_ENDS,
    sections: NO_ENDS,
    split: false,
    foam: false,
    pattern: null,
    timesDense: 1,
    passes: countPasses(stitches, object.range[0], object.range[1]),
    underlay: NO_UNDERLAY,
  };
}

function asSatin(stitches: Stitches, object: StitchObject): StitchObject | NotSet {
  if (object.sections.length > 1) return 'several-sections';
  const legs = rowsOf(object) ?? legsOf(stitches, object);
  if (legs === null) return 'no-swings';
  const broken = legs.from.reduce((sum, from, k) => sum + (legs.to[k] - from > 1 ? 1 : 0), 0);
  return {
    ...object,
    ...legs,
    kind: 'satin',
    sections: NO_ENDS,
    pattern: null,
    split: broken > legs.from.length / 2,
    ...passesOf(object),
  };
}

function asFill(stitches: Stitches, object: StitchObject): StitchObject | NotSet {
  const legs = rowsOf(object) ?? legsOf(stitches, object);
  if (legs !== null) {
    const sections = Int32Array.of(0);
    const { x, y } = stitches;
    const { spacingMm } = measureRows(x, y, legs.from, legs.to, sections);
    const pitchMm = spacingMm.toSorted()[spacingMm.length >> 1];
    const pattern = patternOf(stitches, legs.from, legs.to, pitchMm);
    return { ...object, ...legs, kind: 'fill', sections, pattern, split: false, ...passesOf(object) };
  }
  const field = findField(stitches, object.range[0], object.range[1]);
  if (field === null) return 'no-rows';
  const { from, to, pattern } = field;
  return {
    ...object,
    kind: 'fill',
    from,
    to,
    sections: Int32Array.of(0),
    pattern,
    split: false,
    ...passesOf(object),
  };
}

/** A run that was sewn over itself is no area sewn twice. */
const passesOf = ({ kind, passes, timesDense }: StitchObject) =>
  kind === 'run' ? { passes: 1, timesDense: 1 } : { passes, timesDense };

/** The swings or rows that were found; null where the strands have no two ends. */
function rowsOf({ kind, pattern, from, to }: StitchObject): LegString | null {
  const straight = kind === 'satin' || pattern === 'rows' || pattern === 'loose' || pattern === 'curved';
  return straight && from.length >= FEWEST_LEGS ? { from, to } : null;
}

/** The longest string of legs that turn back beside each other, where it is most of the object. */
function legsOf(stitches: Stitches, { range: [first, last] }: StitchObject): LegString | null {
  if (cutBetween(stitches, first, last)) return null;
  const legs = new LegFinder(stitches, last - first + 1).find(first, last);
  const reach = ({ from, to }: LegString) => to[to.length - 1] - from[0];
  const longest = findLegStrings(stitches, legs, FEWEST_LEGS).sort((a, b) => reach(b) - reach(a))[0];
  return longest && reach(longest) >= MOST_OF_IT * (last - first) ? longest : null;
}
