/** What is wrong with a row of a log: a code with its figures, put into words where reports are made. */

/** Figures of each fault of a row; texts are as the log has them. Lengths mm. */
export interface RowFaultParams {
  'file-missing': Record<never, never>;
  'fabric-missing': Record<never, never>;
  /** `near`: the id that is spelled most alike, or null. */
  'fabric-unknown': { fabric: string; near: string | null };
  'stack-missing': { usual: string };
  /** `what` is wrong with it, and what to do, as whatever reads stacks says it. */
  'stack-unreadable': { stack: string; what: string; todo: string };
  'underlay-unknown': { part: string; kinds: readonly string[] };
  'underlay-of-nothing': { part: string; kinds: readonly string[] };
  'underlay-twice': { object: number; kinds: readonly [string, string] };
  'washes-unreadable': { washes: string };
  'grade-unreadable': { grade: string };
  'width-unreadable': { width: string };
  'width-of-nothing': Record<never, never>;
  'object-unreadable': { object: string };
  'width-after-washing': { washes: number };
  /** The design, as whatever reads it says it. */
  'design-unreadable': { file: string; what: string; todo: string };
  'design-empty': { file: string };
  'object-unknown': { file: string; object: number };
  'object-no-column': { file: string; object: number };
  'object-no-width': { file: string; object: number };
  'object-uneven': { file: string; object: number; fromMm: number; toMm: number };
  /** Sewn so much wider or narrower than in the file that it is a slip. */
  'width-of-another': { file: string; object: number; fileMm: number; seenMm: number };
}

/** What is wrong with a row, wherever it stands. */
export type Fault = {
  readonly [C in keyof RowFaultParams]: { readonly code: C; readonly params: Readonly<RowFaultParams[C]> };
}[keyof RowFaultParams];

/** A row that cannot be used; the line is of the log, from 1. */
export type RowFault = {
  readonly [C in Fault['code']]: Extract<Fault, { code: C }> & { readonly line: number };
}[Fault['code']];
