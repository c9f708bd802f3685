/** Which stacks are solved in full so that the reduced basis serves all of them. */
import { SOLVE_OPTIONS, type SolveOptions } from './field.js';
import { LOADS, type Pair, type ReducedUnderlay } from './reduced-underlay.js';

/** What is left after this is well below what a height must be known to. */
const SNAPSHOT_OPTIONS: SolveOptions = { tolerance: 1e-3, maxIterations: 300 };
/** Stacks solved before anything is known of the others. */
const FIRST = 3;
/** Stacks whose worst patches settle which cells are worked out. */
const LOOKED_AT = 18;
/** Most stacks solved after them, over the first underlay and over each other one. */
const MORE = 18;
const MORE_ELSEWHERE = 8;
/** Stacks so far apart that each is looked at whether its height moves or not. */
const FAR = 14;
/** Change of any height by the last stack solved at which no further one is needed, as a part of it or of the height below. */
const SETTLED = 0.004;
const LEAST_MM = 0.25;

/**
 * Fills the basis of some underlays. After a few stacks far apart the next is always the one whose height has changed most with the last:
 * what is known worst moves most.
 *
 * @param spread the same pairs in an order that spreads the first few over all
 */
export function takeSnapshots(
  underlays: readonly ReducedUnderlay[],
  pairs: readonly Pair[],
  spread: readonly Pair[],
): void {
  const [first, ...others] = underlays;
  const start = spread.slice(0, FIRST);
  const looked = spread.slice(0, LOOKED_AT).flatMap(({ now, washed }) => [now, washed]);
  for (const pair of start) solve(first, pair);
  first.settleCells(looked, first.cellsNearWorst(looked));
  /** By how much every height moved with the last stack solved; more than any can where nothing has been compared yet. */
  let moved = new Map(spread.map((pair, k) => [pair, 2 - k / spread.length]));
  const settle = (underlay: ReducedUnderlay, taken: Set<Pair>, most: number) => {
    let before = pairs.map((pair) => underlay.roughHeights(pair));
    for (let round = 0; round < most; ) {
      const [moving] = [...moved].reduce(
        (top, next) => (!taken.has(next[0]) && next[1] > top[1] ? next : top),
        [null as Pair | null, SETTLED],
      );
      // What no solve has touched yet does not move: every other one is simply far from those before.
      const far = spread.slice(0, FAR).find((pair) => !taken.has(pair));
      const worst = (round % 2 === 0 && far) || moving || far;
      if (!worst) return;
      taken.add(worst);
      if (!solve(underlay, worst)) continue;
      round++;
      const after = pairs.map((pair) => underlay.roughHeights(pair));
      const was = before;
      const by = (k: number) =>
        Math.max(...after[k].map((h, i) => Math.abs(h - was[k][i]) / Math.max(LEAST_MM, h)));
      moved = new Map(pairs.map((pair, k) => [pair, by(k)]));
      before = after;
    }
  };
  settle(first, new Set(start), MORE);
  // Once more, now that the strains are known well.
  const known = first.cellsNearWorst(looked);
  first.settleCells(looked, known);
  for (const underlay of others) {
    const near = union(known, underlay.cellsNearWorst(looked));
    underlay.settleCells(looked, near);
    settle(underlay, new Set(), MORE_ELSEWHERE);
    underlay.settleCells(looked, near);
  }
}

const union = (a: Int32Array, b: Int32Array): Int32Array => Int32Array.from(new Set([...a, ...b])).sort();

/**
 * Solves in full for one stack as sewn and as laundered.
 * @returns false where the basis lacked nothing
 */
function solve(
  underlay: ReducedUnderlay,
  { now, washed }: Pair,
  options = SNAPSHOT_OPTIONS,
  goodEnough?: number,
): boolean {
  // What laundering dissolves leaves other goods than were sewn on.
  const same = now.goods.sheets.length === washed.goods.sheets.length;
  let grew = !same && underlay.snapshot(now, 'top', options, goodEnough);
  for (const load of LOADS) grew = underlay.snapshot(washed, load, options, goodEnough) || grew;
  return grew;
}

/** Solves for a stack that is to be relied on as closely as for one by itself. */
export function confirmSnapshot(underlay: ReducedUnderlay, pair: Pair): void {
  solve(underlay, pair, SOLVE_OPTIONS, 1);
}
