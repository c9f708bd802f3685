/**
 * Sewn thread of one layer once the hoop lets go: each stitch is a spring between its needle points that has the tension it was sewn with, takes
 * up more when it is drawn out, and hangs slack when it is pressed. With threads that pull on whatever happens a filled area would pucker
 * more than a name.
 */

import type { Strain } from './laminate.js';
import { SIX } from './layer-matrix.js';
import { intervalOf } from './mesh.js';
import type { MeshedDesign } from './meshed-design.js';
import type { MeshLines } from './multigrid.js';
import type { ParameterValues } from './settings.js';
import { partOfTension } from './sewing.js';
import type { SewingOrder } from './sewing-order.js';
import { addPointForces, type PointForces, pointMovement } from './thread-pull.js';

/** A thread so many times as long as an element is held like a membrane: conjugate gradients then take the fewest steps. */
const ALIKE = 1;

/** The threads of a design that can pull once it is let go: those in its order of sewing. */
interface SewnThreads {
  /** Needle point in which each ends. */
  readonly last: Int32Array;
  /** mm, and direction; nothing for one without length. */
  readonly length: Float64Array;
  readonly dx: Float64Array;
  readonly dy: Float64Array;
  /** Room for what is told of every needle point, used again and again. */
  readonly moved: PointForces;
  readonly forces: PointForces;
}

/** They hang on nothing of the fabric. */
const known = new WeakMap<SewingOrder, SewnThreads>();

function threadsOf({ stitches, order }: MeshedDesign): SewnThreads {
  const before = known.get(order);
  if (before) return before;
  const { x, y, count } = stitches;
  const last = Int32Array.from(order.thread.keys()).filter((i) => i > 0 && order.thread[i] >= 0);
  const points = (): PointForces => ({
    x: new Float64Array(count),
    y: new Float64Array(count),
  });
  const length = Float64Array.from(last, (i) => Math.hypot(x[i] - x[i - 1], y[i] - y[i - 1]));
  const along = (from: Float64Array | Int32Array) =>
    Float64Array.from(last, (i, m) => (length[m] > 0 ? (from[i] - from[i - 1]) / length[m] : 0));
  const threads = {
    last,
    length,
    dx: along(x),
    dy: along(y),
    moved: points(),
    forces: points(),
  };
  known.set(order, threads);
  return threads;
}

export class ThreadSprings {
  /** 1 where a thread pulls, 0 where it hangs slack. */
  readonly taut: Uint8Array;
  readonly channel: number;
  private readonly layerAt: number;
  private readonly threads: SewnThreads;
  /** Of every stitch: stiffness N/mm, tension as sewn N. */
  private readonly stiffness: Float64Array;
  private readonly tension: Float64Array;

  /**
   * @param share of the layer in the tension and stiffness of a stitch
   * @param layer its place among the unknowns, and among the numbers between two nodes
   * @param taut what is taut to begin with; all without it
   */
  constructor(
    private readonly design: MeshedDesign,
    { sewnThread, bedIn, tension }: ParameterValues,
    share: number,
    layer: { readonly at: number; readonly channel: number },
    taut?: Uint8Array,
  ) {
    this.layerAt = layer.at;
    this.channel = layer.channel;
    this.threads = threadsOf(design);
    const { last, length } = this.threads;
    const stiff = share * sewnThread * design.thread.axialStiffness.value;
    this.taut = taut ? taut.slice() : new Uint8Array(last.length).fill(1);
    this.stiffness = length.map((mm) => (mm > 0 ? stiff / (mm + bedIn) : 0));
    this.tension = Float64Array.from(
      last,
      (i, m) => share * tension * partOfTension(design, bedIn, i, length[m]),
    );
  }

  /** Adds the forces by which taut threads answer a movement, as a stiffness does. */
  addTo(u: Float64Array, out: Float64Array): void {
    const { taut, stiffness, design, layerAt } = this;
    const { last, dx, dy, moved, forces } = this.threads;
    pointMovement(u, design.spread, layerAt, moved);
    const { x, y } = moved;
    forces.x.fill(0);
    forces.y.fill(0);
    for (let m = 0; m < last.length; m++) {
      if (taut[m] === 0) continue;
      const i = last[m];
      const drawn = dx[m] * (x[i] - x[i - 1]) + dy[m] * (y[i] - y[i - 1]);
      // A stiffness answers with the opposite of what a force does.
      this.pullWith(m, -stiffness[m] * drawn);
    }
    addPointForces(out, design.spread, forces, layerAt);
  }

  /**
   * Adds what taut threads pull more where the layer, without moving, becomes larger than they are.
   * @param strain by which it does, less than zero where it gets smaller
   */
  addDrawn(force: Float64Array, strain: Strain): void {
    this.addPull(force, (m) => (this.taut[m] === 1 ? this.stiffness[m] * this.drawnBy(m, strain) : 0));
  }

