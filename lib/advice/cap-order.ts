/**
 * Whether a design is sewn as a cap wants it: from the bill up and from the center seam out, so that fabric is pushed to where it can go and no
 * fold is sewn in (common practice, no source).
 */
import type { Bounds } from '../core/bounds.js';
import type { ObjectMeasures } from '../measure/measures.js';
import type { AdviceJob } from './job.js';
import { RULE_LIMITS } from './rule-limits.js';

/** Objects of one color whose boxes meet: usually a letter, in whatever order its strokes are sewn. */
interface Piece {
  /** Id of the object that is sewn first. */
  readonly first: number;
  readonly block: number;
  readonly box: Bounds;
}

/**
 * The pieces that are sewn later than one of the same color that lies above them, or beside them farther from the seam: the first object of each,
 * in sewing order. The seam is taken to run up the middle of the design; small pieces push little, and are passed over.
 *
 * @returns ids of objects; none off caps
 */
export function againstCapOrder({ fabric, design, objects }: AdviceJob): number[] {
  if (!fabric.cap) return [];
  const seam = (design.bounds.minX + design.bounds.maxX) / 2;
  const pieces = piecesOf(objects).filter(({ box }) => sizeOf(box) >= RULE_LIMITS.capPiece.value);
  return pieces.flatMap((piece, k) => {
    const isLate = pieces
      .slice(0, k)
      .some((before) => before.block === piece.block && comesBefore(piece.box, before.box, seam));
    return isLate ? [piece.first] : [];
  });
}

/** In the order in which they are begun. */
function piecesOf(objects: readonly ObjectMeasures[]): Piece[] {
  let pieces: Piece[] = [];
  for (const { object, bounds } of objects) {
    let piece: Piece = { first: object.id, block: object.block, box: bounds };
    // Each that is taken in makes the box larger, which may meet another.
    for (;;) {
      const met = pieces.filter(({ block, box }) => block === piece.block && meet(box, piece.box));
      if (met.length === 0) break;
      pieces = pieces.filter((one) => !met.includes(one));
      piece = met.reduce(
        (all, { first, block, box }) => ({
          first: Math.min(all.first, first),
          block,
          box: around(all.box, box),
        }),
        piece,
      );
    }
    pieces.push(piece);
  }
  return pieces.sort((a, b) => a.first - b.first);
}

const meet = (a: Bounds, b: Bounds): boolean =>
  a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY;

const around = (a: Bounds, b: Bounds): Bounds => ({
  minX: Math.min(a.minX, b.minX),
  minY: Math.min(a.minY, b.minY),
  maxX: Math.max(a.maxX, b.maxX),
  maxY: Math.max(a.maxY, b.maxY),
});

const sizeOf = ({ minX, minY, maxX, maxY }: Bounds): number => Math.max(maxX - minX, maxY - minY);

/** Whether one belongs before the other: it lies below it, or beside it nearer the seam. */
function comesBefore(one: Bounds, other: Bounds, seam: number): boolean {
  if (one.minX < other.maxX && other.minX < one.maxX) return one.maxY <= other.minY;
  if (one.minY >= other.maxY || other.minY >= one.maxY) return false;
  // What lies across the seam is nearest to it.
  if (one.minX < seam && one.maxX > seam) return true;
  return one.minX >= seam ? one.maxX <= other.minX : one.maxX <= seam && one.minX >= other.maxX;
}
