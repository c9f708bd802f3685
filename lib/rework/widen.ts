/**
 * The design with every column widened where it stands, so that what was sewn before disappears beneath it: outlines move outward by the same
 * amount everywhere, nothing moves apart.
 *
 * Underlay of a column spreads with it, needle point by needle point; that of a fill stays, farther inside than before. A run has no width; it keeps its path, and the
 * needle goes down between its old holes, so that thread lies over them. Locks move with what they lock.
 */
import { memoize } from '../core/memoize.js';
import { spreadInPlace } from '../core/stats.js';
import type { Stitches } from '../format/stitches.js';
import { measureColumn } from '../geometry/column.js';
import { columnFrame, locate } from '../geometry/column-frame.js';
import { measureRows } from '../geometry/rows.js';
import type { StitchObject } from '../segment/objects.js';
import type { EdgePoint } from '../stitch/edge.js';
import type { Section } from '../stitch/find-sections.js';
import { type Divide, layRun } from '../stitch/sew-run.js';
import { Allowance } from './allowance.js';
import type { Enlarge } from './enlargement.js';
import { machineScaled } from './machine-scaled.js';
import { TakenApart } from './sew-anew.js';
import { columnLines, widenColumn } from './widen-column.js';
import { fillLines, widenRows } from './widen-rows.js';

/** A stitch this long is no tie, mm: those are of at most about a millimetre. */
const NO_TIE_MM = 1.1;
/** The width whose share is the growth where a design has no column, mm (our own choice: a usual stroke of lettering). */
const USUAL_WIDTH_MM = 4;

/**
 * Widens columns, filled areas and their ends by the shares of the usual column's width, half to each side: 5 % of a usual width of 6 mm
 * makes every column 0.3 mm wider, a narrow one as well as a wide one. Growth that differs along x and y differs by direction.
 */
export const widened: Enlarge = (design, stitches, objects, leave = new Set()) => {
  const apart: TakenApart = new TakenApart(
    design,
    stitches,
    objects,
    false,
    leave,
    (section, first, last) => {
      const sines = columnOf(section).across.slice(first, last + 1);
      return 1 / Math.min(...sines.map(({ sine }) => sine));
    },
  );
  const asItIs = machineScaled(design, stitches, objects);
  const widthMm = usualWidth(stitches, objects);
  const spread = spreadUnder(stitches, objects);
  const rowsOf = memoize(({ from, to, sections }: StitchObject) =>
    measureRows(stitches.x, stitches.y, from, to, sections),
  );
  const columnOf = memoize((section: Section) =>
    columnLines(
      measureColumn(stitches.x, stitches.y, section.from, section.to),
      section.joined,
      apart.shape(section),
    ),
  );
  const linesOf = memoize((section: Section) =>
    fillLines(stitches, section, apart.shape(section), rowsOf(section.object)),
  );
  const runs = objects.filter(({ kind }) => kind === 'run');
  const runsLeft = runs.map(({ id }) => ({ object: id, part: 'top' as const, because: 'run' as const }));
  return (by) => {
    if (by.x === 0 && by.y === 0) return asItIs(by);
    const allowance = new Allowance(by, widthMm);
    const move: EdgePoint = [by.dx, by.dy];
    const carry = (x: number, y: number): EdgePoint => [x + by.dx, y + by.dy];
    const made = apart.grow({
      edges: (section, shape) =>
        section.swings
          ? widenColumn(columnOf(section), shape, allowance, move)
          : widenRows(linesOf(section), shape, allowance, move),
      path({ first, x, y, fixed, run }) {
        if (run !== null) return layRun(x, y, fixed, carry, between);
        const places = Array.from(x, (v, k): EdgePoint => {
          const [nx, ny] = [spread.x[first + k], spread.y[first + k]];
          const out = allowance.outward(nx, ny);
          const share = Math.hypot(nx, ny);
          return share > 0 ? carry(v + (nx / share) * out, y[k] + (ny / share) * out) : carry(v, y[k]);
        });
        return {
          x: places.map(([px]) => px),
          y: places.map(([, py]) => py),
          at: Int32Array.from(x, (_, k) => k),
        };
      },
      carry,
      outMm: allowance.most,
    });
    const whole = () => {
      const all = made.whole();
      return { ...all, left: [...(all.left ?? []), ...runsLeft] };
    };
    return { ...made, whole };
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

/**
 * Which way each needle point under a column moves, as long as its share of the way from the centre line to the edge beside it. Zero for
 * all others.
 */
function spreadUnder(
  { x, y, count }: Stitches,
  objects: readonly StitchObject[],
): { x: Float64Array; y: Float64Array } {
  const out = { x: new Float64Array(count), y: new Float64Array(count) };
  for (const { kind, from, to, underlay } of objects) {
    if (kind !== 'satin' || underlay.range === null) continue;
    const frame = columnFrame(x, y, from, to);
    let hint = -1;
    for (let i = underlay.range[0]; i <= underlay.range[1]; i++) {
      const { node, across, halfWidth } = locate(frame, x[i], y[i], hint);
      hint = node;
      const share = Math.abs(across) <= halfWidth ? across / Math.max(halfWidth, 1e-3) : 0;
      out.x[i] = -frame.ty[node] * share;
      out.y[i] = frame.tx[node] * share;
    }
  }
  return out;
}
