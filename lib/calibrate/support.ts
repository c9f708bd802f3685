/** Whether a log can carry a fit, and of which parameters; what it lacks otherwise. */
import type { MechanicsParameters } from '../mechanics/parameters.js';
import { LEAST_NOISE, type Looked, type Priors, slopesAt } from './fit.js';
import { FREE, type FreeName, freeValues } from './free-parameters.js';
import type { FitLack, Refused } from './refusal.js';
import type { LoggedSewOut } from './sew-out-log.js';

/** Twice the parameters: with fewer the grades' own scatter would be fitted. */
export const LEAST_GRADES = 2 * FREE.length;
/** Grades that do not differ by more than a whole one say nothing of what makes them differ. */
const LEAST_SPREAD = 1.5;
/** A parameter is left alone where all sew-outs together say less of it than this part of what was thought before. */
const SAYS_NOTHING = 0.2;
/** They have to say as much as the built-in range does of at least one thing. */
const SAYS_ENOUGH = 1;
/** Part of the strongest direction below which a weaker one is none. */
const SINGULAR = 1e-6;

/** What kind of reading a fit rests on, and why one kind was left out. */
export interface Support {
  readonly grades: boolean;
  readonly widths: boolean;
  /** Why the log's grades were not used; null where they were, or where there are none. */
  readonly gradesLack: FitLack | null;
}

/**
 * What a log lacks can mostly be said before anything is worked out. Widths carry a fit by themselves, were there one alone: a ruler is surer
 * than an eye, and the built-in ranges hold what a width says nothing of.
 */
export function supportOf(rows: readonly LoggedSewOut[]): Support | Refused {
  const graded = rows.filter(({ grade }) => grade !== null);
  const widths = rows.some(({ width }) => width !== null);
  const lack = gradesLack(graded, rows.length);
  if (lack && !widths) return { lack };
  return { grades: !lack, widths, gradesLack: graded.length > 0 ? lack : null };
}

function gradesLack(rows: readonly LoggedSewOut[], all: number): FitLack | null {
  if (rows.length < LEAST_GRADES)
    return { code: 'few-grades', params: { graded: rows.length, needed: LEAST_GRADES, rows: all } };
  const setups = new Set(rows.map(({ fabric, stackText }) => `${fabric} ${stackText}`));
  if (setups.size === 1)
    return { code: 'one-setup', params: { fabric: rows[0].fabric, stack: rows[0].stackText } };
  const grades = rows.map(({ grade }) => grade!);
  const [least, most] = [Math.min(...grades), Math.max(...grades)];
  return most - least < LEAST_SPREAD ? { code: 'grades-alike', params: { least, most } } : null;
}

/**
 * Which parameters the sew-outs say anything of, by how far what is predicted of them moves; the rest is held. Refused where they say too little, or
 * cannot tell some apart.
 */
export async function supported(
  looked: readonly Looked[],
  start: MechanicsParameters,
  priors: Priors,
): Promise<{ names: FreeName[]; held: FreeName[] } | Refused> {
  const values = freeValues(start);
  // In standard deviations of a reading, for a change by the deviation that was thought before.
  const rows = looked.map((one) =>
    slopesAt(one, values, FREE).map((slope, k) => (slope * priors[FREE[k]].deviation) / LEAST_NOISE[one.of]),
  );
  const says = FREE.map((_, k) => Math.hypot(...rows.map((row) => row[k])));
  const names = FREE.filter((_, k) => says[k] >= SAYS_NOTHING);
  const held = FREE.filter((name) => !names.includes(name));
  const graded = looked.some(({ of }) => of === 'grade');
  if (names.length === 0 || (graded && (names.length < 2 || Math.max(...says) < SAYS_ENOUGH)))
    return { lack: { code: 'no-effect', params: { graded } } };
  // One width tells of tension and hold together, and may: the built-in ranges keep them from running off.
  const alike = graded ? await notToldApart(rows, names) : [];
  return alike.length > 0 ? { lack: { code: 'not-told-apart', params: { names: alike } } } : { names, held };
}

/** Parameters whose changes move all readings alike. */
async function notToldApart(
  rows: readonly (readonly number[])[],
  names: readonly FreeName[],
): Promise<FreeName[]> {
  const { Matrix, SingularValueDecomposition } = await import('ml-matrix');
  const { diagonal, rightSingularVectors } = new SingularValueDecomposition(
    new Matrix(rows.map((row) => names.map((name) => row[FREE.indexOf(name)]))),
    { autoTranspose: true },
  );
  const weakest = diagonal.indexOf(Math.min(...diagonal));
  if (diagonal[weakest] >= SINGULAR * Math.max(...diagonal)) return [];
  const parts = rightSingularVectors.getColumn(weakest).map(Math.abs);
  return names.filter((_, k) => parts[k] > 0.3 * Math.max(...parts));
}
