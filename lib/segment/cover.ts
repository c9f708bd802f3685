/**
 * What lies beneath what. Whatever is open and lies under later, denser stitching of its color block is underlay of all that
 * it lies under, however far apart the two are sewn: a zigzag sewn for a whole word ahead of its letters, or one net
 * under all of them. What is left of the thread between tops is read point by point in the same way: beneath later
 * stitching it is underlay or hidden travel, in the open it is a run.
 */
import { holds, packed, packedHolds, shareWithin } from '../core/bounds.js';
import { distance } from '../core/distance.js';
import { evenly } from '../core/evenly.js';
import { boundsOf } from '../format/extent.js';
import { isPause, type Stitches, threadMm } from '../format/stitches.js';
import { Above } from './above.js';
import { FINDER } from './parameters.js';
import { ColumnRegion, FillRegion, type Region } from './region.js';
import { ALONE, AT_END, BETWEEN, keepRuns, type RunDraft } from './runs.js';
import type { SewnThread } from './threads.js';
import type { Top } from './tops.js';

const SAMPLE = FINDER.coverSample.value;
const MOST_TOPS = FINDER.coverTops.value;

/** A patch of an underlay, and all tops that lie on it. */
interface Taken {
  readonly first: number;
  readonly last: number;
  readonly low: Top;
  readonly tops: readonly Top[];
}

/** Sorts the pieces of all threads, from the last to the first, into tops, what lies under them, and runs. */
export function sortByCover(
  stitches: Stitches,
  threads: readonly SewnThread[],
  pieces: readonly Top[],
): { tops: Top[]; runs: RunDraft[] } {
  const kept: Top[][] = [];
  const runs: RunDraft[][] = [];
  let above = new Above();
  /** The top of a later thread that began on an earlier one, as a net does. */
  let begun: Top | null = null;
  let taken: Taken[] = [];
  let end = pieces.length;
  for (let t = threads.length - 1; t >= 0; t--) {
    // what is sewn before a stop or a change of color is for the eye or for a piece laid on, never underlay of what comes after
    if (threads[t + 1] !== undefined && isPause(stitches.breakBefore[threads[t + 1].first]))
      above = new Above();
    let start = end;
    while (start > 0 && pieces[start - 1].thread === t) start--;
    const tops: Top[] = [];
    for (let k = end - 1; k >= start; k--) {
      const low = pieces[k];
      const is = underTops(stitches, low, above);
      if (is === 'top') {
        tops.unshift(low);
        above.add(low);
      } else if (is !== 'thread') {
        for (const { from, to } of [...low.earlier, ...low.patches])
          taken.push({ first: from[0], last: to[to.length - 1], low, tops: is });
      }
    }
    end = start;
    const found: RunDraft[] = [];
    const bodyLast = begun === null ? threads[t].bodyLast : Math.min(begun.first - 1, threads[t].bodyLast);
    new ThreadRest(stitches, t, { ...threads[t], bodyLast }, tops, taken, above).read(found);
    begun = tops.find((top) => top.first < threads[t].first) ?? begun;
    taken = taken.filter((patch) => patch.first < threads[t].first);
    runs.push(found);
    kept.push(tops);
  }
  return { tops: kept.reverse().flat(), runs: runs.reverse().flat() };
}

/**
 * Hands an open patch to all tops that are sewn later and lie on it. What lies beneath several of them, but is no underlay by
 * itself, is `thread`: runs that happened to turn back beside each other.
 */
function underTops(stitches: Stitches, low: Top, above: Above): readonly Top[] | 'top' | 'thread' {
  const legs = low.from.length;
  const few = legs <= FINDER.fewLegs.value;
  const later = above.over(low.bounds, MOST_TOPS);
  const cap = capOf(stitches, low, later);
  if (cap) {
    cap.capped++;
    return [cap];
  }
  if (low.pitchMm < FINDER.openPitch.value && !few) return 'top';
  const denser = later.filter((high) => low.pitchMm >= FINDER.opener.value * high.pitchMm);
  if (denser.length === 0) return 'top';
  const points = evenly(low.first, low.last, SAMPLE);
  const covered = new Uint8Array(points.length);
  // what lies whole beneath one top need not be asked of the others
  const whole = denser.find((high) => shareInside(stitches, points, high, covered) >= FINDER.covered.value);
  let share = 0;
  for (let k = 0; k < covered.length; k++) share += covered[k];
  share /= points.length;
  const isNet = low.pitchMm >= FINDER.netPitch.value && share >= FINDER.netCovered.value;
  const served = whole
    ? [whole]
    : share >= FINDER.covered.value || isNet
      ? denser.filter((high) => liesOn(stitches, high, low) >= FINDER.liesOn.value)
      : [];
  if (served.length === 0 || (few && !whole && (share >= FINDER.covered.value || !isNet)))
    return share >= FINDER.covered.value ? 'thread' : 'top';
  for (const patch of [...low.earlier, ...low.patches]) {
    const part = {
      first: patch.from[0],
      last: patch.to[patch.to.length - 1],
      patch,
      shared: served.length > 1,
    };
    for (const high of served) high.under.push(part);
  }
  return served;
}

