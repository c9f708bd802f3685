import { Break, type Stitches } from '../format/stitches.js';
import { NO_UNDERLAY, type StitchObject, type StitchRange, type Underlay } from '../segment/objects.js';
import { kindsOf, type LaidUnderlay } from './laid-underlay.js';
import { type LaidThread, type NeedlePoint, ThreadUnder, usualWay } from './thread-under.js';
import { underlayTakenOut } from './underlay-taken-out.js';

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
  const dropped = underlayTakenOut(stitches, objects, chosen);
  /** Columns that get new underlay, by their first top stitch. */
  const tops = new Map(objects.filter(chosen).map((object) => [object.range[0], object]));
  const x: number[] = [];
  const y: number[] = [];
  const breaks: number[] = [];
  const like: number[] = [];
  const movedTo = new Int32Array(count);
  const layings = new Map<number, { laying: LaidThread; first: number }>();
  // What was cut or changed before a stitch that is gone is cut before the next that stays.
  let pending: number = Break.none;
  let gone = false;
  /** Where the thread had come in that was taken out. */
  let enters = -1;
  const sew = (px: number, py: number, i: number) => {
    const last = x.length - 1;
    const far = gone && last >= 0 && Math.max(Math.abs(px - x[last]), Math.abs(py - y[last])) > LONGEST_MM;
    x.push(px);
    y.push(py);
    breaks.push(far ? Math.max(pending, Break.jump) : pending);
    like.push(i);
    pending = Break.none;
    gone = false;
    enters = -1;
  };
  for (let i = 0; i < count; i++) {
    pending = Math.max(pending, breakBefore[i]);
    if (dropped[i]) {
      if (enters < 0 || breakBefore[i] >= Break.trim) enters = i;
      gone = true;
      continue;
    }
    const object = tops.get(i);
    if (object) {
      const last = x.length - 1;
      const before: NeedlePoint | null = pending < Break.trim ? [x[last], y[last]] : null;
      const at = enters < 0 ? i : enters;
      const way = usualWay(choices.get(object.id)!);
      const laying = new ThreadUnder(stitches, object, way).underlay(before, [
        stitches.x[at],
        stitches.y[at],
      ]);
      layings.set(object.id, { laying, first: x.length });
      gone = true;
      for (const [px, py] of laying.points) sew(px, py, i);
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
        underlay: laid
          ? asLaid(laid, object.underlay.id)
          : {
              ...object.underlay,
              range: range && moved(range),
              also: object.underlay.also.map((piece) => ({ ...piece, range: moved(piece.range) })),
            },
      };
    }),
  };
}

function asLaid({ laying, first }: { laying: LaidThread; first: number }, id: number | null): Underlay {
  const { laid, spacingMm } = laying;
  const stitches = laying.points.length;
  if (laid === null || stitches === 0) return NO_UNDERLAY;
  return { id, kinds: kindsOf(laid), range: [first, first + stitches - 1], stitches, spacingMm, also: [] };
}
