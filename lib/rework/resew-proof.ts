/** The proof of a design sewn again larger: the old one grown as asked is all covered, and nothing lies far outside of it. */

import type { Design } from '../format/design.js';
import { Break, type Stitches } from '../format/stitches.js';
import type { Enlargement } from './enlargement.js';
import { centreOf } from './machine-scaled.js';
import { Faults, type ObjectProof, type ProvenObject, pausesOf, type SewnFile } from './proof.js';
import type { ResewMode } from './resew-mode.js';
import { type Carry, Surface, THREAD_MM, Threads } from './surface.js';
import { areaMm2, SQUARE_MM } from './thread-grid.js';

/** A place of the file is the rounded one of the place asked for, mm. */
const ROUNDED_MM = SQUARE_MM / 2 + 1e-6;
/** New thread may lie this much farther from what old thread covered than that did, mm: half a thread. */
const FARTHER_MM = THREAD_MM / 2;
/** Strips of bare fabric no wider than three squares are the uneven edge of sound stitching; less than this in all is none, mm². */
const STRIP = 1;
const LEAST_BARE_MM2 = 0.03;
/** Between threads farther apart than this fabric is seen anyway: new ones may lie anywhere between, mm. */
const OPEN_MM = 0.8;
/** The squares with new thread on what an object covered are at least this share of the old: with one of two passes gone they are half. */
const LEAST_THREAD = 0.6;
/** Farther than this from all old thread nothing new is asked for but by growth, mm. */
const STRAY_MM = 1;
const LEAST_STRAY_MM2 = 0.2;

/**
 * Holds a design made larger against the one before. Grown by the machine every needle point has to be where the growth takes it. Laid anew, every
 * place that top stitching of the old one covers when it is grown as asked (for `widen`: moved as asked) has to be covered by the thread that
 * is sewn between the same cuts, but for half a thread and the step of the file; so much thread as before has to lie there; and no thread lies
 * where none was.
 *
 * @returns of each object, in their order
 */
export function proveResew(
  before: SewnFile,
  after: SewnFile,
  objects: readonly ProvenObject[],
  mode: ResewMode,
  by: Enlargement,
): ObjectProof[] {
  const faults = new Faults();
  const ids = objects.map(({ id }) => id);
  const carry = carryOf(before.stitches, mode, by);
  if (pauses(before.design) !== pauses(after.design)) {
    for (const id of ids) faults.add(id, 'machine', null);
    return faults.proofs(ids, 'covered');
  }
  if (mode === 'machine') {
    proveGrown(before.stitches, after.stitches, objects, carry, faults);
    return faults.proofs(ids, 'identical');
  }
  for (const pair of piecesOf(before.stitches, after.stitches)) {
    provePiece(before.stitches, after.stitches, pair, objectsIn(objects, pair.was), carry, by, faults);
  }
  return faults.proofs(ids, 'covered');
}

const pauses = (design: Design): string => pausesOf(design, 0, design.kind.length);

/** Where a place of the old design has to come to lie. */
function carryOf(stitches: Stitches, mode: ResewMode, { x, y, dx, dy }: Enlargement): Carry {
  if (mode === 'widen') return (px, py) => [px + dx, py + dy];
  const { x: cx, y: cy } = centreOf(stitches);
  return (px, py) => [cx + (px - cx) * (1 + x) + dx, cy + (py - cy) * (1 + y) + dy];
}

function proveGrown(
  a: Stitches,
  b: Stitches,
  objects: readonly ProvenObject[],
  carry: Carry,
  faults: Faults,
): void {
  const wrong = (i: number): boolean => {
    const [x, y] = carry(a.x[i], a.y[i]);
    return (
      Math.abs(b.x[i] - x) > ROUNDED_MM ||
      Math.abs(b.y[i] - y) > ROUNDED_MM ||
      b.block[i] !== a.block[i] ||
      (a.breakBefore[i] >= Break.trim && b.breakBefore[i] < Break.trim)
    );
  };
  if (a.count !== b.count) {
    for (const { id } of objects) faults.add(id, 'changed', null);
    return;
  }
  let k = 0;
  for (let i = 0; i < a.count && objects.length > 0; i++) {
    while (k + 1 < objects.length && objects[k].range[1] < i) k++;
    if (wrong(i)) faults.add(objects[k].id, 'changed', { x: b.x[i], y: b.y[i] });
  }
}

/** Thread that is sewn between the same two cuts, in the old design and in the new: first and last needle point. */
interface Pair {
  readonly was: readonly [first: number, last: number];
  readonly is: readonly [first: number, last: number];
}

