/** lieflat as a library: everything public, nothing run on import. */
import type { CompareReport } from './report/compare.js';
import type { Drawing, DrawOptions } from './report/draw.js';
import type { VetReport } from './report/vet-report.js';

export type { Diagnostic } from './core/diagnostics.js';
export { type ErrorCode, type ErrorParts, LieflatError } from './core/errors.js';
export { nearestName } from './core/nearest-name.js';
export type { Sourced } from './core/sourced.js';
export { inchToMm, mmToInch } from './core/units.js';
export { type DesignFormat, decodeDesign, encodeDesign, formatOf } from './format/decode.js';
export {
  type Design,
  type HeaderField,
  KIND_NAMES,
  Kind,
  type KindCode,
  type KindName,
} from './format/design.js';
export { Break, penetrations, type Stitches } from './format/stitches.js';
export { findUpward } from './io/find-upward.js';
export { type DesignFileList, listDesignFiles } from './io/list-files.js';
export { type DesignFile, type ReadOptions, readBytes, readDesignFile } from './io/read-file.js';
export { type WriteOptions, writeFileSafely } from './io/write-file.js';
export { HOOP_FIELDS, type HoopField, PLACES, type Place } from './materials/places.js';
export { measureDesign } from './measure/measure-design.js';
export { measureObject } from './measure/measure-object.js';
export type { Bounds, DesignMeasures, ObjectMeasures } from './measure/measures.js';
export type { MachineProfile } from './measure/sew-time.js';
export type { ThreadUse } from './measure/thread-length.js';
export { type VetSettings, type Vetting, vetDesign } from './pipeline.js';
export { DEFAULT_SHOP, PROFILE_NAME, readProfile, type Shop } from './profile.js';
export { buildVetReport, type FileFacts } from './report/build-vet-report.js';
export { type PlacesCatalog, placesCatalog, placesToText } from './report/catalog.js';
export {
  type ColumnReport,
  type ColumnsReport,
  columnsCsvHeader,
  columnsReport,
  columnsToCsvRecords,
  columnsToText,
} from './report/columns.js';
export type { Change, CompareReport, ObjectChange } from './report/compare.js';
export { compareToText } from './report/compare-to-text.js';
export type { Drawing, DrawOptions } from './report/draw.js';
export { DRAW_BY, type DrawBy } from './report/draw-by.js';
export { NO_PAINT, type Paint } from './report/paint.js';
export { printable } from './report/printable.js';
export type { Units } from './report/quantities.js';
export type { TextOptions } from './report/text-options.js';
export { csvHeader, toCsvRecords } from './report/to-csv.js';
export { toJson, toJsonLine } from './report/to-json.js';
export { type Png, svgToPng } from './report/to-png.js';
export { toText } from './report/to-text.js';
export type { ObjectReport, ObjectRiskReport, RiskReport, VetReport } from './report/vet-report.js';
export { wrap } from './report/wrap.js';
export { findObjects } from './segment/find-objects.js';
export {
  type ObjectKind,
  type StitchObject,
  type StitchRange,
  UNDERLAY_KINDS,
  type Underlay,
  type UnderlayKind,
} from './segment/objects.js';
export { findFindings } from './vetting/find-findings.js';
export type { Finding, Severity } from './vetting/finding.js';
export {
  LIMITS,
  type Limit,
  type LimitId,
  type LimitOverride,
  type Limits,
  withLimits,
} from './vetting/limits.js';

// These are loaded when they are first called: vetting alone, the main job, must not wait for them.

/** Draws a design to scale; see `lib/report/draw.ts`. */
export async function drawDesign(drawing: Drawing, options: DrawOptions): Promise<string> {
  return (await import('./report/draw.js')).drawDesign(drawing, options);
}

/** Says what changed between two vet reports; see `lib/report/compare.ts`. */
export async function compareReports(before: VetReport, after: VetReport): Promise<CompareReport> {
  return (await import('./report/compare.js')).compareReports(before, after);
}
