/**
 * Range of the result over the low and high of what it rests on: a first-order estimate. One value at a time goes to its low and
 * to its high, the goods are solved again, and the changes are put together as the root of the sum of their squares, upward and downward
 * apart. Causes are taken to be independent; nothing is sampled. The bed-in length is fitted together with the tension and varies with it, not
 * by itself.
 */

import type { Thread } from '../materials/threads.js';
import type { Case, Viewing } from './drivers.js';
import type { SolveOptions } from './field.js';
import { type GoodsChoice, goodsOf } from './goods.js';
import type { MechanicsParameters } from './parameters.js';
import { type Response, respond, type Settings, wrinklesOf } from './response.js';

/** Change of a wrinkle height, mm, when one value goes to its low and to its high. */
export interface Sensitivity {
  /** What was changed. Two results share it where the names are the same. */
  readonly source: string;
  readonly atLow: number;
  readonly atHigh: number;
}

const VARIED_SETTINGS = [
  'tension',
  'threshold',
  'longestSpan',
  'fullTacking',
  'hooped',
  'ownPoints',
] as const;
/** What hangs on where the needle has been: it changes how the sheets bear, not the sheets. */
const TACKING = new Set<string>(['fullTacking', 'hooped', 'ownPoints'] satisfies (keyof Settings)[]);
/** These change the wrinkles that follow from a response, not the response. */
const WITHOUT_SOLVE = new Set<string>(['tension', 'threshold', 'longestSpan', 'bending of the fabric']);

/** What is other than in the case at hand. */
export interface Change {
  readonly choice?: GoodsChoice;
  readonly settings?: Settings;
  readonly thread?: Thread;
}

/** One value at its low and at its high. */
export interface Variation {
  readonly source: string;
  readonly low: Change;
  readonly high: Change;
  /** What has to be worked out again: the wrinkles alone, the strains, or how the sheets bear as well. */
  readonly reach: 'wrinkles' | 'strains' | 'tacking';
}

/** Everything that a result rests on and that is not known for certain. */
export function variationsOf(
  {
    design: { thread },
    choice,
    settings,
    treatment,
  }: Pick<Case, 'design' | 'choice' | 'settings' | 'treatment'>,
  parameters: MechanicsParameters,
): Variation[] {
  const variations: Variation[] = [];
  const vary = (source: string, changed: (level: 'low' | 'high') => Change) =>
    variations.push({
      source,
      low: changed('low'),
      high: changed('high'),
      reach: WITHOUT_SOLVE.has(source) ? 'wrinkles' : TACKING.has(source) ? 'tacking' : 'strains',
    });
  for (const key of VARIED_SETTINGS)
    vary(key, (level) => ({ settings: { ...settings, [key]: parameters[key][level] } }));
  vary('bending of the fabric', (level) => ({ choice: { ...choice, fabricBendingLevel: level } }));
  vary('stiffness of the fabric', (level) => ({ choice: { ...choice, fabricMembraneLevel: level } }));
  // By kind of sheet, not by stack: a second sheet of a kind is as stiff as the first, whatever that is.
  for (const sheet of new Set(choice.stack.map((stacked) => stacked.sheet)))
    vary(`stiffness of ${sheet}`, (level) => ({ choice: { ...choice, sheetLevels: { [sheet]: level } } }));
  if (treatment.laundered > 0)
    vary('shrinkage of the thread', (level) => ({
      thread: { ...thread, shrinkage: { ...thread.shrinkage, value: thread.shrinkage[level] } },
    }));
  return variations;
}

/** Sensitivities of the design and of every object. */
export function sensitivitiesOf(
  at: Case,
  parameters: MechanicsParameters,
  base: Response,
  view: Viewing,
  options: SolveOptions,
): Sensitivity[][] {
  const { catalogue, design, goods, settings, treatment } = at;
  const seen = (response: Response, under = goods, with_: Settings = settings) =>
    view(wrinklesOf(design, under, with_, response));
  // Changes are measured from a solve to the same looser tolerance, so that they do not hold its error.
  const loose = respond(design, goods, settings, treatment, options);
  const from = { exact: seen(base), loose: seen(loose) };
  const changes = variationsOf(at, parameters).map(({ source, low, high, reach }) => {
    const cheap = reach === 'wrinkles';
    const start = cheap ? from.exact : from.loose;
    const levels = [low, high].map((change) => {
      const under = change.choice ? goodsOf(catalogue, change.choice) : goods;
      const with_ = change.settings ?? settings;
      const changed = change.thread ? { ...design, thread: change.thread } : design;
      const response = cheap ? base : respond(changed, under, with_, treatment, options);
      return seen(response, under, with_).map((h, k) => h - start[k]);
    });
    return { source, levels };
  });
  return from.exact.map((_, k) =>
    changes.map(({ source, levels: [low, high] }) => ({ source, atLow: low[k], atHigh: high[k] })),
  );
}

/** Low and high of a wrinkle height, mm. */
export function rangeOf(
  wrinkleMm: number,
  sensitivities: readonly Sensitivity[],
): [low: number, high: number] {
  let down = 0;
  let up = 0;
  for (const { atLow, atHigh } of sensitivities) {
    down += Math.min(atLow, atHigh, 0) ** 2;
    up += Math.max(atLow, atHigh, 0) ** 2;
  }
  return [Math.max(0, wrinkleMm - Math.sqrt(down)), wrinkleMm + Math.sqrt(up)];
}

/** A result that can be ranked. */
export interface Ranked {
  readonly wrinkleMm: number;
  readonly sensitivities: readonly Sensitivity[];
}

/** Heights below this look flat either way, mm: a quarter of the way from grade 5 to 4. Our own assumption. */
const LOOKS_FLAT_MM = 0.05;

/** Height on the scale on which two are compared: that of ratios, but below what looks flat that of differences. */
const onScale = (wrinkleMm: number): number => Math.log(Math.max(0, wrinkleMm) + LOOKS_FLAT_MM);

/**
 * True where which of two results is the lower is within the uncertainty. They are compared by their ratio: what both rest on mostly
 * makes both higher or both lower by the same part, and so drops out; what only one rests on does not.
 */
export function withinRange(a: Ranked, b: Ranked): boolean {
  const moved = ({ wrinkleMm }: Ranked, change = 0): number =>
    onScale(wrinkleMm + change) - onScale(wrinkleMm);
  const of = new Map(b.sensitivities.map((s) => [s.source, s]));
  let down = 0;
  let up = 0;
  const add = (low: number, high: number) => {
    down += Math.min(low, high, 0) ** 2;
    up += Math.max(low, high, 0) ** 2;
  };
  for (const s of a.sensitivities) {
    const same = of.get(s.source);
    of.delete(s.source);
    add(moved(a, s.atLow) - moved(b, same?.atLow), moved(a, s.atHigh) - moved(b, same?.atHigh));
  }
  for (const s of of.values()) add(-moved(b, s.atLow), -moved(b, s.atHigh));
  const apart = onScale(a.wrinkleMm) - onScale(b.wrinkleMm);
  return apart > 0 ? apart <= Math.sqrt(down) : -apart <= Math.sqrt(up);
}
