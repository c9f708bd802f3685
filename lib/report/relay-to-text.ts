import { ownUnderlayWords, underlayWords } from '../advice/words.js';
import { compensationLines } from './compensation-to-text.js';
import { findingSection } from './finding-section.js';
import { backingWords, labelled } from './labelled.js';
import { wordsFor } from './phrases/words.js';
import {
  bareLength,
  bareThread,
  count,
  counted,
  fixed,
  length,
  threadLength,
  threadUnit,
} from './quantities.js';
import type { RelayedColumn, RelayedDesign, RelayReport } from './relay-report.js';
import { NO_PAINT } from './render/paint.js';
import { printable } from './render/printable.js';
import { type TextColumn, textTable } from './render/text-table.js';
import { wrap } from './render/wrap.js';
import { riskWord } from './risk-word.js';
import type { TextOptions } from './text-options.js';

const INDENT = '  ';
const ARROW = ' -> ';

/**
 * Sets what relaying did as text, every line within the width.
 *
 * @param written whether a file holds it
 */
export function relayToText(report: RelayReport, options: TextOptions, written: boolean): string {
  const { width, paint = NO_PAINT } = options;
  const sections: string[][] = [
    [
      ...wrap(headline(report, written), width, '', INDENT).map((line) => paint.strong(line)),
      ...designLines(report, options),
    ],
    columnTable(report, options),
    leftLines(report, options),
    report.compensation ? compensationLines(report.compensation, report.conditions!, options) : [],
    bareLines(report, options),
    findingSection(`New findings: ${count(report.findings.length)}`, report.findings, options),
  ];
  return sections
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n');
}

function headline({ file, objects, left, to, compensation }: RelayReport, written: boolean): string {
  const name = printable(file.path);
  const drawnOut = compensation?.objects.length ?? 0;
  if (objects.length === 0 && drawnOut > 0)
    return `${name}: ${counted(drawnOut, 'object')} drawn out for the pull${written ? '' : ' (nothing was written)'}`;
  if (objects.length === 0 && compensation) return `${name}: nothing draws in enough to be drawn out`;
  if (objects.length > 0 && to !== 'keep')
    return `${name}: ${underlayWords(to)} laid under ${counted(objects.length, 'satin column')}${written ? '' : ' (nothing was written)'}`;
  if (left.length > 0) return `${name}: nothing was relaid, the design is as it was`;
  return `${name}: no column calls for a lighter underlay, the design is as it was; --objects names columns`;
}

function designLines(
  { design: { before, after }, conditions, flatter, findingsGone, proof }: RelayReport,
  options: TextOptions,
): string[] {
  const { width, units } = options;
  const share = before.stitches > 0 ? (100 * (after.stitches - before.stitches)) / before.stitches : 0;
  const changed = (a: string, b: string) => (a === b ? a : a + ARROW + b);
  const lines = [
    ...labelled(
      'stitches',
      `${changed(count(before.stitches), count(after.stitches))} (${share >= 0 ? '+' : ''}${fixed(share, 1)} %)`,
      width,
    ),
    ...labelled(
      'thread',
      changed(threadLength(before.threadMm, units), threadLength(after.threadMm, units)),
      width,
    ),
    ...labelled(
      'machine',
      `trims ${changed(count(before.trims), count(after.trims))}, jumps ${changed(count(before.jumps), count(after.jumps))}`,
      width,
    ),
  ];
  const same = proof.filter((one) => one.proof === 'identical').length;
  if (same > 0)
    lines.push(
      ...labelled(
        'proof',
        `the file was read again: beside the underlay of ${same === 1 ? 'this column' : `these ${count(same)} columns`} every stitch is as it was, and no new thread shows`,
        width,
      ),
    );
  if (findingsGone > 0) lines.push(...labelled('findings', `${count(findingsGone)} gone`, width));
  if (conditions && flatter && before.risk && after.risk) {
    const looks = ({ risk }: RelayedDesign) =>
      `${riskWord(risk!.grade)} (grade ${risk!.grade}, wrinkles ${length(risk!.wrinkleMm, units)})`;
    const sure = flatter.tooCloseToCall ? ' What is not known of these materials can turn that round.' : '';
    lines.push(
      ...labelled(
        'looks',
        `${changed(looks(before), looks(after))} on ${printable(conditions.fabricName)}, over ${backingWords(conditions)}.${sure} A sew-out decides.`,
        width,
      ),
    );
  }
  return lines;
}

function columnTable({ objects, conditions }: RelayReport, { width, units }: TextOptions): string[] {
  if (objects.length === 0) return [];
  const change = (a: RelayedColumn, b: RelayedColumn, of: (column: RelayedColumn) => string) =>
    of(a) + ARROW + of(b);
  const columns: TextColumn[] = [
    { head: 'object', align: 'right' },
    { head: 'underlay', align: 'left', flexible: true },
    { head: 'stitches', align: 'right' },
    { head: `thread ${threadUnit(units)}`, align: 'right' },
    { head: 'points/mm²', align: 'right' },
    ...(conditions ? ([{ head: `wrinkle ${units}`, align: 'right' }] as const) : []),
  ];
  return [
    'Before and after',
    ...textTable(
      columns,
      objects.map(({ object, before, after }) => [
        String(object),
        change(before, after, ({ underlay }) => ownUnderlayWords(underlay.kinds)),
        change(before, after, ({ stitches }) => count(stitches)),
        change(before, after, ({ threadMm }) => bareThread(threadMm, units)),
        change(before, after, ({ densityPerMm2 }) => fixed(densityPerMm2, 1)),
        ...(conditions ? [change(before, after, ({ risk }) => bareLength(risk!.wrinkleMm, units))] : []),
      ]),
      width,
      INDENT,
    ),
    ...wrap('Of each column with its underlay; thread is the upper one.', width, INDENT),
  ];
}

function leftLines({ left }: RelayReport, { width }: TextOptions): string[] {
  if (left.length === 0) return [];
  return [
    `Left as ${left.length === 1 ? 'it was' : 'they were'}`,
    ...left.flatMap(({ object, reason }) =>
      wrap(`object ${object}: ${reason}`, width, INDENT, `${INDENT}${INDENT}`),
    ),
    ...wrap(
      `${left.length === 1 ? 'Its' : 'Their'} own underlay sews as before. Where that will not do, have it changed by whoever digitized the design.`,
      width,
      INDENT,
    ),
  ];
}

function bareLines({ bare, left }: RelayReport, { width }: TextOptions): string[] {
  // What was asked for and left has its reason above.
  const ids = bare.filter((id) => !left.some(({ object }) => object === id));
  if (ids.length === 0) return [];
  return wrap(
    `Not touched, as there is no underlay to lighten: ${wordsFor({ units: 'mm', detail: 'full' }).say.objects(ids)}, wide and without any. --objects lays one under them.`,
    width,
  );
}
