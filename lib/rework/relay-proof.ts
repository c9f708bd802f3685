/** The proof of a relaid design: what is seen of it is what was seen before, stitch for stitch. */
import { distance } from '../core/distance.js';
import { type BoxIndex, indexBoxes } from '../core/index2d.js';
import { boundsOf } from '../format/extent.js';
import { Break, type Stitches } from '../format/stitches.js';
import {
  Faults,
  type ObjectProof,
  type ProofFault,
  type ProvenObject,
  pausesOf,
  SAME_MM,
  type SewnFile,
  trimsOf,
} from './proof.js';
import { NearThreads, Surface, THREAD_MM, Threads } from './surface.js';
import { SQUARE_MM, squareOf } from './thread-grid.js';

/** Thread that was seen may lie this far from where it was, mm: half a thread and the step of the file. */
const BESIDE_MM = THREAD_MM / 2 + SQUARE_MM;
/** Threads are looked at in steps of this, mm. */
const STEP_MM = 0.15;
/** Thread under a column that makes up this share of the column's own is no underlay but a layer of it. */
const LAYER_SHARE = 0.75;
/** So is thread of which this share is seen between the threads over it. */
const SEEN_SHARE = 0.2;
/** New stitches among which one that was is looked for, beside as many as were left out. */
const LOOKED_THROUGH = 20_000;

/**
 * Holds a relaid design against the one before. Every needle point has to be in the new one at its place, in its order and color, but those
 * that lie hidden beneath top stitching of the objects asked for which is sewn later; whatever is new has to lie hidden there. Linear in the stitches.
 *
 * @param objects of the design before
 * @param asked ids of the objects whose underlay was to be changed
 * @returns of each of those, in their order
 */
export function proveRelay(
  before: SewnFile,
  after: SewnFile,
  objects: readonly ProvenObject[],
  asked: readonly number[],
): ObjectProof[] {
  return new RelayProof(before, after, objects, new Set(asked)).prove();
}

/** Needle points that stay, one after another. */
interface Stretch {
  readonly first: number;
  readonly last: number;
  /** Whether other stitches may have come or gone before it. */
  readonly open: boolean;
}

/** What lies between two needle points that stay, these included. */
interface Gap {
  readonly was: readonly [first: number, last: number];
  readonly is: readonly [first: number, last: number];
}

class RelayProof {
  private readonly faults = new Faults();
  private readonly covers: Covers;
  /** The object that each needle point is top stitching of, by its place in the list and 1 more; 0 for none. */
  private readonly owner: Int32Array;
  private readonly removed = new Map<number, { mm: number; steps: number; seen: number }>();

  constructor(
    private readonly before: SewnFile,
    private readonly after: SewnFile,
    private readonly objects: readonly ProvenObject[],
    private readonly asked: ReadonlySet<number>,
  ) {
    this.owner = new Int32Array(before.stitches.count);
    objects.forEach(({ range }, k) => {
      this.owner.fill(k + 1, range[0], range[1] + 1);
    });
    this.covers = new Covers(before.stitches, objects, (k) => asked.has(objects[k].id));
  }

  prove(): ObjectProof[] {
    if (this.asked.size > 0) {
      this.match();
      this.judgeRemoved();
    }
    return this.faults.proofs(this.asked, 'identical');
  }

  /** Finds what stays in the new design, in order, and judges what lies between. */
  private match(): void {
    const { before, after } = this;
    let was = -1;
    let is = -1;
    for (const stretch of this.stretches()) {
      const at = this.find(stretch, is + 1, was);
      if (at === null) {
        this.blame(stretch.first, 'changed', before.stitches, stretch.first);
        continue;
      }
      this.judge({ was: [was, stretch.first], is: [is, at] });
      was = stretch.last;
      is = at + stretch.last - stretch.first;
    }
    this.judge({ was: [was, before.stitches.count], is: [is, after.stitches.count] });
  }

