/** What the trade says of puckering (common practice, no source), as checks that no fit saw: figures of words, columns and a flag, and where each holds. */

import type { StackedSheet } from '../../lib/mechanics/layup.js';
import { type MechanicsParameters, PARAMETERS } from '../../lib/mechanics/parameters.js';
import type { Puckering } from '../../lib/mechanics/puckering.js';
import type { FabricTreatment } from '../../lib/mechanics/release.js';
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
}

export const THIN = 'performance-knit-thin';
const EIGHT_PERCENT: FabricTreatment = { hoopStretch: 0.08, laundered: 0 };

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
    treatment?: FabricTreatment,
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
const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;
const pull = ({ narrowingMm }: Puckering): number => mean(narrowingMm);
const grade = ({ heightMm }: Puckering): number =>
  exactGradeOf(scoreOf(heightMm, PARAMETERS.scoreHalf.value));
/** A is at most as bad as B: by height, by how near a wrinkle is where both lie flat, then by pull-in. */
const flatter = (a: Puckering, b: Puckering, times = 1): boolean => {
  if (a.heightMm > 0.005 || b.heightMm > 0.005) return a.heightMm <= times * b.heightMm + 1e-9;
  return pull(a) <= times * pull(b);
};

/** A fact about words: judged on every word, it holds where it does on three quarters of them. */
export interface WordFact {
  readonly name: string;
  readonly limits: string;
  readonly holds: (w: WordFigures) => boolean;
  /** What is told of a word; without it the words for which the fact holds are counted. */
  readonly figure?: (w: WordFigures) => number;
  readonly digits?: number;
  readonly unit?: string;
}

const times = (name: string, limits: string, most: number, a: Of, b: Of): WordFact => ({
  name,
  limits,
  figure: (w) => a(w).heightMm / b(w).heightMm,
  holds: (w) => flatter(a(w), b(w), most),
  digits: 2,
  unit: ' times',
});
const falling = (name: string, low: number, high: number, of: Of): WordFact => ({
  name,
  limits: `${low} to ${high}% flatter`,
  figure: (w) => -100 * fall(of(w), w.base),
  holds: (w) => -100 * fall(of(w), w.base) >= low && -100 * fall(of(w), w.base) <= high,
  digits: 0,
  unit: '%',
});
const graded = (name: string, fabric: string, least: number): WordFact => ({
  name,
  limits: `grade ${least} or better`,
  figure: ({ on }) => grade(on[fabric]),
  holds: ({ on }) => grade(on[fabric]) >= least,
  digits: 1,
});
type Of = (w: WordFigures) => Puckering;

export const WORD_FACTS: readonly WordFact[] = [
  {
    name: 'canvas flatter than twill, twill than poplin',
    limits: 'in this order',
    holds: ({ on }) => flatter(on['canvas-tote'], on.twill) && flatter(on.twill, on.poplin),
  },
  {
    name: 'polos flatter than performance knit, that than thin knit',
    limits: 'in this order',
    holds: ({ on, base }) =>
      flatter(on['pique-knit'], on['performance-knit']) &&
      flatter(on['jersey-knit'], on['performance-knit']) &&
      flatter(on['performance-knit'], base),
  },
  graded('piqué polo on one 2.5 oz sheet', 'pique-knit', 3.5),
  graded('jersey polo on one 2.5 oz sheet', 'jersey-knit', 3),
  falling('light fill instead of double zigzag', 30, 60, (w) => w.fill),
  falling('one woven sheet instead of one bonded', 30, 60, (w) => w.woven),
  falling('both, with two woven at 0 and 45 degrees', 70, 99, (w) => w.both),
  times(
    'two woven at 0/45 flatter than at 0/0',
    'at most 1.02 times as high',
    1.02,
    (w) => w.crossed,
    (w) => w.same,
  ),
  times(
    'two woven flatter than one',
    'less high',
    1,
    (w) => w.crossed,
    (w) => w.woven,
  ),
  times(
    'a bonded sheet between them',
    'at most 1.02 times as high',
    1.02,
    (w) => w.sandwich,
    (w) => w.crossed,
  ),
  times(
    'one woven as good as two bonded',
    'at most 1.1 times as high',
    1.1,
    (w) => w.woven,
    (w) => w.twoBonded,
  ),
  times(
    'edge run flatter than double zigzag',
    'less high',
    1,
    (w) => w.edge,
    (w) => w.base,
  ),
  {
    name: '8% more stretch in the hoop is worse',
    limits: 'at least 1.3 times as high',
    figure: (w) => w.stretched.heightMm / w.base.heightMm,
    holds: (w) => w.stretched.heightMm >= 1.3 * w.base.heightMm,
    digits: 2,
    unit: ' times',
  },
  times(
    'two bonded flatter than one after eight washes, piqué',
    'less high',
    1,
    (w) => w.washedTwo,
    (w) => w.washedOne,
  ),
  {
    name: 'washed piqué is worse than new',
    limits: 'higher',
    figure: (w) => w.washedOne.heightMm - w.on['pique-knit'].heightMm,
    holds: (w) => w.washedOne.heightMm > w.on['pique-knit'].heightMm,
    digits: 2,
    unit: ' mm more',
  },
];

