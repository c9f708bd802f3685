/** One underlay of a design over a reduced basis: what the goods do on any stack, and how high they wrinkle. */
import type { Thread } from '../materials/threads.js';
import { type Shares, sharesOf, type TackingSettings } from './bearing.js';
import type { Cholesky } from './cholesky.js';
import type { Case } from './drivers.js';
import type { FieldVector, LoadSpectrum, SolveOptions } from './field.js';
import { type Goods, sameSheets } from './goods.js';
import { newTensorField, type TensorField } from './grid.js';
import { plus } from './laminate.js';
import type { PreparedDesign } from './prepared-design.js';
import { BasisAt, mix, ReducedBasis, ReducedTacking, sharedStiffness } from './reduced-basis.js';
import { ReducedDrawingIn, ReducedLoad } from './reduced-load.js';
import { heightOfHighest, worstPatch } from './regions.js';
import { drawingIn, excessesOf, type Settings, springOf, sum } from './response.js';
import { VIEWED_MM2 } from './score.js';
import { launderedPrestress } from './thread-load.js';
import { wrinkleMap } from './wrinkle.js';

/** Factors of the basis vectors. */
type Factors = ArrayLike<number>;

/** The answer of the goods by what makes it, as {@link Response} has it; all for a laying tension of 1 N. */
export interface ReducedResponse {
  readonly top: Factors;
  /** Of the vectors of the underlay's own basis. */
  readonly underlay: Factors;
  readonly drawnIn: Factors | null;
  readonly later: Factors | null;
}

export const LOADS = ['top', 'drawnIn', 'later'] as const;
export type LoadKind = (typeof LOADS)[number];

/** A stack as sewn and as laundered. */
export interface Pair {
  readonly now: Case;
  readonly washed: Case;
}

/** Even solves that span the underlay's pull; it acts on goods that nothing but the hoop joins. */
const UNDERLAY_VECTORS = 10;
/** Cells that are looked at for the effect of the tacking: one in so many. */
const ROUGHLY = 4;
/** A cell can come into the worst patch of a stack where it is in a patch this many times as large on one that was looked at. */
const MAY_COUNT = 3;
/** And come near it, over another underlay as well. */
const MAY_COME_NEAR = 8;
/** Springs of the goods differ this much from those of the stacks where materials go to their low and high. */
const SPRING_RANGE = 1.2;

/** Between stacks that are compared, a guess is left as it is where it is short of the load by no more than this many times what a solve is. */
const GOOD_ENOUGH: Readonly<Record<LoadKind, number>> = { top: 2, drawnIn: 3, later: 3 };

/** Cells on which wrinkles are worked out. */
interface Place {
  readonly fields: () => readonly TensorField[];
  readonly underlay: () => readonly TensorField[];
  readonly cells: Int32Array | null;
  readonly open: Float64Array;
  readonly toPoint: Float64Array;
  readonly tacked: Float64Array;
  readonly cellMm: number;
}

export class ReducedUnderlay {
  private readonly underBasis: ReducedBasis;
  private readonly underLoad: ReducedLoad;
  private readonly topLoad: ReducedLoad;
  private readonly drawing: ReducedDrawingIn;
  private readonly shares: Shares;
  private readonly tacking: ReducedTacking;
  private readonly settings: Settings;
  private readonly whole: Place;
  private candidates: Place;

  /** @param spread stacks on the goods, the first few spread over all */
  constructor(
    readonly design: PreparedDesign,
    private readonly basis: ReducedBasis,
    spread: readonly Pair[],
  ) {
    const { grid, underlay, top, thread, solver } = design;
    this.settings = spread[0].now.settings;
    const { hooped } = this.settings;
    this.shares = sharesOf(
      design,
      this.settings,
      spread.some(({ now }) => now.goods.sheets.some(({ perforates }) => perforates)),
    );
    this.tacking = new ReducedTacking(basis, this.shares, hooped);
    this.topLoad = new ReducedLoad(basis, top.prestress);
    this.underBasis = new ReducedBasis(grid);
    this.underLoad = new ReducedLoad(this.underBasis, underlay.prestress);
    if (underlay.prestress.xx.some((n) => n !== 0) || underlay.prestress.yy.some((n) => n !== 0))
      for (const { now } of spread.slice(0, UNDERLAY_VECTORS))
        this.underBasis.add(solver.solveUniform(this.hooped(now.goods, hooped), underlay.spectrum));
    const springs = spread.flatMap(({ now, washed }) => [springOf(now.goods), springOf(washed.goods)]);
    this.drawing = new ReducedDrawingIn(
      basis,
      sum(top.prestress, underlay.prestress),
      thread.axialStiffness.value,
      [Math.min(...springs) / SPRING_RANGE, Math.max(...springs) * SPRING_RANGE],
    );
    this.whole = {
      fields: () => basis.vectors.map(({ strain }) => strain),
      underlay: () => this.underBasis.vectors.map(({ strain }) => strain),
      cells: null,
      open: design.open,
      toPoint: design.nearest.distance,
      tacked: joined(this.shares.engaged, hooped),
      cellMm: grid.cellMm,
    };
    this.candidates = this.whole;
  }

