/** The work on one file of a batch, in this thread or in another: what is asked, and what comes of it, are plain data. */
import type { FileDigest, Vetting } from '../../lib/index.js';
import type { VetSection } from '../../lib/report/index.js';
import type { ErrorTold } from '../error-lines.js';
import type { OrderAnswer, OrderAsk } from './order-ask.js';

/** A file to work on, and its number in the order of the list, from 1. */
export interface Task {
  path: string;
  number: number;
  /** What is asked of a design of an order. */
  order?: OrderAsk;
}

/** What came of a file that was read. */
export interface FileDone {
  /** The report, set in the format asked for, one piece of text behind the other; gone through once. */
  pieces: Iterable<string>;
  /** What the summary takes of it; null where the command has none. */
  digest: FileDigest | null;
  /** Its line in the index of a page. */
  entry?: VetSection['entry'];
  /** A file that was made of it. */
  made?: MadeFile;
  /** A picture that goes with it, as SVG. */
  picture?: string;
  /** Something is wrong with it for which the command exits with 1. */
  found?: boolean;
  /** What was asked of a design of an order. */
  order?: OrderAnswer;
}

/** A file to write. */
export interface MadeFile {
  /** As the command line names it, or within `--out-dir`. */
  name: string;
  content: string | Uint8Array;
  /** Of a stitch file: what the shop has set right in it. */
  set?: Vetting['set'];
}

/** Or why there is none. */
export type FileOutcome = FileDone | FileFailure;

export interface FileFailure {
  path: string;
  /** As it is printed. */
  error: string;
  /** The same in its parts. */
  told: ErrorTold;
  /** Where in the program it came from, a line a call; empty where nobody asks. */
  trace: string;
}