/** Where a block has as many cuts as before its pieces are pairs, else the whole block is one: a long move may have become a trim. */
function* piecesOf(a: Stitches, b: Stitches): Generator<Pair> {
  const [was, is] = [blocksOf(a), blocksOf(b)];
  for (let n = 0; n < Math.min(was.length, is.length); n++) {
    const [old, now] = [cutsOf(a, was[n]), cutsOf(b, is[n])];
    if (old.length !== now.length) yield { was: was[n], is: is[n] };
    else for (let k = 0; k < old.length; k++) yield { was: old[k], is: now[k] };
  }
}

const blocksOf = (stitches: Stitches): Pair['was'][] =>
  partsOf(stitches, [0, stitches.count - 1], Break.colour);
const cutsOf = (stitches: Stitches, within: Pair['was']): Pair['was'][] =>
  partsOf(stitches, within, Break.trim);

function partsOf({ breakBefore }: Stitches, [first, last]: Pair['was'], least: number): Pair['was'][] {
  const parts: Pair['was'][] = [];
  for (let from = first; from <= last; ) {
    let to = from;
    while (to < last && breakBefore[to + 1] < least) to++;
    parts.push([from, to]);
    from = to + 1;
  }
  return parts;
}

function objectsIn(objects: readonly ProvenObject[], [first, last]: Pair['was']): ProvenObject[] {
  let low = 0;
  for (let high = objects.length; low < high; ) {
    const middle = (low + high) >> 1;
    if (objects[middle].range[1] < first) low = middle + 1;
    else high = middle;
  }
  let end = low;
  while (end < objects.length && objects[end].range[0] <= last) end++;
  return objects.slice(low, end);
}

function provePiece(
  a: Stitches,
  b: Stitches,
  { was, is }: Pair,
  objects: readonly ProvenObject[],
  carry: Carry,
  by: Enlargement,
  faults: Faults,
): void {
  if (objects.length === 0) return;
  const now = new Threads().add(b, is[0], is[1]);
  const all = new Threads().add(a, was[0], was[1], carry);
  for (const { id, range } of objects) {
    const surface = new Surface(
      new Threads().add(a, Math.max(was[0], range[0]), Math.min(was[1], range[1]), carry),
    );
    const { bare, at, share } = coveredBy(surface, now);
    if (bare > LEAST_BARE_MM2) faults.add(id, 'bare', at, bare);
    // a line has no more thread than its place takes, and open threads may lie elsewhere
    else if (surface.apartMm > 0 && surface.apartMm <= OPEN_MM && share < LEAST_THREAD)
      faults.add(id, 'changed', at);
  }
  const stray = strayOf(all, now, STRAY_MM + Math.max(Math.abs(by.x), Math.abs(by.y)) * 6);
  if (stray.mm2 <= LEAST_STRAY_MM2) return;
  for (const { id } of objects) faults.add(id, 'shows', stray.at, stray.mm2);
}

/** How much of a surface other threads leave bare, and how much thread lies in it as a share of what did. */
function coveredBy(surface: Surface, now: Threads) {
  const { threads, apartMm } = surface;
  const reachMm = apartMm > OPEN_MM ? apartMm : Math.max(THREAD_MM, apartMm) / 2 + FARTHER_MM;
  let bare = 0;
  let [old, is] = [0, 0];
  let at: { x: number; y: number } | null = null;
  for (const tile of threads.windows()) {
    const covered = surface.closedIn(tile, apartMm / 2 + SQUARE_MM);
    const laid = now.drawn(tile, threads.bounds);
    const beside = covered.without(laid.grown(reachMm / SQUARE_MM));
    // a line has no edge
    const left = (apartMm > 0 ? beside.shrunk(STRIP) : beside).counted(tile);
    bare += left.squares;
    at ??= left.first;
    const over = covered.grown(1);
    old += threads.drawn(tile).within(over).counted(tile).squares;
    is += laid.within(over).counted(tile).squares;
  }
  return { bare: areaMm2(bare), at, share: old > 0 ? is / old : 1 };
}

/** New thread farther than a distance from all old. */
function strayOf(all: Threads, now: Threads, withinMm: number) {
  let squares = 0;
  let at: { x: number; y: number } | null = null;
  for (const tile of now.windows()) {
    const far = now
      .drawn(tile)
      .without(all.drawn(tile, now.bounds).grown(withinMm / SQUARE_MM))
      .counted(tile);
    squares += far.squares;
    at ??= far.first;
  }
  return { mm2: areaMm2(squares), at };
}
