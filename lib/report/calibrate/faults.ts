/** Faults of a log in words: of its rows, and of the log as a whole. */
import type { FitLack } from '../../calibrate/refusal.js';
import type { Fault, RowFault } from '../../calibrate/row-fault.js';
import { LieflatError } from '../../core/errors.js';
import { wordsFor } from '../phrases/words.js';

/** A log is kept in millimeters, and its faults are told in them. */
const { calibrate } = wordsFor({ units: 'mm', detail: 'full' });

/** What is wrong, and what to do about it. */
export interface Remedied {
  readonly what: string;
  readonly todo: string;
}

/** A row that cannot be used, with its words. */
export interface RowFaultReport extends Remedied {
  readonly line: number;
  readonly code: Fault['code'];
  readonly params: Fault['params'];
}

type FaultPhrases = Readonly<
  Record<string, { readonly [K in 'what' | 'remedy']: (params: never) => string }>
>;

const remedied = ({ code, params }: { code: string; params: object }, phrases: FaultPhrases): Remedied => ({
  what: phrases[code].what(params as never),
  todo: phrases[code].remedy(params as never),
});

export const rowFaultReport = ({ line, code, params }: RowFault): RowFaultReport => ({
  line,
  code,
  params,
  ...remedied({ code, params }, calibrate.faults),
});

export const lackInWords = (lack: FitLack): Remedied => remedied(lack, calibrate.lacks);

/** The error that a log comes to where it cannot carry a fit. */
export const noFit = (lack: FitLack, place: string): LieflatError =>
  new LieflatError({ code: 'no-fit', place, ...lackInWords(lack) });
