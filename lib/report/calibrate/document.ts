/** A fit for a person at a terminal: whether it helps, what it says, what to look at, what to do next. */

import { counted, fixed } from '../quantities.js';
import { NO_PAINT } from '../render/paint.js';
import { printable } from '../render/printable.js';
import { textTable } from '../render/text-table.js';
import { wrap } from '../render/wrap.js';
import type { TextOptions } from '../text-options.js';
import { type CalibrateReport, parameterWords, type SettingReport } from './report.js';

const INDENT = '  ';
/** By so many grades, or mm, the fit has to predict rows better than before to be worth using. */
const WORTH = 0.05;
const WORTH_MM = 0.02;

/** Every line fits the width; names are made safe for a terminal. `all` lists every row. */
export function calibrateToText(report: CalibrateReport, options: TextOptions, all = false): string {
  const sections = [
    summary(report, options),
    parameters(report, options),
    rows(report, options, all),
    next(report, options),
    trust(report, options),
  ];
  return sections
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n');
}

function summary(report: CalibrateReport, { width, paint = NO_PAINT }: TextOptions): string[] {
  const { log, errors, widthErrors } = report;
  const helps = worthUsing(report);
  const word = helps ? 'FITTED' : 'NO BETTER';
  const [first, ...more] = wrap(
    `${printable(log.path)}: ${counted(log.used, 'sew-out')}, ${log.settings} of them different`,
    width,
    `${word}  `,
    INDENT,
  );
  const left = [
    ...(log.faults.length > 0 ? [`${counted(log.faults.length, 'row')} left out as wrong`] : []),
    ...(log.ungraded.length > 0 ? [`${counted(log.ungraded.length, 'row')} not graded yet`] : []),
  ];
  const say = (text: string) => wrap(text, width, INDENT);
  return [
    `${(helps ? paint.sound : paint.warn)(word)}${paint.strong(first.slice(word.length))}`,
    ...more.map((line) => paint.strong(line)),
    ...(errors
      ? say(
          `Predicted grades were off by ${fixed(errors.before, 2)} before the fit and are off by ${fixed(errors.fitted, 2)} now (by ${fixed(errors.leaveOneOut, 2)} on a sew-out that the fit has not seen).`,
        )
      : []),
    ...(widthErrors
      ? say(
          `Predicted widths were off by ${fixed(widthErrors.before, 2)} mm before the fit and are off by ${fixed(widthErrors.fitted, 2)} mm now.`,
        )
      : []),
    ...(helps ? [] : say('What you use now predicts these sew-outs about as well: keep it.')),
    ...(log.gradesLack ? say(`The grades were not used: ${log.gradesLack}.`) : []),
    ...(left.length > 0 ? say(`${left.join(', ')}.`) : []),
  ];
}

/** Grades are told by rows that the fit has not seen; a ruler is believed. */
function worthUsing({ errors, widthErrors }: CalibrateReport): boolean {
  if (!errors) return true;
  return (
    errors.leaveOneOut <= errors.before - WORTH ||
    (widthErrors !== null && widthErrors.fitted <= widthErrors.before - WORTH_MM)
  );
}

function parameters({ parameters, held }: CalibrateReport, { width }: TextOptions): string[] {
  return [
    'What the sew-outs say',
    ...textTable(
      [
        { head: 'parameter', align: 'left' },
        { head: 'fitted', align: 'right' },
        { head: '95% sure', align: 'right' },
        { head: 'built in', align: 'right' },
        { head: 'settled', align: 'right' },
        { head: 'it is', align: 'left', flexible: true },
      ],
      parameters.map((p) => [
        p.name,
        `${short(p.value)} ${p.unit}`.trim(),
        `${short(p.interval.low)} to ${short(p.interval.high)}`,
        String(p.builtIn.value),
        `${fixed(100 * p.told, 0)}%`,
        p.meaning,
      ]),
      width,
      INDENT,
    ),
    ...parameters
      .filter(({ atBound }) => atBound)
      .flatMap(({ name }) =>
        wrap(
          `${name} went as far as it may: check that the log names the right fabrics and backings.`,
          width,
          INDENT,
        ),
      ),
    ...held.flatMap(({ name, value, unit, why }) =>
      wrap(
        `${name} (${parameterWords(name)}) stays ${value}${unit ? ` ${unit}` : ''}: ${why}.`,
        width,
        INDENT,
      ),
    ),
  ];
}

function rows({ rows, log }: CalibrateReport, { width }: TextOptions, all: boolean): string[] {
  const lines = rows.flatMap((row) => {
    const place = `${printable(log.path)}:${row.line}`;
    const mark = (outlying: boolean) => (outlying && all ? ' !' : '');
    const { width: by } = row;
    const grade = [
      place,
      settingWords(row),
      `grade ${row.grade}`,
      fixed(row.foretold ?? 0, 1),
      `${signed(row.residual ?? 0, 1)}${mark(row.outlying)}`,
    ];
    const measured = by && [
      place,
      `object ${by.object} of ${settingWords(row)}`,
      `${by.measured} mm`,
      fixed(by.foretold, 2),
      `${signed(by.residual, 2)}${mark(by.outlying)}`,
    ];
    return [
      ...(row.grade !== null && (all || row.outlying) ? [grade] : []),
      ...(measured && (all || by.outlying) ? [measured] : []),
    ];
  });
  if (lines.length === 0) return [];
  return [
    all ? 'Every row' : 'Check these rows: far from what is predicted',
    ...textTable(
      [
        { head: 'row', align: 'left' },
        { head: 'sewn', align: 'left', flexible: true },
        { head: 'seen', align: 'right' },
        { head: 'predicted', align: 'right' },
        { head: 'off', align: 'right' },
      ],
      lines,
      width,
      INDENT,
    ),
  ];
}

const signed = (value: number, digits: number): string => `${value > 0 ? '+' : ''}${fixed(value, digits)}`;

function next({ next }: CalibrateReport, { width }: TextOptions): string[] {
  if (next.length === 0) return [];
  return [
    'What to do next',
    ...next.flatMap(({ object, sewOuts, narrows, ...setting }) => {
      const what =
        object === null
          ? `Sew and grade ${counted(sewOuts, 'time')}: ${settingWords(setting)}.`
          : `Measure the sewn width of object ${object}: ${settingWords(setting)}.`;
      return wrap(
        `${what} It narrows ${narrows.name} (${parameterWords(narrows.name)}) by about ${fixed(100 * narrows.part, 0)}%.`,
        width,
        `${INDENT}- `,
        `${INDENT}  `,
      );
    }),
  ];
}

function trust({ restsOn }: CalibrateReport, { width }: TextOptions): string[] {
  return ['How far to trust it', ...restsOn.flatMap((line) => wrap(line, width, INDENT))];
}

const short = (value: number): string => String(Number(value.toPrecision(3)));

const settingWords = ({ file, fabric, stack, underlay, washes }: SettingReport): string =>
  [
    `${printable(file)} on ${printable(fabric)} over ${printable(stack)}`,
    ...(underlay === 'as-is' ? [] : [`underlay ${printable(underlay)}`]),
    washes === 0 ? 'not washed' : washes === 1 ? 'washed once' : `washed ${counted(washes, 'time')}`,
  ].join(', ');
