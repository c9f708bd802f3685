/** What a fit to a shop's own sew-outs comes to: what `lieflat calibrate --format json` prints. */
import {
  type Calibration,
  calibrationKey,
  type FitErrors,
  type ReadingResult,
  type SewOutSetting,
} from '../../calibrate/calibrate.js';
import { type FittedParameter, LEVEL } from '../../calibrate/fit.js';
import type { FreeName } from '../../calibrate/free-parameters.js';
import { RATING_NOISE } from '../../calibrate/rater.js';
import type { SewOutLog } from '../../calibrate/sew-out-log.js';
import { type FittedParameters, PARAMETERS } from '../../mechanics/parameters.js';
import { RULER_NOISE } from '../../mechanics/ruler.js';
import { wordsFor } from '../phrases/words.js';
import { round } from '../round.js';
import { lackInWords, type RowFaultReport, rowFaultReport } from './faults.js';

export interface SettingReport {
  file: string;
  fabric: string;
  stack: string;
  underlay: string;
  washes: number;
}

export interface CalibrateReport {
  schema: 'lieflat/calibrate@1';
  /** The fit predicts these sew-outs well enough better to be used. */
  helps: boolean;
  log: {
    path: string;
    /** Rows that the fit rests on, and how many different sew-outs there are among them. */
    used: number;
    settings: number;
    /** Lines with neither grade nor width. */
    ungraded: number[];
    faults: readonly RowFaultReport[];
    /** Why the grades were left out of a fit to widths; null where they were not. */
    gradesLack: string | null;
  };
  parameters: {
    name: FreeName;
    meaning: string;
    unit: string;
    value: number;
    /** One standard deviation either way. */
    low: number;
    high: number;
    interval: { low: number; high: number; level: number };
    builtIn: { value: number; low: number; high: number };
    /** 0..1, part of what was not known before that the log has settled. */
    told: number;
    atBound: boolean;
    /** Where it stands beside the built-in value; `open` where the log settles too little to say. */
    stands: 'above' | 'below' | 'usual' | 'open';
    /** All of its interval stands there. */
    sure: boolean;
  }[];
  held: { name: FreeName; value: number; unit: string; why: string }[];
  /** Root mean square of grade written minus grade foretold; null where the fit rests on no grade. */
  errors: { before: number; fitted: number; leaveOneOut: number; oneGrade: number } | null;
  /** The same of measured widths, mm. */
  widthErrors: { before: number; fitted: number; leaveOneOut: number; oneWidth: number } | null;
  /** `grade` and the four after it are null where a row has no grade; `width` is null where it has none. */
  rows: (SettingReport & {
    line: number;
    grade: number | null;
    before: number | null;
    foretold: number | null;
    residual: number | null;
    leftOut: number | null;
    /** The grade is far from what is foretold. */
    outlying: boolean;
    width: WidthReport | null;
    remarks: string;
  })[];
  /** What would tell most, best first. */
  next: (SettingReport & {
    /** The object to measure with a ruler; null where the design is to be sewn and graded. */
    object: number | null;
    sewOuts: number;
    narrows: { name: FreeName; part: number };
  })[];
  restsOn: string[];
  /** What the profile gets. */
  calibration: FittedParameters;
}

/** One measured width, mm. */
export interface WidthReport {
  object: number;
  file: number;
  measured: number;
  before: number;
  foretold: number;
  residual: number;
  leftOut: number;
  outlying: boolean;
}

export interface CalibrateReportInput {
  readonly path: string;
  readonly log: Pick<SewOutLog, 'ungraded' | 'faults'>;
  readonly calibration: Calibration;
}

/** By so many grades, or mm, the fit has to predict rows better than before to be worth using. */
const WORTH = 0.05;
const WORTH_MM = 0.02;
/** Below this part of the doubt the log has settled too little to call a figure usual. */
const LITTLE = 0.25;

const { calibrate: phrases } = wordsFor({ units: 'mm', detail: 'full' });

