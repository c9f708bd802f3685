/**
 * Sewn thread of one layer once the hoop lets go: each stitch is a spring between its needle points that has the tension it was sewn with, takes
 * up more when it is drawn out, and hangs slack when it is pressed. With threads that pull on whatever happens a filled area would pucker
 * more than a name.
 */

import type { Strain } from './laminate.js';
import { SIX } from './layer-matrix.js';
import type { MeshedDesign } from './meshed-design.js';
import type { Settings } from './settings.js';
import { tensionOf } from './sewing.js';
import { addPointForces, type PointForces, pointMovement } from './thread-pull.js';

/**
 * A thread holds its two ends and nothing between them, a membrane holds every part of itself. Conjugate gradients take the fewest steps with a
 * membrane of about this part of the threads' stiffness.
 */
const SMEARED = 0.05;

export class ThreadSprings {
  private readonly last: Int32Array;
  /** 1 where a thread pulls, 0 where it hangs slack. */
  readonly taut: Uint8Array;
  /** Of every stitch: length mm, direction, stiffness N/mm, tension as sewn N. */
  private readonly length: Float64Array;
  private readonly dx: Float64Array;
  private readonly dy: Float64Array;
  private readonly stiffness: Float64Array;
  private readonly tension: Float64Array;
  private readonly moved: PointForces;
  private readonly forces: PointForces;

  /**
   * @param share of the layer in the tension and stiffness of a stitch
   * @param layerAt the layer's place among the unknowns
   * @param taut what is taut to begin with; all without it
   */
  constructor(
    private readonly design: MeshedDesign,
    settings: Settings,
    share: number,
    private readonly layerAt: number,
    private readonly free: Uint8Array,
    taut?: Uint8Array,
  ) {
    const { stitches, order, thread } = design;
    const stiff = share * settings.sewnThread * thread.axialStiffness.value;
    const { x, y, count } = stitches;
    this.last = Int32Array.from(order.thread.keys()).filter((i) => i > 0 && order.thread[i] >= 0);
    const n = this.last.length;
    this.taut = taut ? taut.slice() : new Uint8Array(n).fill(1);
    this.length = new Float64Array(n);
    this.dx = new Float64Array(n);
    this.dy = new Float64Array(n);
    this.stiffness = new Float64Array(n);
    this.tension = new Float64Array(n);
    this.moved = { x: new Float64Array(count), y: new Float64Array(count) };
    this.forces = { x: new Float64Array(count), y: new Float64Array(count) };
    this.last.forEach((i, m) => {
      const dx = x[i] - x[i - 1];
      const dy = y[i] - y[i - 1];
      const length = Math.hypot(dx, dy);
      if (length === 0) return;
      this.length[m] = length;
      this.dx[m] = dx / length;
      this.dy[m] = dy / length;
      this.stiffness[m] = stiff / (length + settings.bedIn);
      this.tension[m] = share * tensionOf(design, settings, i);
    });
  }

  /** Adds the forces by which taut threads answer a movement, as a stiffness does. */
  addTo(u: Float64Array, out: Float64Array): void {
    this.pull((m, drawn) => (this.taut[m] === 1 ? -this.stiffness[m] * drawn : 0), u, out);
  }

  /**
   * Adds what taut threads pull more where the layer, without moving, becomes larger than they are.
   * @param strain by which it does, less than zero where it gets smaller
   */
  addDrawn(force: Float64Array, strain: Strain): void {
    this.pull((m) => (this.taut[m] === 1 ? this.stiffness[m] * this.drawnBy(m, strain) : 0), null, force);
  }

  /** Takes away what slack threads pulled as sewn, those of blocks from `firstBlock` on. */
  addLoosened(force: Float64Array, firstBlock: number): void {
    const { thread } = this.design.order;
    this.pull(
      (m) => (this.taut[m] === 1 || thread[this.last[m]] < firstBlock ? 0 : -this.tension[m]),
      null,
      force,
    );
  }

  private drawnBy(m: number, [exx, eyy, exy]: Strain): number {
    const c = this.dx[m];
    const s = this.dy[m];
    return this.length[m] * (c * c * exx + s * s * eyy + c * s * exy);
  }

  /**
   * Tells taut threads from slack ones by a movement since sewing, and the strain of {@link addDrawn}.
   * @returns how many have changed
   */
  settle(u: Float64Array, strain: Strain): number {
    const { moved, last, dx, dy } = this;
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

  /** Part of the threads that are taut. */
  get tautShare(): number {
    let taut = 0;
    for (const one of this.taut) taut += one;
    return this.taut.length > 0 ? taut / this.taut.length : 0;
  }

  private pull(
    force: (thread: number, drawnMm: number) => number,
    u: Float64Array | null,
    out: Float64Array,
  ): void {
    const { moved, forces, last, dx, dy, design, layerAt } = this;
    if (u) pointMovement(u, design.spread, layerAt, moved);
    forces.x.fill(0);
    forces.y.fill(0);
    for (let m = 0; m < last.length; m++) {
      const i = last[m];
      const drawn = u ? dx[m] * (moved.x[i] - moved.x[i - 1]) + dy[m] * (moved.y[i] - moved.y[i - 1]) : 0;
      const f = force(m, drawn);
      forces.x[i - 1] += f * dx[m];
      forces.y[i - 1] += f * dy[m];
      forces.x[i] -= f * dx[m];
      forces.y[i] -= f * dy[m];
    }
    // A stiffness answers with the opposite of what a force does.
    addPointForces(out, design.spread, forces, layerAt, 1, this.free);
  }

  /** Taut threads as a membrane that is stiff along them, six numbers an element: near enough for a preconditioner, also when others are taut. */
  addMembrane(six: Float64Array): void {
    const { mesh, stitches } = this.design;
    const { even, evenFrom } = mesh;
    const { x, y } = stitches;
    const area = even.cellMm * even.cellMm;
    this.last.forEach((i, m) => {
      if (this.taut[m] === 0) return;
      const length = this.length[m];
      const pieces = Math.max(1, Math.ceil((2 * length) / even.cellMm));
      const each = (SMEARED * this.stiffness[m] * length * length) / pieces / area;
      const c = this.dx[m];
      const s = this.dy[m];
      for (let k = 0; k < pieces; k++) {
        const t = (k + 0.5) / pieces;
        const ex = Math.floor((x[i - 1] + t * (x[i] - x[i - 1]) - even.x0) / even.cellMm) + evenFrom[0];
        const ey = Math.floor((y[i - 1] + t * (y[i] - y[i - 1]) - even.y0) / even.cellMm) + evenFrom[1];
        const e = SIX * (ey * (mesh.nx - 1) + ex);
        six[e] += each * c * c * c * c;
        six[e + 1] += each * c * c * s * s;
        six[e + 2] += each * c * c * c * s;
        six[e + 3] += each * s * s * s * s;
        six[e + 4] += each * c * s * s * s;
        six[e + 5] += each * c * c * s * s;
      }
    });
  }
}
