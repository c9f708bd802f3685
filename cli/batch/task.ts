/** The work on one file of a batch, in this thread or in another: what is asked, and what comes of it, are plain data. */
import type { FileDigest } from '../../lib/index.js';
import type { VetSection } from '../../lib/report/index.js';

/** A file to work on, and its number in the order of the list, from 1. */
export interface Task {
  path: string;
  number: number;
}

/** What came of a file that was read. */
export interface FileDone {
  /** The report, set in the format asked for, one piece of text behind the other; gone through once. */
  pieces: Iterable<string>;
  /** What the summary takes of it; null where the command has none. */
  digest: FileDigest | null;
  /** Its line in the index of a page. */
  entry?: VetSection['entry'];
}

/** Or why there is none, as it is printed. */
export type FileOutcome = FileDone | { error: string };
