/** Many files in a line each, the worst first: which to sew, which to look at, which to send back. */
import type { FindingCode, Severity } from '../../vetting/finding.js';
import { csvRecord } from '../csv.js';
import type { Block, Cell, ReportDocument, Table, TableColumn } from '../document.js';
import { type Words, wordsFor } from '../phrases/words.js';
import { nameOf } from '../phrases/words-of.js';
import { renderText } from '../render/text.js';
import type { TextOptions } from '../text-options.js';
import { type BatchSummary, byWorst, type FileDigest, type Gaps } from './report.js';

type TriageWords = Words<'batch' | 'common' | 'findings' | 'risk'>;

/** What is kept of a file: nothing that grows with its design. */
interface Line extends Omit<FileDigest, 'sha256' | 'codes' | 'widths' | 'densities'> {
  /** The kind of finding that is named: of the severest the most frequent; null where there is nothing to look at. */
  readonly wrong: FindingCode | null;
  /** Every kind of failure, then of warning. */
  readonly kinds: readonly FindingCode[];
  /** What makes the verdict is for whoever digitized it to put right, at least in part. */
  readonly sendBack: boolean;
  /** Other files of the same content. */
  readonly copies: string[];
}

/** A file that could not be read, and why, in words. */
export interface UnreadFile {
  readonly path: string;
  readonly why: string;
}

/**
 * Gathers a line a file; files of the same content are one.
 *
 * @example
 * ```ts
 * import { BatchTally, digestOf, factsOf, readDesignFile, shopOf, Triage } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const digest = digestOf(shopOf().vet(file.design, { file: factsOf(file) }).report);
 * const triage = new Triage();
 * triage.add(digest);
 * triage.text(new BatchTally().summary(), { width: 80, units: 'mm' }).includes('CHECK FIRST'); // => true
 * ```
 */
export class Triage {
  readonly #lines = new Map<string, Line>();
  readonly #unread: UnreadFile[] = [];

