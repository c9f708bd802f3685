/** The vet report for a person at a terminal: the verdict first, the whole thing read in ten seconds. */
import { underlayNames } from '../vetting/words.js';
import { adviceSentences, drawnOutWords } from './advice-groups.js';
import { findingSection } from './finding-section.js';
import { labelled } from './labelled.js';
import { messageInUnits } from './message-in-units.js';
import { NO_PAINT, type Paint } from './paint.js';
import { printable } from './printable.js';
import { bareLength, counted, place } from './quantities.js';
import { rankObjects } from './rank-objects.js';
import { riskPaint } from './risk-word.js';
import { setByYouWords } from './set-words.js';
import { riskWords, SEVERITIES, tally, tallyWords, totals, verdictOf } from './summary.js';
import type { TextOptions } from './text-options.js';
import { textTable } from './text-table.js';
import type { VetReport } from './vet-report.js';
import { wrap } from './wrap.js';

/** Objects shown unless all are asked for. */
const MOST_OBJECTS = 6;
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
    [
      ...verdict(report, options.width, paint),
      ...totals(report, options.units).flatMap(([label, text]) => labelled(label, text, options.width)),
      ...setByYouWords(report.setObjects).flatMap((text) => labelled('objects', text, options.width)),
      ...riskLines(report, options),
    ],
    adviceLines(report, options),
    objectTable(report, options, allObjects),
    findingSection('What was found', report.findings, options),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n')}`;
}

function verdict(report: VetReport, width: number, paint: Paint): string[] {
  const counts = tally(report.findings);
  const { level, words } = verdictOf(counts);
  const text = `${printable(report.file.path)} (${tallyWords(counts)})`;
  const [first, ...more] = wrap(text, width, `${words}  `, INDENT);
  return [
    `${paint[level](words)}${paint.strong(first.slice(words.length))}`,
    ...more.map((line) => paint.strong(line)),
  ];
}

function riskLines(report: VetReport, { width, units, paint = NO_PAINT }: TextOptions): string[] {
  const words = riskWords(report, units);
  if (report.risk === null || words === null) return [];
  const { grade } = report.risk;
  const { word, rest, goods } = words;
  return [
    ...labelled('risk', `${word} ${rest}`, width).map((line, i) =>
      i === 0 ? line.replace(word, riskPaint(grade, paint)(word)) : line,
    ),
    ...labelled('', goods, width),
  ];
}

function adviceLines({ advice, objects }: VetReport, { width, units }: TextOptions): string[] {
  if (advice === null) return [];
  const each = objects.flatMap((object) => object.advice ?? []);
  const lines = [
    ...advice.text,
    ...adviceSentences(each, advice.washes),
    ...drawnOutWords(each),
    'lieflat advise has the other plans and the hooping.',
  ];
  return [
    'What to do',
    ...lines.flatMap((line) =>
      wrap(printable(messageInUnits(line, units)), width, `${INDENT}- `, `${INDENT}  `),
    ),
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
      underlayNames(o.underlay.kinds),
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
