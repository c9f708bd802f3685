import {
  type BatchSummary,
  csvHeader,
  sameFileToText,
  Triage,
  triageLine,
  type UnreadFile,
} from '../../lib/index.js';
import type { VetSection } from '../../lib/report/index.js';
import { jointOf } from '../joint.js';
import { inLook, type PrintLook } from '../output.js';
import { summaryText } from './sum-up.js';
import type { FileDone } from './task.js';
import type { VetSetup } from './vet-job.js';

/** How the reports of a batch are put together, whatever each is. */
export interface VetForm {
  /** What is set of each file where the work is done. */
  readonly sets: VetSetup['format'];
  /** Whether files of the same content are told once. */
  readonly onceEach: boolean;
  /** Whether files have to come in their order. */
  readonly ordered: boolean;
  readonly before: string;
  /** What is written as a file is done with. */
  one(done: FileDone): Iterable<string>;
  /** Hears of a file that could not be read. */
  unread?(file: UnreadFile): void;
  /** What is written when all are. */
  end(summary: BatchSummary): Promise<string>;
}

/** What decides on the form. */
export interface FormAsked {
  readonly format: 'text' | 'json' | 'jsonl' | 'csv' | 'html';
  readonly files: number;
  /** Files come until it is stopped. */
  readonly watched: boolean;
  readonly details: boolean;
}

/** The form of a report on these files. */
export async function vetFormOf(asked: FormAsked, look: PrintLook): Promise<VetForm> {
  const { format, files, watched, details } = asked;
  if (format === 'html') return pageForm(look);
  if (format === 'text' && (watched || files > 1))
    return details ? detailsForm(look) : triageForm(look, watched);
  const { before, one, after } = jointOf(format, files, csvHeader);
  return {
    sets: format,
    onceEach: false,
    ordered: format === 'text',
    before,
    one: ({ pieces }) => one(pieces),
    end: async ({ stopped }) =>
      after + (stopped && format === 'jsonl' ? `${JSON.stringify({ stopped })}\n` : ''),
  };
}

/** A line a file, the worst first, once all are known; where that is never, as each comes. */
async function triageForm(look: PrintLook, watched: boolean): Promise<VetForm> {
  const text = await inLook(look);
  const triage = new Triage();
  return {
    sets: 'digest',
    onceEach: true,
    ordered: !watched,
    before: '',
    one: ({ digest }) => {
      if (digest === null) return [];
      if (watched) return [triageLine(digest, text)];
      triage.add(digest);
      return [];
    },
    unread: (file) => triage.addUnread(file),
    end: async (summary) => (watched ? `\n${await summaryText(summary, look)}` : triage.text(summary, text)),
  };
}

/** Each file in full, and what all come to. */
async function detailsForm(look: PrintLook): Promise<VetForm> {
  const text = await inLook(look);
  const triage = new Triage();
  const { one } = jointOf('text', 2, csvHeader);
  return {
    sets: 'text',
    onceEach: true,
    ordered: true,
    before: '',
    one: ({ pieces, digest }) => {
      const first = digest && triage.add(digest);
      return one(digest && first ? [sameFileToText(digest.path, first, text)] : pieces);
    },
    end: async (summary) => `\n${await summaryText(summary, look)}`,
  };
}

/** One page of all; it is whole only in the end. */
function pageForm({ units }: PrintLook): VetForm {
  const sections: VetSection[] = [];
  return {
    sets: 'html',
    onceEach: false,
    ordered: true,
    before: '',
    one: ({ pieces, entry }) => {
      if (entry) sections.push({ markup: [...pieces].join(''), entry });
      return [];
    },
    end: async (summary) =>
      (await import('./pages.js')).joinVetSections(sections, {
        units,
        unread: summary.files.unread,
        summary,
      }),
  };
}
