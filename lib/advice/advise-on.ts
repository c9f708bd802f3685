/** Advice as a person asks for it: what is to be sewn on, the hoop, and how often it is washed. */
import type { Answers } from '../core/answers.js';
import { type Budget, UNBOUNDED } from '../core/budget.js';
import type { HoopField } from '../materials/places.js';
import { type Conditions, type ConditionsRequest, conditionsOf } from '../mechanics/conditions.js';
import { riskBytes } from '../mechanics/memory.js';
import { stackText } from '../mechanics/stack-notation.js';
import { calledColumns } from '../vetting/columns-called.js';
import type { Accepted } from './accepted.js';
import { type Advice, type AdviceInput, advise, type OpenAdvice, openAdvice } from './advise.js';
import type { RankedStacks } from './candidates.js';
import { type Pricing, ratesOf, type ShopWork } from './price.js';

/** What is asked for beside the fabric and its backing. */
export interface AdviceWish extends ConditionsRequest {
  /** The hoop it is sewn in; the smallest that holds the design without one. */
  readonly hoop?: HoopField;
  /** Pieces of the run that is to be priced; none is without it. */
  readonly quantity?: number;
}

/** What the advice needs of a vetted design. */
export type AdvisedDesign = Pick<
  AdviceInput,
  'design' | 'stitches' | 'objects' | 'measures' | 'designMeasures' | 'findings'
> & { readonly budget?: Budget };

/** The figures that the advice goes by. */
export type AdviceFigures = Required<
  Pick<AdviceInput, 'prices' | 'stock' | 'machine' | 'threadUse' | 'catalogue' | 'parameters'>
> & { readonly accept: Accepted; readonly work: ShopWork; readonly pricing: Pricing };

/**
 * What to do about a design on a fabric: every plan that the rules of the trade leave, worked out. With a stack in the wish that stack alone is
 * looked at; `washes` goes before the shop's own.
 * @param answers where the advice is kept
 * @throws LieflatError `unknown-id`, `bad-argument`, `bad-profile` where the profile prices nothing that may be used
 */
export const adviseOn = (
  design: AdvisedDesign,
  wish: AdviceWish,
  figures: AdviceFigures,
  answers?: Answers,
): Advice => withInput(design, wish, figures, (input) => advise(input, answers));

/**
 * Advice in steps, for designs that have to share a stack; each step runs in the budget of the design.
 * @param known how stacks ranked for the same design before, under the same wish and figures
 * @throws LieflatError as {@link adviseOn}
 */
export function openAdviceOn(
  design: AdvisedDesign,
  wish: AdviceWish,
  figures: AdviceFigures,
  known?: RankedStacks,
  answers?: Answers,
): OpenAdvice {
  const { budget = UNBOUNDED } = design;
  const opened = withInput(design, wish, figures, (input) => openAdvice(input, known, answers));
  return {
    ...opened,
    ranked: (stack) => budget.run(() => opened.ranked(stack)),
    on: (...setup) => budget.run(() => opened.on(...setup)),
  };
}

function withInput<T>(
  given: AdvisedDesign,
  wish: AdviceWish,
  figures: AdviceFigures,
  work: (input: AdviceInput) => T,
): T {
  const { budget = UNBOUNDED, design, stitches, objects, measures, designMeasures, findings } = given;
  const { prices, stock, machine, threadUse, catalogue, parameters } = figures;
  const { quantity } = wish;
  const conditions = conditionsOf(wish, catalogue);
  return budget.run(() => {
    budget.reserve(riskBytes(stitches, objects, 1, 1));
    return work({
      ...{ design, stitches, objects, measures, designMeasures, findings },
      ...{ prices, stock, machine, threadUse, catalogue, parameters },
      called: calledColumns(findings),
      conditions,
      accepted: wish.washes === undefined ? figures.accept : { ...figures.accept, washes: wish.washes },
      washesAsked: wish.washes !== undefined,
      hoop: wish.hoop ?? null,
      ...(quantity !== undefined && { run: { quantity, rates: ratesOf(figures) } }),
    });
  });
}

/** The wish for a plan under some conditions: over the backing that was given, or free to choose one. */
export function planWish({ stack, stackGiven, washes, ...rest }: Conditions, hoop?: HoopField): AdviceWish {
  return {
    ...rest,
    ...(stackGiven && { stack: stackText(stack) }),
    ...(washes > 0 && { washes }),
    ...(hoop && { hoop }),
  };
}
