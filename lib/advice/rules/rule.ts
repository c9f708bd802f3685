import { find } from '../../materials/catalogue.js';
import type { Sheet } from '../../materials/sheets.js';
import type { StackedSheet } from '../../mechanics/layup.js';
import type { AdviceJob } from '../job.js';
import type { Why } from '../reason.js';

/** One rule of the trade about what lies behind the fabric. The order of the sheets does not bear on it. */
export interface StackRule {
  readonly id: string;
  readonly basis: string;
  /** Null where the rule has nothing to say about the job. */
  on(job: AdviceJob): RuleOnJob | null;
}

export interface RuleOnJob {
  allows(stack: readonly StackedSheet[]): boolean;
  /** What is asked for and what it rests on; null where that goes without saying. */
  readonly why: Why | null;
  /** Whether it speaks of what is in a stack; of any without it. */
  about?(stack: readonly StackedSheet[]): boolean;
}

/** The sheets of a stack as the catalogue has them. */
export const sheetsOf = ({ catalogue }: AdviceJob, stack: readonly StackedSheet[]): Sheet[] =>
  stack.map(({ sheet }) => find(catalogue, 'sheets', sheet));

/** A rule that looks at every sheet by itself. */
export const everySheet = (job: AdviceJob, why: Why, test: (sheet: Sheet) => boolean): RuleOnJob => ({
  allows: (stack) => sheetsOf(job, stack).every(test),
  why,
});

/** A rule against some sheets: of a stack without one it has nothing to say. */
export function forbidding(job: AdviceJob, why: Why, test: (sheet: Sheet) => boolean): RuleOnJob {
  const allows: RuleOnJob['allows'] = (stack) => !sheetsOf(job, stack).some(test);
  return { allows, why, about: (stack) => !allows(stack) };
}

/** How many sheets of a stack pass. */
export const countOf = (
  job: AdviceJob,
  stack: readonly StackedSheet[],
  test: (sheet: Sheet, angleDeg: number) => boolean,
): number => sheetsOf(job, stack).filter((sheet, i) => test(sheet, stack[i].angleDeg)).length;
