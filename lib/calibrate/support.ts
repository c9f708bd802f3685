/** Whether a log can carry a fit, and of which parameters; what it lacks otherwise. */
import { LieflatError } from '../core/errors.js';
import type { MechanicsParameters } from '../mechanics/parameters.js';
import { LEAST_NOISE, type Looked, type Priors, slopesAt } from './fit.js';
import { FREE, type FreeName, freeValues } from './free-parameters.js';
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

const WHY_UNTOLD: Readonly<Record<FreeName, string>> = {
  tension:
    'no sew-out shows how hard the thread pulls; measure the sewn width of a wide column, or sew a bold name on a soft knit',
  pointSpring:
    'no sew-out shows how firmly the stitches hold fabric and backing together; measure a narrow and a wide column on a soft knit',
  longestSpan: 'no graded sew-out comes out slightly puckered; grade some that do',
  firstWash: 'no grade changes enough with washing; wash some once and grade them again',
  scoreHalf: 'no grade lies between smooth and severe; grade some that come out in between',
};

export interface HeldParameter {
  readonly name: FreeName;
  readonly why: string;
}

/** What kind of reading a fit rests on, and why one kind was left out. */
export interface Support {
  readonly grades: boolean;
  readonly widths: boolean;
  /** Why the log's grades were not used; null where they were, or where there are none. */
  readonly gradesLack: string | null;
}

const refuse = (place: string, what: string, todo: string): LieflatError =>
  new LieflatError({ code: 'no-fit', place, what, todo });

/**
 * What a log lacks can mostly be said before anything is worked out. Widths carry a fit by themselves, were there one alone: a ruler is surer
 * than an eye, and the built-in ranges hold what a width says nothing of.
 * @throws LieflatError `no-fit`
 */
export function requireSupport(rows: readonly LoggedSewOut[], place: string): Support {
  const graded = rows.filter(({ grade }) => grade !== null);
  const widths = rows.some(({ width }) => width !== null);
  const lacks = gradesLack(graded, rows.length);
  if (lacks && !widths) throw refuse(place, lacks.what, lacks.todo);
  return { grades: !lacks, widths, gradesLack: lacks && graded.length > 0 ? lacks.what : null };
}

function gradesLack(rows: readonly LoggedSewOut[], all: number): { what: string; todo: string } | null {
  if (rows.length < LEAST_GRADES) {
    const have =
      rows.length > 1
        ? `only ${rows.length} graded sew-outs`
        : rows.length === 1
          ? 'only 1 graded sew-out'
          : all > 0
            ? 'no graded sew-out'
            : 'no sew-out';
    return {
      what: `the log has ${have} to use, and a fit needs ${LEAST_GRADES}`,
      todo: 'grade more, on two fabrics or backings at least, or measure the sewn width of a column (object, width_mm)',
    };
  }
  const setups = new Set(rows.map(({ fabric, stackText }) => `${fabric} ${stackText}`));
  if (setups.size === 1)
    return {
      what: `every graded sew-out is ${rows[0].fabric} over ${rows[0].stackText}`,
      todo: 'sew some on another fabric or over another backing',
    };
  const grades = rows.map(({ grade }) => grade!);
  const [least, most] = [Math.min(...grades), Math.max(...grades)];
  if (most - least < LEAST_SPREAD)
    return {
      what: least === most ? `every grade is ${least}` : `every grade is between ${least} and ${most}`,
      todo: 'sew some that come out flatter or worse: on canvas and on thin knit, over two sheets and over none',
    };
  return null;
}

/**
 * Which parameters the sew-outs say anything of, by how far what is predicted of them moves.
 * @throws LieflatError `no-fit` where they say too little, or cannot tell some apart
 */
export async function supported(
  looked: readonly Looked[],
  start: MechanicsParameters,
  priors: Priors,
  place: string,
): Promise<{ names: FreeName[]; held: HeldParameter[] }> {
  const values = freeValues(start);
  // In standard deviations of a reading, for a change by the deviation that was thought before.
  const rows = looked.map((one) =>
    slopesAt(one, values, FREE).map((slope, k) => (slope * priors[FREE[k]].deviation) / LEAST_NOISE[one.of]),
  );
  const says = FREE.map((_, k) => Math.hypot(...rows.map((row) => row[k])));
  const names = FREE.filter((_, k) => says[k] >= SAYS_NOTHING);
  const held = FREE.filter((name) => !names.includes(name)).map((name) => ({ name, why: WHY_UNTOLD[name] }));
  const graded = looked.some(({ of }) => of === 'grade');
  if (names.length === 0 || (graded && (names.length < 2 || Math.max(...says) < SAYS_ENOUGH)))
    throw refuse(
      place,
      graded
        ? 'by the model these sew-outs come out nearly the same on any machine'
        : 'by the model these widths come out nearly the same on any machine',
      'sew designs that pucker visibly, such as a bold name on a thin knit, or measure a column 4 mm wide or wider',
    );
  // One width tells of tension and hold together, and may: the built-in ranges keep them from running off.
  if (graded) await requireTold(rows, names, place);
  return { names, held };
}

async function requireTold(
  rows: readonly (readonly number[])[],
  names: readonly FreeName[],
  place: string,
): Promise<void> {
  const { Matrix, SingularValueDecomposition } = await import('ml-matrix');
  const { diagonal, rightSingularVectors } = new SingularValueDecomposition(
    new Matrix(rows.map((row) => names.map((name) => row[FREE.indexOf(name)]))),
    { autoTranspose: true },
  );
  const weakest = diagonal.indexOf(Math.min(...diagonal));
  if (diagonal[weakest] >= SINGULAR * Math.max(...diagonal)) return;
  const parts = rightSingularVectors.getColumn(weakest).map(Math.abs);
  const alike = names.filter((_, k) => parts[k] > 0.3 * Math.max(...parts));
  throw refuse(
    place,
    `the sew-outs cannot tell ${alike.join(' and ')} apart`,
    'sew on more kinds of fabric, grade some after washing, and measure the sewn width of a column',
  );
}
