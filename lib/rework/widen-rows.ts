/** The edges of rows of a fill moved outward all round, rows added beyond the first and the last. */
import type { Stitches } from '../format/stitches.js';
import { measureRows, type Rows } from '../geometry/rows.js';
import type { Allowance } from './allowance.js';
import { type NewEdges, sideBySide } from './lay-string.js';
import { onRail, type Place, type Rail } from './rails.js';
import type { StringShape } from './string-shape.js';
import type { StitchString } from './strings.js';

/** Steps in which edges are looked at, as shares of the row distance. */
const STEP = 0.25;
/** An edge that goes on along the rows by more than so many row distances a row is a ledge. */
const STEEPEST = 3;
/** Rows to each side that are asked beyond those within reach. */
const SPARE_ROWS = 3;
/** Where a strip this many row distances beyond the last row is sewn already, no row is added. */
const BESIDE = 0.75;

/**
 * @param whole the rows of the whole fill: where another section goes on, none is added
 * @param open whether anything may be added before the first row, and after the last
 * @param move the offset of the design, mm
 */
export function widenRows(
  { x, y }: Stitches,
  { from, to }: StitchString,
  shape: StringShape,
  allowance: Allowance,
  whole: Rows,
  open: { before: boolean; after: boolean },
  move: Place,
): NewEdges {
  const { ux, uy, spacingMm } = measureRows(x, y, from, to, new Int32Array(0));
  const pitch = Math.max(1e-3, spacingMm[spacingMm.length >> 1]);
  const { span, a, b, rows } = shape;
  const along = ([px, py]: Place) => px * ux + py * uy;
  const beside = ([px, py]: Place) => py * ux - px * uy;
  const reach = allowance.outward(-uy, ux);
  const rising = Math.sign(beside(onRail(a.rail, span)) - beside(onRail(a.rail, 0))) || 1;
  const isSewn = (t: number, way: number) => {
    const [p, q] = [onRail(a.rail, t), onRail(b.rail, t)];
    const off = way * rising * pitch * BESIDE;
    const inside = [0.25, 0.5, 0.75].filter((f) =>
      whole.contains(p[0] + (q[0] - p[0]) * f - uy * off, p[1] + (q[1] - p[1]) * f + ux * off),
    );
    return inside.length >= 2;
  };
  const before = open.before && !isSewn(0, -1) ? reach / pitch : 0;
  const after = open.after && !isSewn(span, 1) ? reach / pitch : 0;
  let lean = 0;
  for (const { ax, ay, bx, by } of rows) lean += (bx - ax) * ux + (by - ay) * uy;
  const toB = lean >= 0 ? 1 : -1;

  const widen = (rail: Rail, out: 1 | -1): Rail => {
    const count = Math.round(span / STEP);
    const samples = Array.from({ length: count + 1 }, (_, k) => {
      const place = onRail(rail, k * STEP);
      return { c: along(place), v: beside(place) };
    });
    const wide = Math.ceil((reach / pitch + SPARE_ROWS) / STEP);
    const t = [...new Set([-before, ...samples.map((_, k) => k * STEP), span + after])];
    const places = t.map((at): Place => {
      const middle = Math.max(0, Math.min(count, Math.round(at / STEP)));
      const over = at < 0 ? at : Math.max(0, at - span);
      const v = samples[middle].v + over * rising * pitch;
      let c = out * samples[middle].c;
      for (let k = Math.max(0, middle - wide); k <= Math.min(count, middle + wide); k++) {
        // across a ledge, where one row ends far from the next, there is nothing to be widened
        const ledge =
          out * (samples[k].c - samples[middle].c) > STEEPEST * pitch * STEP * Math.abs(k - middle);
        const far = ledge ? null : allowance.along(out * ux, out * uy, out * (v - samples[k].v));
        if (far !== null) c = Math.max(c, out * samples[k].c + far);
      }
      c *= out;
      return [c * ux - v * uy + move[0], c * uy + v * ux + move[1]];
    });
    return { t, x: places.map(([px]) => px), y: places.map(([, py]) => py) };
  };
  return {
    a: widen(a.rail, toB === 1 ? -1 : 1),
    b: widen(b.rail, toB === 1 ? 1 : -1),
    off: (place) => place,
    stretch: new Float64Array(span).fill(1),
    before,
    after,
    spacingMm: pitch,
    scale: sideBySide(rows, [ux, uy], [ux, uy], (px, py) => [px + move[0], py + move[1]]),
  };
}
