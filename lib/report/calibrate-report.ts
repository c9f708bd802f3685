/** What a fit to a shop's own sew-outs comes to: what `lieflat calibrate --format json` prints. */
import { type Calibration, calibrationKey, type Setting } from '../calibrate/calibrate.js';
import { LEVEL } from '../calibrate/fit.js';
import { RATING_NOISE } from '../calibrate/rater.js';
import type { RowFault, SewOutLog } from '../calibrate/sew-out-log.js';
import type { ParameterOverrides } from '../mechanics/parameter-overrides.js';
import { PARAMETERS } from '../mechanics/parameters.js';
import { sourceWords } from './driver-words.js';
import { round } from './round.js';

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
    /** Lines without a grade. */
    ungraded: number[];
    faults: RowFault[];
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
  /** Root mean square of grade written minus grade foretold. */
  errors: { before: number; fitted: number; leaveOneOut: number; oneGrade: number };
  rows: (SettingReport & {
    line: number;
    grade: number;
    before: number;
    foretold: number;
    residual: number;
    leftOut: number;
    outlying: boolean;
    remarks: string;
  })[];
  /** What would tell most, best first. */
  next: (SettingReport & { sewOuts: number; narrows: { name: string; part: number } })[];
  restsOn: string[];
  /** What the profile gets. */
  calibration: ParameterOverrides;
}

export interface CalibrateReportInput {
  readonly path: string;
  readonly log: Pick<SewOutLog, 'ungraded' | 'faults'>;
  readonly calibration: Calibration;
}

/** Nothing of the input is kept or changed. */
export function calibrateReport({ path, log, calibration }: CalibrateReportInput): CalibrateReport {
  const { parameters, held, start, rows, settings, errors, noise, next } = calibration;
  const figure = (value: number) => Number(value.toPrecision(4));
  return {
    schema: 'lieflat/calibrate@1',
    log: {
      path,
      used: rows.length,
      settings,
      ungraded: [...log.ungraded],
      faults: log.faults.map((fault) => ({ ...fault })),
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
    errors: {
      before: round(errors.before, 2),
      fitted: round(errors.fitted, 2),
      leaveOneOut: round(errors.leaveOneOut, 2),
      oneGrade: round(noise, 2),
    },
    rows: rows.map(({ line, grade, before, foretold, leftOut, outlying, remarks, ...row }) => ({
      line,
      ...settingReport(row),
      grade,
      before: round(before, 2),
      foretold: round(foretold, 2),
      residual: round(grade - foretold, 2),
      leftOut: round(leftOut, 2),
      outlying,
      remarks,
    })),
    next: next.map(({ setting, sewOuts, narrows }) => ({
      ...settingReport(setting),
      sewOuts,
      narrows: { name: narrows.name, part: round(narrows.part, 2) },
    })),
    restsOn: [
      'Least squares on the grade. Each parameter is held near its built-in value by half its built-in range as one standard deviation. Fabrics and sheets are taken to be as the catalogue has them: what yours are other than that goes into the fit.',
      `One grade by one person is taken to be off by ${RATING_NOISE} (one standard deviation, our own assumption), or by more where the log shows more; grades are written in half steps and end at 5 and 1.`,
      `The intervals together hold all true values ${100 * LEVEL} times in 100 as far as the model is true; they do not know of thread, needle, hooping or hand. "Settled" is the part of what was not known before that the log has taken away.`,
    ],
    calibration: calibrationKey(calibration),
  };
}

const settingReport = ({ file, fabric, stackText, underlayText, washes }: Setting): SettingReport => ({
  file,
  fabric,
  stack: stackText,
  underlay: underlayText,
  washes,
});

const MEANINGS: Readonly<Record<string, string>> = {
  firstWash: 'how much of all shrinking the first wash brings',
  scoreHalf: 'how high wrinkles look bad to the graders',
};

export const parameterWords = (name: string): string => MEANINGS[name] ?? sourceWords(name);