  private hooped(goods: Goods, share: number) {
    const { fabric, whole, torn } = sharedStiffness(goods);
    return plus(plus(fabric, whole, share), torn, share);
  }

  /** Both heights of a pair as they are seen with every cell looked at. */
  heightsOnAll(cases: readonly Case[]): number[] {
    return this.heights(cases, this.whole);
  }

  /** Both heights of a pair where one is asked for after the other: the second takes over what it can. */
  heights(cases: readonly Case[], place = this.candidates): number[] {
    let last: { at: Case; system: Cholesky; response: ReducedResponse } | null = null;
    return cases.map((at) => {
      const same: typeof last = last && sameSheets(last.at.goods, at.goods) ? last : null;
      const system: Cholesky = same ? same.system : this.tacking.system(sharedStiffness(at.goods));
      const response: ReducedResponse = same
        ? { ...same.response, ...this.afterwards(at, system) }
        : this.answer(at, system);
      last = { at, system, response };
      return worstPatch(this.map(at, response, place), place.cellMm);
    });
  }

  /**
   * Energies of the strains that the loads of a case make, as far as the basis holds them, the sewing first: they only grow as it grows, and by the
   * energy of what it lacked.
   */
  energies({ now, washed }: Pair): number[] {
    const { tension } = washed.settings;
    const system = this.tacking.system(sharedStiffness(washed.goods));
    const of = LOADS.map((load) => {
      const right = this.rightOf(washed, load);
      return right ? energy(system.solve(right), right) * (load === 'top' ? tension ** 2 : 1) : 0;
    });
    if (sameSheets(now.goods, washed.goods)) return of;
    const right = this.topLoad.right();
    const before = this.tacking.system(sharedStiffness(now.goods)).solve(right);
    return [...of, energy(before, right) * tension ** 2];
  }

  /** Right-hand side of the small system for a load; null for one that there is not. */
  private rightOf(
    { goods, treatment }: Case,
    load: LoadKind,
    thread = this.design.thread,
  ): ArrayLike<number> | null {
    if (load === 'top') return this.topLoad.right();
    if (load === 'drawnIn') {
      const shrink = drawingIn(thread, treatment);
      return shrink > 0 ? this.drawing.right(springOf(goods), shrink) : null;
    }
    const excess = excessesOf(goods, treatment);
    return excess.some((e) => e !== 0) ? this.pushes(goods, excess) : null;
  }

  respond(at: Case, thread?: Thread): ReducedResponse {
    return this.answer(at, this.tacking.system(sharedStiffness(at.goods)), thread);
  }

  height(at: Case, response: ReducedResponse): number {
    return worstPatch(this.map(at, response, this.candidates), this.candidates.cellMm);
  }

  /** Wrinkle heights on the whole grid, mm. */
  everywhere(at: Case, response: ReducedResponse): Float64Array {
    return this.map(at, response, this.whole);
  }

  /** Displacement of underlay and top stitching for a laying tension of 1 N. */
  steps(goods: Goods, { hooped }: Settings, { top }: ReducedResponse): FieldVector[] {
    const { solver, underlay } = this.design;
    const under = solver.solveUniform(this.hooped(goods, hooped), underlay.spectrum).potential;
    return [under, this.basis.potential(top, under.x.length)];
  }

  private readonly others = new Map<string, { tacking: ReducedTacking; shares: Shares }>();

