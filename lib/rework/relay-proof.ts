/**
 * The proof of a relaid design. All but the underlay of the columns asked for has to be in it: needle point by needle point, in the
 * same order, at the same place, in the same color, between the same stops. Of that underlay only may go what nobody sees and what is no
 * top stitching; and what is new has to lie hidden beneath those columns.
 */
import { distance } from '../core/distance.js';
import { Break, type Stitches } from '../format/stitches.js';
import { Hidden } from './hidden.js';
import {
  Faults,
  type ObjectProof,
  type ProofFault,
  type ProvenObject,
  pausesOf,
  type SewnFile,
  trimsOf,
} from './proof.js';
import {
  type Gap,
  type NeedleSpan,
  nameOf,
  placeName,
  placesOf,
  sameStitch,
  threadsOf,
  unchanged,
} from './same-thread.js';
import { NearThreads, THREAD_MM, Threads } from './surface.js';
import { SQUARE_MM } from './thread-grid.js';
import { type UnderlayClaims, underlayClaims } from './underlay-claims.js';

/** Thread that was seen may lie this far from where it was, mm: half a thread and the step of the file. */
const BESIDE_MM = THREAD_MM / 2 + SQUARE_MM;
/** What lies no farther beside the top stitching over it passes for hidden, mm: locks and corners of an underlay do. */
const HEM_MM = 2 * SQUARE_MM;
/** Threads are looked at in steps of this, mm. */
const STEP_MM = 0.15;
/** Underlay of which this share is seen between the threads over it is a layer of what is seen. */
const SEEN_SHARE = 0.2;
/** So are this many swings one after another that lie as close as top stitching, each at least so long, and with its end no farther than this from the next, mm. */
const CLOSE_SWINGS = 3;
const CLOSE_MM = 1.05;
const SWING_MM = 1;
/** Swings turn back by 150° or more (cosine). */
const TURNED_COS = -0.85;
/** A line marks where cloth is laid if this share of it lies beneath the column over the edge of the cloth, and at least so much thread, mm. */
const BENEATH = 0.9;
const PLACING_MM = 15;
/** Two columns are passes over the same place if this share of the thread of each lies in the other. */
const PASS_SHARE = 0.8;
/** New stitches among which one that was is looked for, beside as many as were left out. */
const LOOKED_THROUGH = 20_000;

/**
 * Holds a relaid design against the one before. Linear in the stitches.
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

/** Thread that was taken out from under one object: steps along it, those that are seen through the object, and the first needle point of it. */
interface Removed {
  steps: number;
  seen: number;
  first: number;
}

class RelayProof {
  private readonly faults = new Faults();
  private readonly hidden: Hidden;
  private readonly claims: UnderlayClaims;
  /** Ids of the objects asked for, by their first needle point. */
  private readonly begins: ReadonlyMap<number, number>;
  private readonly removed = new Map<number, Removed>();
  /** Objects, by their places in the list, beneath which new thread lies. */
  private readonly laidUnder = new Set<number>();

  constructor(
    private readonly before: SewnFile,
    private readonly after: SewnFile,
    private readonly objects: readonly ProvenObject[],
    private readonly asked: ReadonlySet<number>,
  ) {
    this.hidden = new Hidden(before.stitches, objects);
    this.claims = underlayClaims(before.stitches, objects, asked);
    this.begins = new Map(
      objects.flatMap(({ id, range }): [number, number][] => (asked.has(id) ? [[range[0], id]] : [])),
    );
  }

  prove(): ObjectProof[] {
    if (this.asked.size > 0) {
      this.match();
      this.judgeLayers();
    }
    return this.faults.proofs(this.asked, 'identical');
  }

  /** Finds what has to stay in the new design, in order, and judges what lies between. */
  private match(): void {
    const { count } = this.before.stitches;
    const { whose } = this.claims;
    const { begins } = this;
    let was = -1;
    let is = -1;
    for (let first = 0; first < count; first++) {
      if (whose[first] > 0) continue;
      let last = first;
      while (last + 1 < count && whose[last + 1] === 0 && !begins.has(last + 1)) last++;
      const stretch: NeedleSpan = [first, last];
      const at = this.find(stretch, is + 1, was);
      if (at === null) this.blame(first, 'changed', this.before.stitches, first);
      else {
        this.judge({ was: [was, first], is: [is, at] });
        this.judgePauses(stretch, at);
        was = last;
        is = at + last - first;
      }
      first = last;
    }
    this.judge({ was: [was, count], is: [is, this.after.stitches.count] });
  }

