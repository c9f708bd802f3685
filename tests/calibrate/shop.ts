/** A shop that is made up: what it sews, what its machine and goods really are, and how its people grade. */
import type { Observation, Priors } from '../../lib/calibrate/fit.js';
import { priorsOf } from '../../lib/calibrate/fit.js';
import { FREE, type FreeName, freeValues } from '../../lib/calibrate/free-parameters.js';
import { type HeightTable, heightTables } from '../../lib/calibrate/heights.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { type MechanicsParameters, PARAMETERS } from '../../lib/mechanics/parameters.js';
import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import { assess, prepare } from '../../lib/mechanics/risk.js';
import { exactGradeOf } from '../../lib/mechanics/score.js';
import { parseStack } from '../../lib/mechanics/stack-notation.js';
import { COLUMN, Sewing } from '../mechanics/designs.js';

export const PRIORS: Priors = priorsOf(PARAMETERS);

/** Three bold strokes, as of a short name. */
export const strokes = (underlay: 'double-zigzag' | 'fill' = 'double-zigzag') =>
  [-8, 0, 8]
    .reduce(
      (sewing, x) =>
        sewing.column(
          [
            [x, -9],
            [x, 9],
          ],
          { ...COLUMN, width: 5, underlay: [underlay] },
        ),
      new Sewing(),
    )
    .done();

export interface Goods {
  readonly fabric: string;
  readonly stack: string;
  readonly washes: number;
}

export const planOf = ({ fabric, stack, washes }: Goods) => ({
  fabric,
  stack: parseStack(stack, CATALOGUE),
  washes,
});

export const tableOf = (design: PreparedDesign, goods: Goods): HeightTable => {
  const { washes, ...plan } = planOf(goods);
  const settings = { catalogue: CATALOGUE, parameters: PARAMETERS, priors: PRIORS };
  return heightTables({ own: design, rough: design }, plan, [washes], settings).get(washes)!;
};

/** Cells of 1.5 mm: what is looked at here is the fit, not the field. */
export const coarsely = (design: ReturnType<typeof strokes>): PreparedDesign =>
  prepare({ ...design, cellMm: 1.5 });

/** Random numbers that repeat themselves: 0 to 1, ends left out (a linear congruential generator, the figures of Numerical Recipes). */
export function repeatable(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (1664525 * state + 1013904223) % 2 ** 32;
    return (state + 0.5) / 2 ** 32;
  };
}

/** Box and Muller's. */
export const normal = (random: () => number): number =>
  Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());

export const withTruth = (values: Partial<Record<FreeName, number>>): MechanicsParameters => ({
  ...PARAMETERS,
  ...Object.fromEntries(
    Object.entries(values).map(([name, value]) => [name, { ...PARAMETERS[name as FreeName], value }]),
  ),
});

/** Anywhere in the built-in ranges. */
export const anyTruth = (random: () => number): MechanicsParameters =>
  withTruth(
    Object.fromEntries(
      FREE.map((name) => {
        const { low, high } = PARAMETERS[name];
        return [name, low * (high / low) ** random()];
      }),
    ),
  );

/** What the model itself foretells there, on no table: the grade before it is rounded. */
export const trueGrade = (design: PreparedDesign, goods: Goods, truth: MechanicsParameters): number =>
  exactGradeOf(assess(design, planOf(goods), CATALOGUE, truth).score);

/** Somebody who is off by half a grade writes it down in half steps. */
export const graded = (grade: number, random: () => number, off = 0.5): number =>
  Math.min(5, Math.max(1, Math.round(2 * (grade + off * normal(random))) / 2));

export const atBuiltIn = freeValues(PARAMETERS);
export type { Observation };
