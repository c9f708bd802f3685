/** A shop that is made up: what it sews, what its machine, laundry and eyes really are, and how its people grade and measure. */

import { type Looked, type Priors, priorsOf } from '../../lib/calibrate/fit.js';
import { FREE, type FreeName, freeValues } from '../../lib/calibrate/free-parameters.js';
import { type SewOutModel, sewOutModels } from '../../lib/calibrate/sew-out-model.js';
import { CATALOGUE } from '../../lib/materials/catalogue.js';
import { caseOf } from '../../lib/mechanics/case.js';
import { type MechanicsParameters, PARAMETERS } from '../../lib/mechanics/parameters.js';
import type { PreparedDesign } from '../../lib/mechanics/prepared-design.js';
import { puckering } from '../../lib/mechanics/puckering.js';
import { prepare } from '../../lib/mechanics/risk.js';
import { widthInFile } from '../../lib/mechanics/ruler.js';
import { exactGradeOf, scoreOf } from '../../lib/mechanics/score.js';
import { parseStack } from '../../lib/mechanics/stack-notation.js';
import { SHOP } from '../built-in-shop.js';
import { COLUMN, Sewing } from '../mechanics/designs.js';

export const PRIORS: Priors = priorsOf(PARAMETERS);

/** Three bold strokes of different widths, as of a short name. */
export const strokes = (underlay: 'double-zigzag' | 'fill' = 'double-zigzag') =>
  [3, 5, 7]
    .reduce(
      (sewing, width, i) =>
        sewing.column(
          [
            [9 * (i - 1), -9],
            [9 * (i - 1), 9],
          ],
          { ...COLUMN, width, underlay: [underlay] },
        ),
      new Sewing(),
    )
    .done();

export interface SewnOn {
  readonly fabric: string;
  readonly stack: string;
  readonly washes: number;
}

export const prepared = (): PreparedDesign => prepare(strokes(), SHOP.catalogue);

const planOf = ({ fabric, stack, washes }: SewnOn) => ({
  fabric,
  stack: parseStack(stack, CATALOGUE),
  washes,
});

/** By text of the fabric; one model serves all launderings of a fabric over a stack. */
export function modelsOf(design: PreparedDesign, sewn: readonly SewnOn[]): Map<SewnOn, SewOutModel> {
  const settings = { catalogue: CATALOGUE, parameters: PARAMETERS, priors: PRIORS };
  const out = new Map<SewnOn, SewOutModel>();
  for (const key of new Set(sewn.map(({ fabric, stack }) => `${fabric} ${stack}`))) {
    const same = sewn.filter(({ fabric, stack }) => `${fabric} ${stack}` === key);
    const washes = [...new Set(same.map((sewnOn) => sewnOn.washes))];
    const models = sewOutModels(design, planOf(same[0]), washes, settings, true);
    for (const sewnOn of same) out.set(sewnOn, models.get(sewnOn.washes)!);
  }
  return out;
}

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

/** What really comes of a sew-out: the model itself solved for it, by no table. */
export interface Truth {
  /** Before it is rounded. */
  readonly grade: number;
  /** Sewn width of each object, mm. */
  readonly widths: readonly number[];
}

export function truthOf(design: PreparedDesign, sewnOn: SewnOn, parameters: MechanicsParameters): Truth {
  const at = caseOf(planOf(sewnOn), { ...SHOP, parameters: parameters });
  const { fine } = design;
  const { heightMm, pulls } = puckering(
    fine.design,
    at.layup,
    at.settings,
    at.treatment,
    undefined,
    undefined,
    fine,
  );
  return {
    grade: exactGradeOf(scoreOf(heightMm, parameters.scoreHalf.value)),
    widths: design.objects.map((object, k) => {
      const { widthMm, perAlong } = widthInFile(design.stitches, object)!;
      return widthMm - 2 * perAlong * pulls[k].alongStitchMm;
    }),
  };
}

/** Somebody who is off by half a grade writes it down in half steps. */
export const graded = (grade: number, random: () => number, off = 0.5): number =>
  Math.min(5, Math.max(1, Math.round(2 * (grade + off * normal(random))) / 2));

/** Somebody reads a ruler to a tenth of a millimeter. */
export const measured = (widthMm: number, random: () => number, off = 0.1): number =>
  Math.round(10 * (widthMm + off * normal(random))) / 10;

export const gradeOf = (model: SewOutModel): Looked => ({ of: 'grade', model });

export function widthOf(model: SewOutModel, design: PreparedDesign, object: number): Looked {
  const { widthMm, perAlong } = widthInFile(design.stitches, design.objects[object - 1])!;
  return { of: 'width', model, object, fileMm: widthMm, perAlong };
}

export const atBuiltIn = freeValues(PARAMETERS);