/** The very dense column whose end a short zigzag closes, or null where it is no such cap: foam would show at an open end. */
function capOf(stitches: Stitches, low: Top, later: readonly Top[]): Top | null {
  if (low.kind !== 'satin' || low.pitchMm <= FINDER.foamPitch.value) return null;
  const points = evenly(low.first, low.last, SAMPLE);
  const over = later.find(
    (high) =>
      high.kind === 'satin' &&
      high.pitchMm <= FINDER.foamPitch.value &&
      low.pitchMm >= FINDER.capOpener.value * high.pitchMm &&
      low.legMm <= FINDER.capSwing.value * high.legMm &&
      shareInside(stitches, points, high, new Uint8Array(points.length)) >= FINDER.covered.value,
  );
  return over ?? null;
}

/** Share of points that lie under a top, which are marked. */
function shareInside({ x, y }: Stitches, points: readonly number[], high: Top, covered: Uint8Array): number {
  let inside = 0;
  const { bounds } = high;
  for (let k = 0; k < points.length; k++) {
    const px = x[points[k]];
    const py = y[points[k]];
    if (!holds(bounds, px, py, 1) || !high.region.contains(px, py)) continue;
    inside++;
    covered[k] = 1;
  }
  return inside / points.length;
}

/** Share of a top that lies over an open patch. */
function liesOn({ x, y }: Stitches, high: Top, low: Top): number {
  if (shareWithin(high.bounds, low.bounds, 1) < FINDER.liesOn.value) return 0;
  const points = evenly(high.first, high.last, SAMPLE);
  return points.filter((i) => low.region.contains(x[i], y[i])).length / points.length;
}

/** What is left of one thread between its tops. */
class ThreadRest {
  constructor(
    private readonly stitches: Stitches,
    private readonly index: number,
    private readonly thread: SewnThread,
    private readonly tops: readonly Top[],
    private readonly taken: readonly Taken[],
    private readonly above: Above,
  ) {}

  read(runs: RunDraft[]): void {
    const { tops, thread } = this;
    for (let k = 0; k <= tops.length; k++) {
      const first = k === 0 ? thread.bodyFirst : tops[k - 1].last + 1;
      const last = k === tops.length ? thread.bodyLast : tops[k].first - 1;
      if (first <= last) this.readGap(first, last, k, runs);
    }
  }

  /** Reads the gap before the top `k` of the thread (or after the last). */
  private readGap(first: number, last: number, k: number, runs: RunDraft[]): void {
    const next = this.tops[k] as Top | undefined;
    const hidden = new Uint8Array(last - first + 1);
    const hide = (a: number, b: number) => hidden.fill(1, a - first, b - first + 1);
    for (const patch of this.taken)
      if (patch.first >= first && patch.last <= last) hide(patch.first, patch.last);
    for (const piece of openPieces(hidden, first)) if (this.isOfNet(piece)) hide(piece.first, piece.last);
    const open = openPieces(hidden, first);
    for (const top of next === undefined ? [] : this.tops.slice(Math.max(0, k - 2), k)) {
      for (const stretch of this.stretchesUnder(top, first, last)) hide(stretch.first, stretch.last);
    }
    for (const piece of open) this.handOver(piece.first, piece.last, first, last, hidden);
    const need = this.tops.length === 0 ? ALONE : k === 0 || next === undefined ? AT_END : BETWEEN;
    for (const piece of openPieces(hidden, first)) {
      keepRuns(this.stitches, this.index, piece.first, piece.last, need, runs);
    }
  }

  /** Hands the short rows at the ends of a net, and the ways between its sections, to all that it serves. */
  private isOfNet({ first, last }: { first: number; last: number }): boolean {
    const { x, y } = this.stitches;
    const net = this.taken.find((p) => p.tops.length > 1 && (p.last === first - 1 || p.first === last + 1));
    const region = net?.low.region;
    if (!net || !(region instanceof FillRegion)) return false;
    let near = 0;
    for (let i = first; i <= last; i++) if (region.isNear(x[i], y[i])) near++;
    if (near < FINDER.staysUnder.value * (last - first + 1)) return false;
    for (const top of net.tops) top.under.push({ first, last, patch: null, shared: true });
    return true;
  }

  /** Hands what of `from`..`to` lies beneath later tops to them, and marks it as hidden. */
  private handOver(from: number, to: number, first: number, last: number, hidden: Uint8Array): void {
    const { stitches } = this;
    // a thread of nothing but locks lays nothing
    if (to === last && from === first && this.tops.length === 0 && threadMm(stitches, from, to) < ALONE.mm)
      return;
    const later = this.above.over(boundsOf(stitches, from, to), MOST_TOPS).filter((top) => top.first > last);
    if (later.length === 0) return;
    const labels = labelByCover(stitches, from, to, later);
    // a run that a later thread crosses here and there is no underlay of that
    const share = labels.reduce((n, label) => n + (label >= 0 ? 1 : 0), 0) / labels.length;
    const ahead = share >= FINDER.staysUnder.value;
    for (let i = 0; i < labels.length; ) {
      let j = i + 1;
      while (j < labels.length && labels[j] === labels[i]) j++;
      const top = labels[i] >= 0 ? later[labels[i]] : null;
      if (top && (ahead || top.thread === this.index)) {
        top.under.push({ first: from + i, last: from + j - 1, patch: null, shared: false });
        hidden.fill(1, from + i - first, from + j - first);
      }
      i = j;
    }
    if (ahead) hidden.fill(1, from - first, to - first + 1);
  }

