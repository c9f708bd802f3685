/** Whether a relaid design reads as it was meant: the same objects, with the underlay that was asked for. */

import type { StitchObject, StitchRange } from '../segment/objects.js';
import { kindsOf } from '../stitch/laid-underlay.js';
import type { LayWay } from '../stitch/thread-under.js';

/** A swing at the end of a column may be read with its underlay or with itself: so many needle points may change sides. */
const END_POINTS = 1;

/** What reads otherwise than meant. */
export type Misreading = 'underlay' | 'locks' | 'objects';

/** Objects relaid by their ids, in what way, and where their new stitches are. */
interface Relaid {
  readonly movedTo: Int32Array;
  readonly laid: ReadonlyMap<number, StitchRange>;
  readonly ways: ReadonlyMap<number, LayWay>;
  /** Stitches before an object's top stitching that may be read with it, by its id. */
  readonly leading: ReadonlyMap<number, number>;
}

/**
 * Holds the objects found in a relaid design against those before.
 *
 * @param exactly whether relaid objects, by id, and those put down to them have to be the same down to the last needle point
 * @returns by id of the relaid object that it is put down to: what is not as it was and not as it was asked for; empty where all is well
 */
export function misreadings(
  before: readonly StitchObject[],
  after: readonly StitchObject[],
  { movedTo, laid, ways, leading }: Relaid,
  exactly: (id: number) => boolean = () => true,
): Map<number, Misreading> {
  const found = new Map<number, Misreading>();
  const relaid = before.filter(({ id }) => ways.has(id));
  const nearest = (at: number) => {
    const away = ({ id, range }: StitchObject) => {
      const [first, last] = [laid.get(id)?.[0] ?? movedTo[range[0]], movedTo[range[1]]];
      return at < first ? first - at : Math.max(0, at - last);
    };
    return relaid.reduce((best, object) => (away(object) < away(best) ? object : best)).id;
  };
  const byFirst = new Map(after.map((object) => [object.range[0], object]));
  for (const was of before) {
    const first = movedTo[was.range[0]];
    const id = ways.has(was.id) ? was.id : nearest(first);
    const off = (exactly(id) ? 0 : END_POINTS) + (leading.get(was.id) ?? 0);
    const is = [0, ...Array.from({ length: off }, (_, k) => [-1 - k, k + 1]).flat()]
      .map((away) => byFirst.get(first + away))
      .find((object) => object);
    if (is) byFirst.delete(is.range[0]);
    const wrong = is ? difference(was, is, movedTo, ways.get(was.id), off) : 'objects';
    if (wrong === null) continue;
    if (id !== was.id) found.set(id, 'objects');
    else if (found.get(id) !== 'objects') found.set(id, wrong);
  }
  for (const first of byFirst.keys()) found.set(nearest(first), 'objects');
  return found;
}

function difference(
  was: StitchObject,
  is: StitchObject,
  movedTo: Int32Array,
  way: LayWay | undefined,
  off: number,
): Misreading | null {
  const same =
    is.kind === was.kind &&
    is.block === was.block &&
    is.group === was.group &&
    is.split === was.split &&
    Math.abs(is.range[1] - movedTo[was.range[1]]) <= off &&
    Math.abs(is.from.length - was.from.length) <= 2 * off;
  if (!same) return 'objects';
  const kinds = way ? kindsOf(way.to) : was.underlay.kinds;
  if (kinds.toSorted().join() !== is.underlay.kinds.toSorted().join()) return 'underlay';
  const lost = (end: 'start' | 'end') => was.locks[end] && !is.locks[end];
  return lost('start') || lost('end') ? 'locks' : null;
}
