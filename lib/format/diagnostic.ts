/** Oddities met while decoding, as data: never a crash, never a silent repair. Words are made where reports are. */

/** Fields of a header whose figure is held against the file. */
export type ClaimedKey = 'ST' | 'CO' | '+X' | '-X' | '+Y' | '-Y' | 'AX' | 'AY';

/** What a header says, and what the file has: records, changes, or units of 0.1 mm. */
export interface HeaderClaim {
  key: ClaimedKey;
  claimed: number;
  counted: number;
}
/** Of an oddity that has no figure. */
export type NoFigures = Record<never, never>;

/** The figures of each oddity. */
export interface OddityParams {
  'file-bytes-after-end': { bytes: number };
  'file-colour-count': HeaderClaim;
  'file-contradictory-move': NoFigures;
  'file-end-position': HeaderClaim;
  'file-end-record': NoFigures;
  'file-extent': HeaderClaim;
  'file-header-field-extra': { keys: readonly string[] };
  'file-header-field-garbled': { key: string };
  'file-header-field-missing': { keys: readonly string[] };
  'file-header-field-repeated': { key: string };
  'file-header-garbled': NoFigures;
  'file-header-line-ends': NoFigures;
  'file-header-no-end-mark': NoFigures;
  'file-header-padding': NoFigures;
  /** First byte of the records. */
  'file-header-short': { start: number };
  'file-no-end-record': NoFigures;
  'file-no-header': { start: number };
  'file-record-count': HeaderClaim;
  'file-reserved-bits': NoFigures;
  'file-stop-list': { pauses: number };
  'file-stops-assumed': { claimed: number; pauses: number; stops: number };
  'file-thread-list': { blocks: number };
  'file-truncated-record': { bytes: number };
  'file-unknown-record': NoFigures;
  'file-zero-fill': { bytes: number };
  'table-blank-lines': NoFigures;
  'table-delimiter': NoFigures;
  'table-other-columns': NoFigures;
  'table-positions-rounded': NoFigures;
}

export type OddityCode = keyof OddityParams;

/** One oddity, with its place: `byte` (from 0) for binary files, `line` (from 1) for tables. */
export type DiagnosticOf<C extends OddityCode> = {
  readonly [K in C]: {
    readonly code: K;
    readonly params: Readonly<OddityParams[K]>;
    readonly byte?: number;
    readonly line?: number;
    readonly measured?: number | string;
    readonly expected?: number | string;
  };
}[C];

export type Diagnostic = DiagnosticOf<OddityCode>;

/** Oddities whose code says all. */
export type PlainOddity = { [C in OddityCode]: keyof OddityParams[C] extends never ? C : never }[OddityCode];
