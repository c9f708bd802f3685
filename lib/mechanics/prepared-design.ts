import { boundsOf } from '../format/extent.js';
import type { Stitches } from '../format/stitches.js';
import type { Thread } from '../materials/threads.js';
import type { StitchObject } from '../segment/objects.js';
import { FieldSolver, type LoadSpectrum } from './field.js';
import { type Grid, gridAbout, type TensorField } from './grid.js';
import { cellsForGround } from './ground.js';
import { type NearestPoint, nearestPoint } from './nearest-point.js';
import { objectRegions } from './regions.js';
import { Role, type StitchRoles, stitchRoles } from './stitch-roles.js';
import { tackDensity } from './tacking.js';
import { rasterise, stitchTension } from './thread-load.js';

/** Prestress, and the same made ready for solving. */
export interface Load {
  readonly prestress: TensorField;
  readonly spectrum: LoadSpectrum;
}

/**
 * All of a design that does not depend on the goods, on one grid: made once for an underlay as sewn, then used for every fabric
 * and stack. Loads are for a laying tension of 1 N.
 */
export interface PreparedDesign {
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
  readonly roles: StitchRoles;
  readonly thread: Thread;
  readonly bedInMm: number;
  readonly grid: Grid;
  /** The largest cell that the columns allow, mm; the grid's is larger only where the design is too big for that. */
  readonly wantedCellMm: number;
  readonly solver: FieldSolver;
  readonly underlay: Load;
  readonly top: Load;
  /** Lines of top thread per mm. */
  readonly topLines: Float64Array;
  /** Needle points per mm². */
  readonly underlayPoints: Float64Array;
  readonly topPoints: Float64Array;
  /** 0..1, part of each cell that no thread covers. */
  readonly open: Float64Array;
  readonly nearest: NearestPoint;
  /** Cells of each object and of the goods about it. */
  readonly regions: readonly Int32Array[];
}

/** A column must be at least this many cells wide. */
const CELLS_ACROSS = 3;
/** Cells never need to be smaller than this: columns of 1 mm hardly pull. */
const FINEST_MM = 0.35;
/** Nor may they be larger: the reach of a tack has to be seen. */
const COARSEST_MM = 0.75;
/** Cells a side: beyond it a design is too large for the rule, and its cells grow. */
const MOST_CELLS = 1024;

/**
 * Largest cell that the columns allow: a third of the width that a quarter of the satin's thread stays below (so that a few
 * narrow serifs do not set the grid), between 0.35 and 0.75 mm. Without satin: 0.75 mm.
 */
export function cellFor(stitches: Stitches, objects: readonly StitchObject[]): number {
  const widths: number[] = [];
  for (const { kind, from, to } of objects) {
    if (kind !== 'satin') continue;
    for (let i = 0; i < from.length; i++) widths.push(swing(stitches, from[i], to[i]));
  }
  if (widths.length === 0) return COARSEST_MM;
  const sorted = Float64Array.from(widths).sort();
  const quarter = sorted.reduce((sum, w) => sum + w, 0) / 4;
  let sum = 0;
  let k = 0;
  while (k < sorted.length - 1 && sum + sorted[k] < quarter) sum += sorted[k++];
  return Math.min(COARSEST_MM, Math.max(FINEST_MM, sorted[k] / CELLS_ACROSS));
}

const swing = ({ x, y }: Stitches, a: number, b: number): number => Math.hypot(x[a] - x[b], y[a] - y[b]);

/**
 * The grid of a design: cells as small as its columns want them, larger where it is too large for that or lies scattered over too much empty
 * fabric.
 */
export function gridFor(
  stitches: Stitches,
  objects: readonly StitchObject[],
  wantedCellMm = cellFor(stitches, objects),
): Grid {
  const bounds = boundsOf(stitches);
  const extent = Math.max(bounds.maxX - bounds.minX, bounds.maxY - bounds.minY);
  const cells = cellsForGround(stitches, bounds, MOST_CELLS * MOST_CELLS);
  let grid = gridAbout(bounds, Math.max(wantedCellMm, (1.5 * extent) / MOST_CELLS));
  while (grid.nx * grid.ny > cells) grid = gridAbout(bounds, 1.1 * grid.cellMm);
  return grid;
}

/** `cellMm` overrides the rule for the size of cells. A design without stitches gives an empty load on a small grid. */
export function prepareDesign(
  stitches: Stitches,
  objects: readonly StitchObject[],
  thread: Thread,
  bedInMm: number,
  cellMm?: number,
): PreparedDesign {
  const wantedCellMm = cellMm ?? cellFor(stitches, objects);
  const grid = gridFor(stitches, objects, wantedCellMm);
  const roles = stitchRoles(stitches, objects);
  const solver = new FieldSolver(grid);
  const top = rasterise(grid, stitches, pullOf(roles, Role.top, bedInMm));
  return {
    stitches,
    objects,
    roles,
    thread,
    bedInMm,
    grid,
    wantedCellMm,
    solver,
    top: { prestress: top.prestress, spectrum: solver.load(top.prestress) },
    topPoints: tackDensity(grid, stitches, (i) => (roles.point[i] === Role.top ? 1 : 0)),
    topLines: top.lines,
    regions: objectRegions(grid, stitches, objects),
    ...layUnderlay({ grid, solver, stitches, roles, thread, bedInMm, topLines: top.lines }),
  };
}

/**
 * The same design on another underlay: all that the top stitching decides (grid, solver, load, regions) is taken over.
 * @param sewn the design of `base` with its top stitching as it was and its objects in their order
 */
export function prepareRelaid(
  base: PreparedDesign,
  sewn: Pick<PreparedDesign, 'stitches' | 'objects'>,
): PreparedDesign {
  const { stitches, objects } = sewn;
  const roles = stitchRoles(stitches, objects);
  return { ...base, stitches, objects, roles, ...layUnderlay({ ...base, stitches, roles }) };
}

const pullOf =
  ({ thread }: StitchRoles, role: number, bedInMm: number) =>
  (length: number, i: number) =>
    thread[i] === role ? stitchTension(length, 1, bedInMm) : -1;

/** All that hangs on the underlay. */
function layUnderlay({
  grid,
  solver,
  stitches,
  roles,
  thread,
  bedInMm,
  topLines,
}: Pick<PreparedDesign, 'grid' | 'solver' | 'stitches' | 'roles' | 'thread' | 'bedInMm' | 'topLines'>): Pick<
  PreparedDesign,
  'underlay' | 'underlayPoints' | 'open' | 'nearest'
> {
  const { prestress, lines } = rasterise(grid, stitches, pullOf(roles, Role.underlay, bedInMm));
  const cover = thread.cover.value;
  return {
    underlay: { prestress, spectrum: solver.load(prestress) },
    underlayPoints: tackDensity(grid, stitches, (i) => (roles.point[i] === Role.underlay ? 1 : 0)),
    open: topLines.map((top, p) => Math.max(0, 1 - cover * (top + lines[p]))),
    nearest: nearestPoint(grid, stitches),
  };
}
