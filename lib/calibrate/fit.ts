/** Fits the free parameters to grades. */
import type { MechanicsParameters } from '../mechanics/parameters.js';
import { exactGradeOf, scoreOf } from '../mechanics/score.js';
import { FREE, type FreeName, type FreeValues, freeValues, type Prior, priorOf } from './free-parameters.js';
import type { HeightTable } from './heights.js';
import { leastSquares } from './least-squares.js';
import { RATING_NOISE, writtenGrade } from './rater.js';
import { studentQuantile } from './student.js';

/** A grade, and what the model says of the same sew-out for any parameters. */
export interface Observation {
  readonly table: Pick<HeightTable, 'height'>;
  readonly grade: number;
}

export type Priors = Readonly<Record<FreeName, Prior>>;

export const priorsOf = (parameters: MechanicsParameters): Priors =>
  Object.fromEntries(FREE.map((name) => [name, priorOf(parameters, name)])) as Record<FreeName, Prior>;

/** The grade that would be written down of a sew-out, on the average. */
export function foretoldGrade(table: Observation['table'], values: FreeValues): number {
  return writtenGrade(exactGradeOf(scoreOf(table.height(values), values.scoreHalf)));
}

/** Step of differences in the logarithm of a parameter: well above the kinks of a table between its nodes. */
const DIFFERENCE = 5e-3;

/** Change of the foretold grade with the logarithm of each of some parameters. */
export function slopesAt(
  table: Observation['table'],
  values: FreeValues,
  names: readonly FreeName[],
): number[] {
  return names.map((name) => {
    const at = (factor: number) => foretoldGrade(table, { ...values, [name]: values[name] * factor });
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
  /** 0..1, part of the variance before the fit that the grades have taken away. */
  readonly told: number;
  /** The fit would go on where it may not. */
  readonly atBound: boolean;
}

export interface GradeFit {
  readonly parameters: readonly FittedParameter[];
  /** Fitted values, and the given ones of what was not fitted. */
  readonly values: FreeValues;
  /** Of the logarithms of the fitted parameters. */
  readonly covariance: readonly (readonly number[])[];
  /** Standard deviation of one grade, as the intervals take it. */
  readonly noise: number;
  /** By observation: grade written minus grade foretold; the same had it been left out (first order); and in standard deviations. */
  readonly residuals: readonly number[];
  readonly leftOut: readonly number[];
  readonly standardised: readonly number[];
}

const MOST_ROUNDS = 4;
export const LEVEL = 0.95;

/**
 * Least squares on the grade. Each parameter is held near its built-in value as by one more observation whose standard deviation is half the
 * built-in range: without that, parameters that do nearly the same to a grade would run off together.
 *
 * @param names what to fit; the rest stays as in `start`
 */
export async function fitGrades(
  observations: readonly Observation[],
  names: readonly FreeName[],
  start: MechanicsParameters,
  priors: Priors,
): Promise<GradeFit> {
  const held = freeValues(start);
  const valuesAt = (logs: readonly number[]): FreeValues => ({
    ...held,
    ...Object.fromEntries(names.map((name, k) => [name, Math.exp(logs[k])])),
  });
  const prior = names.map((name) => priors[name]);
  const count = observations.length;
  // Sew-outs of one kind share their table.
  const tables = [...new Set(observations.map(({ table }) => table))];
  const tableAt = observations.map(({ table }) => tables.indexOf(table));
  let noise = RATING_NOISE;
  let logs = prior.map(({ centre }) => centre);
  for (let round = 1; ; round++) {
    const solution = await leastSquares({
      start: logs,
      low: prior.map(({ low }) => low),
      high: prior.map(({ high }) => high),
      difference: DIFFERENCE,
      residuals: (at) => {
        const values = valuesAt(at);
        const foretold = tables.map((table) => foretoldGrade(table, values));
        return [
          ...observations.map(({ grade }, i) => (foretold[tableAt[i]] - grade) / noise),
          ...prior.map(({ centre, deviation }, k) => (at[k] - centre) / deviation),
        ];
      },
    });
    logs = solution.values;
    const covariance = await inverseOfNormal(solution.jacobian);
    const rows = solution.jacobian.slice(0, count);
    const leverages = rows.map((row) => quadratic(row, covariance));
    const residuals = solution.residuals.slice(0, count).map((r) => -r * noise);
    const spent = leverages.reduce((sum, h) => sum + h, 0);
    const seen = Math.sqrt(residuals.reduce((sum, r) => sum + r * r, 0) / Math.max(1, count - spent));
    const wanted = Math.max(RATING_NOISE, seen);
    if (round < MOST_ROUNDS && Math.abs(wanted - noise) > 0.01 * noise) {
      noise = wanted;
      continue;
    }
    // One level for all together (Bonferroni): each by itself is held to more.
    const wide = studentQuantile(1 - (1 - LEVEL) / names.length, count - spent);
    return {
      parameters: names.map((name, k) => {
        const deviation = Math.sqrt(covariance[k][k]);
        const at = (steps: number) => Math.exp(logs[k] + steps * deviation);
        return {
          name,
          value: at(0),
          low: at(-1),
          high: Math.min(at(1), name === 'firstWash' ? 1 : Infinity),
          interval: [at(-wide), Math.min(at(wide), name === 'firstWash' ? 1 : Infinity)],
          told: Math.max(0, 1 - (deviation / prior[k].deviation) ** 2),
          atBound: logs[k] <= prior[k].low || logs[k] >= prior[k].high,
        };
      }),
      values: valuesAt(logs),
      covariance,
      noise,
      residuals,
      leftOut: residuals.map((r, i) => r / (1 - leverages[i])),
      standardised: residuals.map((r, i) => r / (noise * Math.sqrt(1 - leverages[i]))),
    };
  }
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
