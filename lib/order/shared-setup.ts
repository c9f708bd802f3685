/**
 * One setup for all designs that are sewn on the same fabric, so that a machine is set up once: the cheapest that keeps every line within the shop's
 * standard, or the one whose worst line comes closest. All are ranked from the rough mesh; few are confirmed on the fine one, the worst line first.
 */
import type { RankedPlan, StackChoice } from '../advice/candidates.js';
import { SURE } from '../advice/meets.js';
import { byCost, money } from '../advice/pareto-front.js';
import { SAME_CHANCE, unusual } from '../advice/search.js';
import type { Needle } from '../materials/needles.js';
import type { StackedSheet } from '../mechanics/layup.js';
import { stackText } from '../mechanics/stack-notation.js';

/** A line whose stacks are ranked, with what its design asks for whatever lies behind it. */
export interface RankedLine {
  readonly quantity: number;
  readonly ranked: readonly StackChoice[];
  readonly topping: string | null;
  readonly needle: string;
  readonly speedSpm: number;
}

/** What is loaded for all lines of a fabric. */
export interface OrderSetup {
  readonly stack: readonly StackedSheet[];
  /** As `stackText` sets it. */
  readonly stackText: string;
  readonly topping: string | null;
  readonly needle: string;
  /** The slowest that a line asks for. */
  readonly speedSpm: number;
}

/** Stacks that are confirmed because they most likely serve; the flattest is tried beside them. */
const MOST_TRIED = 3;

interface SetupCandidate<L> {
  readonly setup: OrderSetup;
  readonly total: number;
  readonly likely: boolean;
  /** Lines by the height of their wrinkles, the highest first, mm. */
  readonly worstFirst: readonly { readonly line: L; readonly heightMm: number }[];
  readonly effort: number;
}

/**
 * Chooses the setup.
 *
 * @param lines at least one, all of one fabric
 * @param chanceOf part of the draws in which a line keeps the standard on a setup; null where it could not be worked out, which counts for nothing
 */
export async function sharedSetup<L extends RankedLine>(
  lines: readonly L[],
  needles: Readonly<Record<string, Needle>>,
  chanceOf: (line: L, setup: OrderSetup) => Promise<number | null>,
): Promise<OrderSetup> {
  const options = optionsFor(lines, needles).toSorted(byTotal);
  const flattest = options.reduce((best, one) => (highest(one) < highest(best) ? one : best));
  const tried: { option: SetupCandidate<L>; chance: number }[] = [];
  const first = options.filter(({ likely }) => likely).slice(0, MOST_TRIED);
  for (const option of new Set([...first, flattest])) {
    const chance = await leastChance(option, chanceOf);
    tried.push({ option, chance });
    if (chance >= SURE) break;
  }
  const most = Math.max(...tried.map(({ chance }) => chance));
  if (most === 0) return flattest.setup;
  const near = tried.filter(({ chance }) => chance >= most - SAME_CHANCE);
  return near.map(({ option }) => option).toSorted(byTotal)[0].setup;
}

/** The stacks that most lines may be sewn on, each with what all of them come to. */
function optionsFor<L extends RankedLine>(
  lines: readonly L[],
  needles: Readonly<Record<string, Needle>>,
): SetupCandidate<L>[] {
  const allowed = new Map<string, { stack: readonly StackedSheet[]; plans: Map<L, RankedPlan> }>();
  for (const line of lines)
    for (const { stack, plans } of line.ranked) {
      const text = stackText(stack);
      const known = allowed.get(text) ?? { stack, plans: new Map<L, RankedPlan>() };
      known.plans.set(line, planFor(plans));
      allowed.set(text, known);
    }
  const most = Math.max(...[...allowed.values()].map(({ plans }) => plans.size));
  const tools = toolsFor(lines, needles);
  return [...allowed]
    .filter(([, { plans }]) => plans.size === most)
    .map(([text, { stack, plans }]) => ({
      setup: { stack, stackText: text, ...tools },
      total: [...plans].reduce((sum, [{ quantity }, { total }]) => sum + quantity * total, 0),
      likely: [...plans.values()].every(({ likely }) => likely),
      worstFirst: [...plans]
        .map(([line, plan]) => ({ line, heightMm: heightOf(plan) }))
        .toSorted((a, b) => b.heightMm - a.heightMm),
      effort: 10 * stack.length + stack.filter(({ angleDeg }) => angleDeg !== 0).length,
    }));
}

/** Of the underlays on a stack the cheapest that most likely serves, else the flattest. */
function planFor(plans: readonly RankedPlan[]): RankedPlan {
  const likely = plans.filter((plan) => plan.likely);
  if (likely.length > 0)
    return likely.reduce((best, one) => (money(one.total) < money(best.total) ? one : best));
  return plans.reduce((best, one) => (heightOf(one) < heightOf(best) ? one : best));
}

/**
 * A machine that sews line after line keeps its needle and its speed: the needle that most pieces call for, of two the stouter, and the slowest
 * speed. A line of small letters does not change the needle of all others.
 */
function toolsFor(lines: readonly RankedLine[], needles: Readonly<Record<string, Needle>>) {
  const pieces = new Map<string, number>();
  for (const { needle, quantity } of lines) pieces.set(needle, (pieces.get(needle) ?? 0) + quantity);
  const [[usual]] = [...pieces].toSorted(
    ([one, of], [other, others]) => others - of || needles[other].nm - needles[one].nm,
  );
  return {
    topping: lines.find(({ topping }) => topping !== null)?.topping ?? null,
    needle: usual,
    speedSpm: Math.min(...lines.map(({ speedSpm }) => speedSpm)),
  };
}

/** The least of all lines; where the worst misses already, its own. */
async function leastChance<L>(
  { setup, worstFirst }: SetupCandidate<L>,
  chanceOf: (line: L, setup: OrderSetup) => Promise<number | null>,
): Promise<number> {
  const [worst, ...others] = worstFirst;
  const first = (await chanceOf(worst.line, setup)) ?? 1;
  if (first < SURE) return first;
  const rest = await Promise.all(others.map(({ line }) => chanceOf(line, setup)));
  return Math.min(first, ...rest.map((chance) => chance ?? 1));
}

const heightOf = ({ nowMm, washedMm }: RankedPlan): number => Math.max(nowMm, washedMm);
const highest = <L>({ worstFirst }: SetupCandidate<L>): number => worstFirst[0].heightMm;

const byTotal = <L>(a: SetupCandidate<L>, b: SetupCandidate<L>): number =>
  money(a.total) - money(b.total) ||
  unusual(a.setup) - unusual(b.setup) ||
  byCost(
    { total: 0, nowMm: highest(a), washedMm: highest(a), effort: a.effort },
    { total: 0, nowMm: highest(b), washedMm: highest(b), effort: b.effort },
  );
