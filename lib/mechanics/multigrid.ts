/**
 * One V-cycle of multigrid as an approximate inverse of the matrix of two layers: a sweep of Gauss–Seidel that sets all four unknowns of
 * a node at once, then the rest worked out on a mesh of fewer lines, then a sweep backward (Trottenberg, Oosterlee & Schüller,
 * *Multigrid*, 2001, from memory). Coarse matrices are Pᵀ·A·P of the finer ones, so that springs and trimmed sheets need no thought
 * of their own. Vectors have 32 bits here, too: an approximate inverse has no use for more, and half the memory is half the time.
 */
import { Cholesky } from './cholesky.js';
import { type Coarsening, coarse, coarsen, freeOf, transferOf } from './coarsening.js';
import { type LayerMatrix, neighborSteps, PER_NODE, PER_PAIR, SPRING, UNKNOWNS } from './layer-matrix.js';
import { SolveRoom } from './solve-room.js';

interface MeshLevel extends LayerMatrix {
  /** 4 × 4 numbers of every node: the inverse of what it has to do with itself. */
  readonly inverse: Float32Array;
  readonly x: Float32Array;
  readonly force: Float32Array;
  readonly rest: Float32Array;
  /** To the next coarser level; null at the bottom. */
  readonly down: (Coarsening & CoarsePlaces) | null;
  readonly lines: MeshLines;
}

/** Where the nodes that can move lie on the next coarser mesh; an entry each, in the order of {@link LayerMatrix.nodes}. */
interface CoarsePlaces {
  /** The coarse node at or before it along both axes. */
  readonly node: Int32Array;
  /** The part that the next coarse line along x and along y has in it. */
  readonly u: Float64Array;
  readonly v: Float64Array;
}

/** Places of a mesh's lines along x and along y, mm. */
export interface MeshLines {
  readonly x: Float64Array;
  readonly y: Float64Array;
}

/** Adds to a level's matrix what the finer ones have not; the finest is number 0. */
export type AddToLevel = (matrix: LayerMatrix, lines: MeshLines, level: number) => void;

export class Multigrid {
  private readonly levels: MeshLevel[] = [];
  private bottom: Cholesky | null = null;

  /** @param add to the matrix of each level, besides what comes down from the finer one */
  constructor(
    private readonly matrix: LayerMatrix,
    lines: MeshLines,
    add?: AddToLevel,
    private readonly room = new SolveRoom(),
  ) {
    let { x, y } = lines;
    let free = matrix.free;
    for (;;) {
      const alongX = transferOf(x);
      const alongY = transferOf(y);
      const last = alongX.count === x.length && alongY.count === y.length;
      this.levels.push(newLevel({ x, y }, free, last ? null : { alongX, alongY }, room));
      if (last) break;
      free = freeOf(free, x.length, alongX, alongY);
      x = coarse(x, alongX);
      y = coarse(y, alongY);
    }
    this.levels[0].entries.set(matrix.entries);
    this.refresh((level, l) => {
      add?.(level, level.lines, l);
      if (level.down) coarsen(level, level.down, this.levels[l + 1]);
    });
  }

  /** Takes over springs that the matrix has got since. */
  springsChanged(): void {
    const [finest] = this.levels;
    const { entries } = this.matrix;
    for (let k = SPRING; k < entries.length; k += PER_PAIR) finest.entries[k] = entries[k];
    this.refresh((level, l) => {
      if (level.down) coarsen(level, level.down, this.levels[l + 1], SPRING);
    });
  }

  /** Gives back all that it fills; it is of no use after that. */
  giveBack(): void {
    for (const { entries, inverse, x, force, rest } of this.levels)
      this.room.giveBack(entries, inverse, x, force, rest);
    this.levels.length = 0;
  }

  /** @param finish the level, and make the next coarser one's numbers of it */
  private refresh(finish: (level: MeshLevel, l: number) => void): void {
    this.levels.forEach((level, l) => {
      finish(level, l);
      invertNodes(level);
      if (!level.down) this.bottom = factor(level);
    });
  }

  /** An approximation of the movement under a force. */
  readonly improve = (force: Float64Array, out: Float64Array): void => {
    const [finest] = this.levels;
    finest.force.set(force);
    this.cycle(0);
    out.set(finest.x);
  };

  private cycle(l: number): void {
    const level = this.levels[l];
    const { down } = level;
    if (!down) {
      solveBottom(level, this.bottom!);
      return;
    }
    pass(level, SWEEP_FROM_REST);
    pass(level, REST_OF_SWEEP);
    const next = this.levels[l + 1];
    restrict(level, down, next);
    this.cycle(l + 1);
    prolong(level, down, next);
    pass(level, SWEEP_BACK);
  }
}