/** A filled flag 110 mm wide and 84 mm high, in stitches of 4 mm. */
export const flag = (): TestDesign => rectangle(new Sewing(), 0, 0, 110, 84, FILL).done();

/** No fit saw the words; the ladders were fitted to, and are told to show how well. */
export function columnFacts(parameters: MechanicsParameters = PARAMETERS): Fact[] {
  const settings = settingsOf(parameters);
  const inWords = (values: readonly number[]) =>
    values.map((mm) => mm.toFixed(2).replace(/^0/, '')).join(' ');
  const ladder = (name: string, fabric: string, low: readonly number[], high: readonly number[]): Fact => {
    const pulls = columnPulls(settings, fabric);
    const rising = pulls.every((mm, k) => k === 0 || mm > pulls[k - 1]);
    return {
      name,
      limits: `${inWords(low)} to ${inWords(high)} mm`,
      figure: `${inWords(pulls)} mm`,
      holds: rising && pulls[4] <= 4.5 * pulls[1] && pulls.every((mm, k) => mm >= low[k] && mm <= high[k]),
    };
  };
  return [
    ladder(
      'columns 2, 3, 4, 6, 8 mm wide get narrower, piqué',
      'pique-knit',
      [0.05, 0.08, 0.12, 0.2, 0.25],
      [0.25, 0.35, 0.45, 0.6, 0.75],
    ),
    ladder('the same on twill', 'twill', [0.02, 0.03, 0.05, 0.08, 0.1], [0.2, 0.25, 0.3, 0.4, 0.5]),
  ];
}

export function flagFact(parameters: MechanicsParameters = PARAMETERS): Fact {
  const settings = settingsOf(parameters);
  const filled = puckeringOf(meshed(flag()), THIN, BONDED, settings).heightMm;
  const name = puckeringOf(meshed(wordOf(FITTED, 'double-zigzag')), THIN, BONDED, settings).heightMm;
  return {
    name: 'a filled flag is flatter than a bold name',
    limits: 'less high',
    figure: `${filled.toFixed(2)} beside ${name.toFixed(2)} mm`,
    holds: filled < name,
  };
}

const HOLDING = 0.75;

function figureOf({ figure, digits = 0, unit = '' }: WordFact, words: readonly WordFigures[]): string | null {
  if (!figure) return null;
  const values = words.map(figure).sort((a, b) => a - b);
  const [least, middle, most] = [0, Math.floor(values.length / 2), values.length - 1].map((k) =>
    values[k].toFixed(digits),
  );
  return `${middle}${unit} (${least} to ${most})`;
}

export function sewingFacts(
  words: readonly WordFigures[],
  parameters: MechanicsParameters = PARAMETERS,
): Fact[] {
  const ofWords = WORD_FACTS.map((one): Fact => {
    const holding = words.filter(one.holds).length;
    const figure = figureOf(one, words) ?? `${holding} of ${words.length} words`;
    return { name: one.name, limits: one.limits, figure, holds: holding >= HOLDING * words.length };
  });
  return [...columnFacts(parameters), ...ofWords, flagFact(parameters)];
}

/** A fact as the mechanics' table has it. */
export const rowOf = ({ name, limits, figure, holds }: Fact): string =>
  `| ${name} | ${limits} | ${figure} | ${holds ? 'holds' : '**fails**'} |`;
