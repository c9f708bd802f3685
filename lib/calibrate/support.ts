/** Whether a log can carry a fit, and of which parameters; what it lacks otherwise. */
import { LieflatError } from '../core/errors.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import { type Priors, slopesAt } from './fit.js';
import { FREE, type FreeName, freeValues } from './free-parameters.js';
import type { HeightTable } from './heights.js';
import { RATING_NOISE } from './rater.js';
import type { LoggedSewOut } from './sew-out-log.js';

/** Twice the parameters: with fewer the grades' own scatter would be fitted. */
export const LEAST_ROWS = 2 * FREE.length;
/** Grades that do not differ by more than a whole one say nothing of what makes them differ. */
const LEAST_SPREAD = 1.5;
/** A parameter is left alone where all grades together say less of it than this part of what was thought before. */
const SAYS_NOTHING = 0.2;
/** The grades have to say as much as the built-in range does of at least one thing. */
const SAYS_ENOUGH = 1;
/** Part of the strongest direction below which a weaker one is none. */
const SINGULAR = 1e-6;

const WHY_UNTOLD: Readonly<Record<FreeName, string>> = {
  tension: 'no sew-out puckers enough for the pull of the thread to show; sew a bold name on a soft knit',
  fullTacking:
    'no sew-out hangs on how the backing is tacked; sew one design over backing with and without a light fill',
  threshold:
    'no sew-out is near the point where goods begin to wrinkle; sew some that come out slightly puckered',
  firstWash: 'nothing was graded after one or two launderings; wash some once and grade them again',
  scoreHalf: 'no grade lies between smooth and severe; sew some that come out in between',
};

export interface HeldParameter {
  readonly name: FreeName;
  readonly why: string;
}

const refuse = (place: string, what: string, todo: string): LieflatError =>
  new LieflatError({ code: 'no-fit', place, what, todo });

/**
 * What a log lacks can mostly be said before anything is worked out.
 * @throws LieflatError `no-fit`
 */
export function requireSupport(rows: readonly LoggedSewOut[], place: string): void {
  if (rows.length < LEAST_ROWS)
    throw refuse(
      place,
      `${rows.length === 0 ? 'no sew-out' : rows.length === 1 ? 'only 1 sew-out' : `only ${rows.length} sew-outs`} can be used, and a fit needs ${LEAST_ROWS}`,
      'sew and grade more, on at least two fabrics or backings',
    );
  const goods = new Set(rows.map(({ fabric, stackText }) => `${fabric} ${stackText}`));
  if (goods.size === 1)
    throw refuse(
      place,
      `all sew-outs are on the same goods, ${rows[0].fabric} over ${rows[0].stackText}`,
      'sew some on another fabric or over another backing',
    );
  const grades = rows.map(({ grade }) => grade);
  const [least, most] = [Math.min(...grades), Math.max(...grades)];
  if (most - least < LEAST_SPREAD)
    throw refuse(
      place,
      least === most ? `every grade is ${least}` : `all grades lie between ${least} and ${most}`,
      'sew some that come out flatter or worse: on canvas and on thin knit, over two sheets and over none',
    );
}

/**
 * Which parameters the sew-outs say anything of, by how far their foretold grades move.
 * @throws LieflatError `no-fit` where they say too little, or cannot tell some apart
 */
export async function supported(
  tables: readonly Pick<HeightTable, 'height'>[],
  start: MechanicsParameters,
  priors: Priors,
  place: string,
): Promise<{ names: FreeName[]; held: HeldParameter[] }> {
  const values = freeValues(start);
  // In standard deviations of a grade, for a change by the deviation that was thought before.
  const rows = tables.map((table) =>
    slopesAt(table, values, FREE).map((slope, k) => (slope * priors[FREE[k]].deviation) / RATING_NOISE),
  );
  const says = FREE.map((_, k) => Math.hypot(...rows.map((row) => row[k])));
  const names = FREE.filter((_, k) => says[k] >= SAYS_NOTHING);
  const held = FREE.filter((name) => !names.includes(name)).map((name) => ({ name, why: WHY_UNTOLD[name] }));
  if (names.length < 2 || Math.max(...says) < SAYS_ENOUGH)
    throw refuse(
      place,
      'the model foretells nearly the same grade of these sew-outs whatever its parameters are',
      'sew some designs and goods that pucker visibly, as a bold name on a thin knit',
    );
  const { Matrix, SingularValueDecomposition } = await import('ml-matrix');
  const { diagonal, rightSingularVectors } = new SingularValueDecomposition(
    new Matrix(rows.map((row) => names.map((name) => row[FREE.indexOf(name)]))),
    { autoTranspose: true },
  );
  const weakest = diagonal.indexOf(Math.min(...diagonal));
  if (diagonal[weakest] < SINGULAR * Math.max(...diagonal)) {
    const parts = rightSingularVectors.getColumn(weakest).map(Math.abs);
    const alike = names.filter((_, k) => parts[k] > 0.3 * Math.max(...parts));
    throw refuse(
      place,
      `the sew-outs cannot tell ${alike.join(' and ')} apart (the normal matrix is singular)`,
      'sew on more kinds of goods, and grade some after laundering',
    );
  }
  return { names, held };
}
