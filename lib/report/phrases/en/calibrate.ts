/** What a fit to a shop's own sew-outs says: of the machine in plain words, and the figures behind them for whoever asks. */
import type { FreeName } from '../../../calibrate/free-parameters.js';
import type { FitLackParams } from '../../../calibrate/refusal.js';
import type { RowFaultParams } from '../../../calibrate/row-fault.js';
import type { Voice } from '../voice.js';

type Phrase<P> = (params: Readonly<P>, say: Voice) => string;
/** What is wrong, and what to do; both go on one line of an error. */
type FaultCatalog<All> = {
  readonly [C in keyof All]: { readonly what: Phrase<All[C]>; readonly remedy: Phrase<All[C]> };
};

const quoted = (text: string): string => JSON.stringify(text);
const objectOf = ({ file, object }: { file: string; object: number }): string =>
  `object ${object} of ${file}`;
const LIST_OF = ({ file }: { file: string }): string => `lieflat vet ${file} --objects lists them`;
const underlayTodo = ({ kinds }: { kinds: readonly string[] }): string =>
  `write as-is, or a kind (${kinds.join(', ')}) and objects, as fill:1 2 7`;

const faults: FaultCatalog<RowFaultParams> = {
  'file-missing': { what: () => 'the file is missing', remedy: () => 'name the design that was sewn' },
  'fabric-missing': {
    what: () => 'the fabric is missing',
    remedy: () => 'lieflat catalog fabrics lists ids',
  },
  'fabric-unknown': {
    what: ({ fabric }) => `the fabric ${quoted(fabric)} is not known`,
    remedy: ({ near }) => (near === null ? 'lieflat catalog fabrics lists ids' : `did you mean ${near}?`),
  },
  'stack-missing': {
    what: () => 'the stack is missing',
    remedy: ({ usual }) => `write what lay behind, as ${usual}, or none`,
  },
  'stack-unreadable': {
    what: ({ stack, what }) => `the stack ${quoted(stack)}: ${what}`,
    remedy: ({ todo }) => todo,
  },
  'underlay-unknown': { what: ({ part }) => `the underlay ${quoted(part)} is unknown`, remedy: underlayTodo },
  'underlay-of-nothing': {
    what: ({ part }) => `the underlay ${quoted(part)} names no objects by number`,
    remedy: underlayTodo,
  },
  'underlay-twice': {
    what: ({ object, kinds }) => `object ${object} has two underlays, ${kinds.join(' and ')}`,
    remedy: () => 'leave one of them out',
  },
  'washes-unreadable': {
    what: ({ washes }) => `washes cannot be ${quoted(washes)}`,
    remedy: () => 'give a whole number from 0',
  },
  'grade-unreadable': {
    what: ({ grade }) => `the grade cannot be ${quoted(grade)}`,
    remedy: () => 'give 5 (smooth) to 1 (severe) in half steps',
  },
  'width-unreadable': {
    what: ({ width }) => `width_mm cannot be ${quoted(width)}`,
    remedy: () => 'give the sewn width in millimeters, a number and nothing else',
  },
  'width-of-nothing': {
    what: () => 'width_mm has no object beside it',
    remedy: () => 'give the number of the object that was measured, as lieflat vet --objects lists it',
  },
  'object-unreadable': {
    what: ({ object }) => `the object cannot be ${quoted(object)}`,
    remedy: () => 'give the number of the object that was measured, as lieflat vet --objects lists it',
  },
  'width-after-washing': {
    what: ({ washes }, say) => `width_mm was written down after ${say.counted(washes, 'wash', 'washes')}`,
    remedy: () => 'measure before washing, in a row with washes 0, and leave width_mm empty here',
  },
  'design-unreadable': { what: ({ file, what }) => `${file}: ${what}`, remedy: ({ todo }) => todo },
  'design-empty': {
    what: ({ file }) => `no stitch is in ${file}`,
    remedy: () => 'name the design that was sewn',
  },
  'object-unknown': { what: ({ file, object }) => `${file} has no object ${object}`, remedy: LIST_OF },
  'object-no-column': { what: (params) => `${objectOf(params)} is not a satin column`, remedy: LIST_OF },
  'object-no-width': {
    what: (params) => `${objectOf(params)} is a run and has no width`,
    remedy: () => 'measure a column',
  },
  'object-uneven': {
    what: (params, say) =>
      `${objectOf(params)} is ${say.fixed(params.fromMm, 1)} to ${say.fixed(params.toMm, 1)} mm wide in the file`,
    remedy: () => 'measure a column that has the same width all along',
  },
  'width-of-another': {
    what: (params, say) =>
      `${objectOf(params)} is ${say.fixed(params.fileMm, 1)} mm wide in the file and cannot be ${params.seenMm} mm wide when sewn`,
    remedy: () => 'measure across its stitches, in millimeters, and check the object number',
  },
};

