/** Two versions of a design as a document: whether it got better, which lies flatter, then totals, objects and findings. */
import type { Block, ReportDocument, ReportSection } from '../document.js';
import { newFindings } from '../new-findings.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { capital } from '../quantities.js';
import { renderText } from '../render/text.js';
import type { TextOptions } from '../text-options.js';
import type { CompareReport, RiskChange } from './report.js';

type CompareWords = Words<'common' | 'compare' | 'findings' | 'risk'>;

/** Objects listed one by one; the rest are counted. */
const MOST_OBJECTS = 12;
/** Objects named whose wrinkles changed most. */
const MOST_RISKS = 3;
/** A smaller change of wrinkle height is not worth a word, mm. */
const LEAST_WRINKLE_MM = 0.01;

export function compareDocument(report: CompareReport, words: CompareWords): ReportDocument {
  const { before, after, findings, objects, related } = report;
  const { compare } = words;
  const files = { before: before.path, after: after.path };
  const headline = compare.files({ headline: compare.headline[outcome(report)], ...files });
  return {
    title: compare.title,
    language: 'en',
    blocks: [
      { is: 'paragraph', text: [{ text: headline, strong: true }] },
      ...riskSection(report, words),
      ...totals(report, words),
      ...(related
        ? [
            ...objectSection(report, words),
            ...newFindings(findings.lost, compare.lost, words),
            ...newFindings(findings.gained, compare.gained, words),
          ]
        : [{ is: 'paragraph', text: compare.unrelated(objects) } as const]),
    ],
  };
}

/** The same as text: what `lieflat compare` prints. */
export const compareToText = (report: CompareReport, options: TextOptions): string =>
  renderText(compareDocument(report, wordsFor({ units: options.units, detail: 'full' })), options);

function outcome({
  objects: { changed, removed, added },
  design,
  findings: { lost, gained },
  related,
}: CompareReport): keyof CompareWords['compare']['headline'] {
  if (!related) return 'unrelated';
  if ([design, changed, removed, added, lost, gained].every((list) => list.length === 0)) return 'same';
  const worse = gained.some(({ severity }) => severity !== 'note');
  const better = lost.some(({ severity }) => severity !== 'note');
  if (worse) return better ? 'mixed' : 'worse';
  return better ? 'better' : 'changed';
}

/** Which of the two lies flatter on the fabric, whether that is sure, and where it shows most. */
function riskSection(
  { risk, related }: CompareReport,
  { compare, risk: words }: CompareWords,
): ReportSection[] {
  if (risk === null) return [];
  const change = (of: RiskChange) => Math.abs(of.after.wrinkleMm - of.before.wrinkleMm);
  const most = risk.objects
    .filter(({ risk: of }) => change(of) >= LEAST_WRINKLE_MM)
    .toSorted((a, b) => change(b.risk) - change(a.risk) || a.before - b.before)
    .slice(0, MOST_RISKS)
    .map(({ risk: { before, after }, ...ids }) => ({ object: compare.object(ids), before, after }));
  const { before, after, flatter, tooCloseToCall } = risk;
  const said = [
    compare.flatter({ before, after, flatter, sure: !tooCloseToCall }),
    ...(related && most.length > 0 ? [compare.changedMost({ objects: most })] : []),
  ];
  const blocks = said.map((text) => ({ is: 'paragraph', text }) as const);
  return [{ is: 'section', title: capital(words.on(risk.conditions)), blocks }];
}

/** Where an edge lies is no amount, and whole minutes give no share. */
const SHARELESS = /^bounds\.|^sewSeconds$/;

/** The totals that differ. */
function totals({ design }: CompareReport, { compare }: CompareWords): ReportSection[] {
  if (design.length === 0) return [];
  const { column } = compare;
  const columns = [
    { head: column.what },
    ...[column.before, column.after, column.change].map((head) => ({ head, number: true })),
  ];
  const rows = design.map(({ what, before, after }) => [
    compare.field({ what }),
    compare.value({ what, value: before }),
    compare.value({ what, value: after }),
    typeof before === 'number' && typeof after === 'number' && before > 0 && !SHARELESS.test(what)
      ? compare.share({ before, after })
      : '',
  ]);
  return [{ is: 'section', title: compare.design, blocks: [{ is: 'table', id: 'design', columns, rows }] }];
}

function objectSection({ objects }: CompareReport, { compare }: CompareWords): ReportSection[] {
  const { changed, removed, added } = objects;
  const { column } = compare;
  const most = changed.toSorted((a, b) => b.changes.length - a.changes.length || a.before - b.before);
  const blocks: Block[] = [
    ...(removed.length > 0
      ? [{ is: 'paragraph', text: compare.removed({ objects: removed }) } as const]
      : []),
    ...(added.length > 0 ? [{ is: 'paragraph', text: compare.added({ objects: added }) } as const] : []),
    {
      is: 'table',
      id: 'objects',
      columns: [
        { head: column.object, number: true },
        { head: column.changed, flexible: true },
      ],
      rows: most.map(({ changes, ...ids }) => [compare.object(ids), changes.map(compare.change).join('; ')]),
      mostRows: MOST_OBJECTS,
      tail: (left) => compare.moreChanged({ left }),
    },
  ];
  return [{ is: 'section', title: compare.objects(objects), blocks }];
}
