/** An object told to be underlay: of all that is sewn over it later. */
import { overlap } from '../../core/bounds.js';
import { evenly } from '../../core/evenly.js';
import { boundsOf } from '../../format/extent.js';
import type { Stitches } from '../../format/stitches.js';
import { columnFrame } from '../../geometry/column-frame.js';
import { measureRows } from '../../geometry/rows.js';
import { readColumnUnderlay } from '../column-underlay.js';
import { readFillUnderlay } from '../fill-underlay.js';
import { cutBetween } from '../groups.js';
import type { StitchObject, StitchRange, Underlay, UnderlayKind } from '../objects.js';
import { ColumnRegion, FillRegion, type Region } from '../region.js';

/** Share of the thread below that lies under an object, or of an area's top that lies on it, from which the two belong together. */
const BELONGS = 0.25;
/** Needle points that are looked at. */
const SAMPLE = 400;

/** The objects without the one that is underlay, which those above it now have; null where nothing lies over it. */
export function asUnderlay(
  stitches: Stitches,
  objects: readonly StitchObject[],
  low: StitchObject,
): StitchObject[] | null {
  const others = objects.filter(({ id }) => id !== low.id);
  const points = evenly(...low.range, SAMPLE);
  const box = boundsOf(stitches, low.range[0], low.range[1]);
  const above = others.filter((high) => {
    if (high.range[0] <= low.range[1] || high.from.length < 2) return false;
    if (!overlap(box, boundsOf(stitches, high.range[0], high.range[1]))) return false;
    const under = within(stitches, points, regionOf(stitches, high));
    if (under.length >= BELONGS * points.length) return true;
    if (low.kind !== 'fill') return false;
    const own = evenly(...high.range, SAMPLE);
    return within(stitches, own, regionOf(stitches, low)).length >= BELONGS * own.length;
  });
  if (above.length === 0) return null;
  const served = new Set(above.map(({ id }) => id));
  const alone = above.length === 1 ? above[0] : null;
  const piece = pieceOf(stitches, low, alone);
  return others.map((object) =>
    served.has(object.id)
      ? {
          ...object,
          underlay: added(object.underlay, piece, alone !== null && isFree(others, object, piece.range)),
          locks: { ...object.locks, start: startOf(stitches, others, low, object) },
        }
      : object,
  );
}

type SetPiece = Omit<Underlay, 'id' | 'also' | 'range'> & { range: StitchRange };

/** What it is as underlay: read in the coordinates of the one object above it, else told by its own kind. */
function pieceOf(stitches: Stitches, low: StitchObject, high: StitchObject | null): SetPiece {
  const { x, y } = stitches;
  const [first, last] = low.range;
  const stretch = Array.from({ length: last - first + 1 }, (_, k) => first + k);
  const read =
    high === null
      ? null
      : high.kind === 'satin'
        ? readColumnUnderlay(columnFrame(x, y, high.from, high.to), x, y, stretch)
        : readFillUnderlay(stitches, areaOf(stitches, high), [{ first, last, patch: null }]);
  const kinds: UnderlayKind[] = read && read.kinds.length > 0 ? read.kinds : [plainly(low, high)];
  const own = low.underlay.range;
  return {
    // What was told as its own underlay lies under the same objects.
    kinds: [...new Set([...low.underlay.kinds, ...kinds])],
    range: own === null ? low.range : [Math.min(own[0], first), Math.max(own[1], last)],
    stitches: low.underlay.stitches + last - first + 1,
    spacingMm: read?.spacingMm ?? spacingOf(stitches, low),
  };
}

function plainly(low: StitchObject, high: StitchObject | null): UnderlayKind {
  if (low.kind === 'fill') return 'fill';
  if (low.kind === 'satin') return low.passes > 1 ? 'double-zigzag' : 'zigzag';
  return high?.kind === 'satin' ? 'center-run' : 'edge-run';
}

/** From row to row, or between neighbouring points on one rail; null for runs. */
function spacingOf({ x, y }: Stitches, { kind, from, to, sections }: StitchObject): number | null {
  if (kind === 'run' || from.length < 2) return null;
  const { spacingMm } = measureRows(x, y, from, to, kind === 'fill' ? sections : Int32Array.of(0));
  const middle = spacingMm.toSorted()[spacingMm.length >> 1];
  return middle > 0 ? (kind === 'satin' ? 2 * middle : middle) : null;
}

/** One more piece under an object: part of its own underlay, or a piece beside it. */
function added(own: Underlay, piece: SetPiece, joins: boolean): Underlay {
  const { range } = own;
  if (range === null) return { ...piece, id: 0, also: own.also };
  if (!joins) {
    const { kinds, range } = piece;
    return { ...own, also: [...own.also, { id: 0, kinds, range }] };
  }
  return {
    ...own,
    kinds: [...new Set([...own.kinds, ...piece.kinds])],
    range: [Math.min(range[0], piece.range[0]), Math.max(range[1], piece.range[1])],
    stitches: own.stitches + piece.stitches,
    spacingMm: own.spacingMm ?? piece.spacingMm,
  };
}

/** Whether no other object is sewn between an object's own underlay and one more piece of it. */
function isFree(others: readonly StitchObject[], { underlay }: StitchObject, piece: StitchRange): boolean {
  const { range } = underlay;
  if (range === null) return true;
  const [from, to] = [Math.min(range[1], piece[1]), Math.max(range[0], piece[0])];
  return others.every((other) => other.range[1] < from || other.range[0] > to);
}

/** Where the thread leads straight on from the underlay it begins there. */
function startOf(
  stitches: Stitches,
  others: readonly StitchObject[],
  low: StitchObject,
  high: StitchObject,
): boolean {
  const between = others.some(({ range }) => range[0] > low.range[1] && range[1] < high.range[0]);
  return between || cutBetween(stitches, low.range[1], high.range[0]) ? high.locks.start : low.locks.start;
}

function regionOf(stitches: Stitches, object: StitchObject): Region {
  const { x, y } = stitches;
  return object.kind === 'satin'
    ? new ColumnRegion(columnFrame(x, y, object.from, object.to))
    : areaOf(stitches, object);
}

function areaOf(stitches: Stitches, object: StitchObject): FillRegion {
  const { x, y } = stitches;
  return new FillRegion(x, y, object.from, object.to, spacingOf(stitches, object) ?? 0);
}

const within = ({ x, y }: Stitches, points: readonly number[], region: Region): number[] =>
  points.filter((i) => region.contains(x[i], y[i]));
