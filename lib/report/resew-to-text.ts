/** The cover report for a person at a terminal: what would show, which way to take, then what to do. */

import type { LeftPart } from '../rework/enlargement.js';
import { findingSection } from './finding-section.js';
import { backingWords, labelled } from './labelled.js';
import { bareLength, count, counted, length, place, size, type Units } from './quantities.js';
import { NO_PAINT } from './render/paint.js';
import { printable } from './render/printable.js';
import { textTable } from './render/text-table.js';
import { wrap } from './render/wrap.js';
import { MODE_WORDS, percentText, recommendation } from './resew-recommendation.js';
import type { ResewModeReport, ResewObject, ResewReport } from './resew-report.js';
import { riskWord } from './risk-word.js';
import type { TextOptions } from './text-options.js';

/** Objects listed that leave holes in sight; the rest are counted. */
const MOST_OBJECTS = 10;
const INDENT = '  ';

/** Sets a report as text. Every line fits the width; names are made safe for a terminal. */
export function resewToText(report: ResewReport, options: TextOptions): string {
  const { width, units } = options;
  const sections = [
    summary(report, options),
    [
      'Ways to make it larger',
      ...wayTable(report, options),
      ...wrap(recommendation(report.perMode, report.holes.total, units).text, width, INDENT),
    ],
    objectTable(report, options),
    findingSection(`New findings: ${count(report.findings.length)}`, report.findings, options),
    ['Sewing it again', ...report.steps.flatMap((step, i) => numbered(i + 1, step, width))],
    ['Take care', ...report.cautions.flatMap((text) => wrap(text, width, INDENT))],
    wrap(report.limit, width),
  ];
  return sections
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n');
}

function summary(report: ResewReport, { width, units, paint = NO_PAINT }: TextOptions): string[] {
  const { holes, scale, scaleX, scaleY, roomMm, risk } = report;
  const word =
    holes.total === 0 ? 'NO HOLES' : holes.exposed === 0 ? 'ALL HIDDEN' : `${count(holes.exposed)} IN SIGHT`;
  const [first, ...more] = wrap(
    `${printable(report.file.path)}: ${holes.exposed === 0 ? `all of ${counted(holes.total, 'needle hole')} lie` : `${count(holes.exposed)} of ${counted(holes.total, 'needle hole')} ${holes.exposed === 1 ? 'does' : 'do'} not lie`} under new stitches`,
    width,
    `${word}  `,
    INDENT,
  );
  const set = holes.exposed === 0 ? paint.sound : paint.warn;
  const grown =
    scaleX === scaleY ? percentText(scale) : `${percentText(scaleX)} in x, ${percentText(scaleY)} in y`;
  const moved = movedWords(report, units);
  return [
    `${set(word)}${paint.strong(first.slice(word.length))}`,
    ...more.map((line) => paint.strong(line)),
    ...[
      ['larger', `by ${grown}, ${MODE_WORDS[report.mode]}`],
      ...(moved === null ? [] : [['moved', moved]]),
      [
        'size',
        `${size(report.widthBeforeMm, report.heightBeforeMm, units)} before, ${size(report.widthAfterMm, report.heightAfterMm, units)} after`,
      ],
      [
        'stitches',
        `${count(report.stitchesBefore)} before, ${count(report.stitchesAfter)} after${report.trimsAdded > 0 ? `; ${counted(report.trimsAdded, 'move')} had to become a trim` : ''}`,
      ],
      ...(report.spacingBeforeMm === null || report.spacingAfterMm === null
        ? []
        : [
            [
              'spacing',
              `${bareLength(report.spacingBeforeMm, units)} before, ${length(report.spacingAfterMm, units)} after (the middle one of all columns and fills); one thread covers ${length(report.threadWidthMm, units)}`,
            ],
          ]),
      ...leftWords(report).map((words) => ['as it was', words]),
      ['proof', proofWords(report)],
      ...(report.exposed.length === 0 ? [] : [['bare', bareWords(report, options(units))]]),
      ...(roomMm === null ? [] : [['hooping', roomWords(report, roomMm, options(units))]]),
      ['scales', scaleWords(report, units)],
      ...(risk
        ? [
            [
              'puckers',
              `grade ${risk.before.grade} (${riskWord(risk.before.grade)}) before, ${risk.after.grade} (${riskWord(risk.after.grade)}) after; wrinkles ${bareLength(risk.before.wrinkleMm, units)} -> ${length(risk.after.wrinkleMm, units)}${risk.tooCloseToCall ? ', too close to call' : ''}`,
            ],
            ['goods', `${printable(risk.conditions.fabricName)}, over ${backingWords(risk.conditions)}`],
          ]
        : []),
    ].flatMap(([label, text]) => labelled(label, text, width)),
  ];
}

