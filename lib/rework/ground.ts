/** The ground that pieces of a design cannot leave when they are laid anew, known before any of them is. */
import { type Bounds, emptyBounds, growBounds } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import type { Piece } from './pieces.js';
import { onRail, type Rail } from './rails.js';
import type { StringShape } from './string-shape.js';
import type { StitchString } from './strings.js';

/** What the rest is taken times: growth is by less than a fifth. */
const GROWN = 1.2;
/** A row begins no farther than this off its edge, with room to spare, mm. */
const OFF_EDGE_MM = 0.2;
/** An edge leans by no more than this against what it is moved out by, ends and rails each: see the least sine of a widened column. */
const LEANING = 4;

export interface Ground {
  /** Around the needle points, and around the edges as far as they go on, mm. */
  readonly box: Bounds;
  /** How far off what is laid may come to lie all the same: short swings off their edge, locks off what they lock, the bend of a curve, mm. */
  readonly slackMm: number;
  /** How many times as far as its corners an edge may come out where it goes straight on beyond them. */
  readonly lever: number;
}

export function groundOf(
  { x, y }: Pick<Stitches, 'x' | 'y'>,
  pieces: readonly Piece[],
  shapeOf: (string: StitchString) => StringShape,
): Ground {
  const box = emptyBounds();
  let off = 0;
  let lever = 1;
  for (const piece of pieces) {
    for (let i = piece.first; i <= piece.last; i++) {
      growBounds(box, x[i], y[i]);
      // a curve leaves the line between its points by less than a stitch, and a lock the point that it locks by less than its own length
      if (piece.kind === 'path' && i > piece.first)
        off = Math.max(off, distance(x[i - 1], y[i - 1], x[i], y[i]));
      if (piece.kind === 'lock') {
        const anchor = piece.anchor ?? piece.first;
        growBounds(box, x[anchor], y[anchor]);
        off = Math.max(off, distance(x[anchor], y[anchor], x[i], y[i]));
      }
    }
    if (piece.kind !== 'string') continue;
    const { a, b, span } = shapeOf(piece.string);
    for (const edge of [a, b]) {
      for (const t of [0, span]) {
        growBounds(box, ...onRail(edge.rail, t));
        lever = Math.max(lever, leverOf(edge.rail, t));
      }
      for (const [dx, dy] of edge.off.values()) off = Math.max(off, Math.hypot(dx, dy));
    }
  }
  return { box, slackMm: GROWN * (off + OFF_EDGE_MM), lever: LEANING * lever };
}

/** How far a place on an edge moves at most where its two nearest corners move by one. */
function leverOf({ t }: Rail, at: number): number {
  const last = t.length - 1;
  if (last === 0) return 1;
  const [p, q] = at < t[0] ? [t[0], t[1]] : [t[last], t[last - 1]];
  const f = Math.max(0, (at - p) / (p - q));
  return 1 + 2 * f;
}
