/**
 * What comes after sewing: the hoop lets go, the fabric springs back from the stretch that the hoop gave it, backing is cut off, and laundering
 * makes fabric, sheets and thread smaller, each by its own amount. All of it is told as what fabric far from the design does not do: it lies flat
 * there, and the far border is held.
 */
import {
  conjugateGradients,
  SOLVE_OPTIONS,
  type Solution,
  type SolveOptions,
} from './conjugate-gradients.js';
import { addPrestress, BACKING_AT, elementStrains, FABRIC_AT } from './element-strain.js';
import { compliance, type Strain } from './laminate.js';
import {
  addMembrane,
  addSprings,
  applyMatrix,
  BACKING,
  elementsOf,
  type LayerMatrix,
  newLayerMatrix,
  SIX,
} from './layer-matrix.js';
import type { Layup } from './layup.js';
import { freeNodes } from './mesh.js';
import type { MeshedDesign } from './meshed-design.js';
import { type AddToLevel, Multigrid } from './multigrid.js';
import type { ParameterValues } from './settings.js';
import { fabricStiffness, type HeldLayers, pointSpring, type SewnLayers } from './sewing.js';
import { FIRST_TOP } from './sewing-order.js';
import { backingPrestress, backingStiffness } from './sheets-in-use.js';
import { SolveRoom } from './solve-room.js';
import { ThreadSprings } from './thread-springs.js';

/** What happens to fabric and thread besides the sewing, as parts of one. */
export interface FabricTreatment {
  /** Stretch in the hoop beyond that of careful hooping. */
  readonly hoopStretch: number;
  /** Part of the final shrinkage that has come about. */
  readonly laundered: number;
}

/** One cause of what is found after the release, each with the threads as taut as all together leave them. */
export type ReleaseCause =
  | 'top stitching'
  | 'careful hooping'
  | 'hoop stretch'
  | 'laundering'
  | 'fabric shrinkage'
  | 'thread shrinkage';

/** Those of the top thread and of the bobbin. */
const LAYERS = [
  { at: FABRIC_AT, channel: 0 },
  { at: BACKING_AT, channel: BACKING },
] as const;
/** Threads are told taut from slack at most so many times. */
const PASSES = 3;
/** Tolerance with which that is told where nothing is known of it yet. */
const ROUGH = 1e-2;
/** With no more of the threads changed than this part there is no need to look again. */
const SETTLED = 0.01;

/** Strain that the hoop holds the fabric at: an even force both ways, and what it was stretched besides. */
export function hoopStrain({ fabric }: Layup, hoopForce: number, hoopStretch: number): Strain {
  const { s11, s12, s16, s22, s26 } = compliance(fabric.membrane);
  return [
    hoopForce * (s11 + s12) + hoopStretch,
    hoopForce * (s12 + s22) + hoopStretch,
    hoopForce * (s16 + s26),
  ];
}

/** By what the fabric gets smaller: springing back, by its own shrinkage; and by what thread and sheets do. */
interface Smaller {
  readonly fabric: Strain;
  readonly thread: number;
  /** Of one part of a sheet's own shrinkage. */
  readonly sheets: number;
}

const NOT: Strain = [0, 0, 0];
const evenly = (strain: number): Strain => [strain, strain, 0];
const plusStrain = (a: Strain, b: Strain): Strain => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

/** What is known of the release of something much alike. */
export interface ReleaseLike {
  readonly taut: readonly Uint8Array[];
  readonly solution?: Solution;
  /** The same design let go on the same mesh: its matrix serves where the layup is the same. */
  readonly before?: Released;
  /** Threads stay as they are in that one, and its approximate inverse is near enough for this one. */
  readonly frozen?: Released;
}

/**
 * Both layers as they are left, joined at every needle point, and an approximate inverse of that with the threads that pull. They fill most of
 * the memory of a solve; either is made when it is asked for.
 */
class LeftLayers {
  private layers: LayerMatrix | null = null;
  /** 1 for elements in which there is backing. */
  private backed: Uint8Array | null = null;
  private inverse: Multigrid | null = null;

