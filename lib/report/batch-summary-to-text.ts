import { type BatchSummary, summaryLine } from './batch-summary.js';
import { histogramsInWords } from './histogram-words.js';
import { count, counted } from './quantities.js';
import { NO_PAINT, severityWord } from './render/paint.js';
import { printable } from './render/printable.js';
import { textTable } from './render/text-table.js';
import { wrap } from './render/wrap.js';
import { tallyWords } from './summary.js';
import type { TextOptions } from './text-options.js';

/** Commonest findings that are listed. */
const MOST_FINDINGS = 10;
const LONGEST_BAR = 40;
const INDENT = '  ';

/**
 * Sets the summary of a batch as text, every line within the width; the last line counts the files by verdict.
 *
 * @example
 * ```ts
 * import { BatchTally, batchSummaryToText } from 'lieflat';
 * batchSummaryToText(new BatchTally().summary(), { width: 80, units: 'mm' }).includes('0 files'); // => true
 * ```
 */
export function batchSummaryToText(summary: BatchSummary, options: TextOptions): string {
  return `${[
    findingLines(summary, options),
    worstLines(summary, options),
    ...histogramLines(summary, options),
    [summaryLine(summary)],
  ]
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join('\n')}\n`)
    .join('\n')}`;
}

function findingLines({ findings }: BatchSummary, { width, paint = NO_PAINT }: TextOptions): string[] {
  if (findings.length === 0) return [];
  const left = findings.length - MOST_FINDINGS;
  const rows = findings.slice(0, MOST_FINDINGS);
  return [
    'Found in most files',
    ...textTable(
      [
        { head: 'files', align: 'right' },
        { head: 'times', align: 'right' },
        { head: '', align: 'left' },
        { head: 'what', align: 'left', flexible: true },
      ],
      rows.map(({ code, severity, files, times }) => [
        count(files),
        count(times),
        severity.toUpperCase(),
        code,
      ]),
      width,
      INDENT,
    ).map((line, i) => painted(line, rows[i - 1]?.severity, paint)),
    ...(left > 0 ? [`${INDENT}and ${counted(left, 'other')}`] : []),
  ];
}

/** Colour is put in when the table stands, or it would count as width. */
function painted(
  line: string,
  severity: BatchSummary['findings'][number]['severity'] | undefined,
  paint: NonNullable<TextOptions['paint']>,
): string {
  return severity ? line.replace(severity.toUpperCase(), severityWord(severity, paint)) : line;
}

function worstLines({ worst }: BatchSummary, { width }: TextOptions): string[] {
  if (worst.length === 0) return [];
  return [
    'Worst first',
    ...worst.flatMap(({ path, found, grade }) =>
      wrap(
        `${printable(path)}: ${tallyWords(found)}${grade === null ? '' : `, grade ${grade}`}`,
        width,
        INDENT,
        `${INDENT}  `,
      ),
    ),
  ];
}

function histogramLines(summary: BatchSummary, { units, width }: TextOptions): string[][] {
  return histogramsInWords(summary, units).map(({ title, bars }) => {
    const most = Math.max(...bars.map((bar) => bar.count));
    const ranges = Math.max(...bars.map(({ range }) => range.length));
    const digits = count(most).length;
    const room = Math.max(1, Math.min(LONGEST_BAR, width - INDENT.length - ranges - digits - 4));
    return [
      ...wrap(title, width),
      ...bars.map((bar) =>
        `${INDENT}${bar.range.padStart(ranges)}  ${count(bar.count).padStart(digits)}  ${'#'.repeat(
          // What is there shows, however little.
          Math.ceil((bar.count / most) * room),
        )}`.trimEnd(),
      ),
    ];
  });
}
