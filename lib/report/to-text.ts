/** The vet report for a person at a terminal: the verdict first, the whole thing read in ten seconds. */
import type { Severity } from '../vetting/finding.js';
import { driverWords } from './driver-words.js';
import { findingSection } from './finding-section.js';
import { backingWords, labelled } from './labelled.js';
import { NO_PAINT, type Paint } from './paint.js';
import { printable } from './printable.js';
import { bareLength, count, counted, duration, length, place, size, threadLength } from './quantities.js';
import { rankObjects } from './rank-objects.js';
import { riskPaint, riskWord } from './risk-word.js';
import type { TextOptions } from './text-options.js';
import { textTable } from './text-table.js';
import type { ObjectReport, VetReport } from './vet-report.js';
import { wrap } from './wrap.js';

/** Objects shown unless all are asked for. */
const MOST_OBJECTS = 6;
const SEVERITIES = ['fail', 'warn', 'note'] as const satisfies readonly Severity[];
const INDENT = '  ';

/**
 * Sets a vet report as text: verdict, totals, objects, findings with what to do. Every line fits the width; file
 * names are made safe for a terminal; colour only where `paint` brings some.
 *
 * @param allObjects list every object in sewing order, not only the few that matter most
 */
export function toText(report: VetReport, options: TextOptions, allObjects = false): string {
  const paint = options.paint ?? NO_PAINT;
  const sections = [
    [...verdict(report, options.width, paint), ...totals(report, options), ...riskLines(report, options)],
    objectTable(report, options, allObjects),
    findingSection('What was found', report.findings, options),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n')}`;
}

function verdict(report: VetReport, width: number, paint: Paint): string[] {
  const counts = { fail: 0, warn: 0, note: 0 };
  for (const finding of report.findings) counts[finding.severity]++;
  const [word, dress] = counts.fail
    ? (['DO NOT SEW', paint.fail] as const)
    : counts.warn
      ? (['LOOK AT THESE', paint.warn] as const)
      : (['SOUND', paint.sound] as const);
  const tally = SEVERITIES.filter((s) => counts[s] > 0).map((s) =>
    counted(counts[s], { fail: 'failure', warn: 'warning', note: 'note' }[s]),
  );
  const text = `${printable(report.file.path)} (${tally.length > 0 ? tally.join(', ') : 'nothing found'})`;
  const [first, ...more] = wrap(text, width, `${word}  `, INDENT);
  return [
    `${dress(word)}${paint.strong(first.slice(word.length))}`,
    ...more.map((line) => paint.strong(line)),
  ];
}

function totals({ design, objects }: VetReport, { width, units }: TextOptions): string[] {
  const kinds = (['satin', 'fill', 'run'] as const)
    .map((kind) => [objects.filter((o) => o.kind === kind).length, kind] as const)
    .filter(([n]) => n > 0)
    .map(([n, kind]) => `${count(n)} ${kind}`);
  const stops = [
    counted(design.trims, 'trim'),
    counted(design.colourChanges, 'colour change'),
    ...(design.stops > 0 ? [counted(design.stops, 'stop')] : []),
    ...(design.jumps > 0 ? [counted(design.jumps, 'jump')] : []),
  ];
  return [
    ['size', size(design.widthMm, design.heightMm, units)],
    [
      'stitches',
      `${count(design.stitches)} in ${counted(objects.length, 'object')}${kinds.length > 0 ? ` (${kinds.join(', ')})` : ''}`,
    ],
    ['machine', `${stops.join(', ')}; about ${duration(design.sewSeconds)} to sew`],
    ['thread', `${threadLength(design.threadMm, units)}, bobbin ${threadLength(design.bobbinMm, units)}`],
  ].flatMap(([label, text]) => labelled(label, text, width));
}

function riskLines({ risk, objects }: VetReport, { width, units, paint = NO_PAINT }: TextOptions): string[] {
  if (risk === null) return [];
  const { conditions, drivers } = risk;
  const word = riskWord(risk.grade).toUpperCase();
  const [low, high] = risk.range.wrinkleMm;
  // Of what lies flat nothing is the cause, and no object is the worst.
  const [main] = risk.grade < 5 ? drivers : [];
  const worst = objects.reduce<ObjectReport | null>(
    (most, object) => ((object.risk?.wrinkleMm ?? 0) > (most?.risk?.wrinkleMm ?? 0) ? object : most),
    null,
  );
  const why = main ? `; mostly ${driverWords(main.cause, conditions.stack.length > 0).short}` : '';
  return [
    ...labelled(
      'risk',
      `${word} (grade ${risk.grade}): wrinkles about ${length(risk.wrinkleMm, units)} high (${bareLength(low, units)} to ${bareLength(high, units)})${why}${main && worst ? `; worst at object ${worst.id}` : ''}; a sew-out decides`,
      width,
    ).map((line, i) => (i === 0 ? line.replace(word, riskPaint(risk.grade, paint)(word)) : line)),
    ...labelled('', `on ${printable(conditions.fabricName)}, over ${backingWords(conditions)}`, width),
  ];
}

function objectTable(report: VetReport, options: TextOptions, all: boolean): string[] {
  const ranked = rankObjects(report);
  const shown = all
    ? ranked.toSorted((a, b) => a.object.id - b.object.id)
    : ranked.filter(({ counts }) => counts.fail + counts.warn > 0).slice(0, MOST_OBJECTS);
  if (shown.length === 0) return [];
  const { units, width } = options;
  const table = textTable(
    [
      { head: 'object', align: 'right' },
      { head: 'kind', align: 'left' },
      { head: `x, y ${units}`, align: 'right' },
      { head: `width ${units}`, align: 'right' },
      { head: `spacing ${units}`, align: 'right' },
      { head: 'underlay', align: 'left', flexible: true },
      { head: 'found', align: 'left' },
    ],
    shown.map(({ object: o, counts }) => [
      String(o.id),
      o.split ? 'split satin' : o.kind,
      place((o.bounds.minX + o.bounds.maxX) / 2, (o.bounds.minY + o.bounds.maxY) / 2, units),
      o.widthMm ? bareLength(o.widthMm.p95, units) : '-',
      o.spacingMm ? bareLength(o.spacingMm.median, units) : '-',
      o.underlay.kinds.join(' ') || '-',
      SEVERITIES.filter((s) => counts[s] > 0)
        .map((s) => `${counts[s]} ${s.toUpperCase()}`)
        .join(' ') || '-',
    ]),
    width,
    INDENT,
  );
  const left = report.objects.length - shown.length;
  return [
    all ? 'Objects in sewing order' : 'Objects that matter most',
    ...table,
    ...(left > 0 ? wrap(`and ${counted(left, 'other')}; --objects lists them all`, width, INDENT) : []),
  ];
}