  /** Height where the needle points tack otherwise than the family was made for; from a part of the cells, so compare like with like. */
  tackedOtherwise(at: Case, settings: Settings): number {
    const { fullTacking, hooped, ownPoints, perforation }: TackingSettings = settings;
    const key = [fullTacking, hooped, ownPoints, perforation].join(' ');
    let other = this.others.get(key);
    if (!other) {
      const shares = sharesOf(this.design, settings, this.shares.torn !== this.shares.engaged);
      other = { shares, tacking: new ReducedTacking(this.basis, shares, hooped, ROUGHLY) };
      this.others.set(key, other);
    }
    const response = this.answer({ ...at, settings }, other.tacking.system(sharedStiffness(at.goods)));
    const { candidates } = this;
    const engaged = other.shares.engaged;
    const here = candidates.cells ? Float64Array.from(candidates.cells, (p) => engaged[p]) : engaged;
    const place = { ...candidates, tacked: joined(here, hooped) };
    return worstPatch(this.map({ ...at, settings }, response, place), place.cellMm);
  }

  private answer(at: Case, system: Cholesky, thread?: Thread): ReducedResponse {
    const { underBasis, underLoad, topLoad } = this;
    const even = this.hooped(at.goods, at.settings.hooped);
    return {
      top: system.solve(topLoad.right()),
      underlay: underBasis.size > 0 ? underBasis.evenSystem(even, even).solve(underLoad.right()) : [],
      ...this.afterwards(at, system, thread),
    };
  }

  /** What comes after the sewing. */
  private afterwards(
    at: Case,
    system: Cholesky,
    thread = this.design.thread,
  ): Pick<ReducedResponse, 'drawnIn' | 'later'> {
    const solved = (load: LoadKind): Factors | null => {
      const right = this.rightOf(at, load, thread);
      return right && system.solve(right);
    };
    return { drawnIn: solved('drawnIn'), later: solved('later') };
  }

  private pushes(goods: Goods, excess: readonly number[]): Float64Array {
    const by = pushesOf(goods, excess);
    return this.tacking.pushes(by.whole, by.torn);
  }

  private map(at: Case, response: ReducedResponse, place: Place): Float64Array {
    const { goods, settings } = at;
    const fields = place.fields();
    const strain = newTensorField(place.open.length);
    const { top, drawnIn } = response;
    const { tension } = settings;
    const sewing = new Float64Array(fields.length);
    for (let v = 0; v < sewing.length; v++) sewing[v] = tension * top[v] + (drawnIn ? drawnIn[v] : 0);
    mix(fields, sewing, strain);
    const under = new Float64Array(response.underlay.length);
    for (let v = 0; v < under.length; v++) under[v] = tension * response.underlay[v];
    mix(place.underlay(), under, strain);
    let later: TensorField | null = null;
    if (response.later) {
      later = newTensorField(place.open.length);
      mix(fields, response.later, later);
    }
    return wrinkleMap({
      goods,
      strain,
      later,
      open: place.open,
      toPoint: place.toPoint,
      tacked: place.tacked,
      threshold: settings.threshold,
      longestSpanMm: settings.longestSpan,
    });
  }

  /**
   * Solves in full for one stack and load and takes what the basis lacks of it into the basis.
   * @param goodEnough what the basis has is left as it is where it is short of the load by no more than this many times the tolerance
   * @returns false where it lacked nothing
   */
  snapshot(at: Case, load: LoadKind, options: SolveOptions, goodEnough = GOOD_ENOUGH[load]): boolean {
    const { basis, shares } = this;
    const { solver } = this.design;
    const { goods, settings } = at;
    const { fabric, whole, torn } = sharedStiffness(goods);
    const system = basis.size > 0 ? this.tacking.system({ fabric, whole, torn }) : null;
    const right = this.rightOf(at, load);
    if (!right) return false;
    let { tolerance } = options;
    const factors = system?.solve(right);
    if (factors && system && load !== 'top') {
      // What is small beside the sewing need not be known to the same part of itself.
      const sewing = settings.tension ** 2 * energy(system.solve(this.topLoad.right()), this.topLoad.right());
      tolerance *= Math.max(1, Math.sqrt(sewing / energy(factors, right)));
      if (!(tolerance < 1)) return false;
    }
    const parts = [
      { stiffness: whole, share: shares.engaged },
      { stiffness: torn, share: shares.torn },
    ].filter(({ stiffness }) => stiffness.m11 > 0);
    const stiffness = { base: fabric, parts, beyond: this.hooped(goods, settings.hooped) };
    const missing = solver.correction(
      stiffness,
      this.spectrumOf(at, load),
      factors ? basis.mixture(factors) : null,
      { ...options, tolerance },
      goodEnough * tolerance,
    );
    return missing.iterations > 0 && basis.add(missing);
  }

