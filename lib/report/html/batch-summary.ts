/** What a whole batch comes to, as a part of a page and as a page by itself. */
import { type BatchSummary, summaryLine } from '../batch-summary.js';
import { histogramsInWords } from '../histogram-words.js';
import { count, counted, type Units } from '../quantities.js';
import { barChart } from '../render/bar-chart.js';
import { html, tag } from '../render/markup.js';
import { htmlPage } from '../render/page.js';
import { SORT_SCRIPT } from '../render/sort-script.js';
import { tallyWords } from '../summary.js';
import { htmlTable } from './table.js';
import { VET_CSS } from './vet-css.js';

/** Counts by verdict, what was found in most files, the worst, and how wide and how dense. */
export function batchSummaryPart(summary: BatchSummary, units: Units): string {
  const { findings, worst, stitches } = summary;
  const onGoods = worst.some(({ grade }) => grade !== null);
  const byFiles = (files: number) => -files;
  return [
    tag('h2', {}, 'All together'),
    tag('p', {}, html(`${summaryLine(summary)}; ${counted(stitches, 'stitch', 'stitches')}.`)),
    ...histogramsInWords(summary, units).map((histogram) =>
      tag('figure', {}, barChart(histogram), tag('figcaption', {}, html(histogram.title))),
    ),
    findings.length > 0
      ? htmlTable({
          id: 'found-in-most',
          caption: 'What was found in most files',
          rows: findings,
          columns: [
            { head: 'what', namesRow: true, cell: ({ code }) => html(code), sortBy: ({ code }) => code },
            {
              head: 'level',
              cell: ({ severity }) =>
                tag('span', { class: `severity ${severity}` }, html(severity.toUpperCase())),
            },
            {
              head: 'files',
              number: true,
              cell: ({ files }) => count(files),
              sortBy: ({ files }) => byFiles(files),
            },
            {
              head: 'times',
              number: true,
              cell: ({ times }) => count(times),
              sortBy: ({ times }) => byFiles(times),
            },
          ],
        })
      : '',
    worst.length > 0
      ? htmlTable({
          id: 'worst-files',
          caption: 'The worst files',
          rows: worst,
          columns: [
            { head: 'file', namesRow: true, cell: ({ path }) => html(path) },
            { head: 'found', cell: ({ found }) => html(tallyWords(found)) },
            ...(onGoods
              ? [
                  {
                    head: 'grade',
                    number: true,
                    cell: ({ grade }: BatchSummary['worst'][number]) => String(grade ?? '-'),
                  },
                ]
              : []),
          ],
        })
      : '',
  ].join('\n');
}

/** The summary as a page that stands by itself: nothing fetched, whole without its script. */
export function batchSummaryPage(summary: BatchSummary, units: Units): string {
  return htmlPage({
    title: `Vet summary: ${counted(summary.files.vetted, 'design')}`,
    lang: 'en',
    css: VET_CSS,
    script: SORT_SCRIPT,
    body: [
      tag('header', {}, tag('h1', {}, 'Vet summary')),
      tag('main', { id: 'main', tabindex: -1 }, '\n', batchSummaryPart(summary, units), '\n'),
    ].join('\n'),
  });
}
