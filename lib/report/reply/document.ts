/** The reply to a digitizer as a document: the same as plain mail and as one printed sheet. */
import type { Stitches } from '../../format/stitches.js';
import { isFileCode } from '../../vetting/finding.js';
import { PAPER_MARGIN_MM, PAPERS, type PaperName } from '../card/paper.js';
import type { Block, Figure, ReportDocument, ReportSection, Verdict } from '../document.js';
import { fileName } from '../file-name.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { nameOf } from '../phrases/words-of.js';
import { letterOf, numberedPlaces } from '../pictures/callouts.js';
import { CALLOUT_RADIUS, calloutKey, findingPicture, frame } from '../pictures/finding-picture.js';
import { capital, type Units } from '../quantities.js';
import { renderHtml } from '../render/html.js';
import { renderMail } from '../render/mail.js';
import { printable } from '../render/printable.js';
import { notDrawn } from '../stitch-path.js';
import type { VetReport } from '../vet/report.js';
import { groupsToFix, type ReplyItem, type ReplyReport } from './report.js';

type ReplyWords = Words<'common' | 'findings' | 'picture' | 'reply'>;

/** The picture of a reply is that of the file check. */
export interface ReplyPicture {
  readonly report: VetReport;
  readonly stitches: Stitches;
}

/** @param picture for pages; null leaves it out */
export function replyDocument(
  report: ReplyReport,
  words: ReplyWords,
  picture: ReplyPicture | null = null,
): ReportDocument {
  const { reply } = words;
  const { items, design, compensation } = report;
  const file = printable(fileName(report.file.path));
  const toFix = items.length + (compensation.length > 0 ? 1 : 0);
  return {
    title: toFix > 0 ? reply.title({ file }) : reply.titleFine({ file }),
    language: 'en',
    blocks: [
      verdictOf(report, file, toFix, words),
      { is: 'paragraph', text: reply.design(design) },
      ...(picture && picture.stitches.count > 0 ? [figureOf(picture, words)] : []),
      ...(toFix > 0 ? [fixSection(report, words)] : []),
      ...changedSection(report, words),
      ...fineSection(report, words),
    ],
  };
}

/** The answer first: what is still to be done, and by whom. */
function verdictOf(
  { items, compensation, changed, fabricName: fabric }: ReplyReport,
  file: string,
  toFix: number,
  { reply }: ReplyWords,
): Verdict {
  if (toFix === 0)
    return { is: 'verdict', level: 'sound', word: reply.verdict.fine, line: reply.nothing({ file }) };
  const isFixed =
    changed?.done && compensation.length === 0 && items.every(({ relaid }) => relaid === 'fixed');
  if (isFixed)
    return { is: 'verdict', level: 'sound', word: reply.verdict.fixed, line: reply.fixedHere({ file }) };
  return {
    is: 'verdict',
    level: items.some(({ severity }) => severity === 'fail') ? 'fail' : 'warn',
    word: reply.verdict.fix,
    line: reply.line({ items: toFix, file, fabric }),
  };
}

/** As plain mail, 72 columns: what `lieflat reply` prints. */
export const replyToMail = (report: ReplyReport, units: Units): string =>
  renderMail(replyDocument(report, wordsFor({ units, detail: 'full' })));

/** As a page by itself, for one sheet of the paper. */
export function replyPage(
  report: ReplyReport,
  picture: ReplyPicture,
  { units, paper }: { units: Units; paper: PaperName },
): string {
  return renderHtml(replyDocument(report, wordsFor({ units, detail: 'full' }), picture), {
    css: cssOf(paper),
  });
}

/** On paper the picture leaves room for an ordinary list on its sheet. */
const cssOf = (
  paper: PaperName,
): string => `@page { size: ${PAPERS[paper].css}; margin: ${PAPER_MARGIN_MM}mm; }
.entries { max-width: none; }
@media print {
  h1 { font-size: 13pt; margin: 0; }
  h2 { font-size: 11pt; margin: .5em 0 .2em; }
  p { margin: .3em 0; }
  .picture { max-width: 130mm; margin-inline: auto; }
  .picture > svg { max-height: 88mm; width: auto; max-width: 100%; }
  figcaption { padding: .1em 0; font-size: 8pt; }
  .entries { font-size: 8.5pt; line-height: 1.2; columns: 2; column-gap: 5mm; }
  .entries > * { break-inside: avoid; }
}
`;