  /** The name under which the content came first, where it is not the first time. */
  add(digest: FileDigest): string | null {
    const { sha256, codes, widths, densities, ...kept } = digest;
    const key = sha256 ?? kept.path;
    const known = this.#lines.get(key);
    if (known) {
      known.copies.push(kept.path);
      return known.path;
    }
    this.#lines.set(key, {
      ...kept,
      wrong: wrongIn(digest),
      kinds: kindsIn(digest),
      sendBack: codes.some(({ severity, asks }) => asks && severity === digest.level),
      copies: [],
    });
    return null;
  }

  /** A file that has no report: it has a row in the table. */
  addUnread(file: UnreadFile): void {
    this.#unread.push(file);
  }

  /**
   * The lines as a table for a spreadsheet, the worst first: a row a file, each copy in one of its own. What could not be read goes before
   * all, as nobody knows what is in it. Lengths mm.
   */
  csv(): string {
    const words = wordsFor({ units: 'mm', detail: 'short' });
    const unread = this.#unreadInOrder().map(({ path, why }) => [
      words.batch.notRead,
      path,
      why,
      ...CSV_HEADS.slice(3).map(() => null),
    ]);
    const rows = [...this.#lines.values()].sort(byWorst).flatMap((line) => csvRowsOf(line, words));
    return [CSV_HEADS, ...unread, ...rows].map(csvRecord).join('');
  }

  #unreadInOrder(): UnreadFile[] {
    return this.#unread.toSorted((a, b) => (a.path < b.path ? -1 : 1));
  }

  /** The lines as text, the worst first, and then the count. */
  text(summary: BatchSummary, options: TextOptions): string {
    const words = wordsFor({ units: options.units, detail: 'short' });
    const lines = [...this.#lines.values()].sort(byWorst);
    return renderText(triageDocument({ lines, unread: this.#unreadInOrder() }, summary, words), options);
  }
}

/**
 * One file by itself, as it comes.
 *
 * @example
 * ```ts
 * import { digestOf, factsOf, readDesignFile, shopOf, triageLine } from 'lieflat';
 * const file = await readDesignFile('samples/name-drop.dst');
 * const digest = digestOf(shopOf().vet(file.design, { file: factsOf(file) }).report);
 * triageLine(digest, { width: 80, units: 'mm' }); // => 'CHECK FIRST  samples/name-drop.dst: heavy underlay\n'
 * ```
 */
export function triageLine(digest: FileDigest, options: TextOptions): string {
  const words = wordsFor({ units: options.units, detail: 'short' });
  const { level } = digest;
  const wrong = wrongIn(digest);
  const why = whyOf(digest, wrong, words);
  const line = why === null ? digest.path : `${digest.path}: ${why}`;
  const blocks: Block[] = [{ is: 'verdict', level, word: words.common.verdict[level], line }];
  return renderText({ title: words.batch.title, language: 'en', blocks }, options);
}

/**
 * The count alone: what stands under reports that were told in full.
 *
 * @example
 * ```ts
 * import { BatchTally, countToText } from 'lieflat';
 * countToText(new BatchTally().summary(), { width: 80, units: 'mm' }).includes('0 files'); // => true
 * ```
 */
export function countToText(summary: BatchSummary, options: TextOptions): string {
  const words = wordsFor({ units: options.units, detail: 'short' });
  return renderText(
    { title: words.batch.title, language: 'en', blocks: countBlocks(summary, words) },
    options,
  );
}

/**
 * In place of a report of content that was told before: the one line that says so.
 *
 * @example
 * ```ts
 * import { sameFileToText } from 'lieflat';
 * sameFileToText('b.dst', 'a.dst', { width: 80, units: 'mm' }); // => 'b.dst is the same file as a.dst, byte for byte.\n'
 * ```
 */
export function sameFileToText(file: string, first: string, options: TextOptions): string {
  const { batch } = wordsFor({ units: options.units, detail: 'short' });
  const blocks: Block[] = [{ is: 'paragraph', text: batch.sameAs({ file, first }) }];
  return renderText({ title: batch.title, language: 'en', blocks }, options);
}

/** How many files of which verdict, and what lies beside them. */
export function countBlocks(
  { files, stopped, gaps, otherEndings }: BatchSummary,
  { batch }: Words<'batch'>,
): Block[] {
  const others = otherEndings.length > 0 ? [batch.otherEndings({ endings: otherEndings })] : [];
  return [...others, ...(gaps ? gapsInWords(gaps, batch) : []), batch.count({ files, stopped })].map(
    (text) => ({ is: 'paragraph', text }),
  );
}

/** What is missing of an archive that was checked in parts, and what to do. */
const gapsInWords = (
  { parts, missing, unfinished, unlike, changed }: Gaps,
  { gap }: Words<'batch'>['batch'],
): string[] => [
  ...(parts === 0 ? [gap.open] : []),
  ...(missing.length > 0 ? [gap.missing({ missing, parts })] : []),
  ...unfinished.map(({ part, left }) => gap.unfinished({ part, left, parts })),
  ...unlike.map((what) => gap.unlike[what]),
  ...(changed.length > 0 ? [gap.changed({ changed })] : []),
];

/** What there is to tell of in a line each; what could not be read goes before all. */
interface ToldFiles {
  readonly lines: readonly Line[];
  readonly unread: readonly UnreadFile[];
}

function triageDocument(told: ToldFiles, summary: BatchSummary, words: TriageWords): ReportDocument {
  const { batch } = words;
  const { lines, unread } = told;
  const copied = lines.filter(({ copies }) => copies.length > 0);
  const blocks: Block[] = [
    ...(lines.length + unread.length > 0 ? [triageTable(told, words)] : []),
    ...(copied.length > 0
      ? [
          {
            is: 'section',
            title: batch.copies,
            blocks: [
              { is: 'list', items: copied.map(({ path: file, copies }) => batch.copiesOf({ file, copies })) },
            ],
          } as const,
        ]
      : []),
    ...countBlocks(summary, words),
    ...sendBackBlocks(told, words),
  ];
  return { title: batch.title, language: 'en', blocks };
}

/** Which files go back to their digitizer, as the table names them; nothing where none does. */
function sendBackBlocks({ lines, unread }: ToldFiles, { batch }: TriageWords): Block[] {
  const back = lines.flatMap(({ sendBack, path }) => (sendBack ? [path] : []));
  if (back.length === 0) return [];
  const { length } = commonFolder([...unread, ...lines].map(({ path }) => path));
  const files = back.map((path) => path.slice(length));
  return [{ is: 'paragraph', text: batch.sendBack({ files, only: back.length === 1 ? back[0] : null }) }];
}

/** A column with what stands in it for a file. */
interface TriageColumn extends TableColumn {
  readonly cell: (line: Line) => Cell;
}

/** The columns in their order; that of the risk where a fabric was named. */
function columnsOf(lines: readonly Line[], folder: string, words: TriageWords): TriageColumn[] {
  const { batch, common, risk, say } = words;
  const { column } = batch;
  const onFabric = lines.some(({ grade }) => grade !== null);
  const riskOf: TriageColumn = {
    head: column.risk,
    cell: ({ grade }) => (grade === null ? common.nothing : risk.grade({ grade })),
  };
  return [
    { head: column.verdict, cell: ({ level }) => [{ text: common.verdict[level], level }] },
    {
      head: column.file,
      flexible: true,
      breaks: true,
      namesRow: true,
      cell: ({ path }) => path.slice(folder.length),
    },
    { head: column.size({}), number: true, cell: ({ widthMm, heightMm }) => say.bareSize(widthMm, heightMm) },
    // A line of a terminal has room for one of the two.
    onFabric ? riskOf : { head: column.stitches, number: true, cell: ({ stitches }) => say.count(stitches) },
    { head: column.wrong, cell: (line) => whyInShort(line, words) ?? common.nothing },
  ];
}

/** The kind that is named, with how many kinds of failure and warning there are besides. */
export const withOthers = (why: string, kinds: number, { batch }: Words<'batch'>): string =>
  kinds > 1 ? batch.andOthers({ why, others: kinds - 1 }) : why;

function whyInShort(line: Line, words: TriageWords): string | null {
  const why = whyOf(line, line.wrong, words);
  return why && withOthers(why, line.kinds.length, words);
}

function triageTable({ lines, unread }: ToldFiles, words: TriageWords): Table {
  const folder = commonFolder([...unread, ...lines].map(({ path }) => path));
  const columns = columnsOf(lines, folder, words);
  return {
    is: 'table',
    id: 'triage',
    ...(lines.some(({ kinds }) => kinds.length > 1) && { note: words.batch.othersNote }),
    ...(folder !== '' && { caption: words.batch.inFolder({ folder }) }),
    columns: columns.map(({ cell, ...column }) => column),
    rows: [
      ...unread.map(({ path }): Cell[] => [
        [{ text: words.batch.notRead, level: 'fail' }],
        path.slice(folder.length),
        ...columns.slice(2).map(() => words.common.nothing),
      ]),
      ...lines.map((line) => columns.map(({ cell }) => cell(line))),
    ],
  };
}

/** The folder that all paths begin with, its last stroke included; empty where there is none, or one path alone. */
function commonFolder(paths: readonly string[]): string {
  const [first = '', ...rest] = paths;
  if (rest.length === 0) return '';
  let folder = first.slice(0, lastStroke(first) + 1);
  for (const path of rest)
    while (!path.startsWith(folder)) folder = folder.slice(0, lastStroke(folder.slice(0, -1)) + 1);
  return folder;
}

const lastStroke = (path: string): number => Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\'));

const CSV_HEADS = [
  'verdict',
  'file',
  'what_is_wrong',
  'failures',
  'warnings',
  'notes',
  'width_mm',
  'height_mm',
  'stitches',
  'grade',
];

const csvRowsOf = (
  { level, path, copies, kinds, found, widthMm, heightMm, stitches, grade }: Line,
  words: TriageWords,
) =>
  [path, ...copies].map((file) => [
    words.common.verdict[level],
    file,
    kinds.map((code) => nameOf(code, words)).join('; ') || whyOf({ level }, null, words),
    found.fail,
    found.warn,
    found.note,
    ...[widthMm, heightMm, stitches, grade],
  ]);

/** What is wrong with a file by name: where that is nothing in the file itself, what is on the garment. */
function whyOf(
  { level }: Pick<FileDigest, 'level'>,
  wrong: FindingCode | null,
  words: Words<'batch' | 'findings'>,
): string | null {
  if (wrong !== null) return nameOf(wrong, words);
  return level === 'sound' ? null : words.batch.onGarment[level];
}

function kindsIn({ codes }: FileDigest): FindingCode[] {
  const of = (severity: Severity) => codes.flatMap((one) => (one.severity === severity ? [one.code] : []));
  return [...new Set([...of('fail'), ...of('warn')])];
}

function wrongIn({ codes }: FileDigest): FindingCode | null {
  const of = (severity: Severity) => codes.filter((one) => one.severity === severity);
  const fails = of('fail');
  const severest = fails.length > 0 ? fails : of('warn');
  if (severest.length === 0) return null;
  return severest.reduce((most, one) => (one.times > most.times ? one : most)).code;
}
