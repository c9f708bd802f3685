/**
 * Fits what may be fitted of the model of two layers, and nothing else: tension, point spring and grip of the fabric on the pull-in of upright
 * columns; the longest span on the height of one name. What is printed goes into lib/mechanics/parameters.ts by hand.
 */
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { narrowing, pointsMoved } from '../../lib/mechanics/column-pull.js';
import { layupOf } from '../../lib/mechanics/layup.js';
import { PARAMETERS } from '../../lib/mechanics/parameters.js';
import { WrinkleLaw } from '../../lib/mechanics/plate-wrinkle.js';
import { AS_SEWN } from '../../lib/mechanics/puckering.js';
import { Released } from '../../lib/mechanics/release.js';
import { type ParameterValues, settingsOf } from '../../lib/mechanics/settings.js';
import { sew } from '../../lib/mechanics/sewing.js';
import { WrinkleView } from '../../lib/mechanics/wrinkle-field.js';
import { BONDED } from '../mechanics/stacks.js';
import { meshed } from './puckering-of.js';
import { FITTED, uprightColumn, wordOf } from './words.js';

/** Both edges of upright columns 40 mm long over an edge run and one bonded sheet, mm (common practice, no source). */
export const COLUMN_WIDTHS = [2, 3, 4, 6, 8] as const;
export const COLUMN_PULL = {
  'pique-knit': [0.11, 0.16, 0.22, 0.34, 0.43],
  twill: [0.05, 0.08, 0.13, 0.19, 0.24],
} as const;
/** Bold name over double zigzag on thin performance knit and one bonded sheet, “clearly bad”: our own assumption, mm. */
export const NAME_HEIGHT = 0.6;

const FREE = ['tension', 'pointSpring', 'fabricGrip'] as const;
/** A pull-in read with a ruler, as a part of it. */
const READING = 0.1;

const columns = COLUMN_WIDTHS.map((width) => meshed(uprightColumn(width)));

export function columnPulls(settings: ParameterValues, fabric: string): number[] {
  const layup = layupOf(CATALOGUE, { fabric, stack: BONDED, grainDeg: 90 });
  return columns.map((design) => {
    const sewn = sew(design, layup, settings, { tolerance: 1e-3, maxIterations: 100 });
    return narrowing(design.stitches, design.objects[0], pointsMoved(design, sewn));
  });
}

/** Least squares in the logarithms, each parameter's range from low to high being two standard deviations about its value before the fit. */
function fitColumns(start: ParameterValues): ParameterValues {
  const priors = FREE.map((name) => {
    const { low, high } = PARAMETERS[name];
    return { centre: Math.log(PRIOR[name]), deviation: Math.log(high / low) / 2 };
  });
  const settingsAt = (p: readonly number[]): ParameterValues => ({
    ...start,
    ...Object.fromEntries(FREE.map((name, k) => [name, Math.exp(p[k])])),
  });
  const misses = (p: readonly number[]): number[] => [
    ...Object.entries(COLUMN_PULL).flatMap(([fabric, wanted]) =>
      columnPulls(settingsAt(p), fabric).map((mm, k) => Math.log(mm / wanted[k]) / READING),
    ),
    ...priors.map(({ centre, deviation }, k) => (p[k] - centre) / deviation),
  ];
  let p = priors.map(({ centre }) => centre);
  for (let round = 0; round < 4; round++) {
    const now = misses(p);
    const slopes = p.map((_, k) => {
      const moved = misses(p.map((v, i) => (i === k ? v + STEP : v)));
      return moved.map((v, i) => (v - now[i]) / STEP);
    });
    const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, v, i) => sum + v * b[i], 0);
    const step = solve3(
      slopes.map((a) => slopes.map((b) => dot(a, b))),
      slopes.map((a) => -dot(a, now)),
    );
    p = p.map((v, k) => v + step[k]);
  }
  return settingsAt(p);
}
const PRIOR = { tension: 0.11, pointSpring: 10, fabricGrip: 40 };
const STEP = 0.03;

function solve3(a: readonly number[][], b: readonly number[]): number[] {
  const det = (m: readonly number[][]) =>
    m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
    m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
    m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
  const whole = det(a);
  return b.map((_, k) => det(a.map((row, i) => row.map((v, j) => (j === k ? b[i] : v)))) / whole);
}

/** The span at which the name is as high as it is said to be: height rises with it. */
function fitSpan(settings: ParameterValues): { span: number; height: number } {
  const design = meshed(wordOf(FITTED, 'double-zigzag'));
  const layup = layupOf(CATALOGUE, { fabric: 'performance-knit-thin', stack: BONDED, grainDeg: 90 });
  const sewn = sew(design, layup, settings);
  const view = new WrinkleView(design);
  const strains = view.strains(new Released(design, layup, settings, sewn, AS_SEWN).strain);
  const law = new WrinkleLaw(layup.fabric);
  const height = (span: number) => view.seenWhole(view.heights(strains, law, span));
  let [low, high] = [3, 15];
  for (let k = 0; k < 30; k++) {
    const middle = (low + high) / 2;
    if (height(middle) < NAME_HEIGHT) low = middle;
    else high = middle;
  }
  return { span: low, height: height(low) };
}

if (process.argv[1] === import.meta.filename) {
  const fitted = fitColumns(settingsOf(PARAMETERS));
  for (const name of FREE) console.log(`${name.padEnd(12)} ${fitted[name].toFixed(4)}`);
  for (const [fabric, wanted] of Object.entries(COLUMN_PULL))
    console.log(
      `${fabric.padEnd(12)} ${columnPulls(fitted, fabric)
        .map((mm, k) => `${mm.toFixed(3)} for ${wanted[k]}`)
        .join(', ')}`,
    );
  const { span, height } = fitSpan(fitted);
  console.log(`longestSpan  ${span.toFixed(3)} (height ${height.toFixed(3)} for ${NAME_HEIGHT})`);
}