  /** Where needle points that stay begin in the new design, from a place on; null where they are not found. */
  private find([first, last]: NeedleSpan, from: number, was: number): number | null {
    const a = this.before.stitches;
    const b = this.after.stitches;
    const gone = first - was - 1;
    const open = gone > 0 || this.begins.has(first);
    const end = Math.min(b.count - (last - first) - 1, open ? from + 2 * gone + LOOKED_THROUGH : from);
    for (let at = from; at <= end; at++) {
      let i = first;
      while (i <= last && sameStitch(a, i, b, at + i - first, i > first)) i++;
      if (i > last) return at;
    }
    return null;
  }

  private judge(gap: Gap): void {
    const { before, after } = this;
    this.judgeMachine(gap);
    if (unchanged(before.stitches, after.stitches, gap)) return;
    this.judgeNew(gap);
    this.judgeRemoved(gap);
  }

  /** Colors and stops between two needle points that stay are the same, and no cut is new. */
  private judgeMachine({ was, is }: Gap): void {
    const recordsOf = ({ design, stitches }: SewnFile, [first, last]: NeedleSpan) =>
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

  private judgePauses([first, last]: NeedleSpan, at: number): void {
    const [a, b] = [this.before.stitches, this.after.stitches];
    for (let i = first + 1; i <= last; i++) {
      if (a.breakBefore[i] < Break.stop) continue;
      const j = at + i - first;
      const old = pausesOf(this.before.design, a.record[i - 1], a.record[i]);
      if (old !== pausesOf(this.after.design, b.record[j - 1], b.record[j])) this.blame(i, 'machine', a, i);
    }
  }

  /** New needle points lie beneath columns asked for, or where the needle went down; new thread does, or lies where thread lay. */
  private judgeNew({ was, is }: Gap): void {
    const { stitches } = this.after;
    const since = was[0];
    const isAsked = (k: number) => this.asked.has(this.objects[k].id);
    const wentDown = new Set(placesOf(this.before.stitches, [was[0] - 1, was[1] + 1]));
    for (let j = is[0] + 1; j < is[1]; j++) {
      const [x, y] = [stitches.x[j], stitches.y[j]];
      if (this.hidden.by(x, y, since, isAsked) < 0 && !wentDown.has(placeName(stitches, j)))
        this.blame(was[1], 'shows', stitches, j, 0, was);
    }
    const lay = new NearThreads(() => new Threads().add(this.before.stitches, ...was), BESIDE_MM);
    const known = threadsOf(this.before.stitches, was);
    for (const { x, y, i, name } of along(stitches, is)) {
      if (known.has(name)) continue;
      const k = this.hidden.by(x, y, since);
      if (k >= 0) this.laidUnder.add(k);
      else if (!lay.holds(x, y)) this.blame(was[1], 'shows', stitches, i, STEP_MM * THREAD_MM, was);
    }
  }

  /** Thread that was taken out lay hidden, or where thread lies now; a stitch from one hidden place to another is a float, that nobody misses. */
  private judgeRemoved({ was, is }: Gap): void {
    const { stitches } = this.before;
    const stays = threadsOf(this.after.stitches, is);
    const lies = new NearThreads(() => new Threads().add(this.after.stitches, ...is), BESIDE_MM);
    for (const { x, y, i, name } of along(stitches, was)) {
      if (stays.has(name) || this.isLock(i)) continue;
      const k = this.hidden.by(x, y, i - 1);
      if (k >= 0) this.note(k, x, y, i);
      else if (!this.isFloat(i) && !this.hidden.near(x, y, i - 1, HEM_MM) && !lies.holds(x, y))
        this.blame(i, 'bare', stitches, i, STEP_MM * THREAD_MM, was);
    }
    const goesDown = new Set(placesOf(this.after.stitches, is));
    for (let i = was[0] + 1; i < was[1]; i++) {
      if (goesDown.has(placeName(stitches, i)) || this.claims.lock[i] === 1) continue;
      if (!this.hidden.near(stitches.x[i], stitches.y[i], i, HEM_MM)) this.blame(i, 'changed', stitches, i);
    }
    this.judgeSwings(was, stays);
  }

  private isLock(i: number): boolean {
    const { lock } = this.claims;
    return lock[i - 1] === 1 && lock[i] === 1;
  }

  private isFloat(i: number): boolean {
    const { x, y } = this.before.stitches;
    return [i - 1, i].every((at) => this.hidden.by(x[at], y[at], i - 1) >= 0);
  }

  private note(k: number, x: number, y: number, i: number): void {
    const of = this.removed.get(k) ?? { steps: 0, seen: 0, first: i };
    of.steps++;
    if (this.hidden.surface(k).showsThrough(x, y)) of.seen++;
    this.removed.set(k, of);
  }

  /** Swings that were taken out, as close as those of a column, are top stitching. */
  private judgeSwings(was: NeedleSpan, stays: ReadonlySet<string>): void {
    const { stitches } = this.before;
    let close = 0;
    for (let i = Math.max(was[0], 0) + 1; i < Math.min(was[1], stitches.count - 1); i++) {
      close = !stays.has(nameOf(stitches, i)) && turnsClosely(stitches, i) ? close + 1 : 0;
      if (close === CLOSE_SWINGS) this.blame(i, 'second-layer', stitches, i, 0, was);
    }
  }

  private judgeLayers(): void {
    const { stitches } = this.before;
    this.objects.forEach(({ id, range }, k) => {
      if (!this.asked.has(id)) return;
      const at = { x: stitches.x[range[0]], y: stitches.y[range[0]] };
      const removed = this.removed.get(k);
      if (removed && removed.seen > SEEN_SHARE * removed.steps)
        this.faults.add(id, 'second-layer', at, removed.seen * STEP_MM * THREAD_MM);
      else if (removed && this.placesCloth(k, removed.first)) this.faults.add(id, 'cloth', at);
      else if (this.laidUnder.has(k) && this.isSecondPass(k)) this.faults.add(id, 'second-layer', at);
    });
  }

  /** Whether a column was sewn over one just like it, of the same color: what is laid between the two passes is seen. */
  private isSecondPass(k: number): boolean {
    const { block } = this.before.stitches;
    const { range } = this.objects[k];
    return this.hidden.touching(k).some((other) => {
      const first = this.objects[other].range;
      return (
        first[1] < range[0] &&
        block[first[0]] === block[range[0]] &&
        this.hidden.surface(other).apartMm > 0 &&
        this.liesBeneath(range, other, PASS_SHARE) &&
        this.liesBeneath(first, k, PASS_SHARE)
      );
    });
  }

  /**
   * Whether what lies under a column holds cloth: sewn between two pauses, or after the first, beneath the column lies one line alone, that marks where the
   * cloth goes. Where something more was sewn there before another pause, that holds it.
   */
  private placesCloth(k: number, first: number): boolean {
    const { breakBefore } = this.before.stitches;
    let pause = first;
    while (pause > 0 && breakBefore[pause] < Break.stop) pause--;
    if (pause === 0) return false;
    const beneath = this.hidden.touching(k).filter((other) => {
      const [from, last] = this.objects[other].range;
      return last < pause && this.isLong([from, last]) && this.liesBeneath([from, last], k, BENEATH);
    });
    if (beneath.length === 0) return false;
    const from = Math.min(...beneath.map((other) => this.objects[other].range[0]));
    const last = Math.max(...beneath.map((other) => this.objects[other].range[1]));
    for (let i = from + 1; i <= last; i++) if (breakBefore[i] >= Break.stop) return false;
    return true;
  }

  private isLong([first, last]: NeedleSpan): boolean {
    const { x, y } = this.before.stitches;
    let mm = 0;
    for (let i = first + 1; i <= last && mm < PLACING_MM; i++) mm += distance(x[i - 1], y[i - 1], x[i], y[i]);
    return mm >= PLACING_MM;
  }

  /** Whether a share of thread lies beneath the surface of an object, or just in it. It looks no farther than until too much does not. */
  private liesBeneath(span: NeedleSpan, k: number, share: number): boolean {
    const surface = this.hidden.surface(k);
    let [steps, beside] = [0, 0];
    for (const thread of threadsOfSpan(this.before.stitches, span)) steps += thread.steps;
    for (const { x, y } of along(this.before.stitches, span)) {
      if (!surface.hides(x, y)) beside++;
      if (steps - beside < share * steps) return false;
    }
    return steps > 0;
  }

  /**
   * Puts a fault down to an object asked for: that whose underlay a needle point is, or, for those of the new design, the nearest
   * one that was taken out in a gap; else the one that begins there, or is nearest in sewing order.
   */
  private blame(
    i: number,
    because: ProofFault,
    of: Stitches,
    at: number,
    missingMm2 = 0,
    gap: NeedleSpan | null = null,
  ): void {
    const place = { x: of.x[at], y: of.y[at] };
    const id = this.claims.whose[i] || (gap && this.nearestIn(gap, place)) || this.nearestTo(i);
    if (id > 0) this.faults.add(id, because, place, missingMm2);
  }

  private nearestIn([first, last]: NeedleSpan, { x, y }: { x: number; y: number }): number {
    const { stitches } = this.before;
    const { whose } = this.claims;
    let [best, away] = [0, Number.POSITIVE_INFINITY];
    for (let i = first + 1; i < last; i++) {
      const by = distance(x, y, stitches.x[i], stitches.y[i]);
      if (by < away && whose[i] > 0) [best, away] = [whose[i], by];
    }
    return best;
  }

  private nearestTo(i: number): number {
    let [best, away] = [0, Number.POSITIVE_INFINITY];
    for (const { id, range } of this.objects) {
      if (!this.asked.has(id)) continue;
      const by = i < range[0] ? range[0] - i : Math.max(0, i - range[1]);
      if (by < away) [best, away] = [id, by];
    }
    return best;
  }
}

/** Whether a thread turns back at a needle point into a swing as close to the one before as swings of a column are. */
function turnsClosely({ x, y, breakBefore }: Stitches, i: number): boolean {
  if (breakBefore[i] >= Break.trim || breakBefore[i + 1] >= Break.trim) return false;
  const [ax, ay] = [x[i] - x[i - 1], y[i] - y[i - 1]];
  const [bx, by] = [x[i + 1] - x[i], y[i + 1] - y[i]];
  const [a, b] = [Math.hypot(ax, ay), Math.hypot(bx, by)];
  const apart = Math.abs(ax * by - ay * bx) / Math.max(Math.min(a, b), 1e-9);
  return Math.min(a, b) >= SWING_MM && ax * bx + ay * by <= TURNED_COS * a * b && apart <= CLOSE_MM;
}

/** Needle points of a span to which a thread leads that was not cut, and in how many steps it is looked at. */
function* threadsOfSpan(
  { x, y, breakBefore, count }: Stitches,
  [first, last]: NeedleSpan,
): Generator<{ i: number; steps: number }> {
  for (let i = Math.max(first, 0) + 1; i <= last && i < count; i++) {
    if (breakBefore[i] >= Break.trim) continue;
    yield { i, steps: Math.max(1, Math.round(distance(x[i - 1], y[i - 1], x[i], y[i]) / STEP_MM)) };
  }
}

/** Places along the threads between two needle points, with the needle point that each thread leads to, and the thread's name. */
function* along(
  stitches: Stitches,
  span: NeedleSpan,
): Generator<{ x: number; y: number; i: number; name: string }> {
  const { x, y } = stitches;
  for (const { i, steps } of threadsOfSpan(stitches, span)) {
    const name = nameOf(stitches, i);
    for (let k = 0; k < steps; k++) {
      const share = (k + 0.5) / steps;
      yield {
        x: x[i - 1] + (x[i] - x[i - 1]) * share,
        y: y[i - 1] + (y[i] - y[i - 1]) * share,
        i,
        name,
      };
    }
  }
}
