/** The edges of rows of a fill moved outward all round, rows added beyond the first and the last. */
import type { Stitches } from '../format/stitches.js';
import { measureRows, type RowGeometry } from '../geometry/rows.js';
import { type Edge, type EdgePoint, edgeAt } from '../stitch/edge.js';
import type { Section } from '../stitch/find-sections.js';
import type { NewEdges } from '../stitch/new-edges.js';
import type { SectionShape } from '../stitch/section-shape.js';
import type { Allowance } from './allowance.js';

/** Steps in which edges are looked at, as shares of the row distance. */
const STEP = 0.25;
/** An edge that goes on along the rows by more than so many row distances a row is a ledge. */
const STEEPEST = 3;
/** Rows to each side that are asked beyond those within reach. */
const SPARE_ROWS = 3;
/** Where a strip this many row distances beyond the last row is sewn already, no row is added. */
const BESIDE = 0.75;

/** What of the rows of a section does not hang on how far they are moved outward. */
export interface FillLines {
  /** Unit direction of the rows. */
  readonly ux: number;
  readonly uy: number;
  /** Distance of neighbouring rows, mm. */
  readonly pitch: number;
  /** Rows follow each other along the left normal of their direction, 1, or against it, −1. */
  readonly rising: 1 | -1;
  /** Whether rows may be added before the first one, and after the last. */
  readonly openBefore: boolean;
  readonly openAfter: boolean;
  /** Samples of the two edges, {@link STEP} apart. */
  readonly edgeA: Samples;
  readonly edgeB: Samples;
}

/** Places on an edge: how far out along the rows, and where across them, mm. */
interface Samples {
  /** Outward is along the direction of the rows, 1, or against it, −1. */
  readonly out: 1 | -1;
  readonly outs: Float64Array;
  readonly besides: Float64Array;
}

/** @param whole the rows of the whole fill: where another section goes on, none is added */
export function fillLines(
  { x, y }: Stitches,
  { from, to, object, row }: Section,
  { span, a, b, rows }: SectionShape,
  whole: RowGeometry,
): FillLines {
  const { ux, uy, spacingMm } = measureRows(x, y, from, to, new Int32Array(0));
  const pitch = Math.max(1e-3, spacingMm[spacingMm.length >> 1]);
  const beside = ([px, py]: EdgePoint) => py * ux - px * uy;
  const rising = beside(edgeAt(a.line, span)) < beside(edgeAt(a.line, 0)) ? -1 : 1;
  const isSewn = (t: number, way: number) => {
    const [p, q] = [edgeAt(a.line, t), edgeAt(b.line, t)];
    const off = way * rising * pitch * BESIDE;
    const inside = [0.25, 0.5, 0.75].filter((f) =>
      whole.contains(p[0] + (q[0] - p[0]) * f - uy * off, p[1] + (q[1] - p[1]) * f + ux * off),
    );
    return inside.length >= 2;
  };
  // short rows at the tips of a fill are no part of a section: nothing is to be sewn over them
  const first = row > 0 || object.range[0] >= object.from[0];
  const last = row + from.length < object.from.length || object.range[1] <= object.to[object.to.length - 1];
  let lean = 0;
  for (const { ax, ay, bx, by } of rows) lean += (bx - ax) * ux + (by - ay) * uy;
  const samples = (line: Edge, out: 1 | -1): Samples => {
    const outs = new Float64Array(Math.round(span / STEP) + 1);
    const besides = new Float64Array(outs.length);
    for (let k = 0; k < outs.length; k++) {
      const [px, py] = edgeAt(line, k * STEP);
      outs[k] = out * (px * ux + py * uy);
      besides[k] = py * ux - px * uy;
    }
    return { out, outs, besides };
  };
  return {
    ux,
    uy,
    pitch,
    rising,
    edgeA: samples(a.line, lean >= 0 ? -1 : 1),
    edgeB: samples(b.line, lean >= 0 ? 1 : -1),
    openBefore: first && !isSewn(0, -1),
    openAfter: last && !isSewn(span, 1),
  };
}

/** @param move the offset of the design, mm */
export function widenRows(
  lines: FillLines,
  shape: SectionShape,
  allowance: Allowance,
  move: EdgePoint,
): NewEdges {
  const { ux, uy, pitch, rising } = lines;
  const { span } = shape;
  const reach = allowance.outward(-uy, ux);
  const before = lines.openBefore ? reach / pitch : 0;
  const after = lines.openAfter ? reach / pitch : 0;
  const { most } = allowance;

  const widen = ({ out, outs, besides }: Samples): Edge => {
    const count = outs.length - 1;
    const wide = Math.ceil((reach / pitch + SPARE_ROWS) / STEP);
    const t = [...new Set([-before, ...Array.from(outs, (_, k) => k * STEP), span + after])];
    const places = t.map((at): EdgePoint => {
      const middle = Math.max(0, Math.min(count, Math.round(at / STEP)));
      const over = at < 0 ? at : Math.max(0, at - span);
      const v = besides[middle] + over * rising * pitch;
      let c = outs[middle];
      const last = Math.min(count, middle + wide);
      for (let k = Math.max(0, middle - wide); k <= last; k++) {
        if (outs[k] + most <= c) continue;
        // across a ledge, where one row ends far from the next, there is nothing to be widened
        if (outs[k] - outs[middle] > STEEPEST * pitch * STEP * Math.abs(k - middle)) continue;
        const far = allowance.along(out * ux, out * uy, out * (v - besides[k]));
        if (far !== null) c = Math.max(c, outs[k] + far);
      }
      c *= out;
      return [c * ux - v * uy + move[0], c * uy + v * ux + move[1]];
    });
    return { t, x: places.map(([px]) => px), y: places.map(([, py]) => py) };
  };
  return {
    a: widen(lines.edgeA),
    b: widen(lines.edgeB),
    to: (px, py) => [px + move[0], py + move[1]],
    grown: new Float64Array(span).fill(1),
    before,
    after,
    spacingMm: pitch,
  };
}
