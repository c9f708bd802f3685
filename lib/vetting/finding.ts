/** Findings as data: what was found and the figures of it. Sentences about them are made where reports are. */
import type { OddityCode, OddityParams } from '../format/diagnostic.js';
import type { FieldRoom } from '../materials/places.js';
import type { UnderlayKind } from '../segment/objects.js';
import type { LaidUnderlay } from '../stitch/laid-underlay.js';

export type Severity = 'note' | 'warn' | 'fail';

/** What the decoder met in the file: an oddity of the records or of the table. */
export type FileCode = OddityCode;

/**
 * Why a column keeps an underlay that is heavier than the rule of the trade has it, on a fabric: the design lies flat as it is, it keeps the shop's
 * standard as it is, or a lighter one gains nothing that is sure.
 */
export const UNDERLAY_KEPT = ['lies-flat', 'meets-standard', 'no-gain'] as const;
export type UnderlayKept = (typeof UNDERLAY_KEPT)[number];

/** The underlay that a column calls for. */
export interface CalledUnderlay {
  to: LaidUnderlay;
  /** The column may be something else: it is relaid only where a person names it. */
  onlyIfNamed: boolean;
}

/** The figures that each kind of finding brings along. Lengths mm. */
export interface FindingParams {
  'no-stitches': Record<never, never>;
  'does-not-fit-hoop': {
    hoop: string;
    side: 'width' | 'height' | 'across';
    sizeMm: number;
    fieldMm: number;
    turned: boolean;
  };
  /** `roomMm` on each side. */
  'little-room-in-hoop': FieldRoom & { hoop: string };
  'does-not-fit-place': {
    place: string;
    side: 'width' | 'height';
    sizeMm: number;
    usualMm: number;
    /** The largest that is usual. */
    mostMm: number;
    frame: boolean;
  };
  /** `past: 'record'` where no single stitch of the format reaches across. */
  /** `over`: the underlay that belongs under it once it is split or filled; null where its own may stay. */
  'satin-too-wide': { widthMm: number; past: 'record' | 'snag'; over: LaidUnderlay | null };
  'satin-too-narrow': { widthMm: number };
  /**
   * `kept`: on the fabric asked for it stays, and why; null where it does not, or no fabric was named. `decided`: a fabric was named, and
   * it has been worked out whether it stays.
   */
  'wide-satin-heavy-underlay': CalledUnderlay & {
    widthMm: number;
    underlay: UnderlayKind;
    kept: UnderlayKept | null;
    decided: boolean;
  };
  'wide-satin-no-underlay': CalledUnderlay & { widthMm: number };
  'satin-over-foam': { spacingMm: number };
  'satin-too-dense': { spacingMm: number };
  'satin-too-open': { spacingMm: number };
  'fill-too-dense': { spacingMm: number };
  'fill-too-open': { spacingMm: number };
  'fill-too-many-points': { perMm2: number };
  'dense-place': { perMm2: number };
  'layers-stacked': { layers: number };
  /** `ofShort`: stitches that are too short make the pile. */
  'needle-points-piled': { points: number; ofShort: boolean };
  'stitch-too-short': { count: number; limitMm: number; shortestMm: number };
  'stitch-too-long': { count: number; limitMm: number; longestMm: number };
  'jump-not-trimmed': { count: number; longestMm: number };
  'missing-lock': { at: 'start' | 'end' | 'both' };
  'no-trims': { moves: number };
  'lettering-too-small': { heightMm: number; letters: number; strokeMm: number };
}

/** Where an oddity of a file is, beside its own figures. */
export interface FilePlace {
  byte: number | null;
  line: number | null;
  /** How many more of the kind there are than are told one by one. */
  more: number;
  /** The file ends before the design does. */
  cutOff: boolean;
}

/** What puts a finding right, for a program to act on. Whatever needs another digitizing goes to the digitizer. */
export type Fix =
  | { readonly do: 'relay'; readonly objects: readonly number[]; readonly to: LaidUnderlay }
  | { readonly do: 'split'; readonly objects: readonly number[] }
  | { readonly do: 'lay-foam'; readonly objects: readonly number[] }
  | { readonly do: 'choose-hoop'; readonly turned: boolean }
  | { readonly do: 'ask-digitizer'; readonly objects: readonly number[]; readonly to: DigitizerTask };

/** What only whoever digitized the design can do. */
export type DigitizerTask =
  | 'widen-column'
  | 'open-spacing'
  | 'close-spacing'
  | 'lengthen-stitches'
  | 'cut-away-hidden'
  | 'spread-points'
  | 'remove-short-stitches'
  | 'shorten-stitches'
  | 'add-trims'
  | 'add-locks'
  | 'enlarge-lettering'
  | 'make-smaller'
  | 'send-again';

export type FindingCode = keyof FindingParams | FileCode;

/** What all findings hold: the place, the figure, the limit that it was held against and what that limit rests on. */
export interface FindingBase {
  readonly severity: Severity;
  /** Object id, or null where the finding is of the whole design or file. */
  readonly object: number | null;
  /** Stitch index, or null. */
  readonly stitch: number | null;
  readonly at: { readonly x: number; readonly y: number } | null;
  readonly measured: number | string | null;
  readonly limit: number | string | null;
  readonly unit: string | null;
  readonly basis: string;
  readonly fix: Fix | null;
  /** Its object may well be something else. */
  readonly unsure?: boolean;
  /** What mends the finding of this code at the same place mends this one too. */
  readonly curedBy?: keyof FindingParams;
}

/** A finding of one code: `params` are those of that code. */
export type FindingOf<C extends keyof FindingParams> = FindingBase &
  {
    readonly [K in C]: { readonly code: K; readonly params: Readonly<FindingParams[K]> };
  }[C];
/** An oddity of the file. */
export type FileFinding = FindingBase &
  {
    readonly [C in FileCode]: { readonly code: C; readonly params: Readonly<OddityParams[C] & FilePlace> };
  }[FileCode];

/** One thing found. */
export type Finding = FindingOf<keyof FindingParams> | FileFinding;

/** Whether a finding is an oddity of the file. */
export const isOfFile = (finding: Finding): finding is FileFinding => isFileCode(finding.code);

export const isFileCode = (code: string): code is FileCode => /^(file|table)-/.test(code);
