import type { Change, CompareReport, ObjectChange, Value } from './compare.js';
import { findingSection } from './finding-section.js';
import { NO_PAINT } from './paint.js';
import { printable } from './printable.js';
import {
  bareLength,
  count,
  counted,
  duration,
  fixed,
  length,
  threadLength,
  type Units,
} from './quantities.js';
import type { TextOptions } from './text-options.js';
import { textTable } from './text-table.js';
import { wrap } from './wrap.js';

/** Objects listed one by one; the rest are counted. */
const MOST_OBJECTS = 12;
const INDENT = '  ';

/** What a field is called in print, and what its figure is. */
const FIELDS: Readonly<
  Record<string, readonly [label: string, unit: 'mm' | 'm' | 'deg' | 'time' | 'count' | 'word']>
> = {
  stitches: ['stitches', 'count'],
  jumps: ['jumps', 'count'],
  trims: ['trims', 'count'],
  colourChanges: ['colour changes', 'count'],
  stops: ['stops', 'count'],
  widthMm: ['width', 'mm'],
  heightMm: ['height', 'mm'],
  threadMm: ['thread', 'm'],
  bobbinMm: ['bobbin thread', 'm'],
  sewSeconds: ['sewing time', 'time'],
  'bounds.minX': ['left edge', 'mm'],
  'bounds.minY': ['lower edge', 'mm'],
  'bounds.maxX': ['right edge', 'mm'],
  'bounds.maxY': ['upper edge', 'mm'],
  kind: ['kind', 'word'],
  centreX: ['middle, x', 'mm'],
  centreY: ['middle, y', 'mm'],
  sizeX: ['size across', 'mm'],
  sizeY: ['size up', 'mm'],
  'widthMm.median': ['column width', 'mm'],
  'widthMm.max': ['widest swing', 'mm'],
  'spacingMm.median': ['spacing', 'mm'],
  angleDeg: ['stitch angle', 'deg'],
  split: ['split', 'word'],
  'underlay.kinds': ['underlay', 'word'],
  'underlay.spacingMm': ['underlay spacing', 'mm'],
  'underlay.stitches': ['underlay stitches', 'count'],
  'locks.start': ['locked at start', 'word'],
  'locks.end': ['locked at end', 'word'],
};

/** Sets a comparison as text, every line within the width. */
export function compareToText(report: CompareReport, options: TextOptions): string {
  const { width, units } = options;
  const paint = options.paint ?? NO_PAINT;
  const sections: string[][] = [
    wrap(
      `${headline(report)}: ${printable(report.before.path)} -> ${printable(report.after.path)}`,
      width,
      '',
      INDENT,
    ).map((line) => paint.strong(line)),
  ];
  if (report.design.length > 0) {
    sections.push([
      'Design',
      ...textTable(
        [
          { head: 'what', align: 'left' },
          { head: 'before', align: 'right' },
          { head: 'after', align: 'right' },
          { head: 'change', align: 'right' },
        ],
        report.design.map((c) => changeRow(c, units)),
        width,
        INDENT,
      ),
    ]);
  }
  sections.push(objectSection(report, width, units));
  sections.push(
    findingSection(`No longer found: ${count(report.findings.lost.length)}`, report.findings.lost, options),
  );
  sections.push(
    findingSection(`New findings: ${count(report.findings.gained.length)}`, report.findings.gained, options),
  );
  return sections
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n');
}

function headline({ objects, design, findings }: CompareReport): string {
  const same =
    design.length === 0 &&
    objects.changed.length + objects.removed.length + objects.added.length === 0 &&
    findings.lost.length + findings.gained.length === 0;
  if (same) return 'No difference';
  const worse = findings.gained.filter((f) => f.severity !== 'note').length;
  const better = findings.lost.filter((f) => f.severity !== 'note').length;
  if (worse > 0 && better > 0) return 'Some better, some worse';
  if (worse > 0) return 'Worse';
  if (better > 0) return 'Better';
  return 'Changed';
}

function objectSection({ objects }: CompareReport, width: number, units: Units): string[] {
  const { changed, removed, added, unchanged } = objects;
  if (changed.length + removed.length + added.length === 0) return [];
  const ids = (all: readonly number[]): string =>
    `${all.slice(0, MOST_OBJECTS).join(', ')}${all.length > MOST_OBJECTS ? ` and ${count(all.length - MOST_OBJECTS)} more` : ''}`;
  const most = changed.toSorted((a, b) => b.changes.length - a.changes.length || a.before - b.before);
  const shown = most.slice(0, MOST_OBJECTS);
  return [
    ...wrap(
      `Objects: ${count(objects.before)} before, ${count(objects.after)} after; ${count(unchanged)} as they were`,
      width,
    ),
    ...(removed.length > 0 ? wrap(`removed: ${ids(removed)} (numbers before)`, width, INDENT) : []),
    ...(added.length > 0 ? wrap(`added: ${ids(added)} (numbers after)`, width, INDENT) : []),
    ...(shown.length > 0
      ? textTable(
          [
            { head: 'object', align: 'right' },
            { head: 'what changed', align: 'left', flexible: true },
          ],
          shown.map((o) => [objectName(o), o.changes.map((c) => changeWords(c, units)).join('; ')]),
          width,
          INDENT,
        )
      : []),
    ...(most.length > shown.length
      ? wrap(
          `and ${counted(most.length - shown.length, 'more changed object')}; --format json lists all`,
          width,
          INDENT,
        )
      : []),
  ];
}

function objectName({ before, after }: ObjectChange): string {
  return before === after ? String(before) : `${before} -> ${after}`;
}

function changeRow({ what, before, after }: Change, units: Units): string[] {
  const share =
    typeof before === 'number' && typeof after === 'number' && before > 0
      ? `${after >= before ? '+' : ''}${fixed((100 * (after - before)) / before, 1)} %`
      : '';
  return [FIELDS[what][0], shown(what, before, units), shown(what, after, units), share];
}

function changeWords({ what, before, after }: Change, units: Units): string {
  return `${FIELDS[what][0]} ${shown(what, before, units, true)} -> ${shown(what, after, units)}`;
}

function shown(what: string, value: Value, units: Units, bare = false): string {
  if (value === null || value === '') return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return value;
  switch (FIELDS[what][1]) {
    case 'mm':
      return bare ? bareLength(value, units) : length(value, units);
    case 'm':
      return threadLength(value, units);
    case 'deg':
      return `${fixed(value, 0)}°`;
    case 'time':
      return duration(value);
    default:
      return count(value);
  }
}