/** What keeps a log from carrying a fit. */
const lacks: FaultCatalog<FitLackParams> = {
  'few-grades': {
    what: ({ graded, needed, rows }, say) => {
      const none = rows > 0 ? 'no graded sew-out' : 'no sew-out';
      const have = graded > 0 ? `only ${say.counted(graded, 'graded sew-out')}` : none;
      return `the log has ${have} to use, and a fit needs ${needed}`;
    },
    remedy: () =>
      'grade more, on two fabrics or backings at least, or measure the sewn width of a column (object, width_mm)',
  },
  'one-setup': {
    what: ({ fabric, stack }) => `every graded sew-out is ${fabric} over ${stack}`,
    remedy: () => 'sew some on another fabric or over another backing',
  },
  'grades-alike': {
    what: ({ least, most }) =>
      least === most ? `every grade is ${least}` : `every grade is between ${least} and ${most}`,
    remedy: () =>
      'sew some that come out flatter or worse: on canvas and on thin knit, over two sheets and over none',
  },
  'no-effect': {
    what: ({ graded }) =>
      `by the model these ${graded ? 'sew-outs' : 'widths'} come out nearly the same on any machine`,
    remedy: () =>
      'sew designs that pucker visibly, such as a bold name on a thin knit, or measure a column 4 mm wide or wider',
  },
  'not-told-apart': {
    what: ({ names }) =>
      `the sew-outs do not tell these apart: ${names.map((name) => meanings[name]).join(', ')}`,
    remedy: () =>
      'sew on more kinds of fabric, grade some after washing, and measure the sewn width of a column',
  },
};

/** What each fitted figure stands for. */
const meanings: Readonly<Record<FreeName, string>> = {
  tension: 'how hard your machine pulls',
  pointSpring: 'how firmly stitches hold fabric and backing together',
  longestSpan: 'how soon your fabric wrinkles',
  firstWash: 'how much of all shrinking the first wash brings',
  scoreHalf: 'how high a wrinkle has to be to look bad to you',
};

/** Why the log says nothing of one. */
const untold: Readonly<Record<FreeName, string>> = {
  tension:
    'no sew-out shows how hard the thread pulls; measure the sewn width of a wide column, or sew a bold name on a soft knit',
  pointSpring:
    'no sew-out shows how firmly the stitches hold fabric and backing together; measure a narrow and a wide column on a soft knit',
  longestSpan: 'no graded sew-out comes out slightly puckered; grade some that do',
  firstWash: 'no grade changes enough with washing; wash some once and grade them again',
  scoreHalf: 'no grade lies between smooth and severe; grade some that come out in between',
};

type Beside = { readonly [S in 'above' | 'below']: Phrase<{ sure: boolean }> } & { readonly usual: string };

/** What a figure says of the shop beside most shops. `sure`: its whole range lies to one side. */
const stands: Readonly<Record<FreeName, Beside>> = {
  tension: {
    above: ({ sure }) =>
      `Your machine ${sure ? 'pulls' : 'seems to pull'} harder than most: columns come out narrower and wrinkles higher.`,
    below: ({ sure }) =>
      `Your machine ${sure ? 'pulls' : 'seems to pull'} less than most: columns stay wider and fabric flatter.`,
    usual: 'Your machine pulls about as hard as most.',
  },
  pointSpring: {
    above: ({ sure }) =>
      `Your stitches ${sure ? 'hold' : 'seem to hold'} the fabric to its backing more firmly than most: the backing helps more.`,
    below: ({ sure }) =>
      `Your stitches ${sure ? 'hold' : 'seem to hold'} the fabric to its backing less firmly than most: the backing helps less.`,
    usual: 'Your stitches hold the fabric to its backing about as firmly as most.',
  },
  longestSpan: {
    above: ({ sure }) => `Your fabrics ${sure ? 'wrinkle' : 'seem to wrinkle'} sooner than usual.`,
    below: ({ sure }) => `Your fabrics ${sure ? 'wrinkle' : 'seem to wrinkle'} later than usual.`,
    usual: 'Your fabrics wrinkle about as soon as usual.',
  },
  firstWash: {
    above: ({ sure }) =>
      `The first wash ${sure ? 'brings' : 'seems to bring'} more of the shrinking than usual.`,
    below: ({ sure }) =>
      `The first wash ${sure ? 'brings' : 'seems to bring'} less of the shrinking than usual: later washes bring the rest.`,
    usual: 'The first wash brings about as much of the shrinking as usual.',
  },
  scoreHalf: {
    above: ({ sure }) => `You ${sure ? 'grade' : 'seem to grade'} wrinkles more mildly than most.`,
    below: ({ sure }) => `You ${sure ? 'grade' : 'seem to grade'} wrinkles more strictly than most.`,
    usual: 'You grade wrinkles about as strictly as most.',
  },
};

export interface SewOut {
  file: string;
  fabric: string;
  stack: string;
  underlay: string | null;
  washes: number;
}

