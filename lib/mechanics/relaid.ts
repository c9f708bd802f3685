import { Break, type Stitches } from '../format/stitches.js';
import { kindsOf, type LaidUnderlay } from '../segment/laid-underlay.js';
import { type Laying, layUnderlay } from '../segment/lay-underlay.js';
import { NO_UNDERLAY, type StitchObject, type StitchRange, type Underlay } from '../segment/objects.js';

/** Stitching and what was found in it. */
export interface SewnDesign {
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
}

/** The longest move of one record of a three-byte stitch file, mm: a longer one is made with jumps. */
const LONGEST_MM = 12.1;

/**
 * What the design would be with other underlay under some satin columns: theirs is taken out, the new is laid right before their
 * top stitching, on the thread that sews it. All other stitches stay as they are, objects keep their order and ids. Where a column is too
 * narrow or too short for what is asked, its `underlay` says what it got. A move that taking out makes longer than one record of a file
 * becomes a jump. Neither argument is changed.
 *
 * @param choices underlay by object id; ids of other objects than satin columns are passed over
 */
export function relaid(
  { stitches, objects }: SewnDesign,
  choices: ReadonlyMap<number, LaidUnderlay>,
): SewnDesign {
  const { count, breakBefore } = stitches;
  const chosen = (object: StitchObject) => object.kind === 'satin' && choices.has(object.id);
  const dropped = takenOut(stitches, objects, chosen);
  /** Columns that get new underlay, by their first top stitch. */
  const tops = new Map(objects.filter(chosen).map((object) => [object.range[0], object]));
  const x: number[] = [];
  const y: number[] = [];
  const breaks: number[] = [];
  const like: number[] = [];
  const movedTo = new Int32Array(count);
  const layings = new Map<number, { laying: Laying; first: number }>();
  // What was cut or changed before a stitch that is gone is cut before the next that stays.
  let pending: number = Break.none;
  let gone = false;
  const sew = (px: number, py: number, i: number) => {
    const last = x.length - 1;
    const far = gone && last >= 0 && Math.max(Math.abs(px - x[last]), Math.abs(py - y[last])) > LONGEST_MM;
    x.push(px);
    y.push(py);
    breaks.push(far ? Math.max(pending, Break.jump) : pending);
    like.push(i);
    pending = Break.none;
    gone = false;
  };
  for (let i = 0; i < count; i++) {
    pending = Math.max(pending, breakBefore[i]);
    if (dropped[i]) {
      gone = true;
      continue;
    }
    const object = tops.get(i);
    if (object) {
      const last = x.length - 1;
      const entry = pending < Break.trim ? { x: x[last], y: y[last] } : null;
      const laying = layUnderlay(stitches, object, choices.get(object.id)!, undefined, entry);
      layings.set(object.id, { laying, first: x.length });
      gone = true;
      laying.x.forEach((px, k) => {
        sew(px, laying.y[k], i);
      });
    }
    movedTo[i] = x.length;
    sew(stitches.x[i], stitches.y[i], i);
  }
  const moved = ([a, b]: StitchRange): StitchRange => [movedTo[a], movedTo[b]];
  return {
    stitches: {
      count: x.length,
      x: Float64Array.from(x),
      y: Float64Array.from(y),
      breakBefore: Uint8Array.from(breaks),
      block: Uint16Array.from(like, (i) => stitches.block[i]),
      record: Int32Array.from(like, (i) => stitches.record[i]),
    },
    objects: objects.map((object): StitchObject => {
      const { range } = object.underlay;
      const laid = layings.get(object.id);
      return {
        ...object,
        range: moved(object.range),
        from: object.from.map((i) => movedTo[i]),
        to: object.to.map((i) => movedTo[i]),
        underlay: laid ? asLaid(laid) : { ...object.underlay, range: range && moved(range) },
      };
    }),
  };
}

const Mark = { nobodys: 0, kept: 1, dropped: 2 } as const;

/**
 * Marks the stitches to take out: the underlay of some objects, and the locks of a thread that sewed nothing else. The range of one
 * underlay may reach over others that are sewn in between: theirs goes before it.
 */
function takenOut(
  { count, breakBefore }: Stitches,
  objects: readonly StitchObject[],
  wanted: (object: StitchObject) => boolean,
): Uint8Array {
  const marks = new Uint8Array(count);
  const length = ([a, b]: StitchRange) => b - a;
  const laid = objects.flatMap((object) => {
    const { range } = object.underlay;
    return range ? [{ range, mark: wanted(object) ? Mark.dropped : Mark.kept }] : [];
  });
  laid.sort((a, b) => length(b.range) - length(a.range));
  for (const { range, mark } of laid) marks.fill(mark, range[0], range[1] + 1);
  for (const { range } of objects) marks.fill(Mark.kept, range[0], range[1] + 1);
  for (let first = 0, i = 1; i <= count; i++) {
    if (i < count && breakBefore[i] < Break.trim) continue;
    const thread = marks.subarray(first, i);
    if (thread.includes(Mark.dropped) && !thread.includes(Mark.kept)) thread.fill(Mark.dropped);
    first = i;
  }
  return marks.map((mark) => (mark === Mark.dropped ? 1 : 0));
}

function asLaid({ laying, first }: { laying: Laying; first: number }): Underlay {
  const { laid, spacingMm } = laying;
  const stitches = laying.x.length;
  if (laid === null) return NO_UNDERLAY;
  return { kinds: kindsOf(laid), range: [first, first + stitches - 1], stitches, spacingMm };
}
