/** What a whole batch comes to, as a document: for text, for a page by itself and for the page of several designs. */
import type { Bars, Block, Cell, ReportDocument, Table } from '../document.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { nameOf } from '../phrases/words-of.js';
import { renderText } from '../render/text.js';
import type { TextOptions } from '../text-options.js';
import type { BatchSummary, Histogram } from './report.js';
import { countBlocks } from './triage.js';

type BatchWords = Words<'batch' | 'common' | 'findings'>;

/** Commonest findings that are listed in text; a page has all. */
const MOST_FINDINGS = 10;

/**
 * The summary as text; the last lines count the files by verdict.
 *
 * @example
 * ```ts
 * import { BatchTally, batchSummaryToText } from 'lieflat';
 * batchSummaryToText(new BatchTally().summary(), { width: 80, units: 'mm' }).includes('0 files'); // => true
 * ```
 */
export function batchSummaryToText(summary: BatchSummary, options: TextOptions): string {
  const words = wordsFor({ units: options.units, detail: 'full' });
  const blocks = [...batchBlocks(summary, words, MOST_FINDINGS), ...countBlocks(summary, words)];
  return renderText(batchDocument(summary, blocks, words), options);
}

/** @param blocks the parts of it, in order */
export const batchDocument = (
  { files }: BatchSummary,
  blocks: readonly Block[],
  { batch }: BatchWords,
): ReportDocument => ({ title: batch.pageTitle({ designs: files.vetted }), language: 'en', blocks });

/** What was found in most files, the worst, and how wide and how dense. */
export function batchBlocks(summary: BatchSummary, words: BatchWords, mostFindings?: number): Block[] {
  const { batch } = words;
  const tables = [
    [batch.foundInMost, findingTable(summary, words, mostFindings)],
    [batch.worst, worstTable(summary, words)],
  ] as const;
  return [
    ...tables.flatMap(([title, table]): Block[] =>
      table.rows.length > 0 ? [{ is: 'section', title, blocks: [table] }] : [],
    ),
    ...histograms(summary, words),
  ];
}

function findingTable({ findings }: BatchSummary, words: BatchWords, mostRows?: number): Table {
  const { batch, common, say } = words;
  const { column } = batch;
  return {
    is: 'table',
    id: 'found-in-most',
    columns: [
      { head: column.files, number: true, sorts: true },
      { head: column.times, number: true, sorts: true },
      { head: column.level },
      { head: column.found, flexible: true, namesRow: true, sorts: true },
    ],
    rows: findings.map(({ code, severity, files, times }): Cell[] => [
      { text: say.count(files), by: -files },
      { text: say.count(times), by: -times },
      [{ text: common.severity[severity], level: severity }],
      nameOf(code, words),
    ]),
    mostRows,
    tail: (left) => common.others({ left }),
  };
}

function worstTable({ worst }: BatchSummary, { batch, common }: BatchWords): Table {
  const { column } = batch;
  const onFabric = worst.some(({ grade }) => grade !== null);
  return {
    is: 'table',
    id: 'worst-files',
    columns: [
      { head: column.file, flexible: true, breaks: true, namesRow: true },
      { head: column.found },
      ...(onFabric ? [{ head: column.grade, number: true }] : []),
    ],
    rows: worst.map(({ path, found, grade }) => [
      path,
      common.tally(found),
      ...(onFabric ? [String(grade ?? common.nothing)] : []),
    ]),
  };
}

/** The two histograms; one that counts nothing is left out, and so are the empty steps after the last full one. */
function histograms({ columnWidthMm, densityPerMm2 }: BatchSummary, { batch, say }: BatchWords): Bars[] {
  const total = ({ counts }: Histogram) => counts.reduce((sum, n) => sum + n, 0);
  const bars = ({ step, counts }: Histogram, said: (value: number) => string): Bars['bars'] =>
    counts.slice(0, counts.findLastIndex((n) => n > 0) + 1).map((count, i) => ({
      range: batch.step({ from: said(i * step), to: i === counts.length - 1 ? null : said((i + 1) * step) }),
      count,
    }));
  const all: Bars[] = [
    {
      is: 'bars',
      title: batch.widths({ columns: total(columnWidthMm) }),
      bars: bars(columnWidthMm, (mm) => (say.units === 'mm' ? say.fixed(mm, 0) : say.bare(mm))),
    },
    {
      is: 'bars',
      title: batch.densities({ areas: total(densityPerMm2) }),
      bars: bars(densityPerMm2, (density) => say.fixed(density, 1)),
    },
  ];
  return all.filter((one) => one.bars.length > 0);
}
