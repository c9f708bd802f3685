/** The ground that stretches of a design cannot leave when they are laid anew, known before any of them is. */
import { type Bounds, emptyBounds, growBounds } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import type { Stitches } from '../format/stitches.js';
import { type Edge, edgeAt } from '../stitch/edge.js';
import type { Section } from '../stitch/find-sections.js';
import type { SectionShape } from '../stitch/section-shape.js';
import type { Stretch } from '../stitch/stretches.js';

/** What the rest is taken times: growth is by less than a fifth. */
const GROWN = 1.2;
/** A row begins no farther than this off its edge, with room to spare, mm. */
const OFF_EDGE_MM = 0.2;
/** An edge leans by no more than this against what it is moved out by, ends and edges each: see the least sine of a widened column. */
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
  stretches: readonly Stretch[],
  shapeOf: (section: Section) => SectionShape,
): Ground {
  const box = emptyBounds();
  let off = 0;
  let lever = 1;
  for (const stretch of stretches) {
    for (let i = stretch.first; i <= stretch.last; i++) {
      growBounds(box, x[i], y[i]);
      // a curve leaves the line between its points by less than a stitch, and a lock the point that it locks by less than its own length
      if (stretch.kind === 'path' && i > stretch.first)
        off = Math.max(off, distance(x[i - 1], y[i - 1], x[i], y[i]));
      if (stretch.kind === 'lock') {
        const anchor = stretch.anchor ?? stretch.first;
        growBounds(box, x[anchor], y[anchor]);
        off = Math.max(off, distance(x[anchor], y[anchor], x[i], y[i]));
      }
    }
    if (stretch.kind !== 'section') continue;
    const { a, b, span } = shapeOf(stretch.section);
    for (const edge of [a, b]) {
      for (const t of [0, span]) {
        growBounds(box, ...edgeAt(edge.line, t));
        lever = Math.max(lever, leverOf(edge.line, t));
      }
      for (const [dx, dy] of edge.off.values()) off = Math.max(off, Math.hypot(dx, dy));
    }
  }
  return { box, slackMm: GROWN * (off + OFF_EDGE_MM), lever: LEANING * lever };
}

/** How far a place on an edge moves at most where its two nearest corners move by one. */
function leverOf({ t }: Edge, at: number): number {
  const last = t.length - 1;
  if (last === 0) return 1;
  const [p, q] = at < t[0] ? [t[0], t[1]] : [t[last], t[last - 1]];
  const f = Math.max(0, (at - p) / (p - q));
  return 1 + 2 * f;
}