  /** Unbroken stretches of a range that lie under a top. */
  private stretchesUnder(top: Top, first: number, last: number): { first: number; last: number }[] {
    const { x, y } = this.stitches;
    const out: { first: number; last: number }[] = [];
    for (let i = first; i <= last; i++) {
      if (!holds(top.bounds, x[i], y[i], 1) || !top.region.contains(x[i], y[i])) continue;
      const before = out[out.length - 1];
      if (before !== undefined && before.last === i - 1) before.last = i;
      else out.push({ first: i, last: i });
    }
    return out;
  }
}

/** Pieces that are not hidden; entry 0 of `hidden` is of stitch `first`. */
function openPieces(hidden: Uint8Array, first: number): { first: number; last: number }[] {
  const pieces: { first: number; last: number }[] = [];
  for (let i = 0; i < hidden.length; i++) {
    if (hidden[i] === 1) continue;
    let last = i;
    while (last + 1 < hidden.length && hidden[last + 1] === 0) last++;
    pieces.push({ first: first + i, last: first + last });
    i = last;
  }
  return pieces;
}

/**
 * Which of the tops each stitch of a stretch lies beneath, by least cost over the whole stretch: a stitch under a column costs
 * little where it goes along the column, and every change from one top to another costs something. So two columns that
 * meet share the thread that leads from the underlay of one to that of the other as it turns.
 *
 * @returns for each stitch the number of its top, or -1 in the open
 */
function labelByCover(stitches: Stitches, first: number, last: number, tops: readonly Top[]): Int32Array {
  const { x, y } = stitches;
  const n = last - first + 1;
  const across = FINDER.coverAcross.value;
  const change = FINDER.coverChange.value;
  const openCost = FINDER.coverOpen.value;
  const open = tops.length;
  const ways = open + 1;
  const boxes = packed(
    tops.map(({ bounds }) => bounds),
    1,
  );
  // as many tops as are asked fit a byte
  const cameFrom = new Uint8Array(n * ways);
  let cost = new Float64Array(ways);
  let nextCost = new Float64Array(ways);
  for (let k = 0; k < n; k++) {
    const i = first + k;
    const px = x[i];
    const py = y[i];
    const best = leastOf(cost);
    const changed = k === 0 ? Infinity : cost[best] + change;
    let sooner = 0;
    for (let t = 0; t < open; t++) {
      nextCost[t] = Infinity;
      // most tops over a long stretch lie elsewhere
      if (!packedHolds(boxes, t, px, py)) continue;
      const { region } = tops[t];
      const stays = cost[t] <= changed;
      const before = stays ? cost[t] : changed;
      cameFrom[k * ways + t] = stays ? t : best;
      if (region.contains(px, py)) {
        nextCost[t] = before + (across * acrossShare(stitches, i, first, last, region) + sooner);
        if (region instanceof FillRegion) sooner = FINDER.coverLater.value;
      } else if (region instanceof FillRegion && region.isNear(px, py)) nextCost[t] = before + across;
    }
    const stays = cost[open] <= changed;
    cameFrom[k * ways + open] = stays ? open : best;
    nextCost[open] = (stays ? cost[open] : changed) + openCost;
    [cost, nextCost] = [nextCost, cost];
  }
  return traceBack(cameFrom, n, leastOf(cost), open);
}

/** The way by which the last of `n` stitches came to label `t`; label `open` is told as -1. */
function traceBack(cameFrom: Uint8Array, n: number, t: number, open: number): Int32Array {
  const labels = new Int32Array(n);
  for (let k = n - 1; k >= 0; k--) {
    labels[k] = t === open ? -1 : t;
    t = cameFrom[k * (open + 1) + t];
  }
  return labels;
}

/** Index of the first of the least values. */
function leastOf(values: Float64Array): number {
  let least = 0;
  for (let t = 1; t < values.length; t++) if (values[t] < values[least]) least = t;
  return least;
}

/** How far the stitches before and after a point go across a column rather than along: 0 to 1. */
function acrossShare({ x, y }: Stitches, i: number, first: number, last: number, region: Region): number {
  if (!(region instanceof ColumnRegion)) return FINDER.coverArea.value;
  const node = region.nodeAt(x[i], y[i]);
  const { tx, ty } = region.frame;
  let sines = 0;
  for (let p = Math.max(first, i - 1); p < Math.min(last, i + 1); p++) {
    const l = distance(x[p], y[p], x[p + 1], y[p + 1]);
    if (l > 0) sines += Math.abs((x[p + 1] - x[p]) * ty[node] - (y[p + 1] - y[p]) * tx[node]) / l;
  }
  return sines / 2;
}