  private spectrumOf({ goods, treatment }: Case, load: LoadKind): LoadSpectrum {
    const { shares } = this;
    const { solver, top, underlay, thread } = this.design;
    if (load === 'top') return top.spectrum;
    if (load === 'drawnIn') {
      const all = sum(top.prestress, underlay.prestress);
      const shrink = drawingIn(thread, treatment);
      return solver.load(launderedPrestress(all, thread.axialStiffness.value, shrink, springOf(goods)));
    }
    const by = pushesOf(goods, excessesOf(goods, treatment));
    const push = newTensorField(shares.engaged.length);
    (['xx', 'yy', 'xy'] as const).forEach((key, c) => {
      for (let p = 0; p < push.xx.length; p++)
        push[key][p] = -by.whole[c] * shares.engaged[p] - by.torn[c] * shares.torn[p];
    });
    return solver.load(push);
  }

  /**
   * Cells of the whole grid that come near the worst patch of a stack, from those of a few. Where the sewing alone leaves the goods flat the
   * patch is another over each underlay, so that those over one do not tell which they are over the next.
   */
  cellsNearWorst(cases: readonly Case[]): Int32Array {
    const { nx, ny } = this.design.grid;
    const coarse = this.placeOf(everyOtherCell(nx, ny), 2);
    return aboutThem(this.worstCells(cases, coarse, MAY_COME_NEAR), nx, nx * ny);
  }

  /** Settles which of some cells can belong to the worst patch of a stack, from those of a few. */
  settleCells(cases: readonly Case[], near: Int32Array): void {
    this.candidates = this.placeOf(this.worstCells(cases, this.placeOf(near), MAY_COUNT));
  }

  /** Cells of a place that are in a patch so many times as large as the one viewed in any of some cases. */
  private worstCells(cases: readonly Case[], place: Place, times: number): Int32Array {
    const marks = new Uint8Array(place.open.length);
    for (const at of cases) {
      const map = this.map(at, this.respond(at), place);
      const least = heightOfHighest(map, (times * VIEWED_MM2) / place.cellMm ** 2);
      for (let k = 0; k < map.length; k++) if (map[k] > 0 && map[k] >= least) marks[k] = 1;
    }
    const all = place.cells ?? Int32Array.from(marks.keys());
    return all.filter((_, k) => marks[k] === 1);
  }

  /** @param apart how many cells it is from one that is looked at to the next, along each side */
  private placeOf(cells: Int32Array, apart = 1): Place {
    const at = new BasisAt(this.basis, cells);
    const under = new BasisAt(this.underBasis, cells);
    const read = (field: Float64Array) => Float64Array.from(cells, (p) => field[p]);
    const { whole } = this;
    return {
      fields: () => at.current(),
      underlay: () => under.current(),
      cells,
      open: read(whole.open),
      toPoint: read(whole.toPoint),
      tacked: read(whole.tacked),
      cellMm: apart * whole.cellMm,
    };
  }
}

/** Every other cell of every other row of a grid. */
function everyOtherCell(nx: number, ny: number): Int32Array {
  const cells: number[] = [];
  for (let j = 0; j < ny; j += 2) for (let i = 0; i < nx; i += 2) cells.push(j * nx + i);
  return Int32Array.from(cells);
}

/** Those cells and the eight about each of them. */
function aboutThem(cells: Int32Array, nx: number, all: number): Int32Array {
  const about = new Set<number>();
  for (const p of cells)
    for (const row of [-nx, 0, nx]) for (const side of [-1, 0, 1]) about.add((p + row + side + all) % all);
  return Int32Array.from(about).sort();
}

/** Part of the backing that bends with the goods: what more than the hoop joins them. */
const joined = (engaged: Float64Array, hooped: number): Float64Array =>
  engaged.map((e) => (e - hooped) / (1 - hooped));

/** What sheets that are too large push with where they bear in full, N/mm: along x, along y, in shear. */
function pushesOf({ sheets }: Goods, excess: readonly number[]): { whole: number[]; torn: number[] } {
  const out = { whole: [0, 0, 0], torn: [0, 0, 0] };
  sheets.forEach(({ membrane: k, perforates }, s) => {
    const to = perforates ? out.torn : out.whole;
    to[0] += excess[s] * (k.m11 + k.m12);
    to[1] += excess[s] * (k.m12 + k.m22);
    to[2] += excess[s] * (k.m16 + k.m26);
  });
  return out;
}

const energy = (factors: ArrayLike<number>, right: ArrayLike<number>): number => {
  let sum = 0;
  for (let v = 0; v < factors.length; v++) sum += factors[v] * right[v];
  return sum;
};
