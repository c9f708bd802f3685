/** The file check as a page to send back to whoever digitized the design: read on a screen or printed. */
import type { Stitches } from '../../format/stitches.js';
import { isFileCode } from '../../vetting/finding.js';
import { batchBlocks } from '../batch/document.js';
import type { BatchSummary } from '../batch/report.js';
import { countBlocks } from '../batch/triage.js';
import { type Block, type Cell, type Entry, type Figure, spansOf, type TableColumn } from '../document.js';
import { fileName } from '../file-name.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { numberedPlaces, numbersOf } from '../pictures/callouts.js';
import { CALLOUT_RADIUS, calloutKey, findingPicture, frame } from '../pictures/finding-picture.js';
import type { Units } from '../quantities.js';
import { blocksAsHtml, framedHtml } from '../render/html.js';
import { printable } from '../render/printable.js';
import { notDrawn } from '../stitch-path.js';
import { factsOf, type VetWords, verdictBlock } from './document.js';
import { type FindingGroup, findingEntries, groupFindings } from './found.js';
import { allObjects, objectsToLookAt } from './objects.js';
import { adviceOnPage, fabricSection } from './on-fabric.js';
import type { VetReport } from './report.js';
import { type Counts, SEVERITIES, tally, type VerdictLevel, verdictOf } from './verdict.js';

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
    verdict: VerdictLevel;
    counts: Counts;
    design: VetReport['design'];
    grade: number | null;
  };
}

/** What the page adds to the look of documents: on paper the picture leaves room for the list on its sheet. */
const CSS = `section[id^="design-"] + section[id^="design-"] { border-top: 3px solid var(--ink); margin-top: 2.5rem; }
@media print {
  h1 { font-size: 13pt; margin: 0; }
  h2 { font-size: 12pt; margin: .4em 0; }
  h3 { margin: .8em 0 .3em; }
  .picture { max-width: 130mm; }
  .picture > svg { max-height: 95mm; }
  figcaption { padding: .2em 0; font-size: 8pt; }
  .entries { font-size: 9pt; line-height: 1.3; }
  .facts { gap: 0 1em; }
  section[id^="design-"] + section[id^="design-"] { break-before: page; margin: 0; border: 0; }
}
`;

const wordsOn = ({ units }: VetPageOptions): Words => wordsFor({ units, detail: 'full', commands: false });

/**
 * Sets one design. The picture and the list grow with the design, everything else stays small; stitches may be let go of afterwards.
 *
 * @param number of the design on its page, from 1
 */
export function vetSection(
  { report, stitches }: VettedDesign,
  number: number,
  options: VetPageOptions,
): VetSection {
  const words = wordsOn(options);
  const id = `design-${number}`;
  const { file, design, findings, risk } = report;
  const counts = tally(findings);
  const blocks = designBlocks(report, stitches, words, id);
  return {
    markup: blocksAsHtml([{ is: 'section', title: fileName(file.path), id, blocks }]),
    entry: {
      id,
      path: file.path,
      verdict: verdictOf(report, counts),
      counts,
      design,
      grade: risk?.grade ?? null,
    },
  };
}

function designBlocks(report: VetReport, stitches: Stitches, words: VetWords, id: string): Block[] {
  const groups = groupFindings(report.findings, words);
  const entries = signed(findingEntries(groups, words), groups, words);
  const { findings, common } = words;
  return [
    verdictBlock(report, common.tally(tally(report.findings)), words),
    { is: 'facts', facts: factsOf(report, words) },
    ...adviceOnPage(report, words, `${id}-pull-compensation`),
    ...(stitches.count > 0 ? [figureOf(report, stitches, groups, words)] : []),
    {
      is: 'section',
      title: findings.title,
      blocks: [entries.length > 0 ? { is: 'entries', entries } : { is: 'paragraph', text: findings.none }],
    },
    ...fabricSection(report, words, id),
    ...objectsToLookAt(report, words, { id: `${id}-first`, tail: (left) => common.others({ left }) }).map(
      (section) => ({ ...section, for: 'paper' as const }),
    ),
    { ...allObjects(report, words, `${id}-objects`), for: 'screen' },
  ];
}

/** The entries with the letters that their kinds have in the picture, and with what each limit rests on. */
const signed = (entries: readonly Entry[], groups: readonly FindingGroup[], words: VetWords): Entry[] => {
  const numbers = numbersOf(groups);
  return entries.map((entry, i) => {
    const number = numbers[i];
    const { code, limit, unit, basis } = groups[i].worst;
    const said =
      // What a file should hold is a figure of the format, and no limit of the trade.
      limit === null || isFileCode(code)
        ? null
        : unit === 'mm'
          ? words.say.figure(Number(limit))
          : `${limit} ${unit ?? ''}`.trim();
    const rests = { text: ` ${words.vet.rests({ limit: said, basis })}`, quiet: true };
    return {
      ...entry,
      lines: entry.lines.map((line, k) => (k === entry.lines.length - 1 ? [...spansOf(line), rests] : line)),
      ...(number !== null && { sign: calloutKey(groups[i].severity, number) }),
    };
  });
};

