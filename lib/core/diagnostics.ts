/**
 * An oddity met while decoding: never a crash, never a silent repair.
 * `byte` (from 0) for binary files, `line` (from 1) for tables.
 */
export interface Diagnostic {
  /** Stable code in kebab case, e.g. `file-no-end-record`. */
  code: string;
  /** Offset of the first byte concerned, from 0. */
  byte?: number;
  /** Line concerned, from 1, in a text table. */
  line?: number;
  /** Plain words: what is odd, and what was assumed. */
  message: string;
  measured?: number | string;
  expected?: number | string;
}
