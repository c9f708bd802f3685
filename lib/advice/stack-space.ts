/** Every stack of backing that the rules of the trade leave for a job. */
import { LieflatError } from '../core/errors.js';
import type { Catalogue } from '../materials/catalogue.js';
import type { Sheet } from '../materials/sheets.js';
import { compliance, lamina, stripStiffness } from '../mechanics/laminate.js';
import type { StackedSheet } from '../mechanics/layup.js';
import type { AdviceJob } from './job.js';
import type { Why } from './reason.js';
import { RULE_LIMITS } from './rule-limits.js';
import { STACK_RULES } from './rules/rules.js';

export type { StackRule } from './rules/rule.js';

export const MOST_SHEETS = 3;
const STEP_DEG = 15;
/** Stiffness along and across counts as the same up to this part of it. */
const EVEN = 0.01;

/**
 * Every stack of up to three sheets, each at 0, 45 or 90 degrees, that all rules allow. Stacks that are mechanically the same are listed once:
 *
 * - the order of the sheets does not matter, for plies slide on each other and their stiffnesses add; it is that of {@link inReadingOrder};
 * - the angles of a sheet are those of {@link anglesOf}: one where its stiffness hardly depends on direction, two (0 and 45) where it is
 *   alike along and across, all three else.
 *
 * @param priced which sheets have a price, without which a stack cannot be ranked
 * @param stocked which sheets the shop keeps
 * @returns the stacks, those of fewer sheets first, never none; and what the rules that ruled something out rest on
 * @throws LieflatError `bad-profile` where nothing is left
 */
export function allowedStacks(
  job: AdviceJob,
  priced: (sheetId: string) => boolean = () => true,
  stocked: (sheetId: string) => boolean = () => true,
): { stacks: readonly (readonly StackedSheet[])[]; why: readonly Why[] } {
  let left = everyStack(job.catalogue);
  const why: Why[] = [];
  for (const rule of STACK_RULES) {
    const ruling = rule.on(job);
    if (ruling === null) continue;
    const allowed = left.filter((stack) => ruling.allows(stack));
    // That no backing is no backing need not be told.
    if (ruling.why !== null && left.some((stack) => stack.length > 0 && !allowed.includes(stack)))
      why.push(ruling.why);
    left = allowed;
  }
  const withPrices = left.filter((stack) => stack.every(({ sheet }) => priced(sheet)));
  const stacks = withPrices.filter((stack) => stack.every(({ sheet }) => stocked(sheet)));
  if (withPrices.length === 0) throw nothingLeft(job, left);
  if (stacks.length === 0) throw nothingInStock(job, withPrices);
  return { stacks, why };
}

/**
 * What the rules say of one stack that was asked for: those that it breaks, then those it keeps that speak of what is in it.
 * Of no backing at all only what it breaks.
 */
export function rulesOn(job: AdviceJob, stack: readonly StackedSheet[]): Why[] {
  const told = STACK_RULES.flatMap((rule) => {
    const ruling = rule.on(job);
    if (ruling === null || ruling.why === null || ruling.about?.(stack) === false) return [];
    return [{ why: ruling.why, kept: ruling.allows(stack) }];
  });
  const broken = told.flatMap(({ why, kept }): Why[] =>
    kept ? [] : [{ code: 'against-rule', params: { rule: why } }],
  );
  const kept = told.flatMap(({ why, kept }) => (kept && why.code !== 'some-backing' ? [why] : []));
  return stack.length === 0 ? broken : [...broken, ...kept];
}

function nothingInStock(
  { fabric }: AdviceJob,
  [simplest]: readonly (readonly StackedSheet[])[],
): LieflatError {
  const ids = [...new Set(simplest.map(({ sheet }) => sheet))];
  return new LieflatError({
    code: 'bad-profile',
    place: 'stock',
    what: `holds nothing that may lie behind ${fabric.name}`,
    todo: `add ${ids.join(' and ')} to it, or name a backing with --stack`,
  });
}

