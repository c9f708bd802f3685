import { Break, type Stitches } from '../format/stitches.js';
import { NO_UNDERLAY, type StitchObject, type StitchRange, type Underlay } from '../segment/objects.js';

/** Stitching and what was found in it. */
export interface SewnDesign {
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
}

/** Row distance of the light fill under lettering, mm (common practice, no source). */
const ROWS_MM = 3;
/** Longest stitch in a row, and what the rows keep from the rails, mm: our own choice; short stitches pull little. */
const STITCH_MM = 1.5;
const INSET_MM = 0.5;
/** Where along the column the first row lies, mm. */
const FIRST_ROW_MM = 0.8;

/**
 * What the design would be with the underlay of satin columns taken out and a light fill in its place: rows of short stitches across the
 * column, to and fro. It is made to foresee risk, not to be sewn: no thread leads from row to row around corners. Neither argument is
 * changed; objects keep their order and ids.
 *
 * @param which ids of the columns; every satin column without it
 */
export function onLightFill({ stitches, objects }: SewnDesign, which?: ReadonlySet<number>): SewnDesign {
  const { count, breakBefore } = stitches;
  const relaid = (object: StitchObject) =>
    object.kind === 'satin' && (which === undefined || which.has(object.id));
  const dropped = underlayOf(count, objects, relaid);
  /** Columns that rows go under, by their first top stitch. */
  const tops = new Map(objects.filter(relaid).map((object) => [object.range[0], object]));
  const x: number[] = [];
  const y: number[] = [];
  const breaks: number[] = [];
  const like: number[] = [];
  const movedTo = new Int32Array(count);
  const rowsOf = new Map<number, StitchRange>();
  // What was cut or changed before a stitch that is gone is cut before the next that stays.
  let pending: number = Break.none;
  for (let i = 0; i < count; i++) {
    pending = Math.max(pending, breakBefore[i]);
    if (dropped[i]) continue;
    const object = tops.get(i);
    const points = object ? rowsAcross(stitches, object) : [];
    if (object && points.length > 0) rowsOf.set(object.id, [x.length, x.length + points.length - 1]);
    movedTo[i] = x.length + points.length;
    for (const [px, py] of [...points, [stitches.x[i], stitches.y[i]]]) {
      x.push(px);
      y.push(py);
      breaks.push(pending);
      like.push(i);
      pending = Break.none;
    }
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
      return {
        ...object,
        range: moved(object.range),
        from: object.from.map((i) => movedTo[i]),
        to: object.to.map((i) => movedTo[i]),
        underlay: relaid(object)
          ? lightFill(rowsOf.get(object.id))
          : { ...object.underlay, range: range && moved(range) },
      };
    }),
  };
}

/** Marks the underlay of some objects. The range of one may reach over others that are sewn in between: theirs goes first. */
function underlayOf(
  count: number,
  objects: readonly StitchObject[],
  wanted: (object: StitchObject) => boolean,
): Uint8Array {
  const marks = new Uint8Array(count);
  const length = ([a, b]: StitchRange) => b - a;
  const laid = objects.flatMap((object) => {
    const { range } = object.underlay;
    return range ? [{ range, mark: wanted(object) ? 1 : 0 }] : [];
  });
  laid.sort((a, b) => length(b.range) - length(a.range));
  for (const { range, mark } of laid) marks.fill(mark, range[0], range[1] + 1);
  for (const { range } of objects) marks.fill(0, range[0], range[1] + 1);
  return marks;
}

const lightFill = (range: StitchRange | undefined): Underlay =>
  range ? { kinds: ['fill'], range, stitches: range[1] - range[0] + 1, spacingMm: ROWS_MM } : NO_UNDERLAY;

function rowsAcross({ x, y }: Stitches, { from, to }: StitchObject): [x: number, y: number][] {
  const points: [number, number][] = [];
  const middle = (n: number) => [(x[from[n]] + x[to[n]]) / 2, (y[from[n]] + y[to[n]]) / 2];
  let since = ROWS_MM - FIRST_ROW_MM;
  let row = 0;
  for (let k = 1; k < from.length; k++) {
    const [ax, ay] = middle(k - 1);
    const [bx, by] = middle(k);
    since += Math.hypot(bx - ax, by - ay);
    if (since < ROWS_MM) continue;
    since -= ROWS_MM;
    const dx = x[to[k]] - x[from[k]];
    const dy = y[to[k]] - y[from[k]];
    const swing = Math.hypot(dx, dy);
    const half = swing / 2 - INSET_MM;
    if (half <= 0) continue;
    const steps = Math.max(1, Math.ceil((2 * half) / STITCH_MM));
    // Swings alternate in direction, rows must too.
    const way = row++ % 2 === k % 2 ? 1 : -1;
    for (let s = 0; s <= steps; s++) {
      const v = (way * half * (2 * s - steps)) / steps / swing;
      points.push([bx + dx * v, by + dy * v]);
    }
  }
  return points;
}
