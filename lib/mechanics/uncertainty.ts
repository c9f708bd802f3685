/**
 * Range of the result over the low and high of what it rests on: a first-order estimate. One value at a time goes to its low and
 * to its high, the goods are solved again, and the changes are put together as the root of the sum of their squares, upward and downward
 * apart. Causes are taken to be independent; nothing is sampled. The bed-in length is fitted together with the tension and varies with it, not
 * by itself.
 */

import type { Case, Viewing } from './drivers.js';
import type { SolveOptions } from './field.js';
import { type GoodsChoice, goodsOf } from './goods.js';
import type { MechanicsParameters } from './parameters.js';
import type { PreparedDesign } from './prepared-design.js';
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
/** These change the wrinkles that follow from a response, not the response. */
const WITHOUT_SOLVE = new Set<string>(['tension', 'threshold', 'longestSpan', 'bending of the fabric']);

/** Sensitivities of the design and of every object. */
export function sensitivitiesOf(
  at: Case,
  parameters: MechanicsParameters,
  base: Response,
  view: Viewing,
  options: SolveOptions,
): Sensitivity[][] {
  const { catalogue, design, choice, goods, settings, treatment } = at;
  const seen = (response: Response, under = goods, with_: Settings = settings) =>
    view(wrinklesOf(design, under, with_, response));
  // Changes are measured from a solve to the same looser tolerance, so that they do not hold its error.
  const loose = respond(design, goods, settings, treatment, options);
  const from = { exact: seen(base), loose: seen(loose) };
  const changes: { source: string; levels: number[][] }[] = [];
  interface Change {
    design?: PreparedDesign;
    choice?: GoodsChoice;
    settings?: Settings;
  }
  const vary = (source: string, choose: (level: 'low' | 'high') => Change) => {
    const cheap = WITHOUT_SOLVE.has(source);
    const start = cheap ? from.exact : from.loose;
    const levels = (['low', 'high'] as const).map((level) => {
      const changed = choose(level);
      const under = changed.choice ? goodsOf(catalogue, changed.choice) : goods;
      const with_ = changed.settings ?? settings;
      const response = cheap ? base : respond(changed.design ?? design, under, with_, treatment, options);
      return seen(response, under, with_).map((h, k) => h - start[k]);
    });
    changes.push({ source, levels });
  };
  for (const key of VARIED_SETTINGS)
    vary(key, (level) => ({ settings: { ...settings, [key]: parameters[key][level] } }));
  vary('bending of the fabric', (level) => ({ choice: { ...choice, fabricBendingLevel: level } }));
  vary('stiffness of the fabric', (level) => ({ choice: { ...choice, fabricMembraneLevel: level } }));
  const sheets = choice.stack.map(({ sheet, angleDeg }) => `${sheet}@${angleDeg}`).join('+');
  if (sheets) vary(`stiffness of ${sheets}`, (level) => ({ choice: { ...choice, sheetLevel: level } }));
  if (treatment.laundered > 0) {
    const { thread } = design;
    const shrinking = (value: number) => ({ ...thread, shrinkage: { ...thread.shrinkage, value } });
    vary('shrinkage of the thread', (level) => ({
      design: { ...design, thread: shrinking(thread.shrinkage[level]) },
    }));
  }
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

/**
 * True where which of two results is the lower is within the uncertainty. What both rest on moves both alike and drops out; what
 * only one rests on does not.
 */
export function withinRange(a: Ranked, b: Ranked): boolean {
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
    add(s.atLow - (same?.atLow ?? 0), s.atHigh - (same?.atHigh ?? 0));
  }
  for (const s of of.values()) add(-s.atLow, -s.atHigh);
  const apart = a.wrinkleMm - b.wrinkleMm;
  return apart > 0 ? apart <= Math.sqrt(down) : -apart <= Math.sqrt(up);
}
