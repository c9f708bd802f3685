/** The vet report as a page to send back to whoever digitized the design: read on a screen or printed. */
import type { Stitches } from '../../format/stitches.js';
import { type BatchSummary, stoppedWords } from '../batch-summary.js';
import { fileName } from '../file-name.js';
import { count, counted, duration, size, type Units } from '../quantities.js';
import { html, tag } from '../render/markup.js';
import { htmlPage } from '../render/page.js';
import { printable } from '../render/printable.js';
import { SORT_SCRIPT } from '../render/sort-script.js';
import { riskWord } from '../risk-word.js';
import { setByYouWords } from '../set-words.js';
import { riskWords, tally, tallyWords, totals, type Verdict, verdictOf } from '../summary.js';
import type { VetReport } from '../vet/report.js';
import { batchSummaryPart } from './batch-summary.js';
import { factList, htmlTable } from './table.js';
import { VET_CSS } from './vet-css.js';
import { foundParts } from './vet-findings.js';
import { goodsParts } from './vet-goods.js';
import { objectTable } from './vet-objects.js';

/** A vetted design: its report, and its stitches for the picture. */
export interface VettedDesign {
  report: VetReport;
  stitches: Stitches;
}

export interface VetPageOptions {
  units: Units;
}

/** One design set as a part of a page, and what the index of the page says of it. Holds no stitches. */
export interface VetSection {
  /** Markup; its ids are unique for its number. */
  markup: string;
  entry: {
    id: string;
    path: string;
    verdict: Verdict;
    counts: ReturnType<typeof tally>;
    design: VetReport['design'];
    grade: number | null;
  };
}

/**
 * Sets one design. The picture and the list grow with the design, everything else stays small; stitches may be let go of afterwards.
 *
 * @param number of the design on its page, from 1
 */
export function vetSection(
  { report, stitches }: VettedDesign,
  number: number,
  { units }: VetPageOptions,
): VetSection {
  const { file, design, findings } = report;
  const risk = riskWords(report, units);
  const id = `design-${number}`;
  const counts = tally(findings);
  const verdict = verdictOf(counts);
  const { picture, list } = foundParts(report, stitches, id, units);
  const markup = tag(
    'section',
    // Files of one name from several folders are told apart by the number.
    { class: 'design-section', id, 'aria-label': `Design ${number}: ${printable(fileName(file.path))}` },
    tag('h2', {}, html(fileName(file.path))),
    tag('p', { class: 'verdict' }, verdictMark(verdict), ` ${html(tallyWords(counts))}`),
    factList([
      ...totals(report, units).map(([name, text]): [string, string] => [name, html(text)]),
      ...(risk
        ? [['risk', `${tag('strong', {}, html(risk.word))} ${html(risk.rest)}`] satisfies [string, string]]
        : []),
      ...setByYouWords(report.setObjects).map((text): [string, string] => ['objects', html(printable(text))]),
      ['file', html(`${count(file.bytes)} bytes${fingerprint(file.sha256)}`)],
    ]),
    '\n',
    ...(stitches.count > 0 ? [tag('h3', {}, 'Where'), picture, '\n'] : []),
    tag('h3', {}, 'What was found'),
    list,
    '\n',
    goodsParts(report, id, units),
    '\n',
    tag('h3', {}, 'Objects in sewing order'),
    objectTable(report, id, units),
    '\n',
  );
  return {
    markup,
    entry: { id, path: file.path, verdict, counts, design, grade: report.risk?.grade ?? null },
  };
}

/**
 * The page of sections that were set one by one: an index that leads to each where they are several.
 *
 * @param unread how many files could not be read
 * @param summary what they come to; stands before the index
 */
