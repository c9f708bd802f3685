/** What the trade says of puckering (common practice, no source), as checks that no fit saw: figures of words, columns and a flag, and where each holds. */

import type { StackedSheet } from '../../lib/mechanics/goods.js';
import { type MechanicsParameters, PARAMETERS } from '../../lib/mechanics/parameters.js';
import type { Puckering } from '../../lib/mechanics/puckering.js';
import type { Treatment } from '../../lib/mechanics/release.js';
import { exactGradeOf, scoreOf } from '../../lib/mechanics/score.js';
import { settingsOf } from '../../lib/mechanics/settings.js';
import type { UnderlayKind } from '../../lib/segment/objects.js';
import { FILL, rectangle, Sewing, type TestDesign } from '../mechanics/designs.js';
import { BONDED, SANDWICH, TWO_BONDED, WOVEN, WOVEN_CROSSED, WOVEN_SAME } from '../mechanics/stacks.js';
import { relaidAll } from '../stitch/relaid-all.js';
import { columnPulls } from './fit-sewing.js';
import { meshed, puckeringOf } from './puckering-of.js';
import { FITTED, type WordPlan, wordOf } from './words.js';

export interface Fact {
  readonly name: string;
  readonly limits: string;
  /** What came out, in the words of the limits. */
  readonly figure: string;
  readonly holds: boolean;
  /** Words for which it holds, of how many. */
  readonly words?: readonly [holding: number, all: number];
}

const THIN = 'performance-knit-thin';
const EIGHT_PERCENT: Treatment = { hoopStretch: 0.08, laundered: 0 };

/** Everything that is asked of one word. Heights in mm, falls as parts of one. */
export interface WordFigures {
  readonly plan: WordPlan;
  readonly base: Puckering;
  readonly fill: Puckering;
  readonly edge: Puckering;
  readonly woven: Puckering;
  readonly same: Puckering;
  readonly crossed: Puckering;
  readonly sandwich: Puckering;
  readonly twoBonded: Puckering;
  readonly both: Puckering;
  readonly stretched: Puckering;
  /** Over one bonded sheet. */
  readonly on: Readonly<Record<string, Puckering>>;
  readonly washedOne: Puckering;
  readonly washedTwo: Puckering;
}

export const FABRICS = ['canvas-tote', 'twill', 'poplin', 'pique-knit', 'jersey-knit', 'performance-knit'];

export function wordFigures(plan: WordPlan, parameters: MechanicsParameters = PARAMETERS): WordFigures {
  const settings = settingsOf(parameters);
  const laid = (underlay: UnderlayKind) => wordOf(plan, underlay);
  const double = laid('double-zigzag');
  const asSewn = meshed(double);
  const light = meshed(relaidAll(double, 'fill'));
  const solve = (
    design: ReturnType<typeof meshed>,
    stack: readonly StackedSheet[],
    fabric = THIN,
    treatment?: Treatment,
  ) => puckeringOf(design, fabric, stack, settings, treatment);
  const eight = { hoopStretch: 0, laundered: 1 - (1 - settings.firstWash) ** 8 };
  return {
    plan,
    base: solve(asSewn, BONDED),
    fill: solve(light, BONDED),
    edge: solve(meshed(relaidAll(double, 'edge-run')), BONDED),
    woven: solve(asSewn, WOVEN),
    same: solve(asSewn, WOVEN_SAME),
    crossed: solve(asSewn, WOVEN_CROSSED),
    sandwich: solve(asSewn, SANDWICH),
    twoBonded: solve(asSewn, TWO_BONDED),
    both: solve(light, WOVEN_CROSSED),
    stretched: solve(asSewn, BONDED, THIN, EIGHT_PERCENT),
    on: Object.fromEntries(FABRICS.map((fabric) => [fabric, solve(asSewn, BONDED, fabric)])),
    washedOne: solve(asSewn, BONDED, 'pique-knit', eight),
    washedTwo: solve(asSewn, TWO_BONDED, 'pique-knit', eight),
  };
}

