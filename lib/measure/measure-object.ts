import { ScratchRoom } from '../core/room.js';
import { distributionInPlace, spreadInPlace } from '../core/stats.js';
import { boundsOf } from '../format/extent.js';
import { Break, type Stitches } from '../format/stitches.js';
import { measureColumn } from '../geometry/column.js';
import { layField } from '../geometry/field.js';
import { measureRows } from '../geometry/rows.js';
import type { Pattern, StitchObject } from '../segment/objects.js';
import { Measured, type Shape } from './measured.js';
import type { PackedMeasures } from './measures.js';

/**
 * Measures one object of a design. Linear in the object's stitches; neither input is changed.
 *
 * Stitch lengths are of thread that lies from one penetration of the object to the next, so a swing that the
 * file had to break into jumps counts in full, and a move behind a trim not at all. A run has a length but, being
 * a line, no area and no density: both are 0.
 */
export function measureObject(
  stitches: Stitches,
  object: StitchObject,
  rooms: readonly ScratchRoom[] = twoRooms(),
): PackedMeasures {
  const [first, last] = object.range;
  const lengths = stitchLengths(stitches, first, last, rooms[0]);
  const count = last - first + 1;
  const shape = shapeOf(stitches, object, lengths, rooms[1]);
  const stitchLengthMm = spreadInPlace(lengths) ?? { min: 0, median: 0, max: 0 };
  return new Measured(object, count, boundsOf(stitches, first, last), shape, stitchLengthMm);
}

/**
 * Measures all objects of a design, as {@link measureObject} does each.
 *
 * @example
 * ```ts
 * import { findObjects, measureObjects, penetrations, readDesignFile } from 'lieflat';
 * const stitches = penetrations((await readDesignFile('samples/name-drop.dst')).design);
 * const [first] = measureObjects(stitches, findObjects(stitches));
 * first.widthMm?.median; // ≈ 4.9
 * ```
 */
export function measureObjects(stitches: Stitches, objects: readonly StitchObject[]): PackedMeasures[] {
  const rooms = twoRooms();
  return objects.map((object) => measureObject(stitches, object, rooms));
}

/** Room for stitch lengths and for a column, of which nothing is kept. */
const twoRooms = (): readonly ScratchRoom[] => [new ScratchRoom(), new ScratchRoom()];

/** Patterns whose rows have one direction. */
const STRAIGHT: readonly (Pattern | null)[] = ['rows', 'loose', null];

function shapeOf(stitches: Stitches, object: StitchObject, lengths: Float64Array, room: ScratchRoom): Shape {
  const { x, y } = stitches;
  if (object.kind === 'satin') {
    const column = measureColumn(x, y, object.from, object.to, room);
    let widest = 0;
    for (let j = 1; j < column.count; j++) {
      // of swings that are as wide as each other the first, whatever the last digits say
      if (column.envelopeMm[j] > column.envelopeMm[widest] + 1e-6) widest = j;
    }
    const stitch = object.from[widest];
    const { spacingMm } = column;
    if (object.timesDense !== 1) for (let j = 0; j < spacingMm.length; j++) spacingMm[j] /= object.timesDense;
    return {
      areaMm2: column.areaMm2,
      angleDeg: column.angleDeg,
      widthMm: distributionInPlace(column.envelopeMm),
      spacingMm: spreadInPlace(spacingMm),
      lengthMm: column.lengthMm,
      widestAt: { stitch, x: x[stitch], y: y[stitch] },
    };
  }
  if (object.kind === 'fill' && !STRAIGHT.includes(object.pattern)) {
    const strands: number[] = [];
    for (let i = object.range[0]; i < object.range[1]; i++)
      if (stitches.breakBefore[i + 1] === Break.none) strands.push(i);
    const { spacingMm } = layField(x, y, Int32Array.from(strands));
    const spread = spreadInPlace(spacingMm.filter((mm) => mm > 0));
    const lengthMm = lengths.reduce((sum, l) => sum + l, 0);
    return {
      areaMm2: lengthMm * (spread?.median ?? 0),
      angleDeg: null,
      widthMm: null,
      spacingMm: spread,
      lengthMm,
      widestAt: null,
    };
  }
  if (object.kind === 'fill') {
    const rows = measureRows(x, y, object.from, object.to, object.sections);
    return {
      areaMm2: rows.areaMm2,
      angleDeg: rows.angleDeg,
      widthMm: null,
      spacingMm: spreadInPlace(rows.spacingMm),
      lengthMm: rows.lengthMm,
      widestAt: null,
    };
  }
  let lengthMm = 0;
  for (const l of lengths) lengthMm += l;
  return { areaMm2: 0, angleDeg: null, widthMm: null, spacingMm: null, lengthMm, widestAt: null };
}

/** Lengths of the thread laid between the penetrations `first` to `last`, mm. */
function stitchLengths(
  { x, y, breakBefore }: Stitches,
  first: number,
  last: number,
  room: ScratchRoom,
): Float64Array {
  const lengths = room.take(Math.max(0, last - first));
  let n = 0;
  for (let i = first + 1; i <= last; i++) {
    if (breakBefore[i] >= Break.trim) continue;
    const dx = x[i] - x[i - 1];
    const dy = y[i] - y[i - 1];
    lengths[n++] = Math.sqrt(dx * dx + dy * dy);
  }
  return n === lengths.length ? lengths : lengths.subarray(0, n);
}
