/** The risk of one design for a person at a terminal: plain words first, then millimetres, then why. */
import { RULE_LIMITS } from '../advice/rule-limits.js';
import { driverWords, sourceWords } from './driver-words.js';
import { backingWords, labelled } from './labelled.js';
import type { PuckerObject, PuckerReport } from './pucker-report.js';
import { bareLength, counted, fixed, length, place } from './quantities.js';
import { NO_PAINT } from './render/paint.js';
import { printable } from './render/printable.js';
import { textTable } from './render/text-table.js';
import { wrap } from './render/wrap.js';
import { isSeen, riskPaint, riskWord, riskWordRange } from './risk-word.js';
import { setByYouWords } from './set-words.js';
import type { TextOptions } from './text-options.js';
import type { ConditionsReport } from './vet/report.js';

/** Objects shown unless all are asked for. */
const MOST_OBJECTS = 5;
/** Causes behind less than this part are left to the JSON. */
const LEAST_SHARE = 0.05;
const INDENT = '  ';

/** Sets a report as text. Every line fits the width; names are made safe for a terminal. */
export function puckerToText(report: PuckerReport, options: TextOptions, allObjects = false): string {
  const sections = [
    summary(report, options),
    drivers(report, options),
    objectTable(report, options, allObjects),
  ];
  return `${[...sections, trust(report, options)]
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n')}`;
}

function summary(report: PuckerReport, { width, units, paint = NO_PAINT }: TextOptions): string[] {
  const { file, risk, conditions } = report;
  const word = riskWord(risk.grade).toUpperCase();
  const [first, ...more] = wrap(
    `${printable(file.path)} on ${printable(conditions.fabricName)}`,
    width,
    `${word}  `,
    INDENT,
  );
  const [low, high] = risk.range.wrinkleMm;
  return [
    `${riskPaint(risk.grade, paint)(word)}${paint.strong(first.slice(word.length))}`,
    ...more.map((line) => paint.strong(line)),
    ...[
      [
        'looks',
        `grade ${risk.grade} (5 smooth, 1 severe), score ${fixed(risk.score, 0)} (0 lies flat, 100 worst)`,
      ],
      [
        'wrinkles',
        `${isSeen(risk.wrinkleMm, units) ? `about ${length(risk.wrinkleMm, units)} high` : 'none predicted'}; most likely ${bareLength(low, units)} to ${length(high, units)} (${riskWordRange(risk.range.grade)})`,
      ],
      ['pull-in', `edges move in by up to ${length(risk.pullInMm, units)} along the stitches`],
      ['backing', backingWords(conditions)],
      ['sewn', sewnWords(conditions)],
      ...setByYouWords(report.setObjects).map((text) => ['objects', printable(text)]),
    ].flatMap(([label, text]) => labelled(label, text, width)),
  ];
}

function sewnWords({ grainDeg, hoopStretchPercent, washes, threadName }: ConditionsReport): string {
  return [
    printable(threadName),
    grainDeg === 90 ? 'grain upright' : `grain at ${fixed(grainDeg, 0)}°`,
    hoopStretchPercent === 0 ? 'hooped without stretch' : `stretched ${hoopStretchPercent}% in the hoop`,
    washes === 0 ? 'not washed' : `washed ${counted(washes, 'time')}`,
  ].join(', ');
}

function drivers({ risk, stack }: PuckerReport, { width }: TextOptions): string[] {
  const strong = risk.drivers.filter(({ share }) => share >= LEAST_SHARE);
  if (risk.grade === 5 || strong.length === 0) return [];
  return [
    'Why',
    ...strong.flatMap(({ cause, share }) => {
      const { short, why } = driverWords(cause, stack.length > 0);
      const label = `${INDENT}${fixed(100 * share, 0).padStart(3)}%  `;
      return wrap(`${short}: ${why}`, width, label, ' '.repeat(label.length));
    }),
  ];
}