const fall = (now: Puckering, before: Puckering): number => now.heightMm / before.heightMm - 1;
const percent = (part: number): string => `${Math.round(100 * part)} %`;
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
const pull = ({ narrowingMm }: Puckering): number => mean(narrowingMm);
const grade = ({ heightMm }: Puckering): number =>
  exactGradeOf(scoreOf(heightMm, PARAMETERS.scoreHalf.value));
/** A is at most as bad as B: by height, by how near a wrinkle is where both lie flat, then by pull-in. */
const flatter = (a: Puckering, b: Puckering, times = 1): boolean => {
  if (a.heightMm > 0.005 || b.heightMm > 0.005) return a.heightMm <= times * b.heightMm + 1e-9;
  return pull(a) <= times * pull(b);
};

/** Facts about words: each is judged on every word, and holds where it does on three quarters of them and on the middle one. */
interface WordFact {
  readonly name: string;
  readonly limits: string;
  readonly figure: (w: WordFigures) => number;
  readonly shown: (middle: number) => string;
  readonly holds: (w: WordFigures) => boolean;
}
const within = (low: number, high: number) => (v: number) => v >= low && v <= high;
const fact = (
  name: string,
  limits: string,
  figure: (w: WordFigures) => number,
  holds: (w: WordFigures) => boolean,
  shown: (v: number) => string = (v) => v.toFixed(2),
): WordFact => ({ name, limits, figure, holds, shown });
const falling = (name: string, low: number, high: number, of: (w: WordFigures) => Puckering): WordFact =>
  fact(
    name,
    `${percent(low)} to ${percent(high)}`,
    (w) => fall(of(w), w.base),
    (w) => within(low, high)(fall(of(w), w.base)),
    percent,
  );

const WORD_FACTS: readonly WordFact[] = [
  fact(
    'canvas ≤ twill ≤ poplin, over one bonded sheet',
    'in this order',
    (w) => pull(w.on.poplin) / pull(w.on['canvas-tote']),
    ({ on }) => flatter(on['canvas-tote'], on.twill) && flatter(on.twill, on.poplin),
    (v) => `pull-in of poplin ${v.toFixed(1)} × canvas`,
  ),
  fact(
    'polos < performance < thin performance knit',
    'in this order',
    (w) => w.on['performance-knit'].heightMm / w.base.heightMm,
    ({ on, base }) =>
      flatter(on['pique-knit'], on['performance-knit']) &&
      flatter(on['jersey-knit'], on['performance-knit']) &&
      flatter(on['performance-knit'], base),
    (v) => `performance ${v.toFixed(2)} × thin`,
  ),
  fact(
    'piqué polo on one 2.5 oz sheet',
    'grade 3.5 or better',
    (w) => grade(w.on['pique-knit']),
    (w) => grade(w.on['pique-knit']) >= 3.5,
    (v) => `grade ${v.toFixed(1)}`,
  ),
  fact(
    'jersey polo on one 2.5 oz sheet',
    'grade 3 or better',
    (w) => grade(w.on['jersey-knit']),
    (w) => grade(w.on['jersey-knit']) >= 3,
    (v) => `grade ${v.toFixed(1)}`,
  ),
  falling('light fill for double zigzag', -0.6, -0.3, (w) => w.fill),
  falling('one woven sheet for one bonded', -0.6, -0.3, (w) => w.woven),
  falling('light fill and two woven at 0/45', -0.99, -0.7, (w) => w.both),
  fact(
    'two woven at 0/45 against 0/0',
    'at most 1.02 ×',
    (w) => w.crossed.heightMm / w.same.heightMm,
    (w) => flatter(w.crossed, w.same, 1.02),
  ),
  fact(
    'two woven at 0/45 against one',
    'less',
    (w) => w.crossed.heightMm / w.woven.heightMm,
    (w) => w.crossed.heightMm < w.woven.heightMm,
  ),
  fact(
    'a bonded sheet between them against 0/45',
    'at most 1.02 ×',
    (w) => w.sandwich.heightMm / w.crossed.heightMm,
    (w) => flatter(w.sandwich, w.crossed, 1.02),
  ),
  fact(
    'one woven against two bonded',
    'at most 1.1 ×',
    (w) => w.woven.heightMm / w.twoBonded.heightMm,
    (w) => flatter(w.woven, w.twoBonded, 1.1),
  ),
  fact(
    'edge run against double zigzag',
    'less',
    (w) => w.edge.heightMm / w.base.heightMm,
    (w) => w.edge.heightMm < w.base.heightMm,
  ),
  fact(
    '8 % more stretch in the hoop',
    'at least 1.3 ×',
    (w) => w.stretched.heightMm / w.base.heightMm,
    (w) => w.stretched.heightMm >= 1.3 * w.base.heightMm,
  ),
  fact(
    'piqué after 8 launderings: two bonded against one',
    'flatter',
    (w) => w.washedTwo.heightMm / w.washedOne.heightMm,
    (w) => flatter(w.washedTwo, w.washedOne),
  ),
  fact(
    'piqué over one bonded sheet: after 8 launderings against new',
    'more',
    (w) => w.washedOne.heightMm - w.on['pique-knit'].heightMm,
    (w) => w.washedOne.heightMm > w.on['pique-knit'].heightMm,
    (v) => `${v.toFixed(2)} mm more`,
  ),
];