  private *stretches(): Generator<Stretch> {
    const { owner, before } = this;
    const fixed = this.fixed();
    for (let first = 0; first < before.stitches.count; ) {
      if (fixed[first] === 0) {
        first++;
        continue;
      }
      let last = first;
      while (last + 1 < fixed.length && fixed[last + 1] === 1 && owner[last + 1] === owner[first]) last++;
      const begins = owner[first] > 0 && this.asked.has(this.objects[owner[first] - 1].id);
      yield { first, last, open: begins || first === 0 || fixed[first - 1] === 0 };
      first = last + 1;
    }
  }

  /** Needle points that have to stay: all but those that lie hidden. */
  private fixed(): Uint8Array {
    const { x, y, count } = this.before.stitches;
    const { owner, objects, asked } = this;
    const fixed = new Uint8Array(count);
    const under = (of: (id: number) => boolean, value: number) => {
      for (const { id, underlay } of objects) {
        if (underlay.range && of(id)) fixed.fill(value, underlay.range[0], underlay.range[1] + 1);
      }
    };
    under((id) => !asked.has(id), 1);
    under((id) => asked.has(id), 0);
    for (let i = 0; i < count; i++) {
      if (owner[i] > 0) fixed[i] = 1;
      else if (fixed[i] === 0 && this.covers.ofAsked(x[i], y[i], i) < 0) fixed[i] = 1;
    }
    return fixed;
  }

  /** Where a stretch begins in the new design, from a place on; null where it is not found. */
  private find({ first, last, open }: Stretch, from: number, was: number): number | null {
    const a = this.before.stitches;
    const b = this.after.stitches;
    const looked = first - was - 1;
    const end = Math.min(
      b.count - (last - first) - 1,
      open ? from + 2 * looked + LOOKED_THROUGH : from + looked,
    );
    for (let at = from; at <= end; at++) {
      let i = first;
      while (i <= last && sameStitch(a, i, b, at + i - first, i > first)) i++;
      if (i > last) return at;
    }
    return null;
  }

  private judge(gap: Gap): void {
    const { before, after } = this;
    const { was, is } = gap;
    if (unchanged(before.stitches, after.stitches, gap)) {
      this.judgeMachine(gap);
      return;
    }
    this.judgeMachine(gap);
    const { x, y } = after.stitches;
    for (let j = is[0] + 1; j < is[1]; j++) {
      if (this.covers.ofAsked(x[j], y[j], was[0]) < 0) this.blame(was[1], 'shows', after.stitches, j);
    }
    this.judgeSeen(after.stitches, is, before.stitches, was, was[0], 0, 'shows', was[1]);
    this.judgeSeen(before.stitches, was, after.stitches, is, null, 2 * SQUARE_MM, 'bare', was[1]);
    this.noteRemoved(gap);
  }

  private judgeMachine({ was, is }: Gap): void {
    const recordsOf = ({ design, stitches }: SewnFile, [first, last]: Gap['was']) =>
      [
        design,
        first < 0 ? 0 : stitches.record[first] + 1,
        last < stitches.count ? stitches.record[last] : design.kind.length,
      ] as const;
    const [old, now] = [recordsOf(this.before, was), recordsOf(this.after, is)];
    const cut = was[0] >= 0 && trimsOf(...old) < trimsOf(...now);
    if (cut || pausesOf(...old) !== pausesOf(...now))
      this.blame(was[1], 'machine', this.before.stitches, Math.min(was[1], this.before.stitches.count - 1));
  }