/** How far the design is moved and why, or null where it stays. */
function movedWords({ offset: { dx, dy }, movedToHide }: ResewReport, units: Units): string | null {
  if (dx === 0 && dy === 0) return null;
  const far = `by ${bareLength(dx, units)}, ${bareLength(dy, units)} ${units} (right and up; below zero left and down)`;
  return `${far}, ${movedToHide ? 'as fewer old holes stay in sight there; --offset 0,0 leaves it in its place' : 'as asked'}`;
}

const options = (units: TextOptions['units']) => (mm: number) => length(mm, units);

function roomWords({ scale }: ResewReport, roomMm: number, say: (mm: number) => string): string {
  if (roomMm === 0)
    return 'only exactly as the first time: already 0.1 mm (0.004 in) off shows some of the holes';
  return `may be off by ${say(roomMm)} in any direction with all holes still hidden${scale === 1 ? ', at the size it had' : ''}`;
}

/** Objects that the way could not lay anew. */
function leftWords({ leftAsItWas, unsure, mode, proof }: ResewReport): string[] {
  const failed = new Set(proof.flatMap((one) => (one.proof === 'failed' ? [one.object] : [])));
  const grown = leftAsItWas.filter(({ object }) => !failed.has(object));
  const kept = leftAsItWas.filter(({ object }) => failed.has(object));
  const stands = mode === 'widen' ? 'stands as it was' : 'was only grown, so spacing there opened';
  return [
    ...(grown.length === 0
      ? []
      : [
          `${partsInWords(grown)} could only be grown, so spacing there opened: too few rows that lie straight beside each other`,
        ]),
    ...(kept.length === 0
      ? []
      : [`${partsInWords(kept)} could not be laid anew and all stay covered: each ${stands}`]),
    ...(unsure.length === 0
      ? []
      : [
          `${partsInWords(unsure.map((object) => ({ object, part: 'top' as const })))} may be something else than ${unsure.length === 1 ? 'it looks like: it' : 'they look like: each'} ${stands}, unless --objects names ${unsure.length === 1 ? 'it' : 'them'}`,
        ]),
  ];
}

function partsInWords(parts: readonly Pick<LeftPart, 'object' | 'part'>[]): string {
  const named = parts
    .slice(0, MOST_OBJECTS)
    .map(({ object, part }) => `${object}${part === 'top' ? '' : ' (its underlay)'}`);
  const left = parts.length - named.length;
  return `${parts.length === 1 ? 'object' : 'objects'} ${named.join(', ')}${left > 0 ? ` and ${count(left)} more` : ''}`;
}

/** What reading the new file again has shown of it beside the old. */
function proofWords({ mode }: ResewReport): string {
  return mode === 'machine'
    ? 'the file was read again: every needle point lies where the growth takes it'
    : 'the file was read again: all that the old top stitching covers is covered, and no thread lies astray';
}

/** How far the holes in sight lie from thread: a hair beside a thread shows less than the middle of bare goods. */
function bareWords({ exposed }: ResewReport, say: (mm: number) => string): string {
  const gaps = exposed.flatMap(({ gapMm }) => (gapMm === null ? [] : [gapMm])).sort((a, b) => a - b);
  if (gaps.length === 0) return 'the new design lays no top stitching';
  return `half of those in sight lie within ${say(gaps[gaps.length >> 1])} of a thread, the furthest ${say(gaps[gaps.length - 1])}`;
}

/** At which scale all is hidden, and what was searched. */
function scaleWords(report: ResewReport, units: Units): string {
  const { smallestScaleThatHides: smallest, searchComplete, slackMm } = report;
  const hooped =
    slackMm === 0 ? 'hooped exactly as before' : `hooped off by ${length(slackMm, units)} at most`;
  const better = report.perMode.find(({ mode }) => mode === report.mode)?.betterOffset;
  const move = better
    ? `; moved by ${bareLength(better.dx, units)}, ${bareLength(better.dy, units)} ${units} besides, ${better.exposed === 0 ? 'none' : `only ${count(better.exposed)}`} would show`
    : '';
  if (!searchComplete)
    return `no scale that hides all was found before the search had to end, ${hooped}${move}`;
  if (smallest === null)
    return `none from 0 to 12 %, tried every 0.1 %, hides every hole, ${hooped}; below stands what each way leaves in sight${move}`;
  return smallest === 1
    ? `hidden already at its own size, ${hooped}: growth serves only to leave room for hooping off, which --slack asks for${move}`
    : `${percentText(smallest)} is the least that hides all, ${hooped}; more is not always safer${move}`;
}

