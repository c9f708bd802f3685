/**
 * The design made larger and digitized anew, as far as its stitches tell how it was: outlines grow, spacing and stitch lengths stay.
 *
 * Rows and swings are looked up between the grown edges at other counts than they had, so the pattern of their spacing stays where it
 * was; underlay in rows or zigzags likewise; running stitches are divided anew between the corners of their path. Locks are moved, not
 * grown. What is sewn so openly that fabric is seen between its threads grows stitch by stitch. What is sewn after what, cuts, moves and colours stay.
 */
import { memoize } from '../core/memoize.js';
import type { Stitches } from '../format/stitches.js';
import { measureColumn } from '../geometry/column.js';
import { measureRows } from '../geometry/rows.js';
import { type EdgePoint, mapEdge } from '../stitch/edge.js';
import type { Section } from '../stitch/find-sections.js';
import type { NewEdges } from '../stitch/new-edges.js';
import type { SectionShape } from '../stitch/section-shape.js';
import { keepLength, layRun } from '../stitch/sew-run.js';
import type { Enlarge, Enlargement } from './enlargement.js';
import { centreOf, machineScaled } from './machine-scaled.js';
import { isOpen } from './open-object.js';
import { TakenApart } from './sew-anew.js';

/**
 * Makes a design larger at its own spacing. Growth 0 gives the same stitches back, moved by the offset. Edges come to lie where those of
 * the grown design lie; the spacing of a stretch of few rows changes a little, since rows are whole.
 */
export const regenerated: Enlarge = (design, stitches, objects, leave = new Set()) => {
  const open = new Set(objects.filter((object) => isOpen(stitches, object)).map(({ id }) => id));
  const apart = new TakenApart(design, stitches, objects, true, new Set([...leave, ...open]));
  const asItIs = machineScaled(design, stitches, objects);
  const centre = centreOf(stitches);
  const lines = memoize((section: Section) => linesOf(stitches, section));
  return (by) => {
    if (by.x === 0 && by.y === 0) return asItIs(by);
    const growth = new Growth(centre, by);
    const made = apart.grow({
      edges: (section, shape) => ({
        a: mapEdge(shape.a.line, growth.to),
        b: mapEdge(shape.b.line, growth.to),
        to: growth.to,
        before: 0,
        after: 0,
        ...grownLines(lines(section), shape, growth),
      }),
      path: ({ x, y, fixed }) => layRun(x, y, fixed, growth.to, keepLength),
      carry: growth.to,
      outMm: 0,
    });
    const whole = () => {
      const all = made.whole();
      // what is open grows stitch by stitch, as it should
      return { ...all, left: all.left?.filter(({ object }) => !open.has(object) || leave.has(object)) };
    };
    return { ...made, whole };
  };
};

/** Growth about the centre of a design, and the offset. */
class Growth {
  private readonly sx: number;
  private readonly sy: number;
  private readonly mx: number;
  private readonly my: number;

  constructor(centre: { x: number; y: number }, by: Enlargement) {
    this.sx = 1 + by.x;
    this.sy = 1 + by.y;
    this.mx = by.dx - centre.x * by.x;
    this.my = by.dy - centre.y * by.y;
  }

  readonly to = (x: number, y: number): EdgePoint => [x * this.sx + this.mx, y * this.sy + this.my];

  /** How many times as long a way in a direction gets. */
  along(ux: number, uy: number): number {
    return Math.hypot(ux * this.sx, uy * this.sy);
  }

  /** How many times as far apart lines of a direction get. */
  apart(ux: number, uy: number): number {
    return (this.sx * this.sy) / this.along(ux, uy);
  }
}

/** Directions and spacing of a section as found. */
type SectionLines = { readonly spacingMm: number } & (
  | { readonly swings: true; readonly tx: Float64Array; readonly ty: Float64Array }
  | { readonly swings: false; readonly ux: number; readonly uy: number }
);

function linesOf({ x, y }: Stitches, { from, to, swings }: Section): SectionLines {
  const middle = (spacing: Float64Array) => spacing[spacing.length >> 1];
  if (swings) {
    const { tx, ty, spacingMm } = measureColumn(x, y, from, to);
    return { swings, tx, ty, spacingMm: middle(spacingMm) };
  }
  const { ux, uy, spacingMm } = measureRows(x, y, from, to, new Int32Array(0));
  return { swings, ux, uy, spacingMm: middle(spacingMm) };
}

/** How the way along a column, or across rows, grows from count to count. */
function grownLines(
  lines: SectionLines,
  { span }: SectionShape,
  growth: Growth,
): Pick<NewEdges, 'grown' | 'spacingMm'> {
  const { spacingMm } = lines;
  if (!lines.swings)
    return { grown: new Float64Array(span).fill(growth.apart(lines.ux, lines.uy)), spacingMm };
  const { tx, ty } = lines;
  return { grown: Float64Array.from({ length: span }, (_, k) => growth.along(tx[k], ty[k])), spacingMm };
}
