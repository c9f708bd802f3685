/** Reports as parts of the page for people without a terminal: markup in which every text is safe, and no command is named. */
import { adviseDocument } from './advise/document.js';
import type { AdviseReport } from './advise/report.js';
import { withOthers } from './batch/triage.js';
import { fileName } from './file-name.js';
import { wordsFor } from './phrases/words.js';
import type { Units } from './quantities.js';
import { relayDocument } from './relay/document.js';
import type { RelayReport } from './relay/report.js';
import { blocksAsHtml } from './render/html.js';
import { resewDocument } from './resew/document.js';
import type { ResewReport } from './resew/report.js';
import { type FindingGroup, groupFindings } from './vet/found.js';
import type { VetReport } from './vet/report.js';
import { type Counts, tally, type VerdictLevel, verdictOf } from './vet/verdict.js';

/** Headings of a report stand below those of the page's own parts. */
const LEVEL = 3;

/** What the page itself says. */
export const pageWords = (units: Units): ReturnType<typeof wordsFor> =>
  wordsFor({ units, detail: 'full', commands: false });

/** The plans for a design, as `advise --format json` reports them. */
export const adviceInPage = (report: AdviseReport, units: Units): string =>
  blocksAsHtml(
    adviseDocument(report, pageWords(units), { file: fileName(report.file.path), all: true }).blocks,
    LEVEL,
  );

/** What relaying changed, as `relay --format json` reports it. */
export const relayInPage = (report: RelayReport, units: Units): string =>
  blocksAsHtml(relayDocument(report, true, pageWords(units)).blocks, LEVEL);

/** What enlarging hides, as `resew --format json` reports it. */
export const resewInPage = (report: ResewReport, units: Units): string =>
  blocksAsHtml(resewDocument(report, pageWords(units)).blocks, LEVEL);

/** One of many files, as the table of the page has it. */
export interface FileLine {
  readonly level: VerdictLevel;
  readonly found: Counts;
  /** How many findings of each level, in words. */
  readonly tally: string;
  /** Cells, in the order of the columns: verdict, size, stitches, time, what is wrong. */
  readonly cells: readonly string[];
}

/** A line of what `vet --format json` reports of a file. */
export function fileLine({ design, findings, advice }: VetReport, units: Units): FileLine {
  const words = pageWords(units);
  const { common, say } = words;
  const found = tally(findings);
  const level = verdictOf({ advice }, found);
  const groups = groupFindings(findings, words);
  const kinds = new Set(groups.flatMap(({ severity, worst }) => (severity === 'note' ? [] : [worst.code])));
  const wrong = groups
    .filter(({ severity }) => severity === level)
    .reduce<FindingGroup | null>(
      (most, one) => (most && most.all.length >= one.all.length ? most : one),
      null,
    );
  return {
    level,
    found,
    tally: common.tally(found),
    cells: [
      common.verdict[level],
      say.bareSize(design.widthMm, design.heightMm),
      say.count(design.stitches),
      say.time(design.sewSeconds),
      wrong === null ? common.nothing : withOthers(wrong.name, kinds.size, words),
    ],
  };
}
