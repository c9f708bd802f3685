/**
 * How often a graded sew-out falls within the band: `npm run coverage`. Whatever is known of fabric and sheets only as a range is drawn anywhere in it, each
 * value by itself (the band draws them about the middle, and together), the sew-out is worked out in full, and whoever grades it is off by half a grade.
 */

import { probit } from 'simple-statistics';
import { CATALOGUE, type Catalogue } from '../../lib/materials/catalogue.js';
import type { StackedSheet } from '../../lib/mechanics/layup.js';
import { type MechanicsParameters, PARAMETERS } from '../../lib/mechanics/parameters.js';
import { assess, assessFully, prepare } from '../../lib/mechanics/risk.js';
import { exactGradeOf, scoreOf } from '../../lib/mechanics/score.js';
import { SHOP } from '../built-in-shop.js';
import { Random } from '../generators/random.js';
import { catalogueWith } from '../materials/own-values.js';
import { COLUMN, word } from '../mechanics/designs.js';
import { BONDED, TWO_BONDED, WOVEN } from '../mechanics/stacks.js';

/** Standard deviation of a grade that a person gives. */
const GRADE_NOISE = 0.5;
const SHEET_KEYS = ['membraneAlong', 'membraneAcross', 'membraneShear'] as const;
const FABRIC_KEYS = [...SHEET_KEYS, 'bendingAlong', 'bendingAcross'] as const;
const SHOP_KEYS = ['tension', 'pointSpring', 'fabricGrip', 'hoopForce', 'longestSpan'] as const;

interface Case {
  readonly text: string;
  readonly fabric: string;
  readonly stack: readonly StackedSheet[];
}

const CASES: readonly Case[] = [
  { text: 'KO', fabric: 'performance-knit-thin', stack: BONDED },
  { text: 'SI', fabric: 'performance-knit-thin', stack: WOVEN },
  { text: 'NE', fabric: 'performance-knit', stack: BONDED },
  { text: 'VA', fabric: 'performance-knit', stack: TWO_BONDED },
  { text: 'IT', fabric: 'jersey-knit', stack: BONDED },
  { text: 'SK', fabric: 'poplin', stack: BONDED },
];

/** Anywhere between low and high, by ratio. */
const within = (
  random: Random,
  { low, high, value }: { low: number; high: number; value: number },
): number => {
  const least = Math.max(low, value / 20);
  return least * (high / least) ** random.next();
};

function drawnCatalogue(random: Random, { fabric, stack }: Case): Catalogue {
  const from = CATALOGUE.fabrics[fabric];
  const draw = <K extends string>(
    keys: readonly K[],
    of: Record<K, { low: number; high: number; value: number }>,
  ) => Object.fromEntries(keys.map((key) => [key, within(random, of[key])]));
  const sheets = Object.fromEntries(
    [...new Set(stack.map(({ sheet }) => sheet))].map((id) => [id, draw(SHEET_KEYS, CATALOGUE.sheets[id])]),
  );
  return catalogueWith({ fabrics: { [fabric]: draw(FABRIC_KEYS, from) }, sheets });
}

const drawnShop = (random: Random): MechanicsParameters => ({
  ...PARAMETERS,
  ...Object.fromEntries(
    SHOP_KEYS.map((key) => [key, { ...PARAMETERS[key], value: within(random, PARAMETERS[key]) }]),
  ),
});

/** The height that belongs to the grade which a person gives. */
function graded(random: Random, heightMm: number): number {
  const half = PARAMETERS.scoreHalf.value;
  const grade = exactGradeOf(scoreOf(heightMm, half)) + GRADE_NOISE * probit(random.range(1e-6, 1 - 1e-6));
  const score = Math.min(99, Math.max(0, 25 * (5 - grade)));
  return -half * Math.log2(1 - score / 100);
}

/** Heights that look alike, mm: a sew-out that is graded as flat as can be has none at all, and a band may begin a thousandth above that. */
const ALIKE_MM = 0.005;

/** Parts of so many sew-outs of every case that lie within p10 to p90, that do to what looks alike, and that lie above, by case. */
function coverage(
  sewOuts: number,
  shopToo: boolean,
  seed = 1,
): { case: Case; part: number; alike: number; above: number }[] {
  const random = new Random(seed);
  return CASES.map((one) => {
    const design = prepare(
      word(one.text, 19, { ...COLUMN, underlay: ['double-zigzag'], zigzag: 2.6 }),
      SHOP.catalogue,
    );
    const [low, , high] = assessFully(design, one, SHOP).wrinkleBandMm;
    const heights = Array.from({ length: sewOuts }, () => {
      const { wrinkleMm } = assess(design, one, {
        ...SHOP,
        catalogue: drawnCatalogue(random, one),
        parameters: shopToo ? drawnShop(random) : PARAMETERS,
      });
      return graded(random, wrinkleMm);
    });
    const partOf = (holds: (mm: number) => boolean) => heights.filter(holds).length / sewOuts;
    return {
      case: one,
      part: partOf((mm) => mm >= low && mm <= high),
      alike: partOf((mm) => mm >= low - ALIKE_MM && mm <= high + ALIKE_MM),
      above: partOf((mm) => mm > high),
    };
  });
}

const percent = (part: number): string => `${Math.round(100 * part)} %`;

const sewOuts = Number(process.argv[2] ?? 40);
for (const shopToo of [false, true]) {
  const parts = coverage(sewOuts, shopToo);
  console.log(shopToo ? 'fabric, sheets, and what a shop is like' : 'fabric and sheets alone');
  for (const { case: one, part, alike, above } of parts)
    console.log(
      `  ${one.text} on ${one.fabric}, ${one.stack.map(({ sheet }) => sheet).join('+')}: ${percent(part)} within, ${percent(alike)} to ${ALIKE_MM} mm, ${percent(above)} above`,
    );
  const all = (of: (one: (typeof parts)[number]) => number) =>
    percent(parts.reduce((sum, one) => sum + of(one), 0) / parts.length);
  console.log(
    `  all: ${all(({ part }) => part)} within p10 to p90, ${all(({ alike }) => alike)} to ${ALIKE_MM} mm`,
  );
}
