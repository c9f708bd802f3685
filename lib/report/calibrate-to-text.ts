/** A fit for a person at a terminal: whether it helps, what it says, what to look at, what to sew next. */
import { type CalibrateReport, parameterWords, type SettingReport } from './calibrate-report.js';
import { NO_PAINT } from './paint.js';
import { printable } from './printable.js';
import { counted, fixed } from './quantities.js';
import type { TextOptions } from './text-options.js';
import { textTable } from './text-table.js';
import { wrap } from './wrap.js';

const INDENT = '  ';
/** By so many grades the fit has to foretell rows it has not seen better than before to be worth using. */
const WORTH = 0.05;

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

function summary({ log, errors }: CalibrateReport, { width, paint = NO_PAINT }: TextOptions): string[] {
  const helps = errors.leaveOneOut <= errors.before - WORTH;
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
  return [
    `${(helps ? paint.sound : paint.warn)(word)}${paint.strong(first.slice(word.length))}`,
    ...more.map((line) => paint.strong(line)),
    ...wrap(
      `Grades were off by ${fixed(errors.before, 2)} before the fit and are by ${fixed(errors.fitted, 2)} after it; each row foretold from the others alone, by ${fixed(errors.leaveOneOut, 2)} (root mean square).`,
      width,
      INDENT,
    ),
    ...(helps
      ? []
      : wrap(
          'The figures in force foretell these sew-outs about as well as the fit does: keep them.',
          width,
          INDENT,
        )),
    ...(left.length > 0 ? wrap(`${left.join(', ')}.`, width, INDENT) : []),
  ];
}

function parameters({ parameters, held }: CalibrateReport, { width }: TextOptions): string[] {
  return [
    'What the sew-outs say',
    ...textTable(
      [
        { head: 'parameter', align: 'left' },
        { head: 'fitted', align: 'right' },
        { head: '95 % sure in', align: 'right' },
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
          `${name} went as far as it may: look for rows on goods that the log calls something else.`,
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
  const shown = all ? rows : rows.filter(({ outlying }) => outlying);
  if (shown.length === 0) return [];
  return [
    all ? 'Every row' : 'Rows to look at: graded far from what is foretold',
    ...textTable(
      [
        { head: 'row', align: 'left' },
        { head: 'sewn', align: 'left', flexible: true },
        { head: 'grade', align: 'right' },
        { head: 'foretold', align: 'right' },
        { head: 'off', align: 'right' },
      ],
      shown.map((row) => [
        `${printable(log.path)}:${row.line}`,
        settingWords(row),
        String(row.grade),
        fixed(row.foretold, 1),
        `${row.residual > 0 ? '+' : ''}${fixed(row.residual, 1)}${row.outlying && all ? ' !' : ''}`,
      ]),
      width,
      INDENT,
    ),
  ];
}

function next({ next }: CalibrateReport, { width }: TextOptions): string[] {
  if (next.length === 0) return [];
  return [
    'What to sew next',
    ...next.flatMap(({ sewOuts, narrows, ...setting }) =>
      wrap(
        `${counted(sewOuts, 'time')} ${settingWords(setting)}: narrows ${narrows.name} (${parameterWords(narrows.name)}) by about ${fixed(100 * narrows.part, 0)}%`,
        width,
        `${INDENT}- `,
        `${INDENT}  `,
      ),
    ),
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
