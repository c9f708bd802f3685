/**
 * `lieflat`: a stitch file read, the objects in it, and what is wrong with them; nothing is run on import. What takes the mechanics
 * is in `lieflat/pipeline` and in an entry a station: `lieflat/io`, `/materials`, `/mechanics`, `/advice`, `/rework`, `/calibrate`, `/report`, `/profile`.
 */
export type { Accepted } from './advice/accepted.js';
export { type Answers, NOTHING_KEPT } from './core/answers.js';
export type { Budget } from './core/budget.js';
export { type ErrorCode, type ErrorParts, LieflatError } from './core/errors.js';
export { nearestName } from './core/nearest-name.js';
export type { GivenValue, Sourced } from './core/sourced.js';
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
export type {
  ClaimedKey,
  Diagnostic,
  DiagnosticOf,
  HeaderClaim,
  NoFigures,
  OddityCode,
  OddityParams,
} from './format/diagnostic.js';
export { Break, penetrations, type Stitches } from './format/stitches.js';
export { type DesignFile, type ReadOptions, readDesignFile } from './io/read-file.js';
export type { JsonReports } from './json-reports.js';
export { type FieldRoom, HOOP_FIELDS, type HoopField, PLACES, type Place } from './materials/places.js';
export type { Prices } from './materials/prices.js';
export { measureDesign } from './measure/measure-design.js';
export { measureObjects } from './measure/measure-object.js';
export type { Bounds, DesignMeasures, ObjectMeasures, PackedMeasures } from './measure/measures.js';
export type { MachineProfile } from './measure/sew-time.js';
export type { ThreadUse } from './measure/thread-length.js';
export { ORDER_COLUMNS } from './order/order-columns.js';
export {
  type ObjectSaid,
  readSetObjects,
  SET_OBJECTS_NAME,
  type SetDesign,
  type SetDesigns,
  sayOfObjects,
  setObjectsText,
} from './profile/set-objects.js';
export {
  BUILT_IN_FIGURES,
  figuresWith,
  PROFILE_NAME,
  type Profile,
  readProfile,
  type ShopFigures,
} from './profile.js';
export { batchSummaryToText } from './report/batch/document.js';
export {
  type BatchSummary,
  BatchTally,
  digestOf,
  type FileDigest,
  type FoundCode,
  type Gaps,
  type Histogram,
  type OtherEnding,
  type Stopped,
  type WorstFile,
} from './report/batch/report.js';
export { countToText, sameFileToText, Triage, triageLine, type UnreadFile } from './report/batch/triage.js';
export { DRAW_BY, type DrawBy } from './report/draw-by.js';
export type { Reader } from './report/phrases/voice.js';
export { oddityInWords, wordsOf } from './report/phrases/words-of.js';
export type { Units } from './report/quantities.js';
export { NO_PAINT, type Paint } from './report/render/paint.js';
export { printable } from './report/render/printable.js';
export { wrap } from './report/render/wrap.js';
export type { TextOptions } from './report/text-options.js';
export { jsonPieces, toJson, toJsonLine } from './report/to-json.js';
export {
  buildVetReport,
  type FileFacts,
  type VetReportInParts,
  vetReportInParts,
} from './report/vet/build.js';
export { csvHeader, csvPieces, toCsvRecords } from './report/vet/csv.js';
export { toText } from './report/vet/document.js';
export type {
  ConditionsReport,
  DesignRiskReport,
  FindingReport,
  ObjectReport,
  ObjectRiskReport,
  RiskReport,
  SetObjectReport,
  UnderlayReport,
  VetReport,
} from './report/vet/report.js';
export type { Counts, VerdictLevel, VerdictReason } from './report/vet/verdict.js';
export { RESEW_MODES, type ResewMode } from './rework/resew-mode.js';
export { findObjects } from './segment/find-objects.js';
export {
  type Doubt,
  type ObjectKind,
  PATTERNS,
  type Pattern,
  PURPOSES,
  type Purpose,
  type SharedUnderlay,
  type StitchObject,
  type StitchRange,
  UNDERLAY_KINDS,
  type Underlay,
  type UnderlayKind,
  type UnderlayPiece,
  underlaysOf,
} from './segment/objects.js';
export {
  type NotSet,
  SAYINGS,
  type Saying,
  type SetObject,
  type SetOutcome,
} from './segment/set-right/saying.js';
export { factsOf, type Shop, shopOf, type VetSettings, type Vetting } from './shop.js';
export { LAID_UNDERLAYS, type LaidUnderlay } from './stitch/laid-underlay.js';
export type { CalledColumns } from './vetting/columns-called.js';
export type { FindingContext } from './vetting/context.js';
export { findFindings } from './vetting/find-findings.js';
export type {
  CalledUnderlay,
  DigitizerTask,
  FileCode,
  FileFinding,
  FilePlace,
  Finding,
  FindingBase,
  FindingCode,
  FindingOf,
  FindingParams,
  Fix,
  Severity,
  UnderlayKept,
} from './vetting/finding.js';
export { LIMITS, type Limit, type LimitId, type Limits } from './vetting/limits.js';
