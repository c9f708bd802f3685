/** A fit as a document: whether it helps, what it says of the shop, what to look at and do next; the figures only for whoever asks. */
import { AS_IS } from '../../calibrate/underlay-text.js';
import type { Block, Fact, ReportDocument, ReportSection, Verdict } from '../document.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { renderText } from '../render/text.js';
import type { TextOptions } from '../text-options.js';
import type { CalibrateReport, SettingReport } from './report.js';

type CalibrateWords = Words<'calibrate' | 'common'>;
type Parameter = CalibrateReport['parameters'][number];
type LoggedRow = CalibrateReport['rows'][number];

export interface CalibrateDetail {
  /** Every row of the log, not only those to check. */
  readonly rows?: boolean;
  /** The fitted figures with their ranges, and what they rest on. */
  readonly explain?: boolean;
}

export function calibrateDocument(
  report: CalibrateReport,
  words: CalibrateWords,
  { rows = false, explain = false }: CalibrateDetail = {},
): ReportDocument {
  const { calibrate } = words;
  return {
    title: calibrate.title,
    language: 'en',
    blocks: [
      verdict(report, words),
      { is: 'facts', facts: facts(report, words) },
      ...notes(report, words),
      { is: 'section', title: calibrate.saysTitle, blocks: [{ is: 'list', items: says(report, words) }] },
      rowsSection(report, words, rows),
      next(report, words, explain),
      ...(explain ? [figures(report, words)] : []),
      howSure(report, words, explain),
    ],
  };
}

/** The same as text: what `lieflat calibrate` prints. Every line fits the width. */
export function calibrateToText(
  report: CalibrateReport,
  options: TextOptions,
  detail?: CalibrateDetail,
): string {
  const words = wordsFor({ units: options.units, detail: 'full' });
  return renderText(calibrateDocument(report, words, detail), options);
}

function verdict({ log, helps }: CalibrateReport, { calibrate }: CalibrateWords): Verdict {
  return {
    is: 'verdict',
    level: helps ? 'sound' : 'warn',
    word: helps ? calibrate.fitted : calibrate.noBetter,
    line: calibrate.log({ path: log.path, sewOuts: log.used, setups: log.settings }),
  };
}

function facts({ log, errors, widthErrors }: CalibrateReport, { calibrate }: CalibrateWords): Fact[] {
  const left = [
    ...(log.faults.length > 0 ? [calibrate.wrong({ rows: log.faults.length })] : []),
    ...(log.ungraded.length > 0 ? [calibrate.ungraded({ rows: log.ungraded.length })] : []),
  ];
  const off = ({ before, fitted: now }: { before: number; fitted: number }) => ({ before, now });
  return [
    ...(errors ? [{ label: calibrate.gradesLabel, text: calibrate.gradesOff(off(errors)) }] : []),
    ...(widthErrors ? [{ label: calibrate.widthsLabel, text: calibrate.widthsOff(off(widthErrors)) }] : []),
    ...(left.length > 0 ? [{ label: calibrate.logLabel, text: left.join(', ') }] : []),
  ];
}

function notes({ helps, log }: CalibrateReport, { calibrate }: CalibrateWords): Block[] {
  const lines = [
    ...(helps ? [] : [calibrate.keep]),
    ...(log.gradesLack === null ? [] : [calibrate.gradesUnused({ lack: log.gradesLack })]),
  ];
  return lines.map((text) => ({ is: 'paragraph', text }));
}

/** A sentence a figure; what the log says nothing of comes last. */
function says({ parameters, held }: CalibrateReport, { calibrate }: CalibrateWords): string[] {
  return [
    ...parameters.map((parameter) => saying(parameter, calibrate)),
    ...parameters
      .filter(({ atBound }) => atBound)
      .map(({ name }) => calibrate.atBound({ meaning: calibrate.meanings[name] })),
    ...held.map(({ name, why }) => calibrate.held({ meaning: calibrate.meanings[name], why })),
  ];
}

function saying({ name, stands, sure }: Parameter, calibrate: CalibrateWords['calibrate']): string {
  if (stands === 'open') return calibrate.littleTold({ meaning: calibrate.meanings[name] });
  return stands === 'usual' ? calibrate.stands[name].usual : calibrate.stands[name][stands]({ sure });
}