/** Nothing of the input is kept or changed. */
export function calibrateReport({ path, log, calibration }: CalibrateReportInput): CalibrateReport {
  const { parameters, held, support, start, rows, settings, grades, widths, next } = calibration;
  const figure = (value: number) => Number(value.toPrecision(4));
  return {
    schema: 'lieflat/calibrate@1',
    helps: worthUsing(calibration),
    log: {
      path,
      used: rows.length,
      settings,
      ungraded: [...log.ungraded],
      faults: log.faults.map(rowFaultReport),
      gradesLack: support.gradesLack && lackInWords(support.gradesLack).what,
    },
    parameters: parameters.map(({ name, value, low, high, interval, told, atBound }) => ({
      name,
      meaning: phrases.meanings[name],
      unit: PARAMETERS[name].unit,
      value: figure(value),
      low: figure(low),
      high: figure(high),
      interval: { low: figure(interval[0]), high: figure(interval[1]), level: LEVEL },
      builtIn: { value: PARAMETERS[name].value, low: PARAMETERS[name].low, high: PARAMETERS[name].high },
      told: round(told, 2),
      atBound,
      ...standing({ low, high, interval, told }, PARAMETERS[name].value),
    })),
    held: held.map((name) => ({
      name,
      value: start[name].value,
      unit: start[name].unit,
      why: phrases.untold[name],
    })),
    errors: grades && { ...errorsReport(grades), oneGrade: round(grades.oneReading, 2) },
    widthErrors: widths && { ...errorsReport(widths), oneWidth: round(widths.oneReading, 2) },
    rows: rows.map(({ line, grade, width, remarks, ...row }) => ({
      line,
      ...settingReport(row),
      ...gradeReport(grade),
      outlying: grade?.outlying ?? false,
      width: width && {
        object: width.object,
        file: round(width.fileMm, 2),
        measured: width.seen,
        ...readingReport(width),
        outlying: width.outlying,
      },
      remarks,
    })),
    next: next.map(({ setting, object, sewOuts, narrows }) => ({
      ...settingReport(setting),
      object,
      sewOuts,
      narrows: { name: narrows.name, part: round(narrows.part, 2) },
    })),
    restsOn: [
      ...(support.gradesLack ? [phrases.gradesUnused({ lack: lackInWords(support.gradesLack).what })] : []),
      phrases.trust.typical,
      ...(grades ? [phrases.trust.grades({ off: RATING_NOISE })] : []),
      ...(widths ? [phrases.trust.widths({ off: RULER_NOISE })] : []),
      phrases.trust.ranges({ level: LEVEL }),
    ],
    calibration: calibrationKey(calibration),
  };
}

const settingReport = ({ file, fabric, stackText, underlayText, washes }: SewOutSetting): SettingReport => ({
  file,
  fabric,
  stack: stackText,
  underlay: underlayText,
  washes,
});

const errorsReport = ({ before, fitted, leaveOneOut }: FitErrors) => ({
  before: round(before, 2),
  fitted: round(fitted, 2),
  leaveOneOut: round(leaveOneOut, 2),
});

const readingReport = ({ seen, before, predicted, leftOut }: ReadingResult) => ({
  before: round(before, 2),
  foretold: round(predicted, 2),
  residual: round(seen - predicted, 2),
  leftOut: round(leftOut, 2),
});

const NO_GRADE = { grade: null, before: null, foretold: null, residual: null, leftOut: null };
const gradeReport = (grade: ReadingResult | null) =>
  grade ? { grade: grade.seen, ...readingReport(grade) } : NO_GRADE;

/** Grades are told by rows that the fit has not seen; a ruler is believed. */
function worthUsing({ grades, widths }: Calibration): boolean {
  if (!grades) return true;
  return (
    grades.leaveOneOut <= grades.before - WORTH ||
    (widths !== null && widths.fitted <= widths.before - WORTH_MM)
  );
}

/** A figure is beside the built-in one where one standard deviation does not reach it. */
function standing(
  { low, high, interval, told }: Pick<FittedParameter, 'low' | 'high' | 'interval' | 'told'>,
  builtIn: number,
): Pick<CalibrateReport['parameters'][number], 'stands' | 'sure'> {
  if (low > builtIn) return { stands: 'above', sure: interval[0] > builtIn };
  if (high < builtIn) return { stands: 'below', sure: interval[1] < builtIn };
  return { stands: told < LITTLE ? 'open' : 'usual', sure: false };
}
