/**
 * One setup for all designs that are sewn on the same fabric, so that a machine is set up once: the cheapest that keeps every line within the shop's
 * standard, or the one whose worst line comes closest. Stacks are ranked from the rough mesh, cheapest first, and no dearer one before it is asked
 * for; few are confirmed on the fine mesh, the worst line first.
 */
import type { RankedPlan, StackOffer } from '../advice/candidates.js';
import { SURE } from '../advice/meets.js';
import { byCost, money } from '../advice/pareto-front.js';
import { SAME_CHANCE, unusual } from '../advice/search.js';
import type { Needle } from '../materials/needles.js';
import type { StackedSheet } from '../mechanics/layup.js';
import { stackText } from '../mechanics/stack-notation.js';

/** A line with the stacks that the rules leave, and what its design asks for whatever lies behind it. */
export interface OfferedLine {
  readonly quantity: number;
  readonly offers: readonly StackOffer[];
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
  readonly order: number;
}

/** What is to be found out of a line; null where it could not be worked out, which counts for nothing. */
export interface OfLine<L> {
  /** How one of its stacks ranks, by its text. */
  plansOn(line: L, stack: string): Promise<readonly RankedPlan[] | null>;
  /** Part of the draws in which it keeps the standard on a setup. */
  chanceOf(line: L, setup: OrderSetup): Promise<number | null>;
}

/**
 * Chooses the setup.
 *
 * @param lines at least one, all of one fabric
 */
export async function sharedSetup<L extends OfferedLine>(
  lines: readonly L[],
  needles: Readonly<Record<string, Needle>>,
  of: OfLine<L>,
): Promise<OrderSetup> {
  const tried: { option: SetupCandidate<L>; chance: number }[] = [];
  const confirm = async (option: SetupCandidate<L>): Promise<boolean> => {
    const chance = await leastChance(option, of);
    tried.push({ option, chance });
    return chance >= SURE;
  };
  const looked: SetupCandidate<L>[] = [];
  let sure = false;
  for await (const option of cheapestFirst(optionsFor(lines, needles), of)) {
    looked.push(option);
    if (sure || !option.likely || tried.length === MOST_TRIED) continue;
    sure = await confirm(option);
    if (sure) break;
  }
  const flattest = looked.reduce((best, one) => (highest(one) < highest(best) ? one : best));
  if (!sure && tried.every(({ option }) => option !== flattest)) await confirm(flattest);
  const most = Math.max(...tried.map(({ chance }) => chance));
  if (most === 0) return flattest.setup;
  const near = tried.filter(({ chance }) => chance >= most - SAME_CHANCE);
  return near.map(({ option }) => option).toSorted(byTotal)[0].setup;
}

/** A stack that most lines may be sewn on. */
interface SetupOption<L> {
  readonly setup: OrderSetup;
  readonly lines: readonly L[];
  /** What all pieces cost at least. */
  readonly leastTotal: number;
  /** Among those that are alike in everything. */
  readonly order: number;
}

function optionsFor<L extends OfferedLine>(
  lines: readonly L[],
  needles: Readonly<Record<string, Needle>>,
): SetupOption<L>[] {
  const allowed = new Map<string, { stack: readonly StackedSheet[]; lines: L[]; leastTotal: number }>();
  for (const line of lines)
    for (const { stack, leastTotal } of line.offers) {
      const text = stackText(stack);
      const known = allowed.get(text) ?? { stack, lines: [], leastTotal: 0 };
      known.lines.push(line);
      known.leastTotal += line.quantity * leastTotal;
      allowed.set(text, known);
    }
  const most = Math.max(...[...allowed.values()].map((one) => one.lines.length));
  const tools = toolsFor(lines, needles);
  return [...allowed]
    .filter(([, one]) => one.lines.length === most)
    .map(([text, { stack, ...option }], order) => ({
      ...option,
      setup: { stack, stackText: text, ...tools },
      order,
    }));
}

/** The options in the order of {@link byTotal}: one is ranked once nothing that costs less for sure is left before it. */
async function* cheapestFirst<L extends OfferedLine>(
  options: readonly SetupOption<L>[],
  of: OfLine<L>,
): AsyncGenerator<SetupCandidate<L>> {
  let waiting = options.toSorted((a, b) => a.leastTotal - b.leastTotal);
  let ranked: SetupCandidate<L>[] = [];
  while (waiting.length + ranked.length > 0) {
    const upTo = money(ranked.length > 0 ? ranked[0].total : waiting[0].leastTotal);
    const due = waiting.filter(({ leastTotal }) => money(leastTotal) <= upTo);
    if (due.length > 0) {
      waiting = waiting.filter((option) => !due.includes(option));
      const more = await Promise.all(due.map((option) => rankedOn(option, of)));
      ranked = [...ranked, ...more].toSorted(byTotal);
    } else {
      yield ranked[0];
      ranked = ranked.slice(1);
    }
  }
}

/** What all lines come to on a stack. */
async function rankedOn<L extends OfferedLine>(
  { setup, lines, order }: SetupOption<L>,
  { plansOn }: OfLine<L>,
): Promise<SetupCandidate<L>> {
  const all = await Promise.all(
    lines.map(async (line) => ({ line, plans: await plansOn(line, setup.stackText) })),
  );
  const plans = all.flatMap(({ line, plans }) => (plans ? [{ line, plan: planFor(plans) }] : []));
  const { stack } = setup;
  return {
    setup,
    total: plans.reduce((sum, { line, plan }) => sum + line.quantity * plan.total, 0),
    likely: plans.every(({ plan }) => plan.likely),
    worstFirst: plans
      .map(({ line, plan }) => ({ line, heightMm: heightOf(plan) }))
      .toSorted((a, b) => b.heightMm - a.heightMm),
    effort: 10 * stack.length + stack.filter(({ angleDeg }) => angleDeg !== 0).length,
    order,
  };
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
function toolsFor(lines: readonly OfferedLine[], needles: Readonly<Record<string, Needle>>) {
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
  { chanceOf }: OfLine<L>,
): Promise<number> {
  const [worst, ...others] = worstFirst;
  const first = (worst && (await chanceOf(worst.line, setup))) ?? 1;
  if (first < SURE) return first;
  const rest = await Promise.all(others.map(({ line }) => chanceOf(line, setup)));
  return Math.min(first, ...rest.map((chance) => chance ?? 1));
}

const heightOf = ({ nowMm, washedMm }: RankedPlan): number => Math.max(nowMm, washedMm);
const highest = <L>({ worstFirst }: SetupCandidate<L>): number => worstFirst[0]?.heightMm ?? 0;

const byTotal = <L>(a: SetupCandidate<L>, b: SetupCandidate<L>): number =>
  money(a.total) - money(b.total) ||
  unusual(a.setup) - unusual(b.setup) ||
  byCost(
    { total: 0, nowMm: highest(a), washedMm: highest(a), effort: a.effort },
    { total: 0, nowMm: highest(b), washedMm: highest(b), effort: b.effort },
  ) ||
  a.order - b.order;