function objectTable(report: PuckerReport, options: TextOptions, all: boolean): string[] {
  const { units, width } = options;
  const worstFirst = report.objects.toSorted((a, b) => b.risk.wrinkleMm - a.risk.wrinkleMm || a.id - b.id);
  const shown = all ? report.objects : worstFirst.slice(0, MOST_OBJECTS);
  if (shown.length === 0) return [];
  const left = report.objects.length - shown.length;
  const isTooFar = (mm: number) => Math.abs(mm) > RULE_LIMITS.mostDrawn.value;
  const tooFar = shown.some(
    ({ kind, pullCompensationMm: { along, across } }) =>
      isTooFar(along) || (kind !== 'run' && isTooFar(across)),
  );
  const drawnOut = (mm: number) => (isTooFar(mm) ? 'far' : bareLength(mm, units));
  const row = ({
    id,
    kind,
    setByShop,
    at,
    risk,
    pullCompensationMm: { along, across },
  }: PuckerObject): string[] => [
    String(id),
    setByShop ? `${kind} (set)` : kind,
    place(at.x, at.y, units),
    riskWord(risk.grade),
    String(risk.grade),
    bareLength(risk.wrinkleMm, units),
    drawnOut(along),
    kind === 'run' ? '-' : drawnOut(across),
  ];
  return [
    all ? 'Objects in sewing order' : 'Objects, worst first',
    ...textTable(
      [
        { head: 'object', align: 'right' },
        { head: 'kind', align: 'left' },
        { head: `x, y ${units}`, align: 'right' },
        { head: 'looks', align: 'left' },
        { head: 'grade', align: 'right' },
        { head: `high ${units}`, align: 'right' },
        { head: `pull-in ${units}`, align: 'right' },
        { head: 'across', align: 'right' },
      ],
      shown.map(row),
      width,
      INDENT,
    ),
    ...wrap(
      `${left > 0 ? `and ${counted(left, 'other')}; --objects lists them all. ` : ''}Pull-in is on each side, along the stitches, then across: pull compensation of that much in all, or the edge drawn in where it is below zero. ${tooFar ? `Where "far" stands it is more than ${length(RULE_LIMITS.mostDrawn.value, units)}, past what drawing out can be relied on for: a backing that gives less holds it; if that is the best there is, draw it out so far, let what borders on it overlap, and measure a sew-out. ` : ''}An object is judged by the fabric within 8 mm of it, the design by all its worst places together.`,
      width,
      INDENT,
    ),
  ];
}

/** A ruler that narrows the range by less says less than an eye. */
const LITTLE = 0.05;

const measureWords = (
  { object, fileMm, sewnMm: [low, , high], narrows }: NonNullable<PuckerReport['basis']['measure']>,
  units: TextOptions['units'],
): string =>
  `To be surer: measure the sewn width of object ${object}. Expect ${length(low, units)} to ${length(high, units)}; the file has ${length(fileMm, units)}. Write it into your log for lieflat calibrate (object, width_mm). ${narrows < LITTLE ? 'A graded sew-out tells more.' : `It narrows the range by about ${fixed(100 * narrows, 0)}%.`}`;

function trust({ basis, cautions }: PuckerReport, { width, units }: TextOptions): string[] {
  const [first, second] = [...new Set(basis.sensitivities.map(({ source }) => sourceWords(source)))];
  const coarse = basis.resolution.met
    ? []
    : wrap('The design is so large that narrow columns are worked out coarsely.', width, INDENT);
  return [
    'How far to trust it',
    ...basis.restsOn.flatMap((line) => wrap(line, width, INDENT)),
    ...(second ? wrap(`Biggest unknown: ${first}, then ${second}.`, width, INDENT) : []),
    ...(basis.measure ? wrap(measureWords(basis.measure, units), width, INDENT) : []),
    ...coarse,
    ...cautions.flatMap((line) => wrap(line, width, `${INDENT}Caution: `, `${INDENT}         `)),
  ];
}