  constructor(
    private readonly design: MeshedDesign,
    private readonly layup: Layup,
    private readonly settings: ParameterValues,
    private readonly threads: readonly ThreadSprings[],
    private readonly room: SolveRoom,
  ) {}

  get matrix(): LayerMatrix {
    this.layers ??= this.joined();
    return this.layers;
  }

  private joined(): LayerMatrix {
    const { design, layup, settings, room } = this;
    const { mesh, springs } = design;
    const matrix = newLayerMatrix(mesh, freeNodes(mesh, null), room);
    addMembrane(matrix, mesh, 0, fabricStiffness(design, layup));
    if (!layup.backing) return matrix;
    const backing = backingStiffness(design, layup, settings, true);
    this.backed = Uint8Array.from({ length: elementsOf(mesh) }, (_, e) => (backing[SIX * e] > 0 ? 1 : 0));
    addMembrane(matrix, mesh, BACKING, backing);
    const each = pointSpring(layup, settings);
    for (const block of springs) addSprings(matrix, block, each);
    return matrix;
  }

  get improve(): Multigrid['improve'] {
    const { mesh } = this.design;
    const { matrix } = this;
    const add: AddToLevel = (level, lines, l) => {
      for (const one of this.threads) {
        // Under a wide column what tears away is gone: threads alone, all in one direction, would be a membrane that nothing holds across.
        const there = one.channel === BACKING ? this.backed : null;
        addMembrane(level, lines, one.channel, one.smeared(lines, mesh.even.cellMm * 2 ** l, l === 0, there));
      }
    };
    this.inverse ??= new Multigrid(matrix, mesh, add, this.room);
    return this.inverse.improve;
  }

  forget(): void {
    this.layers = null;
    this.inverse = null;
    this.room.empty();
  }
}

/** A design let go. */
export class Released {
  /** Strain of the fabric against what it is at rest, three numbers an element. */
  readonly strain: Float64Array;
  /** Movement since sewing, beside that of fabric far away. */
  readonly movement: Float64Array;
  /** Of the threads on each layer, 1 where one pulls. */
  readonly taut: readonly Uint8Array[];
  readonly solution: Solution;

  private readonly options: SolveOptions;
  private readonly layers: LeftLayers;
  /** Whose approximate inverse is used. */
  private readonly near: LeftLayers;
  private readonly threads: readonly ThreadSprings[];
  private readonly parts = new Map<ReleaseCause, Float64Array>();

  /**
   * @param sewn with what the top stitching does alone, where that is asked for
   * @param like the same design on a layup much like this: what is slack is taken from there, and solving goes on from it
   */
  constructor(
    private readonly design: MeshedDesign,
    private readonly layup: Layup,
    private readonly settings: ParameterValues,
    private readonly sewn: HeldLayers & Partial<Pick<SewnLayers, 'top'>>,
    private readonly treatment: FabricTreatment,
    options: SolveOptions = SOLVE_OPTIONS,
    like?: ReleaseLike,
  ) {
    const { room = new SolveRoom() } = options;
    this.options = { ...options, room };
    const top = layup.backing ? settings.topShare : 1;
    const shares = layup.backing ? [top, 1 - top] : [1];
    this.threads = shares.map(
      (share, k) => new ThreadSprings(design, settings, share, LAYERS[k], like?.taut[k]),
    );
    // Another treatment of the same layup, sewn alike, has the same matrix.
    const known = like?.before ?? like?.frozen;
    const same = known && known.layup === layup && known.settings === settings;
    this.layers = same ? known.layers : new LeftLayers(design, layup, settings, this.threads, room);
    this.near = like?.frozen?.near ?? this.layers;

    const fixed = this.layersLetGo(sewn);
    const smaller = this.smaller();
    this.addSmaller(fixed, smaller);
    let solution = like?.solution;
    for (let pass = 0, first = !like; pass < PASSES; pass++) {
      const load = fixed.slice();
      for (const threads of this.threads) {
        threads.addLoosened(load, 0);
        threads.addDrawn(load, this.drawn(smaller));
      }
      const tolerance = first ? Math.max(options.tolerance, ROUGH) : options.tolerance;
      solution = this.solve(load, tolerance, solution);
      if (like?.frozen) break;
      let changed = 0;
      let all = 0;
      for (const threads of this.threads) {
        changed += threads.settle(solution.movement, this.drawn(smaller));
        all += threads.taut.length;
      }
      if (!first && changed <= SETTLED * all) break;
      first = false;
    }
    this.solution = solution!;
    this.movement = this.solution.movement;
    this.taut = this.threads.map(({ taut }) => taut);
    this.strain = this.strainOf(this.movement, sewn.movement);
    room.empty();
  }

