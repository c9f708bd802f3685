/** Which stacks are solved in full so that the reduced basis serves all of them. */
import { SOLVE_OPTIONS, type SolveOptions } from './field.js';
import { sameSheets } from './goods.js';
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
/** A stack is looked at again where the last one solved changed its strains by more than this part. */
const SETTLED = 0.003;
/** So many stacks one after the other for which the basis lacks nothing: it lacks nothing for the rest. */
const ENOUGH = 3;

/**
 * Fills the basis of some underlays. After a few stacks far apart the next is the one whose strains have changed most with the last: what is
 * known worst moves most.
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
  settle(first, pairs, spread, new Set(start), MORE);
  const known = first.cellsNearWorst(looked);
  first.settleCells(looked, known);
  for (const underlay of others) {
    settle(underlay, pairs, spread, new Set(), MORE_ELSEWHERE);
    underlay.settleCells(looked, union(known, underlay.cellsNearWorst(looked)));
  }
}

/** Solves for one stack after the other until the basis lacks little for any, or `most` have been solved. */
function settle(
  underlay: ReducedUnderlay,
  pairs: readonly Pair[],
  spread: readonly Pair[],
  taken: Set<Pair>,
  most: number,
): void {
  let before = pairs.map((pair) => underlay.energies(pair));
  let moved = new Map<Pair, number>();
  for (let round = 0, idle = 0; round < most && idle < ENOUGH; ) {
    const [moving] = [...moved].reduce(
      (top, next) => (!taken.has(next[0]) && next[1] > top[1] ? next : top),
      [null as Pair | null, SETTLED],
    );
    // What no solve has touched yet does not move: every other one is simply far from those before.
    const far = spread.slice(0, FAR).find((pair) => !taken.has(pair));
    const next = (round % 2 === 0 && far) || moving || far;
    if (!next) return;
    taken.add(next);
    if (!solve(underlay, next)) {
      idle++;
      continue;
    }
    idle = 0;
    round++;
    const after = pairs.map((pair) => underlay.energies(pair));
    moved = new Map(pairs.map((pair, k) => [pair, lacked(before[k], after[k])]));
    before = after;
  }
}

/** Part of a strain that the last vectors brought, in the sense of energy; a load that is small beside the sewing counts as a part of that. */
function lacked(before: readonly number[], after: readonly number[]): number {
  const [sewing] = after;
  return Math.sqrt(Math.max(0, ...after.map((e, k) => (e - before[k]) / Math.max(e, sewing))));
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
  let grew = !sameSheets(now.goods, washed.goods) && underlay.snapshot(now, 'top', options, goodEnough);
  for (const load of LOADS) grew = underlay.snapshot(washed, load, options, goodEnough) || grew;
  return grew;
}

/** Solves for a stack that is to be relied on as closely as for one by itself. */
export function confirmSnapshot(underlay: ReducedUnderlay, pair: Pair): void {
  solve(underlay, pair, SOLVE_OPTIONS, 1);
}