/** A filled flag 110 mm wide and 84 mm high, in stitches of 4 mm. */
export const flag = (): TestDesign => rectangle(new Sewing(), 0, 0, 110, 84, FILL).done();

function columnFacts(parameters: MechanicsParameters): Fact[] {
  const settings = settingsOf(parameters);
  const ladder = (fabric: string, low: readonly number[], high: readonly number[]): Fact => {
    const pulls = columnPulls(settings, fabric);
    const rising = pulls.every((mm, k) => k === 0 || mm > pulls[k - 1]);
    return {
      name: `pull-in of columns 2/3/4/6/8 mm wide on ${fabric}`,
      limits: `${low.join('/')} to ${high.join('/')} mm, rising, 8 mm at most 4.5 × 3 mm`,
      figure: `${pulls.map((mm) => mm.toFixed(2)).join('/')} mm`,
      holds: rising && pulls[4] <= 4.5 * pulls[1] && pulls.every((mm, k) => mm >= low[k] && mm <= high[k]),
    };
  };
  return [
    ladder('pique-knit', [0.05, 0.08, 0.12, 0.2, 0.25], [0.25, 0.35, 0.45, 0.6, 0.75]),
    ladder('twill', [0.02, 0.03, 0.05, 0.08, 0.1], [0.2, 0.25, 0.3, 0.4, 0.5]),
  ];
}

function flagFact(parameters: MechanicsParameters): Fact {
  const settings = settingsOf(parameters);
  const filled = puckeringOf(meshed(flag()), THIN, BONDED, settings).heightMm;
  const name = puckeringOf(meshed(wordOf(FITTED, 'double-zigzag')), THIN, BONDED, settings).heightMm;
  return {
    name: 'filled flag 110 × 84 mm against a bold 19 mm name',
    limits: 'below it',
    figure: `${filled.toFixed(2)} against ${name.toFixed(2)} mm`,
    holds: filled < name,
  };
}

const HOLDING = 0.75;

export function sewingFacts(
  words: readonly WordFigures[],
  parameters: MechanicsParameters = PARAMETERS,
): Fact[] {
  const median = (values: readonly number[]) =>
    [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];
  const ofWords = WORD_FACTS.map(({ name, limits, figure, holds, shown }): Fact => {
    const holding = words.filter(holds).length;
    const figures = words.map(figure);
    return {
      name,
      limits,
      figure: `${shown(median(figures))} (${shown(Math.min(...figures))} to ${shown(Math.max(...figures))})`,
      holds: holding >= HOLDING * words.length,
      words: [holding, words.length],
    };
  });
  return [...columnFacts(parameters), ...ofWords, flagFact(parameters)];
}
