/** New underlay under satin columns of a design: what is laid is found again, or the column is left as it was. */
import type { Design } from '../format/design.js';
import { penetrations, type Stitches } from '../format/stitches.js';
import { findObjects } from '../segment/find-objects.js';
import type { StitchObject, StitchRange } from '../segment/objects.js';
import type { SetObject } from '../segment/set-right/saying.js';
import { movedSaid, numberedAs, setRight } from '../segment/set-right/set-right.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';
import { type LayWay, usualWay } from '../stitch/thread-under.js';
import { LAY_SETTINGS, type LaySettings } from '../stitch/underlay-settings.js';
import { type Misreading, misreadings } from './relay-check.js';
import { type Refusal, relayEdit } from './relay-edit.js';

/** Why a column was left as it was. */
export type LeftBecause = Refusal | Misreading | 'no-satin';

export interface Relay {
  readonly design: Design;
  /** The needle points and the objects of that design, as they are found in it. */
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
  /** Ids of the objects relaid, in sewing order, and their new stitches by id. */
  readonly relaid: ReadonlyMap<number, StitchRange>;
  /** How each of them was tried in the end. */
  readonly tries: ReadonlyMap<number, RelayTry>;
  /** Ids of those that were asked for and left as they were, and why. */
  readonly left: ReadonlyMap<number, LeftBecause>;
  /** What the shop has said of objects, at their stitches in that design. */
  readonly said: readonly SetObject[];
}

/** Ways to lay the same underlay, tried in turn until one reads as it was meant. */
const WAYS: readonly ((way: LayWay) => LayWay)[] = [
  (way) => way,
  (way) => ({ ...way, endsEarly: true }),
  (way) => ({ ...way, travelAt: -way.travelAt }),
  (way) => altered(way, { insetMm: way.settings.insetMm + 0.2 }),
  (way) => ({ ...altered(way, { insetMm: way.settings.insetMm + 0.4 }), endsEarly: true }),
  (way) => altered(way, { rowsMm: way.settings.rowsMm * 0.85, zigzagMm: way.settings.zigzagMm * 0.8 }),
  (way) => altered(way, { insetMm: way.settings.insetMm + 0.7 }),
];

const altered = (way: LayWay, settings: Partial<LaySettings>): LayWay => ({
  ...way,
  settings: { ...way.settings, ...settings },
});

/** How a column is tried. */
export interface RelayTry {
  /** Index into {@link WAYS}. */
  readonly way: number;
  readonly locks: boolean;
  /** Its top stitching has to be found again to the last needle point; where no way gives that, but for one at either end. */
  readonly exactly: boolean;
}

const FIRST_TRY: RelayTry = { way: 0, locks: false, exactly: true };

/** What to try after that, or null where nothing is left. */
function nextTry({ way, locks, exactly }: RelayTry, why: LeftBecause): RelayTry | null {
  if (why === 'no-room') return null;
  if (why === 'locks' && !locks) return { way, locks: true, exactly };
  if (way + 1 < WAYS.length) return { way: way + 1, locks, exactly };
  return exactly ? { way: 0, locks: false, exactly: false } : null;
}

/** The same in the way after, for what reads as meant and was proven wrong; null after the last. */
export const inAnotherWay = (taken: RelayTry): RelayTry | null =>
  taken.way + 1 < WAYS.length ? { ...taken, way: taken.way + 1 } : null;

const wayOf = (way: number, to: LaidUnderlay, settings: LaySettings, locks: boolean): LayWay =>
  WAYS[way]({ ...usualWay(to, settings), locks });

/**
 * Takes the underlay of some satin columns out and lays other in its place. Top stitching, colour blocks, stops, trims and all other stitches
 * stay; no cut and no move is added, and no new thread lies where it would show. The result is read again: an object that does not come
 * out as the same with the underlay asked for is laid in another way or, in the end, left as it was.
 *
 * @param stitches, objects what was found in the design
 * @param choices underlay by object id
 * @param said what the shop has said of its objects, which counts in what is read again, too
 * @param begin how to try those first, by id, that are not to be laid in the usual way
 */
export function relay(
  design: Design,
  stitches: Stitches,
  objects: readonly StitchObject[],
  choices: ReadonlyMap<number, LaidUnderlay>,
  settings: LaySettings = LAY_SETTINGS,
  said: readonly SetObject[] = [],
  begin: ReadonlyMap<number, RelayTry> = new Map(),
): Relay {
  const first = (id: number) => begin.get(id) ?? FIRST_TRY;
  const left = new Map<number, LeftBecause>();
  const tries = new Map<number, RelayTry>();
  for (const { id, kind } of objects) {
    if (!choices.has(id)) continue;
    if (kind === 'satin') tries.set(id, first(id));
    else left.set(id, 'no-satin');
  }
  const lay = (all: ReadonlyMap<number, RelayTry>): Attempt => {
    const ways = new Map(
      [...all].map(([id, { way, locks }]) => [id, wayOf(way, choices.get(id)!, settings, locks)]),
    );
    const edit = relayEdit(design, stitches, objects, ways);
    if (edit.refused.size > 0) return { wrong: edit.refused, relay: null };
    const after = penetrations(edit.design);
    const moved = movedSaid(said, edit.movedTo);
    const found = numberedAs(setRight(after, findObjects(after), moved).objects, objects);
    const wrong = misreadings(objects, found, { ...edit, ways }, (id) => all.get(id)!.exactly);
    return {
      wrong,
      relay:
        wrong.size > 0
          ? null
          : { design: edit.design, stitches: after, objects: found, relaid: edit.laid, said: moved },
    };
  };
  let best: RelayMade = { design, stitches, objects, relaid: new Map(), said };
  while (tries.size > 0) {
    const { wrong, relay } = lay(tries);
    if (relay) {
      best = relay;
      break;
    }
    for (const [id, why] of wrong) {
      const next = nextTry(tries.get(id)!, why);
      if (next) tries.set(id, next);
      else {
        tries.delete(id);
        left.set(id, why);
      }
    }
  }
  // what was put down to one column may have been its neighbour's doing: each that is left is tried once more by itself
  for (const [id, because] of left) {
    if (because === 'no-satin' || because === 'no-room') continue;
    for (let next: RelayTry | null = first(id); next; ) {
      const { wrong, relay } = lay(new Map([...tries, [id, next]]));
      if (relay) {
        best = relay;
        tries.set(id, next);
        left.delete(id);
        break;
      }
      next = nextTry(next, wrong.get(id) ?? 'objects');
    }
  }
  return { ...best, left, tries };
}

type RelayMade = Omit<Relay, 'left' | 'tries'>;

/** What came of trying: where nothing is wrong, the design relaid. */
interface Attempt {
  readonly wrong: ReadonlyMap<number, LeftBecause>;
  readonly relay: RelayMade | null;
}