  /** Takes away what slack threads pulled as sewn, those of blocks from `firstBlock` on. */
  addLoosened(force: Float64Array, firstBlock: number): void {
    const { thread } = this.design.order;
    const { last } = this.threads;
    this.addPull(force, (m) => (this.taut[m] === 1 || thread[last[m]] < firstBlock ? 0 : -this.tension[m]));
  }

  private addPull(out: Float64Array, force: (thread: number) => number): void {
    const { last, forces } = this.threads;
    forces.x.fill(0);
    forces.y.fill(0);
    for (let m = 0; m < last.length; m++) this.pullWith(m, force(m));
    addPointForces(out, this.design.spread, forces, this.layerAt);
  }

  private pullWith(m: number, force: number): void {
    const { last, dx, dy, forces } = this.threads;
    const i = last[m];
    const fx = force * dx[m];
    const fy = force * dy[m];
    forces.x[i - 1] += fx;
    forces.y[i - 1] += fy;
    forces.x[i] -= fx;
    forces.y[i] -= fy;
  }

  private drawnBy(m: number, [exx, eyy, exy]: Strain): number {
    const { length, dx, dy } = this.threads;
    return length[m] * (dx[m] * dx[m] * exx + dy[m] * dy[m] * eyy + dx[m] * dy[m] * exy);
  }

  /**
   * Tells taut threads from slack ones by a movement since sewing, and the strain of {@link addDrawn}.
   * @returns how many have changed
   */
  settle(u: Float64Array, strain: Strain): number {
    const { last, dx, dy, moved } = this.threads;
    pointMovement(u, this.design.spread, this.layerAt, moved);
    let changed = 0;
    for (let m = 0; m < last.length; m++) {
      const i = last[m];
      const drawn =
        this.drawnBy(m, strain) +
        dx[m] * (moved.x[i] - moved.x[i - 1]) +
        dy[m] * (moved.y[i] - moved.y[i - 1]);
      const taut = this.tension[m] + this.stiffness[m] * drawn > 0 ? 1 : 0;
      if (taut !== this.taut[m]) changed++;
      this.taut[m] = taut;
    }
    return changed;
  }

  /**
   * Taut threads as a membrane that is stiff along them, six numbers an element of a level of multigrid: near enough for a preconditioner, also
   * when others are taut. A membrane holds every part of itself, a thread its two ends and nothing between them. What a level with elements much
   * smaller than the thread can tell apart it therefore has to leave soft, and has the more of the stiffness the larger they are.
   * @param cellMm side of the level's elements about the stitching
   * @param finest false for what the level has more than the next finer one
   * @param there 1 for elements of the design's own mesh in which there is a layer to hold it; all without it
   */
  smeared(
    { x: linesX, y: linesY }: MeshLines,
    cellMm: number,
    finest: boolean,
    there: Uint8Array | null,
  ): Float64Array {
    const { last, length: lengths, dx, dy } = this.threads;
    const { mesh, stitches } = this.design;
    const { x, y } = stitches;
    const across = linesX.length - 1;
    const six = new Float64Array(SIX * across * (linesY.length - 1));
    const borne = (mm: number, length: number) => Math.min(1, (ALIKE * mm) / length);
    last.forEach((i, m) => {
      const length = lengths[m];
      if (this.taut[m] === 0 || length === 0) return;
      const part = borne(cellMm, length) - (finest ? 0 : borne(cellMm / 2, length));
      if (part === 0) return;
      const pieces = Math.ceil((2 * length) / cellMm);
      const each = (part * this.stiffness[m] * length * length) / pieces;
      const c = dx[m];
      const s = dy[m];
      for (let k = 0; k < pieces; k++) {
        const t = (k + 0.5) / pieces;
        const px = x[i - 1] + t * (x[i] - x[i - 1]);
        const py = y[i - 1] + t * (y[i] - y[i - 1]);
        if (there && there[intervalOf(mesh.y, py) * (mesh.nx - 1) + intervalOf(mesh.x, px)] === 0) continue;
        const ex = intervalOf(linesX, px);
        const ey = intervalOf(linesY, py);
        const f = each / (linesX[ex + 1] - linesX[ex]) / (linesY[ey + 1] - linesY[ey]);
        const e = SIX * (ey * across + ex);
        six[e] += f * c * c * c * c;
        six[e + 1] += f * c * c * s * s;
        six[e + 2] += f * c * c * c * s;
        six[e + 3] += f * s * s * s * s;
        six[e + 4] += f * c * s * s * s;
        six[e + 5] += f * c * c * s * s;
      }
    });
    return six;
  }
}