function newLevel(lines: MeshLines, free: Uint8Array, to: Coarsening | null, room: SolveRoom): MeshLevel {
  const nx = lines.x.length;
  const ny = lines.y.length;
  const n = nx * ny;
  const nodes = Int32Array.from(free.keys()).filter((p) => free[p] === 1);
  return {
    nx,
    ny,
    free,
    nodes,
    entries: room.float32(n * PER_NODE),
    inverse: room.float32(n * UNKNOWNS * UNKNOWNS),
    x: room.float32(n * UNKNOWNS),
    force: room.float32(n * UNKNOWNS),
    rest: room.float32(n * UNKNOWNS),
    down: to && { ...to, ...coarsePlaces(nodes, nx, to) },
    lines,
  };
}

function coarsePlaces(nodes: Int32Array, nx: number, { alongX, alongY }: Coarsening): CoarsePlaces {
  const node = new Int32Array(nodes.length);
  const u = new Float64Array(nodes.length);
  const v = new Float64Array(nodes.length);
  nodes.forEach((p, m) => {
    const i = p % nx;
    const j = (p - i) / nx;
    node[m] = alongY.before[j] * alongX.count + alongX.before[i];
    u[m] = alongX.after[i];
    v[m] = alongY.after[j];
  });
  return { node, u, v };
}

/** Inverses of the 4 × 4 blocks [[G + s, −s], [−s, B + s]]; what nothing holds stays where it is. */
function invertNodes({ nodes, entries, inverse }: MeshLevel): void {
  const g = new Float64Array(3);
  const b = new Float64Array(3);
  for (let m = 0; m < nodes.length; m++) {
    const p = nodes[m];
    const k = p * PER_NODE + 4 * PER_PAIR;
    const s = entries[k + SPRING];
    const bxx = entries[k + 4] + s;
    const bxy = (entries[k + 5] + entries[k + 6]) / 2;
    const byy = entries[k + 7] + s;
    invert2(bxx, bxy, byy, b);
    // Schur complement of the backing.
    const ss = s * s;
    invert2(
      entries[k] + s - ss * b[0],
      (entries[k + 1] + entries[k + 2]) / 2 - ss * b[1],
      entries[k + 3] + s - ss * b[2],
      g,
    );
    const q = p * 16;
    // Fabric from fabric, fabric from backing: g·s·b, backing from backing: b + s²·b·g·b.
    const xx = s * (g[0] * b[0] + g[1] * b[1]);
    const xy = s * (g[0] * b[1] + g[1] * b[2]);
    const yx = s * (g[1] * b[0] + g[2] * b[1]);
    const yy = s * (g[1] * b[1] + g[2] * b[2]);
    inverse[q] = g[0];
    inverse[q + 1] = inverse[q + 4] = g[1];
    inverse[q + 5] = g[2];
    inverse[q + 2] = inverse[q + 8] = xx;
    inverse[q + 3] = inverse[q + 12] = xy;
    inverse[q + 6] = inverse[q + 9] = yx;
    inverse[q + 7] = inverse[q + 13] = yy;
    inverse[q + 10] = b[0] + s * (b[0] * xx + b[1] * yx);
    inverse[q + 11] = inverse[q + 14] = b[1] + s * (b[0] * xy + b[1] * yy);
    inverse[q + 15] = b[2] + s * (b[1] * xy + b[2] * yy);
  }
}

/** Symmetric 2 × 2 to its inverse xx, xy, yy; zeros where it has none. */
function invert2(xx: number, xy: number, yy: number, out: Float64Array): void {
  const det = xx * yy - xy * xy;
  const sound = xx > 0 && det > 0;
  out[0] = sound ? yy / det : 0;
  out[1] = sound ? -xy / det : 0;
  out[2] = sound ? xx / det : 0;
}

/** One way through all nodes of a level. */
interface Pass {
  /** Neighbors that are looked at, in the order of the entries; a node itself never is. */
  readonly first: number;
  readonly last: number;
  readonly backward: boolean;
  /** Sets each node by its force and what those neighbors do to it; else only tells what they do, as the level's rest. */
  readonly relaxes: boolean;
}

/** A sweep from no movement: neighbors that come later do nothing yet. */
const SWEEP_FROM_REST: Pass = { first: 0, last: 3, backward: false, relaxes: true };
/** Force left after it: what the later neighbors do. */
const REST_OF_SWEEP: Pass = { first: 5, last: 8, backward: false, relaxes: false };
const SWEEP_BACK: Pass = { first: 0, last: 8, backward: true, relaxes: true };

