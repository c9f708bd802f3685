/** The satin columns of a design as a document: how many, the table, what a fabric does, and why some need another underlay. */
import type { Block, ReportDocument, TableColumn } from '../document.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { sayFinding } from '../phrases/words-of.js';
import { renderText } from '../render/text.js';
import { setFacts } from '../set-words.js';
import type { TextOptions } from '../text-options.js';
import type { ColumnReport, ColumnsReport } from './report.js';

type ColumnsWords = Words<'columns' | 'common' | 'findings' | 'risk' | 'vet'>;

export function columnsDocument(report: ColumnsReport, words: ColumnsWords): ReportDocument {
  const { columns: all, overMm, file, setObjects } = report;
  const lighter = all.filter((column) => column.lighterUnderlay);
  const bare = all.filter((column) => column.missingUnderlay);
  const headline = words.columns.headline({
    file: file.path,
    columns: all.length,
    overMm,
    lighter: lighter.length,
    bare: bare.length,
  });
  const set = setFacts(setObjects, words);
  const why = [
    { label: words.columns.lighter, finding: lighter[0]?.lighterUnderlay },
    { label: words.columns.bare, finding: bare[0]?.missingUnderlay },
  ].flatMap(({ label, finding }) => (finding ? [{ label, text: sayFinding(finding, words) }] : []));
  return {
    title: words.columns.title,
    language: 'en',
    blocks: [
      { is: 'paragraph', text: [{ text: headline, strong: true }] },
      ...(set.length > 0 ? [{ is: 'facts', facts: set } as const] : []),
      ...(all.length > 0 ? [table(report, words)] : []),
      ...onFabric(report, lighter.length + bare.length, words),
      ...(why.length > 0 ? [{ is: 'facts', facts: why } as const] : []),
    ],
  };
}

/** The same as text: what `lieflat columns` prints of one file. */
export const columnsToText = (report: ColumnsReport, options: TextOptions): string =>
  renderText(columnsDocument(report, wordsFor({ units: options.units, detail: 'full' })), options);

function table(
  { columns: all, foreseen }: ColumnsReport,
  { columns: words, common, say }: ColumnsWords,
): Block {
  const { column } = words;
  // What a fabric does takes the room of the median and the spacing.
  const columns: (TableColumn & { cell: (of: ColumnReport) => string })[] = [
    { head: column.object, number: true, cell: ({ object }) => String(object) },
    { head: column.width({}), number: true, cell: ({ widthMm }) => say.bare(widthMm.p95) },
    ...(foreseen
      ? []
      : [
          {
            head: column.median,
            number: true,
            cell: ({ widthMm }: ColumnReport) => say.bare(widthMm.median),
          },
          {
            head: column.spacing,
            number: true,
            cell: ({ spacingMm }: ColumnReport) => (spacingMm ? say.bare(spacingMm.median) : common.nothing),
          },
        ]),
    { head: column.place({}), number: true, cell: ({ at }) => say.place(at) },
    {
      head: column.underlay,
      flexible: true,
      cell: ({ underlay, ...is }) => words.underlay({ kinds: common.underlayList(underlay), ...is }),
    },
    {
      head: column.lighter,
      cell: ({ lighterUnderlay, missingUnderlay, keptUnderlay }) =>
        lighterUnderlay
          ? words.lighter
          : missingUnderlay
            ? words.bare
            : keptUnderlay
              ? words.kept
              : words.fine,
    },
    ...(foreseen
      ? [
          {
            head: column.wrinkle({}),
            number: true,
            cell: (of: ColumnReport) => words.wrinkle(of.foreseen!),
          },
        ]
      : []),
  ];
  return {
    is: 'table',
    id: 'columns',
    columns,
    rows: all.map((one) => columns.map(({ cell }) => cell(one))),
  };
}

function onFabric({ foreseen }: ColumnsReport, listed: number, { columns, risk }: ColumnsWords): Block[] {
  if (foreseen === null) return [];
  const { conditions, relaid, to, kept, now, onAdvised } = foreseen;
  const said = columns.onFabric({
    on: risk.on(conditions),
    relaid: relaid.length,
    others: relaid.length > listed,
    to,
    now,
    onAdvised,
  });
  const stays = kept ? ` ${columns.stays(kept)}` : '';
  return [{ is: 'paragraph', text: `${said}${stays} ${risk.sewATest}` }];
}