function wayTable({ perMode, mode: chosen }: ResewReport, { units, width }: TextOptions): string[] {
  const row = (way: ResewModeReport): string[] => [
    way.mode === chosen ? `${way.mode} *` : way.mode,
    percentText(way.scale),
    count(way.exposed),
    way.roomMm === null ? '-' : bareLength(way.roomMm, units),
    way.smallestScaleThatHides !== null
      ? percentText(way.smallestScaleThatHides)
      : way.searchComplete
        ? 'none'
        : '?',
    count(way.stitchesAfter),
    way.spacingAfterMm === null ? '-' : bareLength(way.spacingAfterMm, units),
  ];
  return textTable(
    [
      { head: 'way (* taken)', align: 'left' },
      { head: 'larger', align: 'right' },
      { head: 'in sight', align: 'right' },
      { head: `room ${units}`, align: 'right' },
      { head: 'hides all at', align: 'right' },
      { head: 'stitches', align: 'right' },
      { head: `spacing ${units}`, align: 'right' },
    ],
    perMode.map(row),
    width,
    INDENT,
  );
}

const nameOf = ({ id }: ResewObject): string => (id === null ? 'ties' : String(id));

function objectTable(
  { objects, scale, perMode, mode }: ResewReport,
  { units, width }: TextOptions,
): string[] {
  const shown = objects.filter(({ exposed }) => exposed > 0).toSorted((a, b) => b.exposed - a.exposed);
  if (shown.length === 0) return [];
  const enough = objects.filter(({ exposed, holes }) => exposed === 0 && holes > 0);
  const complete = perMode.find((way) => way.mode === mode)!.searchComplete;
  const row = (object: ResewObject): string[] => [
    nameOf(object),
    object.kind ?? '-',
    object.at ? place(object.at.x, object.at.y, units) : '-',
    count(object.holes),
    count(object.exposed),
    object.widestGapMm === null ? '-' : bareLength(object.widestGapMm, units),
    object.smallestScaleThatHides !== null
      ? percentText(object.smallestScaleThatHides)
      : complete
        ? 'none'
        : '?',
  ];
  return [
    `Where ${percentText(scale)} is not enough: ${namedWords(shown)}`,
    ...textTable(
      [
        { head: 'object', align: 'right' },
        { head: 'kind', align: 'left' },
        { head: `x, y ${units}`, align: 'right' },
        { head: 'holes', align: 'right' },
        { head: 'in sight', align: 'right' },
        { head: `bare ${units}`, align: 'right' },
        { head: 'hides its own at', align: 'right' },
      ],
      shown.slice(0, MOST_OBJECTS).map(row),
      width,
      INDENT,
    ),
    ...wrap(
      `${shown.length > MOST_OBJECTS ? `and ${count(shown.length - MOST_OBJECTS)} more; --format json lists all. ` : ''}Bare is how far the furthest of its holes lies from the edge of a thread; "ties" are ties and travel that belong to no object.`,
      width,
      INDENT,
    ),
    ...wrap(
      enough.length === 0
        ? `${percentText(scale)} is enough for no object.`
        : `${percentText(scale)} is enough for ${enough.length === 1 ? 'object' : 'objects'} ${ranges(enough.map(nameOf))}.`,
      width,
      INDENT,
    ),
  ];
}

/** `4 objects, and ties`. */
function namedWords(objects: readonly ResewObject[]): string {
  const proper = objects.filter(({ id }) => id !== null).length;
  const ties = proper < objects.length;
  if (proper === 0) return 'ties';
  return `${counted(proper, 'object')}${ties ? ', and ties' : ''}`;
}

/** `1-4, 7, ties`. */
function ranges(names: readonly string[]): string {
  const out: string[] = [];
  for (let i = 0; i < names.length; i++) {
    const first = i;
    while (i + 1 < names.length && Number(names[i + 1]) === Number(names[i]) + 1) i++;
    out.push(i > first + 1 ? `${names[first]}-${names[i]}` : names.slice(first, i + 1).join(', '));
  }
  return out.join(', ');
}

function numbered(number: number, text: string, width: number): string[] {
  const label = `${INDENT}${number}. `;
  return wrap(text, width, label, ' '.repeat(label.length));
}