  /** What is to be known of this one where another is much like it. */
  get like(): ReleaseLike {
    return { taut: this.taut, solution: this.solution, before: this };
  }

  /** Gives back most of the memory; what is asked of it after that takes longer. */
  forget(): void {
    this.layers.forget();
    this.near.forget();
  }

  /** Strain of the fabric by one cause alone. */
  partOf(cause: ReleaseCause): Float64Array {
    const known = this.parts.get(cause) ?? this.findPart(cause);
    this.parts.set(cause, known);
    return known;
  }

  private findPart(cause: ReleaseCause): Float64Array {
    const { threads, sewn } = this;
    if (cause === 'top stitching') {
      if (!sewn.top) throw new Error('release: what the top stitching does alone was not kept');
      const load = this.layersLetGo(sewn.top);
      for (const one of threads) one.addLoosened(load, FIRST_TOP);
      return this.strainOf(this.solve(load).movement, sewn.top.movement);
    }
    const smaller = this.smaller(cause);
    const load = new Float64Array(this.movement.length);
    this.addSmaller(load, smaller);
    for (const one of threads) one.addDrawn(load, this.drawn(smaller));
    return this.strainOf(this.solve(load).movement, null);
  }

  private solve(load: Float64Array, tolerance = this.options.tolerance, start?: Solution): Solution {
    const { matrix } = this.layers;
    const apply = (u: Float64Array, out: Float64Array) => {
      applyMatrix(matrix, u, out);
      for (const threads of this.threads) threads.addTo(u, out);
    };
    return conjugateGradients(apply, this.near.improve, load, { ...this.options, tolerance }, start);
  }

  /** What held the layers as sewn and does so no more: the hoop, and backing that has been cut off. */
  private layersLetGo({ movement, layerForces }: HeldLayers): Float64Array {
    const force = new Float64Array(movement.length);
    applyMatrix(this.layers.matrix, movement, force, false);
    for (let k = 0; k < force.length; k++) force[k] = layerForces[k] - force[k];
    return force;
  }

  /** @param cause one alone; all without it */
  private smaller(cause?: ReleaseCause): Smaller {
    const { layup, settings, treatment, design } = this;
    const { hoopStretch, laundered } = treatment;
    const has = (...ones: ReleaseCause[]) => cause === undefined || ones.includes(cause);
    const hooped = hoopStrain(
      layup,
      has('careful hooping') ? settings.hoopForce : 0,
      has('hoop stretch') ? hoopStretch : 0,
    );
    const shrunk = has('laundering', 'fabric shrinkage') ? laundered * layup.fabric.shrinkage : 0;
    return {
      fabric: plusStrain(hooped, evenly(shrunk)),
      thread: has('laundering', 'thread shrinkage') ? (laundered * design.thread.shrinkage.value) / 100 : 0,
      sheets: has('laundering') ? laundered : 0,
    };
  }

  /** Strain by which the layers draw their threads out. */
  private drawn({ fabric, thread }: Smaller): Strain {
    return [thread - fabric[0], thread - fabric[1], -fabric[2]];
  }

  private addSmaller(force: Float64Array, { fabric, sheets }: Smaller): void {
    const { design, layup, settings } = this;
    if (!layup.backing) return;
    const prestress = backingPrestress(design, layup, settings, ({ shrinkage }) =>
      plusStrain(fabric, sheets === 0 ? NOT : evenly(-sheets * shrinkage)),
    );
    addPrestress(force, design.mesh, BACKING_AT, prestress, this.layers.matrix.free);
  }

  private strainOf(movement: Float64Array, sewn: Float64Array | null): Float64Array {
    const all = sewn ? movement.map((v, k) => v + sewn[k]) : movement;
    return elementStrains(this.design.mesh, all, FABRIC_AT);
  }
}
