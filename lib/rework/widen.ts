/**
 * The design with every column widened where it stands, so that what was sewn before disappears beneath it: outlines move outward by the same
 * amount everywhere, nothing moves apart.
 *
 * Underlay of a column spreads with it, needle point by needle point; that of a fill stays, farther inside than before. A run has no width; it keeps its path, and the
 * needle goes down between its old holes, so that thread lies over them. Locks move with what they lock.
 */
import { spreadInPlace } from '../core/stats.js';
import type { Stitches } from '../format/stitches.js';
import { measureColumn } from '../geometry/column.js';
import { columnFrame, locate } from '../geometry/column-frame.js';
import { measureRows, type Rows } from '../geometry/rows.js';
import type { StitchObject } from '../segment/objects.js';
import { Allowance } from './allowance.js';
import type { Enlarge } from './enlargement.js';
import { type Divide, layRun } from './lay-run.js';
import { layString } from './lay-string.js';
import { machineScaled } from './machine-scaled.js';
import type { Place } from './rails.js';
import { sewAnew } from './sew-anew.js';
import { shapeOf } from './string-shape.js';
import { widenColumn } from './widen-column.js';
import { widenRows } from './widen-rows.js';

/** A stitch this long is no tie, mm: those are of at most about a millimetre. */
const NO_TIE_MM = 1.1;
/** The width whose share is the growth where a design has no column, mm (our own choice: a usual stroke of lettering). */
const USUAL_WIDTH_MM = 4;

/**
 * Widens columns, filled areas and their ends by the shares of the usual column's width, half to each side: 5 % of a usual width of 6 mm
 * makes every column 0.3 mm wider, a narrow one as well as a wide one. Growth that differs along x and y differs by direction.
 */
export const widened: Enlarge = (design, stitches, objects, by) => {
  if (by.x === 0 && by.y === 0) return machineScaled(design, stitches, objects, by);
  const allowance = new Allowance(by, usualWidth(stitches, objects));
  const move: Place = [by.dx, by.dy];
  const carry = (x: number, y: number): Place => [x + by.dx, y + by.dy];
  const under = underColumns(stitches, objects, allowance);
  const fills = new Map<StitchObject, Rows>();
  const rowsOf = (object: StitchObject): Rows => {
    const known = fills.get(object);
    if (known !== undefined) return known;
    const rows = measureRows(stitches.x, stitches.y, object.from, object.to, object.sections);
    fills.set(object, rows);
    return rows;
  };
  const made = sewAnew(design, stitches, objects, {
    relaysUnderlay: false,
    string(string, mayCross) {
      const { object, swings, joined, row, from } = string;
      const shape = shapeOf(stitches, string);
      if (swings)
        return layString(shape, widenColumn(stitches, string, shape, allowance, move), joined, mayCross);
      // short rows at the tips of a fill are no part of a string: nothing is to be sewn over them
      const open = {
        before: row > 0 || object.range[0] >= object.from[0],
        after: row + from.length < object.from.length || object.range[1] <= object.to[object.to.length - 1],
      };
      return layString(
        shape,
        widenRows(stitches, string, shape, allowance, rowsOf(object), open, move),
        joined,
        mayCross,
      );
    },
    path({ first, x, y, fixed, run }) {
      if (run !== null) return layRun(x, y, fixed, carry, between);
      return {
        x: Array.from(x, (v, k) => v + under.x[first + k] + by.dx),
        y: Array.from(y, (v, k) => v + under.y[first + k] + by.dy),
        at: Int32Array.from(x, (_, k) => k),
      };
    },
    carry,
  });
  const runs = objects.filter(({ kind }) => kind === 'run');
  const why = 'a run has no width: it keeps its path, with the needle between its old holes';
  return {
    ...made,
    left: [...(made.left ?? []), ...runs.map(({ id }) => ({ object: id, part: 'top' as const, why }))],
  };
};

/**
 * Needle points midway between the old ones. The first and last stitch are half as long, or half as long again where half a stitch would
 * pass for a tiny one; where there is no room for either the stitches stay.
 */
const between: Divide = (stitches, _, shortestMm) => {
  const middles = Array.from({ length: stitches }, (_, k) => k + 0.5);
  if (stitches > 1 && shortestMm >= 2 * NO_TIE_MM) return [0, ...middles, stitches];
  if (stitches > 2) return [0, ...middles.slice(1, -1), stitches];
  return Array.from({ length: stitches + 1 }, (_, k) => k);
};

/** Median of the widths of a design's columns, each by its own median, mm. */
function usualWidth({ x, y }: Stitches, objects: readonly StitchObject[]): number {
  const widths = objects
    .filter(({ kind }) => kind === 'satin')
    .map(({ from, to }) => spreadInPlace(measureColumn(x, y, from, to).widthMm)!.median);
  return spreadInPlace(Float64Array.from(widths))?.median ?? USUAL_WIDTH_MM;
}

/** How far each needle point under a column moves: as far out as the edge beside it, by its share of the way there. Zero for all others, mm. */
function underColumns(
  { x, y, count }: Stitches,
  objects: readonly StitchObject[],
  allowance: Allowance,
): { x: Float64Array; y: Float64Array } {
  const out = { x: new Float64Array(count), y: new Float64Array(count) };
  for (const { kind, from, to, underlay } of objects) {
    if (kind !== 'satin' || underlay.range === null) continue;
    const frame = columnFrame(x, y, from, to);
    let hint = -1;
    for (let i = underlay.range[0]; i <= underlay.range[1]; i++) {
      const { node, across, halfWidth } = locate(frame, x[i], y[i], hint);
      hint = node;
      const [nx, ny] = [-frame.ty[node], frame.tx[node]];
      const share = Math.abs(across) <= halfWidth ? across / Math.max(halfWidth, 1e-3) : 0;
      out.x[i] = nx * share * allowance.outward(nx, ny);
      out.y[i] = ny * share * allowance.outward(nx, ny);
    }
  }
  return out;
}
