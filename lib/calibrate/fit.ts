/** Fits the free parameters to grades and widths. */
import type { MechanicsParameters } from '../mechanics/parameters.js';
import { RULER_NOISE } from '../mechanics/ruler.js';
import { exactGradeOf, scoreOf } from '../mechanics/score.js';
import { FREE, type FreeName, type FreeValues, freeValues, type Prior, priorOf } from './free-parameters.js';
import { leastSquares } from './least-squares.js';
import { RATING_NOISE, writtenGrade } from './rater.js';
import type { SewOutModel } from './sew-out-model.js';
import { studentQuantile } from './student.js';

/** What was looked at on a sew-out, and what the model says of it for any parameters. */
export type Looked =
  | { readonly of: 'grade'; readonly model: Pick<SewOutModel, 'height'> }
  | {
      readonly of: 'width';
      readonly model: Pick<SewOutModel, 'narrowing'>;
      readonly object: number;
      /** In the file, and by how much it changes with a change along the stitches. */
      readonly fileMm: number;
      readonly perAlong: number;
    };

/** What was written down of it: a grade, or a width in mm. */
export type Observation = Looked & { readonly seen: number };

/** Standard deviation of one reading of each kind. */
export type Noise = Readonly<Record<Looked['of'], number>>;
export const LEAST_NOISE: Noise = { grade: RATING_NOISE, width: RULER_NOISE };

export type Priors = Readonly<Record<FreeName, Prior>>;

export const priorsOf = (parameters: MechanicsParameters): Priors =>
  Object.fromEntries(FREE.map((name) => [name, priorOf(parameters, name)])) as Record<FreeName, Prior>;

/** The grade that would be written down of a sew-out on the average, or the width that a ruler would find. */
export function predicted(looked: Looked, values: FreeValues): number {
  if (looked.of === 'width')
    return looked.fileMm - looked.perAlong * looked.model.narrowing(looked.object, values);
  return writtenGrade(exactGradeOf(scoreOf(looked.model.height(values), values.scoreHalf)));
}

/** Step of differences in the logarithm of a parameter: well above the kinks where cells begin to wrinkle. */
const DIFFERENCE = 5e-3;

/** Change of what is predicted with the logarithm of each of some parameters. */
export function slopesAt(looked: Looked, values: FreeValues, names: readonly FreeName[]): number[] {
  return names.map((name) => {
    const at = (factor: number) => predicted(looked, { ...values, [name]: values[name] * factor });
    return (at(Math.exp(DIFFERENCE)) - at(Math.exp(-DIFFERENCE))) / (2 * DIFFERENCE);
  });
}

export interface FittedParameter {
  readonly name: FreeName;
  readonly value: number;
  /** One standard deviation either way: what the range of a parameter stands for everywhere. */
  readonly low: number;
  readonly high: number;
  /** All of these intervals together hold the true values 95 times in 100, as far as the model itself is true. */
  readonly interval: readonly [low: number, high: number];
  /** 0..1, part of the variance before the fit that the sew-outs have taken away. */
  readonly told: number;
  /** The fit would go on where it may not. */
  readonly atBound: boolean;
}

export interface Fit {
  readonly parameters: readonly FittedParameter[];
  /** Fitted values, and the given ones of what was not fitted. */
  readonly values: FreeValues;
  /** Of the logarithms of the fitted parameters. */
  readonly covariance: readonly (readonly number[])[];
  /** As the intervals take it. */
  readonly noise: Noise;
  /** By observation: seen minus predicted; the same had it been left out (first order); and in standard deviations. */
  readonly residuals: readonly number[];
  readonly leftOut: readonly number[];
  readonly standardised: readonly number[];
}

const MOST_ROUNDS = 4;
export const LEVEL = 0.95;
/** What is taken to be known of the noise beforehand counts as so many readings. */
const NOISE_KNOWN = 10;

/**
 * Least squares on what was written down. Each parameter is held near its built-in value as by one more observation whose standard deviation is
 * half the built-in range: without that, parameters that do nearly the same to a grade would run off together, and one width could not be taken.
 *
 * @param names what to fit; the rest stays as in `start`
 */