/** All in one loop, as half of a solve is spent here: numbers that are handed from function to function take as long again. */
function pass(
  { nodes, nx, entries, inverse, x, force, rest }: MeshLevel,
  { first, last, backward, relaxes }: Pass,
): void {
  const steps = Int32Array.from(neighborSteps(nx));
  const count = nodes.length;
  for (let m = 0; m < count; m++) {
    const p = nodes[backward ? count - 1 - m : m];
    const at = UNKNOWNS * p;
    let gx = relaxes ? force[at] : 0;
    let gy = relaxes ? force[at + 1] : 0;
    let bx = relaxes ? force[at + 2] : 0;
    let by = relaxes ? force[at + 3] : 0;
    for (let n = first, k = p * PER_NODE + first * PER_PAIR; n <= last; n++, k += PER_PAIR) {
      if (n === 4) continue;
      const q = UNKNOWNS * (p + steps[n]);
      const ux = x[q];
      const uy = x[q + 1];
      const vx = x[q + 2];
      const vy = x[q + 3];
      const s = entries[k + SPRING];
      const dx = s * (ux - vx);
      const dy = s * (uy - vy);
      gx -= entries[k] * ux + entries[k + 1] * uy + dx;
      gy -= entries[k + 2] * ux + entries[k + 3] * uy + dy;
      bx -= entries[k + 4] * vx + entries[k + 5] * vy - dx;
      by -= entries[k + 6] * vx + entries[k + 7] * vy - dy;
    }
    if (relaxes) {
      const i = 16 * p;
      x[at] = inverse[i] * gx + inverse[i + 1] * gy + inverse[i + 2] * bx + inverse[i + 3] * by;
      x[at + 1] = inverse[i + 4] * gx + inverse[i + 5] * gy + inverse[i + 6] * bx + inverse[i + 7] * by;
      x[at + 2] = inverse[i + 8] * gx + inverse[i + 9] * gy + inverse[i + 10] * bx + inverse[i + 11] * by;
      x[at + 3] = inverse[i + 12] * gx + inverse[i + 13] * gy + inverse[i + 14] * bx + inverse[i + 15] * by;
    } else {
      rest[at] = gx;
      rest[at + 1] = gy;
      rest[at + 2] = bx;
      rest[at + 3] = by;
    }
  }
}

function restrict({ nodes, rest }: MeshLevel, to: CoarsePlaces, { force, free, nx }: MeshLevel): void {
  force.fill(0);
  for (let m = 0; m < nodes.length; m++) {
    const p = nodes[m];
    const c = to.node[m];
    const u = to.u[m];
    const v = to.v[m];
    share(rest, p, force, free, c, (1 - u) * (1 - v));
    if (u > 0) share(rest, p, force, free, c + 1, u * (1 - v));
    if (v > 0) share(rest, p, force, free, c + nx, (1 - u) * v);
    if (u > 0 && v > 0) share(rest, p, force, free, c + nx + 1, u * v);
  }
}

function share(
  from: Float32Array,
  p: number,
  to: Float32Array,
  free: Uint8Array,
  c: number,
  part: number,
): void {
  if (free[c] === 0) return;
  const at = UNKNOWNS * c;
  const by = UNKNOWNS * p;
  to[at] += part * from[by];
  to[at + 1] += part * from[by + 1];
  to[at + 2] += part * from[by + 2];
  to[at + 3] += part * from[by + 3];
}

function prolong({ nodes, x }: MeshLevel, to: CoarsePlaces, { x: from, nx }: MeshLevel): void {
  for (let m = 0; m < nodes.length; m++) {
    const at = UNKNOWNS * nodes[m];
    const c = UNKNOWNS * to.node[m];
    const u = to.u[m];
    const v = to.v[m];
    const right = u > 0 ? UNKNOWNS : 0;
    const up = v > 0 ? UNKNOWNS * nx : 0;
    for (let k = 0; k < UNKNOWNS; k++)
      x[at + k] +=
        (1 - v) * ((1 - u) * from[c + k] + u * from[c + right + k]) +
        v * ((1 - u) * from[c + up + k] + u * from[c + up + right + k]);
  }
}

/** All unknowns of the coarsest level at once. */
function factor({ nx, nodes, entries }: MeshLevel): Cholesky {
  const n = UNKNOWNS * nodes.length;
  const full = new Float64Array(n * n);
  const steps = neighborSteps(nx);
  const number = new Map(Array.from(nodes, (p, m) => [p, m]));
  nodes.forEach((p, m) => {
    steps.forEach((step, k) => {
      const other = number.get(p + step);
      if (other === undefined) return;
      const e = p * PER_NODE + k * PER_PAIR;
      const s = entries[e + SPRING];
      for (let a = 0; a < 2; a++)
        for (let b = 0; b < 2; b++) {
          const mine = UNKNOWNS * m + a;
          const its = UNKNOWNS * other + b;
          const both = a === b ? s : 0;
          full[mine * n + its] += entries[e + 2 * a + b] + both;
          full[(mine + 2) * n + its + 2] += entries[e + 4 + 2 * a + b] + both;
          full[mine * n + its + 2] -= both;
          full[(mine + 2) * n + its] -= both;
        }
    });
  });
  // What nothing holds stays where it is.
  for (let k = 0; k < n; k++) if (!(full[k * n + k] > 0)) full[k * n + k] = 1;
  return new Cholesky(full, n);
}

function solveBottom({ nodes, force, x }: MeshLevel, bottom: Cholesky): void {
  const right = new Float64Array(bottom.n);
  nodes.forEach((p, m) => {
    for (let k = 0; k < UNKNOWNS; k++) right[UNKNOWNS * m + k] = force[UNKNOWNS * p + k];
  });
  const found = bottom.solve(right);
  nodes.forEach((p, m) => {
    for (let k = 0; k < UNKNOWNS; k++) x[UNKNOWNS * p + k] = found[UNKNOWNS * m + k];
  });
}
