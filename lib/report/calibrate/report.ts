/** What a fit to a shop's own sew-outs comes to: what `lieflat calibrate --format json` prints. */
import {
  type Calibration,
  calibrationKey,
  type FitErrors,
  type ReadingResult,
  type SewOutSetting,
} from '../../calibrate/calibrate.js';
import { LEVEL } from '../../calibrate/fit.js';
import type { FreeName } from '../../calibrate/free-parameters.js';
import { RATING_NOISE } from '../../calibrate/rater.js';
import type { RowFault, SewOutLog } from '../../calibrate/sew-out-log.js';
import { type FittedParameters, PARAMETERS } from '../../mechanics/parameters.js';
import { RULER_NOISE } from '../../mechanics/ruler.js';
import { round } from '../round.js';

export interface SettingReport {
  file: string;
  fabric: string;
  stack: string;
  underlay: string;
  washes: number;
}

export interface CalibrateReport {
  schema: 'lieflat/calibrate@1';
  log: {
    path: string;
    /** Rows that the fit rests on, and how many different sew-outs there are among them. */
    used: number;
    settings: number;
    /** Lines with neither grade nor width. */
    ungraded: number[];
    faults: RowFault[];
    /** Why the grades were left out of a fit to widths; null where they were not. */
    gradesLack: string | null;
  };
  parameters: {
    name: string;
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
  }[];
  held: { name: string; value: number; unit: string; why: string }[];
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
    narrows: { name: string; part: number };
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

/** Nothing of the input is kept or changed. */
export function calibrateReport({ path, log, calibration }: CalibrateReportInput): CalibrateReport {
  const { parameters, held, support, start, rows, settings, grades, widths, next } = calibration;
  const figure = (value: number) => Number(value.toPrecision(4));
  return {
    schema: 'lieflat/calibrate@1',
    log: {
      path,
      used: rows.length,
      settings,
      ungraded: [...log.ungraded],
      faults: log.faults.map((fault) => ({ ...fault })),
      gradesLack: support.gradesLack,
    },
    parameters: parameters.map(({ name, value, low, high, interval, told, atBound }) => ({
      name,
      meaning: parameterWords(name),
      unit: PARAMETERS[name].unit,
      value: figure(value),
      low: figure(low),
      high: figure(high),
      interval: { low: figure(interval[0]), high: figure(interval[1]), level: LEVEL },
      builtIn: { value: PARAMETERS[name].value, low: PARAMETERS[name].low, high: PARAMETERS[name].high },
      told: round(told, 2),
      atBound,
    })),
    held: held.map(({ name, why }) => ({ name, value: start[name].value, unit: start[name].unit, why })),
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
      ...(support.gradesLack ? [`The grades were not used: ${support.gradesLack}.`] : []),
      'Uses typical values for your fabrics and backings, not your own: where yours differ, the fit takes that in. No figure goes far from its built-in range.',
      ...(grades
        ? [
            `Takes one grade by one person to be off by ${RATING_NOISE}, our own assumption, or by more where the log shows more.`,
          ]
        : []),
      ...(widths
        ? [
            `Takes one width read with a ruler to be off by ${RULER_NOISE} mm, our own assumption, or by more where the log shows more.`,
          ]
        : []),
      `All true values lie in these ranges ${100 * LEVEL} times in 100, if the model is right. "Settled" is the part of the doubt that your log has taken away.`,
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

const MEANINGS: Readonly<Record<FreeName, string>> = {
  tension: 'thread tension',
  pointSpring: 'how firmly stitches hold fabric and backing together',
  longestSpan: 'how soon your fabric wrinkles',
  firstWash: 'how much of all shrinking the first wash brings',
  scoreHalf: 'how high a wrinkle has to be to look bad to you',
};

export const parameterWords = (name: string): string => MEANINGS[name as FreeName];
