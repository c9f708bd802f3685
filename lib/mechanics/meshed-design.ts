/** All of a design that hangs on neither fabric nor backing, on a mesh: made once, then used for every setup. */
import type { Bounds } from '../core/bounds.js';
import { boundsOf } from '../format/extent.js';
import type { Stitches } from '../format/stitches.js';
import type { Thread } from '../materials/threads.js';
import type { StitchObject } from '../segment/objects.js';
import type { Grid } from './grid.js';
import { PAIRS } from './layer-matrix.js';
import { type HoopShape, MESH_OPTIONS, type Mesh, type MeshOptions, meshAbout } from './mesh.js';
import { type NearestPoint, nearestPoint } from './nearest-point.js';
import { addSpring, type PointSpread, spreadPoints } from './point-spread.js';
import { BLOCKS, type SewingOrder, sewingOrder } from './sewing-order.js';
import { Role, type StitchRoles, stitchRoles } from './stitch-roles.js';

export interface MeshedDesign {
  readonly stitches: Stitches;
  readonly objects: readonly StitchObject[];
  readonly thread: Thread;
  readonly hoop: HoopShape;
  readonly mesh: Mesh;
  readonly roles: StitchRoles;
  readonly order: SewingOrder;
  readonly spread: PointSpread;
  /** Of every block, springs of 1 N/mm at its needle points: nine numbers a node, as in a {@link LayerMatrix}. */
  readonly springs: readonly Float32Array[];
  /** Part of its tension with which each stitch pulls; all in full without it. */
  readonly pull?: Float64Array;
  /** Cells on which all that follows is told: the same whatever the mesh. */
  readonly map: Grid;
  /** To the nearest needle point. */
  readonly nearest: NearestPoint;
  /** Lines of top thread per mm. */
  readonly lines: Float64Array;
  /** Part of a cell that no top thread covers, 0..1. */
  readonly open: Float64Array;
  /** Needle points per mm² within {@link CROWD_MM}. */
  readonly points: Float64Array;
}

/** Needle points weaken a sheet that lies within this distance, mm. */
export const CROWD_MM = 1.5;

export function meshDesign(
  stitches: Stitches,
  objects: readonly StitchObject[],
  thread: Thread,
  hoop: HoopShape,
  options: MeshOptions = MESH_OPTIONS,
): MeshedDesign {
  const bounds = boundsOf(stitches);
  const mesh = meshAbout(bounds, hoop, options);
  const roles = stitchRoles(stitches, objects);
  const { x, y, count } = stitches;
  const map = mapAbout(bounds, options.mapMm);
  const order = sewingOrder(stitches, objects, roles);
  const lines = threadLines(map, stitches, (i) => roles.thread[i] === Role.top);
  return {
    stitches,
    objects,
    thread,
    hoop,
    mesh,
    roles,
    order,
    springs: Array.from({ length: BLOCKS }, (_, block) => blockSprings(mesh, stitches, order, block)),
    spread: spreadPoints(mesh, x.subarray(0, count), y.subarray(0, count)),
    map,
    nearest: nearestPoint(map, stitches),
    lines,
    open: lines.map((mm) => Math.max(0, 1 - thread.cover.value * mm)),
    points: pointsPerArea(map, stitches),
  };
}

function blockSprings(mesh: Mesh, { x, y, count }: Stitches, { point }: SewingOrder, block: number) {
  const springs = new Float32Array(mesh.nx * mesh.ny * PAIRS);
  for (let i = 0; i < count; i++) if (point[i] === block) addSpring(springs, mesh, x[i], y[i], 1);
  return springs;
}

/** As far about the stitching as wrinkles are looked for and backing is left when it is trimmed, and somewhat more, mm. */
const MAP_MARGIN_MM = 12;

function mapAbout({ minX, maxX, minY, maxY }: Bounds, cellMm: number): Grid {
  const nx = Math.ceil((maxX - minX + 2 * MAP_MARGIN_MM) / cellMm);
  const ny = Math.ceil((maxY - minY + 2 * MAP_MARGIN_MM) / cellMm);
  return {
    nx,
    ny,
    cellMm,
    x0: (minX + maxX - nx * cellMm) / 2,
    y0: (minY + maxY - ny * cellMm) / 2,
  };
}

/** Length of the chosen threads per area, 1/mm: lines of thread a mm. Each piece of thread is shared among the four cells about it. */
function threadLines(
  { nx, ny, cellMm, x0, y0 }: Grid,
  { x, y, count }: Stitches,
  chosen: (i: number) => boolean,
): Float64Array {
  const out = new Float64Array(nx * ny);
  for (let i = 1; i < count; i++) {
    if (!chosen(i)) continue;
    const length = Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]);
    const pieces = Math.ceil((2 * length) / cellMm);
    const each = length / pieces / (cellMm * cellMm);
    for (let k = 0; k < pieces; k++) {
      const t = (k + 0.5) / pieces;
      const u = (x[i - 1] + t * (x[i] - x[i - 1]) - x0) / cellMm - 0.5;
      const v = (y[i - 1] + t * (y[i] - y[i - 1]) - y0) / cellMm - 0.5;
      const a = Math.floor(u);
      const b = Math.floor(v);
      const p = b * nx + a;
      out[p] += each * (1 - u + a) * (1 - v + b);
      out[p + 1] += each * (u - a) * (1 - v + b);
      out[p + nx] += each * (1 - u + a) * (v - b);
      out[p + nx + 1] += each * (u - a) * (v - b);
    }
  }
  return out;
}

function pointsPerArea({ nx, ny, cellMm, x0, y0 }: Grid, { x, y, count }: Stitches): Float64Array {
  const out = new Float64Array(nx * ny);
  const reach = Math.ceil(CROWD_MM / cellMm);
  const each = 1 / (Math.PI * CROWD_MM * CROWD_MM);
  for (let p = 0; p < count; p++) {
    const ci = Math.floor((x[p] - x0) / cellMm);
    const cj = Math.floor((y[p] - y0) / cellMm);
    for (let j = Math.max(0, cj - reach); j <= Math.min(ny - 1, cj + reach); j++)
      for (let i = Math.max(0, ci - reach); i <= Math.min(nx - 1, ci + reach); i++) {
        const dx = x0 + (i + 0.5) * cellMm - x[p];
        const dy = y0 + (j + 0.5) * cellMm - y[p];
        if (dx * dx + dy * dy <= CROWD_MM * CROWD_MM) out[j * nx + i] += each;
      }
  }
  return out;
}