  /**
   * Thread that is seen between two needle points has to lie where thread of the other design between them does.
   *
   * @param since thread of objects that begin later than this needle point of the old design hides it; null where each stitch counts for itself
   * @param beside how far beside what hides it thread still passes for hidden, mm
   */
  private judgeSeen(
    of: Stitches,
    [first, last]: Gap['was'],
    other: Stitches,
    within: Gap['was'],
    since: number | null,
    beside: number,
    because: ProofFault,
    blamed: number,
  ): void {
    let squares = 0;
    let at = -1;
    const lies = new NearThreads(new Threads().add(other, within[0], within[1]), BESIDE_MM);
    for (const { x, y, i } of along(of, first, last)) {
      if (since === null && this.isFloat(i)) continue;
      if (this.covers.ofAny(x, y, since ?? i - 1, beside)) continue;
      if (lies.holds(x, y)) continue;
      squares += STEP_MM * THREAD_MM;
      if (at < 0) at = i;
    }
    if (at >= 0) this.blame(blamed, because, of, at, squares);
  }

  /** Whether a stitch of the old design leads from one hidden place to another: where it is seen on the way it is a float, that nobody misses. */
  private isFloat(i: number): boolean {
    const { x, y } = this.before.stitches;
    return [i - 1, i].every((at) => this.covers.ofAsked(x[at], y[at], i - 1) >= 0);
  }

  /** Keeps count of thread that was taken out, by the object over it. */
  private noteRemoved({ was, is }: Gap): void {
    const { stitches } = this.before;
    const stays = new Set(threadsOf(this.after.stitches, is[0], is[1]).map(({ name }) => name));
    const gone = threadsOf(stitches, was[0], was[1]).filter(({ name }) => !stays.has(name));
    for (const { x, y, i } of gone.flatMap(({ i }) => [...along(stitches, i - 1, i)])) {
      const k = this.covers.ofAsked(x, y, i - 1);
      if (k < 0) continue;
      const of = this.removed.get(k) ?? { mm: 0, steps: 0, seen: 0 };
      of.mm += STEP_MM;
      of.steps++;
      if (this.covers.surface(k).showsThrough(x, y)) of.seen++;
      this.removed.set(k, of);
    }
  }

  private judgeRemoved(): void {
    const { stitches } = this.before;
    for (const [k, { mm, steps, seen }] of this.removed) {
      const { id, range } = this.objects[k];
      const top = threadMm(stitches, range[0], range[1]);
      if (mm > LAYER_SHARE * top || seen > SEEN_SHARE * steps)
        this.faults.add(id, 'second-layer', placeOf(stitches, range[0]), seen * STEP_MM * THREAD_MM);
    }
  }

  /** Puts a fault down to the object asked for whose top stitching is nearest in sewing order, or at a needle point. */
  private blame(i: number, because: ProofFault, of: Stitches, at: number, missingMm2 = 0): void {
    let best = -1;
    let away = Number.POSITIVE_INFINITY;
    for (const { id, range } of this.objects) {
      if (!this.asked.has(id)) continue;
      const by = i < range[0] ? range[0] - i : Math.max(0, i - range[1]);
      if (by < away) [best, away] = [id, by];
    }
    if (best >= 0) this.faults.add(best, because, placeOf(of, at), missingMm2);
  }
}

/** What the top stitching of a design hides, object by object; made where it is asked about. */
class Covers {
  private readonly index: BoxIndex;
  private readonly surfaces = new Map<number, Surface>();
  private last = -1;

  constructor(
    private readonly stitches: Stitches,
    private readonly objects: readonly ProvenObject[],
    private readonly isAsked: (k: number) => boolean,
  ) {
    this.index = indexBoxes(
      objects.flatMap(({ range }) => {
        const { minX, minY, maxX, maxY } = boundsOf(stitches, range[0], range[1]);
        return [minX, minY, maxX, maxY];
      }),
    );
  }

  surface(k: number): Surface {
    let surface = this.surfaces.get(k);
    if (!surface) {
      const { range } = this.objects[k];
      surface = new Surface(new Threads().add(this.stitches, range[0], range[1]));
      this.surfaces.set(k, surface);
    }
    return surface;
  }

  /** The object asked for that hides a place and is sewn later than a needle point; −1 where none is. */
  ofAsked(x: number, y: number, since: number): number {
    const hides = (k: number) =>
      this.isAsked(k) && this.objects[k].range[0] > since && this.surface(k).hides(x, y);
    if (this.last >= 0 && hides(this.last)) return this.last;
    const found = this.near(x, y, hides);
    if (found >= 0) this.last = found;
    return found;
  }