function rowsSection({ rows, log }: CalibrateReport, words: CalibrateWords, all: boolean): ReportSection {
  const { calibrate } = words;
  const { column } = calibrate;
  return {
    is: 'section',
    title: all ? calibrate.rowsTitle : calibrate.checkTitle,
    blocks: [
      {
        is: 'table',
        id: 'rows',
        columns: [
          { head: column.row, namesRow: true },
          { head: column.sewn, flexible: true },
          { head: column.seen, number: true },
          { head: column.predicted, number: true },
          { head: column.off, number: true },
        ],
        rows: rows.flatMap((row) => readings(row, log.path, words, all)),
      },
    ],
  };
}

/** The grade and the width of a row, those that are to be shown. */
function readings(
  row: LoggedRow,
  path: string,
  { calibrate, say }: CalibrateWords,
  all: boolean,
): string[][] {
  const at = calibrate.rowAt({ path, line: row.line });
  const sewOut = sewOutOf(row, calibrate);
  const { grade, foretold, residual, outlying, width } = row;
  const off = (by: number, decimals: number, far: boolean) =>
    calibrate.off({ by, decimals, marked: far && all });
  const graded = [
    at,
    sewOut,
    calibrate.grade({ grade: grade ?? 0 }),
    say.fixed(foretold ?? 0, 1),
    off(residual ?? 0, 1, outlying),
  ];
  const measured = width && [
    at,
    calibrate.objectOf({ object: width.object, sewOut }),
    calibrate.width({ mm: width.measured }),
    say.fixed(width.foretold, 2),
    off(width.residual, 2, width.outlying),
  ];
  return [
    ...(grade !== null && (all || outlying) ? [graded] : []),
    ...(measured && (all || width.outlying) ? [measured] : []),
  ];
}

function next({ next }: CalibrateReport, { calibrate }: CalibrateWords, explain: boolean): ReportSection {
  const items = next.map(({ object, sewOuts, narrows, ...setting }) => {
    const sewOut = sewOutOf(setting, calibrate);
    const { name, part } = narrows;
    return [
      object === null
        ? calibrate.sewAndGrade({ times: sewOuts, sewOut })
        : calibrate.measure({ object, sewOut }),
      calibrate.tells({ meaning: calibrate.meanings[name] }),
      ...(explain ? [calibrate.narrows({ name, part })] : []),
    ].join(' ');
  });
  return { is: 'section', title: calibrate.nextTitle, blocks: [{ is: 'list', items }] };
}

/** The figures themselves, as a profile has them. */
function figures(report: CalibrateReport, { calibrate, say }: CalibrateWords): ReportSection {
  const { column } = calibrate;
  const { parameters, errors, widthErrors } = report;
  const unseen = [
    ...(errors ? [calibrate.gradeUnseen({ off: errors.leaveOneOut })] : []),
    ...(widthErrors ? [calibrate.widthUnseen({ off: widthErrors.leaveOneOut })] : []),
    calibrate.misses,
  ];
  return {
    is: 'section',
    title: calibrate.figuresTitle,
    blocks: [
      {
        is: 'table',
        id: 'figures',
        columns: [
          { head: column.figure, namesRow: true },
          { head: column.fitted, number: true },
          { head: column.range, number: true },
          { head: column.builtIn, number: true },
          { head: column.settled, number: true },
          { head: column.meaning, flexible: true },
        ],
        rows: parameters.map(({ name, value, unit, interval, builtIn, told, meaning }) => [
          name,
          calibrate.value({ value, unit }),
          calibrate.interval(interval),
          say.significant(builtIn.value, 3),
          say.share(told),
          meaning,
        ]),
      },
      { is: 'paragraph', text: unseen.join(' ') },
    ],
  };
}

function howSure(
  { restsOn }: CalibrateReport,
  { calibrate, common }: CalibrateWords,
  explain: boolean,
): ReportSection {
  const lines = explain ? restsOn : [calibrate.trust.typical, calibrate.explain];
  return {
    is: 'section',
    title: common.howSure,
    blocks: lines.map((text) => ({ is: 'paragraph', text })),
  };
}

const sewOutOf = (
  { file, fabric, stack, underlay, washes }: SettingReport,
  { sewOut }: CalibrateWords['calibrate'],
): string => sewOut({ file, fabric, stack, underlay: underlay === AS_IS ? null : underlay, washes });
