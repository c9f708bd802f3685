/**
 * Needle points on a mesh. A point force on a membrane moves its own place without bound as a mesh gets finer, so that nothing worked out with
 * one converges. A needle point grips the fabric over its hole and the yarns about it: here over a disc of fixed radius, sampled at
 * fixed places, whatever the mesh.
 */
import { PAIRS } from './layer-matrix.js';
import { intervalOf, type Mesh } from './mesh.js';

/** Radius over which a needle point grips, mm: half a needle of 0.75 mm and the yarns or loops beside it. Our own assumption. */
export const GRIP_MM = 0.8;

/** Samples of equal weight, on rings that each stand for the same area a sample: unit disc. */
const RINGS = [1, 6, 12];
const SAMPLES = ringed();

function ringed(): readonly (readonly [x: number, y: number])[] {
  const all = RINGS.reduce((sum, n) => sum + n, 0);
  const out: [number, number][] = [];
  let inner = 0;
  for (const n of RINGS) {
    // The root of the mean square of the ring's two edges.
    const r = n === 1 ? 0 : Math.sqrt((inner + inner + n) / 2 / all);
    for (let k = 0; k < n; k++) {
      const angle = (2 * Math.PI * (k + (n === 12 ? 0.5 : 0))) / n;
      out.push([r * Math.cos(angle), r * Math.sin(angle)]);
    }
    inner += n;
  }
  return out;
}

/** Of every point, the nodes that it grips and by which part each; the parts of a point add up to one. */
export interface PointSpread {
  readonly count: number;
  /** Entries of point p are those from start[p] to start[p + 1]. */
  readonly start: Int32Array;
  readonly node: Int32Array;
  readonly part: Float64Array;
}

export function spreadPoints(mesh: Mesh, x: Float64Array, y: Float64Array): PointSpread {
  const count = x.length;
  // Nodes one way that a point can grip among even cells: those about 2·radius, and one more.
  const side = Math.ceil((2 * GRIP_MM) / mesh.even.cellMm) + 2;
  const start = new Int32Array(count + 1);
  const node = new Int32Array(count * side * side);
  const part = new Float64Array(node.length);
  const patch = new Float64Array(side * side);
  let n = 0;
  for (let p = 0; p < count; p++) {
    const i0 = intervalOf(mesh.x, x[p] - GRIP_MM);
    const j0 = intervalOf(mesh.y, y[p] - GRIP_MM);
    patch.fill(0);
    for (const [dx, dy] of SAMPLES) {
      const sx = x[p] + GRIP_MM * dx;
      const sy = y[p] + GRIP_MM * dy;
      const i = intervalOf(mesh.x, sx);
      const j = intervalOf(mesh.y, sy);
      const u = (sx - mesh.x[i]) / (mesh.x[i + 1] - mesh.x[i]);
      const v = (sy - mesh.y[j]) / (mesh.y[j + 1] - mesh.y[j]);
      const at = (j - j0) * side + i - i0;
      patch[at] += (1 - u) * (1 - v);
      patch[at + 1] += u * (1 - v);
      patch[at + side] += (1 - u) * v;
      patch[at + side + 1] += u * v;
    }
    for (let at = 0; at < patch.length; at++) {
      if (patch[at] === 0) continue;
      node[n] = (j0 + Math.floor(at / side)) * mesh.nx + i0 + (at % side);
      part[n++] = patch[at] / SAMPLES.length;
    }
    start[p + 1] = n;
  }
  return { count, start, node: node.slice(0, n), part: part.slice(0, n) };
}

/**
 * A spring between the layers over the disc of a needle point: its part of ½∫κ|u_g − u_b|², κ being the stiffness per area. The whole of what
 * the disc does between two places adds up to `stiffness`, N/mm.
 *
 * @param springs nine numbers a node: with each of its neighbors, and itself
 */
export function addSpring(springs: Float32Array, mesh: Mesh, x: number, y: number, stiffness: number): void {
  const { nx } = mesh;
  const each = stiffness / SAMPLES.length;
  for (const [dx, dy] of SAMPLES) {
    const sx = x + GRIP_MM * dx;
    const sy = y + GRIP_MM * dy;
    const i = intervalOf(mesh.x, sx);
    const j = intervalOf(mesh.y, sy);
    const u = (sx - mesh.x[i]) / (mesh.x[i + 1] - mesh.x[i]);
    const v = (sy - mesh.y[j]) / (mesh.y[j + 1] - mesh.y[j]);
    const corner = j * nx + i;
    for (let a = 0; a < 4; a++) {
      const p = PAIRS * (corner + (a & 1) + (a >> 1) * nx) + 4;
      const part = each * share(a, u, v);
      for (let b = 0; b < 4; b++)
        springs[p + 3 * ((b >> 1) - (a >> 1)) + (b & 1) - (a & 1)] += part * share(b, u, v);
    }
  }
}

const share = (corner: number, u: number, v: number): number =>
  (corner & 1 ? u : 1 - u) * (corner & 2 ? v : 1 - v);