  /** Whether any object hides a place that is sewn later than a needle point. */
  ofAny(x: number, y: number, since: number, beside: number): boolean {
    const places = beside === 0 ? [[x, y]] : AROUND.map(([dx, dy]) => [x + dx * beside, y + dy * beside]);
    return places.some(
      ([px, py]) =>
        this.ofAsked(px, py, since) >= 0 ||
        this.near(px, py, (k) => this.objects[k].range[0] > since && this.surface(k).hides(px, py)) >= 0,
    );
  }

  private near(x: number, y: number, test: (k: number) => boolean): number {
    let found = -1;
    this.index.some(x - SQUARE_MM, y - SQUARE_MM, x + SQUARE_MM, y + SQUARE_MM, (k) => {
      if (!test(k)) return false;
      found = k;
      return true;
    });
    return found;
  }
}

/** A place itself and four beside it. */
const AROUND = [
  [0, 0],
  [1, 0],
  [0, 1],
  [-1, 0],
  [0, -1],
];

function sameStitch(a: Stitches, i: number, b: Stitches, j: number, sewnOn: boolean): boolean {
  if (Math.abs(a.x[i] - b.x[j]) > SAME_MM || Math.abs(a.y[i] - b.y[j]) > SAME_MM || a.block[i] !== b.block[j])
    return false;
  return !sewnOn || sameBreak(a.breakBefore[i], b.breakBefore[j]);
}

/** A long stitch may be made by jumps or not: it is the same thread. */
const sameBreak = (a: number, b: number): boolean => a === b || (a < Break.stop && b < Break.stop);

function unchanged(a: Stitches, b: Stitches, { was, is }: Gap): boolean {
  if (was[1] - was[0] !== is[1] - is[0]) return false;
  for (let n = 1; was[0] + n < was[1]; n++) if (!sameStitch(a, was[0] + n, b, is[0] + n, true)) return false;
  return was[1] >= a.count || sameBreak(a.breakBefore[was[1]], b.breakBefore[is[1]]);
}

/** Places along the threads between two needle points, and the needle point that each thread leads to. */
function* along(
  { x, y, breakBefore, count }: Stitches,
  first: number,
  last: number,
): Generator<{ x: number; y: number; i: number }> {
  for (let i = Math.max(first, 0) + 1; i <= last && i < count; i++) {
    if (breakBefore[i] >= Break.trim) continue;
    const steps = Math.max(1, Math.round(distance(x[i - 1], y[i - 1], x[i], y[i]) / STEP_MM));
    for (let k = 0; k < steps; k++) {
      const share = (k + 0.5) / steps;
      yield { x: x[i - 1] + (x[i] - x[i - 1]) * share, y: y[i - 1] + (y[i] - y[i - 1]) * share, i };
    }
  }
}

/** Threads between needle points, by the one that each leads to, and named by where they lie. */
function threadsOf({ x, y, breakBefore, count }: Stitches, first: number, last: number) {
  const threads: { i: number; name: string }[] = [];
  const place = (i: number) => `${squareOf(x[i])},${squareOf(y[i])}`;
  for (let i = Math.max(first, 0) + 1; i <= last && i < count; i++) {
    if (breakBefore[i] < Break.trim) threads.push({ i, name: `${place(i - 1)} ${place(i)}` });
  }
  return threads;
}

function threadMm({ x, y, breakBefore }: Stitches, first: number, last: number): number {
  let mm = 0;
  for (let i = first + 1; i <= last; i++) {
    if (breakBefore[i] < Break.trim) mm += distance(x[i - 1], y[i - 1], x[i], y[i]);
  }
  return mm;
}

const placeOf = ({ x, y }: Stitches, i: number) => ({ x: x[i], y: y[i] });