export async function fitSewOuts(
  observations: readonly Observation[],
  names: readonly FreeName[],
  start: MechanicsParameters,
  priors: Priors,
): Promise<Fit> {
  const held = freeValues(start);
  const valuesAt = (logs: readonly number[]): FreeValues => ({
    ...held,
    ...Object.fromEntries(names.map((name, k) => [name, Math.exp(logs[k])])),
  });
  const prior = names.map((name) => priors[name]);
  const count = observations.length;
  let noise = LEAST_NOISE;
  let logs = prior.map(({ centre }) => centre);
  for (let round = 1; ; round++) {
    const solution = await leastSquares({
      start: logs,
      low: prior.map(({ low }) => low),
      high: prior.map(({ high }) => high),
      difference: DIFFERENCE,
      residuals: (at) => {
        const values = valuesAt(at);
        return [
          ...observations.map((one) => (predicted(one, values) - one.seen) / noise[one.of]),
          ...prior.map(({ centre, deviation }, k) => (at[k] - centre) / deviation),
        ];
      },
    });
    logs = solution.values;
    const covariance = await inverseOfNormal(solution.jacobian);
    const leverages = solution.jacobian.slice(0, count).map((row) => quadratic(row, covariance));
    const residuals = observations.map(({ of }, i) => -solution.residuals[i] * noise[of]);
    const wanted = noiseIn(observations, residuals, leverages);
    const settled = (Object.keys(noise) as Looked['of'][]).every(
      (of) => Math.abs(wanted[of] - noise[of]) <= 0.01 * noise[of],
    );
    if (round < MOST_ROUNDS && !settled) {
      noise = wanted;
      continue;
    }
    const spent = leverages.reduce((sum, h) => sum + h, 0);
    // One level for all together (Bonferroni): each by itself is held to more.
    const wide = studentQuantile(1 - (1 - LEVEL) / names.length, count - spent + NOISE_KNOWN);
    const off = observations.map(({ of }) => noise[of]);
    return {
      parameters: names.map((name, k) => {
        const deviation = Math.sqrt(covariance[k][k]);
        const most = name === 'firstWash' ? 1 : Infinity;
        const at = (steps: number) => Math.min(most, Math.exp(logs[k] + steps * deviation));
        return {
          name,
          value: at(0),
          low: at(-1),
          high: at(1),
          interval: [at(-wide), at(wide)],
          told: Math.max(0, 1 - (deviation / prior[k].deviation) ** 2),
          atBound: logs[k] <= prior[k].low || logs[k] >= prior[k].high,
        };
      }),
      values: valuesAt(logs),
      covariance,
      noise,
      residuals,
      leftOut: residuals.map((r, i) => r / (1 - leverages[i])),
      standardised: residuals.map((r, i) => r / (off[i] * Math.sqrt(1 - leverages[i]))),
    };
  }
}

/** Standard deviations that the residuals of each kind show, and what is taken for the least. */
function noiseIn(
  observations: readonly Observation[],
  residuals: readonly number[],
  leverages: readonly number[],
): Noise {
  const of = (kind: Looked['of']): number => {
    let squares = 0;
    let free = 0;
    observations.forEach((one, i) => {
      if (one.of !== kind) return;
      squares += residuals[i] ** 2;
      free += 1 - leverages[i];
    });
    return Math.max(LEAST_NOISE[kind], Math.sqrt(squares / Math.max(1, free)));
  };
  return { grade: of('grade'), width: of('width') };
}

/** (JᵀJ)⁻¹ by the singular values of J. */
export async function inverseOfNormal(jacobian: readonly (readonly number[])[]): Promise<number[][]> {
  const { Matrix, SingularValueDecomposition } = await import('ml-matrix');
  const { diagonal, rightSingularVectors: v } = new SingularValueDecomposition(
    new Matrix(jacobian.map((row) => [...row])),
    { autoTranspose: true },
  );
  return v
    .mmul(Matrix.diag(diagonal.map((s) => 1 / (s * s))))
    .mmul(v.transpose())
    .to2DArray();
}

/** row · M · rowᵀ. */
export const quadratic = (row: readonly number[], matrix: readonly (readonly number[])[]): number =>
  row.reduce((sum, a, i) => sum + a * row.reduce((s, b, j) => s + matrix[i][j] * b, 0), 0);