export function joinVetSections(
  sections: readonly VetSection[],
  { units, unread = 0, summary }: VetPageOptions & { unread?: number; summary?: BatchSummary },
): string {
  const [only] = sections;
  const title =
    sections.length === 1
      ? `Vet report: ${fileName(only.entry.path)}`
      : `Vet report: ${counted(sections.length, 'design')}`;
  const missing = unread > 0 ? tag('p', {}, `${counted(unread, 'file')} could not be read.`) : '';
  const stopped = summary?.stopped
    ? tag('p', {}, `The list is not whole: ${stoppedWords(summary.stopped)}.`)
    : '';
  return htmlPage({
    title,
    lang: 'en',
    css: VET_CSS,
    script: SORT_SCRIPT,
    body: [
      tag('header', {}, tag('h1', {}, sections.length === 1 ? 'Vet report' : html(title)), missing, stopped),
      tag(
        'main',
        { id: 'main', tabindex: -1 },
        '\n',
        sections.length > 1 && summary ? `${batchSummaryPart(withoutFolders(summary), units)}\n` : '',
        sections.length > 1 ? index(sections, units) : '',
        ...sections.map(({ markup }) => `${markup}\n`),
      ),
      tag(
        'footer',
        {},
        tag(
          'p',
          {},
          `Places are ${units === 'mm' ? 'mm' : 'inches'} from the origin of the design, x to the right and y upward. Objects are numbered as they are sewn. What each limit rests on stands beside it; a sew-out on the goods decides.`,
        ),
        tag(
          'p',
          {},
          "Before the first sew-out trace the outline with the needle up, hands clear: a needle that hits a hoop shatters. The machine's manual and the safety rules of the shop go before this sheet.",
        ),
      ),
    ].join('\n'),
  });
}

/** The report of one design or several as a page that stands by itself: nothing fetched, whole without its script. */
export function vetPage(designs: readonly VettedDesign[], options: VetPageOptions): string {
  return joinVetSections(
    designs.map((design, i) => vetSection(design, i + 1, options)),
    options,
  );
}

/** What a page that goes out says of where a file lies: nothing. */
const withoutFolders = (summary: BatchSummary): BatchSummary => ({
  ...summary,
  worst: summary.worst.map((file) => ({ ...file, path: fileName(file.path) })),
});

/** Digits that tell one version of a file from another. */
const SHORT_HASH = 12;

/** `, fingerprint 5f3a0c…`, where the content was hashed. */
const fingerprint = (sha256: string): string =>
  sha256 === '' ? '' : `, fingerprint ${sha256.slice(0, SHORT_HASH)} (start of its SHA-256)`;

const verdictMark = ({ level, words }: Verdict): string =>
  tag('strong', { class: `severity ${level}` }, html(words));

const ORDER = ['fail', 'warn', 'sound'] as const satisfies readonly Verdict['level'][];

function index(sections: readonly VetSection[], units: Units): string {
  const onGoods = sections.some(({ entry }) => entry.grade !== null);
  return htmlTable({
    id: 'index',
    caption: 'The designs',
    rows: sections.map(({ entry }) => entry),
    // As many as there are sections below.
    mostRows: sections.length,
    columns: [
      {
        head: 'design',
        namesRow: true,
        cell: ({ id, path }) => tag('a', { href: `#${id}` }, html(fileName(path))),
        sortBy: ({ path }) => fileName(path),
      },
      {
        head: 'verdict',
        cell: ({ verdict }) => verdictMark(verdict),
        sortBy: ({ verdict }) => ORDER.indexOf(verdict.level),
      },
      {
        head: 'found',
        cell: ({ counts }) => html(tallyWords(counts)),
        sortBy: ({ counts: { fail, warn, note } }) => -(fail * 1e12 + warn * 1e6 + note),
      },
      {
        head: 'size',
        cell: ({ design }) => html(size(design.widthMm, design.heightMm, units)),
        sortBy: ({ design }) => design.widthMm,
      },
      {
        head: 'stitches',
        number: true,
        cell: ({ design }) => count(design.stitches),
        sortBy: ({ design }) => design.stitches,
      },
      {
        head: 'time to sew',
        number: true,
        cell: ({ design }) => duration(design.sewSeconds),
        sortBy: ({ design }) => design.sewSeconds,
      },
      ...(onGoods
        ? [
            {
              head: 'risk',
              cell: ({ grade }: VetSection['entry']) =>
                grade === null ? '-' : `${riskWord(grade)} (grade ${grade})`,
              sortBy: ({ grade }: VetSection['entry']) => grade,
            },
          ]
        : []),
    ],
  });
}