/** The design with a letter at each place where something was found. */
function figureOf(
  report: VetReport,
  stitches: Stitches,
  groups: readonly FindingGroup[],
  { vet, common, picture }: VetWords,
): Figure {
  const framing = frame(report.design);
  // Numbers of one kind that would stand on each other are one.
  const places = numberedPlaces(groups, (2 * CALLOUT_RADIUS) / framing.perMm);
  const file = printable(fileName(report.file.path));
  const label = vet.stitchesOf({ file, places: places.length });
  return {
    is: 'figure',
    svg: findingPicture(report, stitches, places, framing, label),
    label: vet.pictureOf({ file }),
    caption: [
      vet.pictureCaption({ places: places.length }),
      ...notDrawn(stitches).map((says) => vet.pictureNotWhole({ says: picture.notDrawn(says) })),
    ],
    key: SEVERITIES.filter((severity) => places.some((place) => place.severity === severity)).map(
      (severity) => ({
        svg: calloutKey(severity),
        text: common.severity[severity],
      }),
    ),
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
  const words = wordsOn({ units });
  const { vet } = words;
  const [only] = sections;
  const title =
    sections.length === 1
      ? vet.pageTitle({ file: printable(fileName(only.entry.path)) })
      : vet.pageOfSeveral({ designs: sections.length });
  const missing = [
    ...(unread > 0 ? [vet.unread({ files: unread })] : []),
    ...(summary?.stopped ? [vet.notWhole({ stopped: words.batch.stopped(summary.stopped) })] : []),
  ];
  const several: Block[] =
    sections.length > 1
      ? [
          ...(summary
            ? [...countBlocks(summary, words), ...batchBlocks(withoutFolders(summary), words)]
            : []),
          index(sections, words),
        ]
      : [];
  const markup = [
    blocksAsHtml([...missing.map((text): Block => ({ is: 'paragraph', text })), ...several]),
    ...sections.map((section) => section.markup),
    blocksAsHtml([
      { is: 'paragraph', text: [{ text: vet.foot({}), quiet: true }] },
      { is: 'caution', text: vet.caution },
    ]),
  ];
  return framedHtml({ title, language: 'en' }, markup.join('\n'), {
    css: CSS,
    ...(sections.length === 1 && { heading: vet.title }),
  });
}

/** The report of one design or several as a page that stands by itself: nothing fetched, whole without its script. */
export const vetPage = (designs: readonly VettedDesign[], options: VetPageOptions): string =>
  joinVetSections(
    designs.map((design, i) => vetSection(design, i + 1, options)),
    options,
  );

/** What a page that goes out says of where a file lies: nothing. */
const withoutFolders = (summary: BatchSummary): BatchSummary => ({
  ...summary,
  worst: summary.worst.map((file) => ({ ...file, path: fileName(file.path) })),
});

const ORDER = ['fail', 'warn', 'sound'] as const satisfies readonly VerdictLevel[];

function index(sections: readonly VetSection[], { vet, common, risk, say }: VetWords): Block {
  const { column } = vet;
  const onFabric = sections.some(({ entry }) => entry.grade !== null);
  const columns: TableColumn[] = [
    { head: column.design, namesRow: true, sorts: true },
    { head: column.verdict, sorts: true },
    { head: column.found, sorts: true },
    { head: column.size({}), sorts: true },
    { head: column.stitches, number: true, sorts: true },
    { head: column.time, number: true, sorts: true },
    ...(onFabric ? [{ head: risk.label, sorts: true }] : []),
  ];
  const row = ({ id, path, verdict, counts, design, grade }: VetSection['entry']): Cell[] => [
    { text: [{ text: fileName(path), href: `#${id}` }], by: fileName(path) },
    { text: [{ text: common.verdict[verdict], level: verdict }], by: ORDER.indexOf(verdict) },
    { text: common.tally(counts), by: -(counts.fail * 1e12 + counts.warn * 1e6 + counts.note) },
    { text: say.bareSize(design.widthMm, design.heightMm), by: design.widthMm },
    { text: say.count(design.stitches), by: design.stitches },
    { text: say.time(design.sewSeconds), by: design.sewSeconds },
    ...(onFabric
      ? [
          {
            text: grade === null ? common.nothing : vet.graded({ grade, word: risk.grade({ grade }) }),
            by: grade,
          },
        ]
      : []),
  ];
  return {
    is: 'table',
    id: 'index',
    caption: vet.designs,
    columns,
    rows: sections.map(({ entry }) => row(entry)),
    // As many as there are sections below.
    mostRows: sections.length,
  };
}