function fixSection(
  { items, compensation, threads, changed }: ReplyReport,
  words: ReplyWords,
): ReportSection {
  const { reply, common, say } = words;
  const by = changed?.done ? 'done' : 'can';
  const each = compensation.map((one) => reply.compensation(one));
  const entries = [
    ...items.map((item) => ({
      level: item.severity,
      word: common.severity[item.severity],
      head: `${letterOf(item.number)}. ${capital(nameOf(item.code, words))}: ${whereOf(item, threads, words)}`,
      lines: [
        [
          shouldOf(item, words),
          nowOf(item, words),
          ...(item.relaid && item.relaid !== 'stays' ? [reply.relaid[by][item.relaid]] : []),
        ]
          .filter(Boolean)
          .join(' '),
      ],
      ...(item.first.at && { sign: calloutKey(item.severity, item.number) }),
    })),
    ...(each.length > 0
      ? [
          {
            level: 'note' as const,
            word: common.severity.note,
            head: `${letterOf(items.length + 1)}. ${capital(reply.compensationName)}: ${reply.compensationWhere}`,
            lines: [capital(reply.compensationShould({ each: say.list(each) }))],
          },
        ]
      : []),
  ];
  return { is: 'section', title: reply.fixTitle, blocks: [{ is: 'entries', entries }] };
}

function whereOf(
  { first, places }: ReplyItem,
  threads: readonly string[],
  { reply, say }: ReplyWords,
): string {
  const { block, stitch, at } = first;
  return reply.where({
    block,
    color: block === null ? null : (threads[block - 1] ?? null),
    stitch,
    place: at && say.placeWithUnit(at),
    places,
  });
}

/** How it should be: an order with the figure to keep. */
function shouldOf({ code, limit, underlay, onSoft, ofShort }: ReplyItem, { reply }: ReplyWords): string {
  if (isFileCode(code)) return reply.should.file;
  return reply.should[code as Exclude<keyof typeof reply.should, 'file'>]({
    limit: typeof limit === 'number' ? limit : null,
    to: underlay,
    onSoft,
    ofShort,
  });
}

/** What is counted in the place that a figure is asked for. */
const COUNTED = ['points', 'layers', 'points/mm²'];

/** What it is now, where that is the figure which is asked for; under a column it is the width of the column. */
function nowOf({ measured, unit, underlay }: ReplyItem, { reply, say }: ReplyWords): string {
  if (typeof measured !== 'number' || unit === null) return '';
  if (COUNTED.includes(unit)) return reply.measured({ text: say.plain(measured, 1) });
  if (unit !== 'mm') return '';
  const text = say.length(measured);
  return underlay === null ? reply.measured({ text }) : reply.widestColumn({ text });
}

/** Each once. */
const namesOf = (codes: readonly ReplyItem['code'][], words: ReplyWords): string[] => [
  ...new Set(codes.map((code) => nameOf(code, words))),
];

function changedSection({ changed }: ReplyReport, words: ReplyWords): ReportSection[] {
  if (changed === null) return [];
  const { reply } = words;
  const { done, columns, fixed, stays } = changed;
  const lines = [
    done ? reply.changed({ columns }) : reply.can({ columns }),
    ...(fixed.length > 0 ? [reply.fixed({ names: namesOf(fixed, words), done })] : []),
    stays.length > 0 ? reply.stays({ names: namesOf(stays, words) }) : reply.allFixed,
  ];
  return [
    {
      is: 'section',
      title: done ? reply.changedTitle : reply.canTitle,
      blocks: [{ is: 'paragraph', text: lines.join(' ') }],
    },
  ];
}

function fineSection({ fine, minorCodes }: ReplyReport, words: ReplyWords): ReportSection[] {
  const { reply } = words;
  const blocks: Block[] = [
    ...(fine.length > 0
      ? [
          {
            is: 'paragraph' as const,
            text: capital(reply.fine({ topics: fine.map((topic) => reply.topics[topic]) })),
          },
        ]
      : []),
    ...(minorCodes.length > 0
      ? [{ is: 'paragraph' as const, text: reply.minor({ names: namesOf(minorCodes, words) }) }]
      : []),
  ];
  return blocks.length === 0 ? [] : [{ is: 'section', title: reply.fineTitle, blocks }];
}

function figureOf({ report, stitches }: ReplyPicture, { reply, picture }: ReplyWords): Figure {
  const framing = frame(report.design);
  // Numbers of one kind that would stand on each other are one.
  const places = numberedPlaces(groupsToFix(report), (2 * CALLOUT_RADIUS) / framing.perMm);
  return {
    is: 'figure',
    svg: findingPicture(report, stitches, places, framing, reply.pictureLabel),
    label: reply.pictureLabel,
    caption: [reply.caption, ...notDrawn(stitches).map((says) => ` ${picture.notDrawn(says)}`)].join(''),
  };
}