function nothingLeft({ fabric }: AdviceJob, unpriced: readonly (readonly StackedSheet[])[]): LieflatError {
  if (unpriced.length === 0)
    return new LieflatError({
      code: 'bad-profile',
      place: 'catalogue.sheets',
      what: `holds nothing that may lie behind ${fabric.name}`,
      todo: 'add a sheet that suits it, or correct what is said of the sheets there',
    });
  const ids = [...new Set(unpriced[0].map(({ sheet }) => sheet))];
  return new LieflatError({
    code: 'bad-profile',
    place: 'prices.sheets',
    what: `prices nothing that may lie behind ${fabric.name}`,
    todo: `give a price for ${ids.join(' and ')}`,
  });
}

/** Every stack of up to three sheets of a catalogue, none left out, those alike listed once. */
export function everyStack(catalogue: Catalogue): StackedSheet[][] {
  const single = Object.values(catalogue.sheets).flatMap((sheet) =>
    anglesOf(sheet).map((angleDeg) => ({ sheet: sheet.id, angleDeg })),
  );
  const stacks: StackedSheet[][] = [[]];
  const grow = (stack: StackedSheet[], from: number): void => {
    if (stack.length === MOST_SHEETS) return;
    for (let i = from; i < single.length; i++) {
      const next = [...stack, single[i]];
      stacks.push(next);
      grow(next, i);
    }
  };
  grow([], 0);
  return stacks.map((stack) => inReadingOrder(stack, catalogue)).sort((a, b) => a.length - b.length);
}

/** The angles of a sheet that differ, of 0, 45 and 90 degrees. */
export function anglesOf(sheet: Sheet): number[] {
  const ratio = stiffestOverSoftest(sheet);
  if (ratio < RULE_LIMITS.turnedFrom.value) return [0];
  const alike = (a: number, b: number): boolean => Math.abs(a - b) <= EVEN * Math.max(a, b);
  const even =
    alike(sheet.membraneAlong.value, sheet.membraneAcross.value) &&
    alike(sheet.bendingAlong.value, sheet.bendingAcross.value);
  return even ? [0, 45] : [0, 45, 90];
}

/** How many times stiffer a narrow strip of the sheet is in its stiffest direction than in its softest. */
export function stiffestOverSoftest(sheet: Sheet): number {
  const k = compliance(
    lamina({
      along: sheet.membraneAlong.value,
      across: sheet.membraneAcross.value,
      shear: sheet.membraneShear.value,
      poisson: sheet.poisson.value,
    }),
  );
  let [softest, stiffest] = [Number.POSITIVE_INFINITY, 0];
  for (let deg = 0; deg <= 90; deg += STEP_DEG) {
    const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
    const stiffness = stripStiffness(k, c * c, s * c);
    softest = Math.min(softest, stiffness);
    stiffest = Math.max(stiffest, stiffness);
  }
  return stiffest / softest;
}

/**
 * A stack as an operator lays it, from the garment outward: woven sheets first, then the others as the catalogue has them, turned ones after
 * unturned ones of the same kind; but where there are two woven sheets the last of them goes outermost, and the others between.
 */
export function inReadingOrder(stack: readonly StackedSheet[], { sheets }: Catalogue): StackedSheet[] {
  const ids = Object.keys(sheets);
  const sorted = stack.toSorted(
    (a, b) => a.angleDeg - b.angleDeg || ids.indexOf(a.sheet) - ids.indexOf(b.sheet),
  );
  const isWoven = ({ sheet }: StackedSheet): boolean => sheets[sheet].kind === 'woven';
  const woven = sorted.filter(isWoven);
  const others = sorted
    .filter((s) => !isWoven(s))
    .sort((a, b) => ids.indexOf(a.sheet) - ids.indexOf(b.sheet) || a.angleDeg - b.angleDeg);
  const outermost = woven.length > 1 ? woven.slice(-1) : [];
  return [...woven.slice(0, woven.length - outermost.length), ...others, ...outermost];
}