export const calibrate = {
  title: 'Calibration',
  faults,
  lacks,
  meanings,
  untold,
  stands,
  fitted: 'FITTED',
  noBetter: 'NO BETTER',
  log: ({ path, sewOuts, setups }: { path: string; sewOuts: number; setups: number }, say: Voice): string =>
    `${path}: ${say.counted(sewOuts, 'sew-out')}, ${say.count(setups)} of them different`,
  keep: 'What you use now predicts these sew-outs about as well: keep it.',
  gradesLabel: 'grades',
  /** By how much predictions miss what was written down. */
  gradesOff: ({ before, now }: Record<'before' | 'now', number>, say: Voice): string =>
    `predictions now miss yours by ${say.fixed(now, 2)}; before, by ${say.fixed(before, 2)}`,
  widthsLabel: 'widths',
  widthsOff: ({ before, now }: Record<'before' | 'now', number>, say: Voice): string =>
    `predictions now miss yours by ${say.figure(now)}; before, by ${say.figure(before)}`,
  logLabel: 'log',
  wrong: ({ rows }: { rows: number }, say: Voice): string => `${say.counted(rows, 'row')} left out as wrong`,
  ungraded: ({ rows }: { rows: number }, say: Voice): string => `${say.counted(rows, 'row')} not graded yet`,
  gradesUnused: ({ lack }: { lack: string }, _: Voice): string => `The grades were not used: ${lack}.`,
  saysTitle: 'What your sew-outs say',
  littleTold: ({ meaning }: { meaning: string }, _: Voice): string =>
    `Your sew-outs say little yet of ${meaning}.`,
  atBound: ({ meaning }: { meaning: string }, _: Voice): string =>
    `No fit goes further in ${meaning}: check that the log names the right fabrics and backings.`,
  held: ({ meaning, why }: { meaning: string; why: string }, _: Voice): string =>
    `Still unknown, ${meaning}: ${why}.`,
  rowsTitle: 'Every row',
  checkTitle: 'Check these rows: far from what is predicted',
  column: {
    row: 'row',
    sewn: 'sewn',
    seen: 'seen',
    predicted: 'predicted',
    off: 'off',
    figure: 'figure',
    fitted: 'fitted',
    range: '95% sure',
    builtIn: 'built in',
    settled: 'settled',
    meaning: 'it is',
  },
  rowAt: ({ path, line }: { path: string; line: number }, _: Voice): string => `${path}:${line}`,
  sewOut: ({ file, fabric, stack, underlay, washes }: SewOut, say: Voice): string =>
    [
      `${file} on ${fabric} over ${stack}`,
      ...(underlay === null ? [] : [`underlay ${underlay}`]),
      washes === 0 ? 'not washed' : washes === 1 ? 'washed once' : `washed ${say.counted(washes, 'time')}`,
    ].join(', '),
  objectOf: ({ object, sewOut }: { object: number; sewOut: string }, _: Voice): string =>
    `object ${object} of ${sewOut}`,
  grade: ({ grade }: { grade: number }, _: Voice): string => `grade ${grade}`,
  width: ({ mm }: { mm: number }, _: Voice): string => `${mm} mm`,
  /** With its sign; `marked` where the row is far off among others that are not. */
  off: ({ by, decimals, marked }: { by: number; decimals: number; marked: boolean }, say: Voice): string =>
    `${by > 0 ? '+' : ''}${say.fixed(by, decimals)}${marked ? ' !' : ''}`,
  nextTitle: 'What to do next',
  sewAndGrade: ({ times, sewOut }: { times: number; sewOut: string }, say: Voice): string =>
    `Sew and grade ${say.counted(times, 'time')}: ${sewOut}.`,
  measure: ({ object, sewOut }: { object: number; sewOut: string }, _: Voice): string =>
    `Measure the sewn width of object ${object}: ${sewOut}.`,
  tells: ({ meaning }: { meaning: string }, _: Voice): string => `That tells most about ${meaning}.`,
  narrows: ({ name, part }: { name: string; part: number }, say: Voice): string =>
    `It narrows the range of ${name} by about ${say.share(part)}.`,
  figuresTitle: 'The figures',
  value: ({ value, unit }: { value: number; unit: string }, say: Voice): string =>
    `${say.significant(value, 3)} ${unit}`.trim(),
  interval: ({ low, high }: Record<'low' | 'high', number>, say: Voice): string =>
    `${say.significant(low, 3)} to ${say.significant(high, 3)}`,
  gradeUnseen: ({ off }: { off: number }, say: Voice): string =>
    `Predicted grades miss by ${say.fixed(off, 2)} on a sew-out that the fit has not seen.`,
  widthUnseen: ({ off }: { off: number }, say: Voice): string =>
    `Predicted widths miss by ${say.figure(off)} on a column that the fit has not seen.`,
  misses: 'All these misses are root mean squares.',
  trust: {
    typical:
      'Uses typical values for your fabrics and backings, not your own: where yours differ, the fit takes that in. No figure goes far from its built-in range.',
    grades: ({ off }: { off: number }, _: Voice): string =>
      `Takes one grade by one person to be off by ${off}, our own assumption, or by more where the log shows more.`,
    widths: ({ off }: { off: number }, _: Voice): string =>
      `Takes one width read with a ruler to be off by ${off} mm, our own assumption, or by more where the log shows more.`,
    ranges: ({ level }: { level: number }, _: Voice): string =>
      `All true values lie in these ranges ${100 * level} times in 100, if the model is right. "Settled" is the part of the doubt that your log has taken away.`,
  },
  explain: '--explain shows the figures behind this.',
};
