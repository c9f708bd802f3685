/** lieflat as a library: everything public, nothing run on import. */
import type { Catalogue, Shelf } from './materials/catalogue.js';
import type { StackedSheet } from './mechanics/goods.js';
import type { Ranked } from './mechanics/paired-draws.js';
import type { FittedParameters, MechanicsParameters } from './mechanics/parameters.js';
import type { PreparedDesign } from './mechanics/prepared-design.js';
import type { DesignRisk, GoodsPlan, QuickRisk, RiskInput } from './mechanics/risk.js';
import type { ProfileReport } from './profile/profile-report.js';
import { PROFILE_NAME, type Shop } from './profile.js';
import type { AdviseReport } from './report/advise-report.js';
import type { BatchSummary } from './report/batch-summary.js';
import type { CalibrateReport, CalibrateReportInput } from './report/calibrate-report.js';
import type { ChangeForeseen, CompareReport } from './report/compare.js';
import type { CoverMapOptions } from './report/cover-map.js';
import type { Drawing, DrawOptions } from './report/draw.js';
import type { CardInput, CardOptions } from './report/html/card.js';
import type { VetPageOptions, VetSection, VettedDesign } from './report/html/vet-page.js';
import type { MaterialsCatalog } from './report/materials-catalog.js';
import type { PuckerComparison } from './report/pucker-comparison.js';
import type { PuckerInput, PuckerReport } from './report/pucker-report.js';
import type { Units } from './report/quantities.js';
import type { RelayReport } from './report/relay-report.js';
import type { ResewReport } from './report/resew-report.js';
import type { TextOptions } from './report/text-options.js';
import type { VetReport } from './report/vet/report.js';
import type { MapInput, MapOptions } from './report/wrinkle-map.js';
import type { Resewing } from './rework/resew.js';
import type { LaidUnderlay } from './stitch/laid-underlay.js';
import type { SewnDesign } from './stitch/relaid.js';

export type { Accepted } from './advice/accepted.js';
export type { Advice } from './advice/advise.js';
export type { Meets } from './advice/meets.js';
export type { ObjectAdvice } from './advice/object-advice.js';
export type { RelayAdvice } from './advice/object-sentences.js';
export type { Cost, Plan, PlanRisk, UnderlayChange } from './advice/plan.js';
export type { ObjectRisks, SearchResult } from './advice/search.js';
export type { Calibration, FitErrors, ReadingResult, RowResult, Setting } from './calibrate/calibrate.js';
export type { FittedParameter } from './calibrate/fit.js';
export type { FreeName } from './calibrate/free-parameters.js';
export { LOG_COLUMNS } from './calibrate/log-columns.js';
export type { Suggestion } from './calibrate/next-sew-outs.js';
export type { LoggedSewOut, LoggedWidth, RowFault, SewOutLog } from './calibrate/sew-out-log.js';
export type { HeldParameter, Support } from './calibrate/support.js';
export type { UnderlayAsSewn } from './calibrate/underlay-text.js';
export type { Budget } from './core/budget.js';
export type { Diagnostic } from './core/diagnostics.js';
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
export { Break, penetrations, type Stitches } from './format/stitches.js';
export type { FileState } from './io/drive.js';
export { fileError, memoryError } from './io/file-errors.js';
export { findUpward } from './io/find-upward.js';
export { type DesignFileList, isTableOfSomethingElse, listDesignFiles } from './io/list-files.js';
export { textOfList } from './io/name-bytes.js';
export { asNamed, fileState, isOpenAs, stopSignals, writeToDescriptor } from './io/outside.js';
export {
  DEFAULT_MAX_BYTES,
  type DesignFile,
  hashOf,
  type ReadOptions,
  readBytes,
  readDesignFile,
  sha256,
} from './io/read-file.js';
export { type ReportedFiles, reportedFiles } from './io/reported-files.js';
export { pathIn } from './io/system.js';
export {
  openFileSafely,
  refuseSameTargets,
  refuseTarget,
  type SafeFile,
  type WriteOptions,
  writeFileSafely,
} from './io/write-file.js';
export type { JsonReports } from './json-reports.js';
export type { Catalogue, Shelf } from './materials/catalogue.js';
export type { Fabric, FabricStructure } from './materials/fabrics.js';
export type { Needle } from './materials/needles.js';
export { HOOP_FIELDS, type HoopField, PLACES, type Place } from './materials/places.js';
export type { PlyValues } from './materials/ply-values.js';
export type { Prices } from './materials/prices.js';
export type { Sheet, SheetKind } from './materials/sheets.js';
export type { Thread } from './materials/threads.js';
export type { Topping } from './materials/toppings.js';
export { measureDesign } from './measure/measure-design.js';
export { measureObject } from './measure/measure-object.js';
export type { Bounds, DesignMeasures, ObjectMeasures, PackedMeasures } from './measure/measures.js';
export type { MachineProfile } from './measure/sew-time.js';
export type { ThreadUse } from './measure/thread-length.js';
export type { Sensitivity } from './mechanics/band.js';
export type { PullIn } from './mechanics/column-pull.js';
export type { Conditions, GoodsRequest } from './mechanics/conditions.js';
export type { Cause, Driver } from './mechanics/drivers.js';
export type { StackedSheet } from './mechanics/goods.js';
export type { Grid } from './mechanics/grid.js';
export type { PairedDraws, Quantiles, Ranked } from './mechanics/paired-draws.js';
export type { FittedParameters, MechanicsParameters } from './mechanics/parameters.js';
export type { PreparedDesign } from './mechanics/prepared-design.js';
export type {
  DesignRisk,
  DetailedRisk,
  GoodsPlan,
  ObjectRisk,
  QuickRisk,
  RangedRisk,
  Risk,
  RiskInput,
  RiskMaps,
  WrinkleField,
} from './mechanics/risk.js';
export type { NowAndWashed } from './mechanics/stack-family.js';
export type { TellingWidth } from './mechanics/telling-width.js';
export {
  type AdviceWish,
  adviseOn,
  adviseReportOf,
  calibrateTo,
  foreseeChange,
  foreseeColumns,
  goodsOf,
  type MechanicsInput,
  objectsOf,
  type Relaying,
  type RelayWish,
  type Resewn,
  type ResewRequest,
  type RiskedVetting,
  readSewOuts,
  relayDesign,
  resewDesign,
  risksOf,
  unsewnRows,
  type VetSettings,
  type Vetting,
  vetDesign,
  vetOnGoods,
  wrinklesOn,
} from './pipeline.js';
export type { Difference, ProfileFigure } from './profile/differences.js';
export type { ProfileReport } from './profile/profile-report.js';
export {
  type ObjectSaid,
  readSetObjects,
  SET_OBJECTS_NAME,
  type SetDesign,
  type SetDesigns,
  sayOfObjects,
  setObjectsText,
} from './profile/set-objects.js';
export { DEFAULT_SHOP, PROFILE_NAME, type Profile, readProfile, type Shop, shopWith } from './profile.js';
export type {
  DesignAdviceReport,
  ObjectAdviceReport,
  PlanReport,
  PlanRiskReport,
} from './report/advice-report.js';
export type { AdviseReport } from './report/advise-report.js';
export {
  type BatchSummary,
  BatchTally,
  digestOf,
  type FileDigest,
  type Histogram,
  type Stopped,
  summaryLine,
  type WorstFile,
} from './report/batch-summary.js';
export type {
  CalibrateReport,
  CalibrateReportInput,
  SettingReport,
  WidthReport,
} from './report/calibrate-report.js';
export { type PlacesCatalog, placesCatalog, placesToText } from './report/catalog.js';
export {
  type CalledFor,
  type ColumnReport,
  type ColumnsForeseen,
  type ColumnsReport,
  columnsCsvHeader,
  columnsReport,
  columnsToCsvRecords,
  columnsToText,
  type RiskByObject,
} from './report/columns.js';
export type {
  Change,
  ChangeForeseen,
  CompareReport,
  ObjectChange,
  RiskChange,
  Value as ChangedValue,
} from './report/compare.js';
export { compareToText } from './report/compare-to-text.js';
export type { CompensationReport } from './report/compensation-report.js';
export type { CoverMapOptions } from './report/cover-map.js';
export type { Drawing, DrawOptions } from './report/draw.js';
export { DRAW_BY, type DrawBy } from './report/draw-by.js';
export type { CardInput, CardOptions } from './report/html/card.js';
export type { PaperName } from './report/html/paper.js';
export type { VetPageOptions, VetSection, VettedDesign } from './report/html/vet-page.js';
export type { MaterialsCatalog } from './report/materials-catalog.js';
export type { Reader } from './report/phrases/voice.js';
export { wordsOf } from './report/phrases/words-of.js';
export type { FailedProof, ProofReport } from './report/proof-report.js';
export type { PuckerComparison, RankedStack } from './report/pucker-comparison.js';
export type { PuckerInput, PuckerObject, PuckerReport } from './report/pucker-report.js';
export type { Units } from './report/quantities.js';
export type { RelayedColumn, RelayedDesign, RelayReport } from './report/relay-report.js';
export { NO_PAINT, type Paint } from './report/render/paint.js';
export { printable } from './report/render/printable.js';
export { wrap } from './report/render/wrap.js';
export type { ExposedReport, ResewModeReport, ResewObject, ResewReport } from './report/resew-report.js';
export type { Verdict } from './report/summary.js';
export type { TextOptions } from './report/text-options.js';
export { jsonPieces, toJson, toJsonLine } from './report/to-json.js';
export { type Png, svgToPng } from './report/to-png.js';
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
export type { MapInput, MapOptions } from './report/wrinkle-map.js';
export type { EnlargedDesign, Enlargement, LeftPart } from './rework/enlargement.js';
export type { ObjectProof, ProofFault } from './rework/proof.js';
export type { NotCompensated } from './rework/proven-compensation.js';
export type { LeftBecause } from './rework/relay.js';
export type { Misreading } from './rework/relay-check.js';
export type { Refusal } from './rework/relay-edit.js';
export type { ModeOutcome, Resewing, ResewWish } from './rework/resew.js';
export type { ExposedHole, Holes } from './rework/resew-holes.js';
export { RESEW_MODES, type ResewMode } from './rework/resew-mode.js';
export type { Offset } from './rework/resew-search.js';
export type { WrittenDesign } from './rework/resew-written.js';
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
export { LAID_UNDERLAYS, type LaidUnderlay } from './stitch/laid-underlay.js';
export type { SewnDesign } from './stitch/relaid.js';
export type { FindingContext } from './vetting/context.js';
export { findFindings } from './vetting/find-findings.js';
export type {
  DigitizerTask,
  FileCode,
  FileFinding,
  FileParams,
  Finding,
  FindingBase,
  FindingCode,
  FindingOf,
  FindingParams,
  Fix,
  Severity,
} from './vetting/finding.js';
export { LIMITS, type Limit, type LimitId, type Limits } from './vetting/limits.js';

// These are loaded when they are first called: vetting alone, the main job, must not wait for them.

/** Draws a design to scale; see `lib/report/draw.ts`. */
export async function drawDesign(drawing: Drawing, options: DrawOptions): Promise<string> {
  return (await import('./report/draw.js')).drawDesign(drawing, options);
}

/** The vet report of one design or several as a page that stands by itself; see `lib/report/html/vet-page.ts`. */
export async function vetPage(designs: readonly VettedDesign[], options: VetPageOptions): Promise<string> {
  return (await import('./report/html/vet-page.js')).vetPage(designs, options);
}

/** One design of such a page, so that its stitches can be let go of before the next is read. */
export async function vetSection(
  design: VettedDesign,
  number: number,
  options: VetPageOptions,
): Promise<VetSection> {
  return (await import('./report/html/vet-page.js')).vetSection(design, number, options);
}

/** The page of sections that were set one by one. */
export async function joinVetSections(
  sections: readonly VetSection[],
  options: VetPageOptions & { unread?: number; summary?: BatchSummary },
): Promise<string> {
  return (await import('./report/html/vet-page.js')).joinVetSections(sections, options);
}

/** The summary of a batch as a page that stands by itself. */
export async function batchSummaryPage(summary: BatchSummary, units: Units): Promise<string> {
  return (await import('./report/html/batch-summary.js')).batchSummaryPage(summary, units);
}

/** The summary of a batch as text. */
export async function batchSummaryToText(summary: BatchSummary, options: TextOptions): Promise<string> {
  return (await import('./report/batch-summary-to-text.js')).batchSummaryToText(summary, options);
}

/** Says what changed between two vet reports, with what `foreseeChange` gives if goods are asked for; see `lib/report/compare.ts`. */
export async function compareReports(
  before: VetReport,
  after: VetReport,
  foreseen: ChangeForeseen | null = null,
): Promise<CompareReport> {
  return (await import('./report/compare.js')).compareReports(before, after, foreseen);
}

/** The built-in materials; see `lib/materials`. */
export async function builtInCatalogue(): Promise<Catalogue> {
  return (await import('./materials/catalogue.js')).CATALOGUE;
}

/** What the pucker model leaves open, each value with its range and basis; see `lib/mechanics/parameters.ts`. */
export async function mechanicsParameters(): Promise<MechanicsParameters> {
  return (await import('./mechanics/parameters.js')).PARAMETERS;
}

/**
 * Reads `sheet[@degrees]` joined by `+`, from the garment outward; `none` for no backing.
 * @throws LieflatError `unknown-id`, `bad-argument`
 */
export async function parseStack(text: string, catalogue?: Catalogue): Promise<StackedSheet[]> {
  const { parseStack } = await import('./mechanics/stack-notation.js');
  return parseStack(text, catalogue ?? (await builtInCatalogue()));
}

/** A stack as `parseStack` reads it. */
export async function stackText(stack: readonly StackedSheet[]): Promise<string> {
  return (await import('./mechanics/stack-notation.js')).stackText(stack);
}

/**
 * Everything about a design that does not depend on the goods, for `assess` on many of them; see `lib/mechanics/risk.ts`.
 * @throws LieflatError `unknown-id` for the thread
 */
export async function prepare(input: Omit<RiskInput, keyof GoodsPlan>): Promise<PreparedDesign> {
  return (await import('./mechanics/risk.js')).prepare(input);
}

/**
 * Score, grade, pull-in and wrinkle height (mm) of a prepared design on some goods.
 * @throws LieflatError `unknown-id`, `bad-argument`
 */
export async function assess(
  design: PreparedDesign,
  plan: GoodsPlan,
  catalogue?: Catalogue,
  parameters?: MechanicsParameters,
): Promise<QuickRisk> {
  return (await import('./mechanics/risk.js')).assess(design, plan, catalogue, parameters);
}

/**
 * The same with drivers, ranges, pull compensation and maps; about a dozen times the work.
 * @throws LieflatError `unknown-id`, `bad-argument`
 */
export async function assessFully(
  design: PreparedDesign,
  plan: GoodsPlan,
  catalogue?: Catalogue,
  parameters?: MechanicsParameters,
): Promise<DesignRisk> {
  return (await import('./mechanics/risk.js')).assessFully(design, plan, catalogue, parameters);
}

/**
 * The risk of one design on one fabric over one stack, with everything that is known about it. A sew-out decides.
 * @throws LieflatError `unknown-id`, `bad-argument`
 */
export async function puckerRisk(input: RiskInput): Promise<DesignRisk> {
  return (await import('./mechanics/risk.js')).puckerRisk(input);
}

/** True where which of two results lies flatter is within the uncertainty; see `lib/mechanics/paired-draws.ts`. */
export async function withinRange(a: Ranked, b: Ranked): Promise<boolean> {
  return (await import('./mechanics/paired-draws.js')).withinRange(a, b);
}

/** What a design would be with other underlay under some of its satin columns; see `lib/stitch/relaid.ts`. */
export async function withUnderlay(
  design: SewnDesign,
  choices: ReadonlyMap<number, LaidUnderlay>,
): Promise<SewnDesign> {
  return (await import('./stitch/relaid.js')).relaid(design, choices);
}

/** The report of one risk: what `lieflat pucker --format json` prints. */
export async function puckerReport(input: PuckerInput): Promise<PuckerReport> {
  return (await import('./report/pucker-report.js')).puckerReport(input);
}

/** That report as text. */
export async function puckerToText(
  report: PuckerReport,
  options: TextOptions,
  allObjects = false,
): Promise<string> {
  return (await import('./report/pucker-to-text.js')).puckerToText(report, options, allObjects);
}

/** Risks of one design over several backings, flattest first, and whether their order is sure. */
export async function puckerComparison(inputs: readonly PuckerInput[]): Promise<PuckerComparison> {
  return (await import('./report/pucker-comparison.js')).puckerComparison(inputs);
}

/** What relaying did, as text; `written` says whether a file holds it. */
export async function relayToText(
  report: RelayReport,
  options: TextOptions,
  written: boolean,
): Promise<string> {
  return (await import('./report/relay-to-text.js')).relayToText(report, options, written);
}

/** That comparison as text. */
export async function puckerComparisonToText(
  comparison: PuckerComparison,
  options: TextOptions,
): Promise<string> {
  return (await import('./report/pucker-comparison-to-text.js')).puckerComparisonToText(comparison, options);
}

/** The foreseen wrinkles about a design as an SVG document, to scale. */
export async function wrinkleMap(input: MapInput, options: MapOptions): Promise<string> {
  return (await import('./report/wrinkle-map.js')).wrinkleMap(input, options);
}

/** The cover report as text. */
export async function resewToText(report: ResewReport, options: TextOptions): Promise<string> {
  return (await import('./report/resew-to-text.js')).resewToText(report, options);
}

/** What a design sewn again hides as an SVG document, to scale; see `lib/report/cover-map.ts`. */
export async function coverMap(resewing: Resewing, options: CoverMapOptions): Promise<string> {
  return (await import('./report/cover-map.js')).coverMap(resewing, options);
}

/**
 * Shelves of the catalogue as data; all without `shelves`, and one material of theirs with an id.
 * @throws LieflatError `unknown-id`
 */
export async function materialsCatalog(
  catalogue?: Catalogue,
  shelves?: readonly Shelf[],
  id?: string,
): Promise<MaterialsCatalog> {
  const { materialsCatalog } = await import('./report/materials-catalog.js');
  return materialsCatalog(catalogue ?? (await builtInCatalogue()), shelves, id);
}

/** Those shelves as a list, a line a material. */
export async function materialsListToText(catalog: MaterialsCatalog, options: TextOptions): Promise<string> {
  return (await import('./report/materials-list.js')).materialsListToText(catalog, options);
}

/** Those shelves as text, with every value. */
export async function materialsToText(catalog: MaterialsCatalog, options: TextOptions): Promise<string> {
  return (await import('./report/materials-catalog.js')).materialsToText(catalog, options);
}

/** That report as text; `all` lists every plan and object. */
export async function adviseToText(report: AdviseReport, options: TextOptions, all = false): Promise<string> {
  return (await import('./report/advise-to-text.js')).adviseToText(report, options, all);
}

/** That report as an HTML document by itself. */
export async function advisePage(
  report: AdviseReport,
  options: { title: string; units: Units },
): Promise<string> {
  return (await import('./report/html/advise-page.js')).advisePage(report, options);
}

/**
 * The card that goes to the machine operator, an HTML document by itself; see `lib/report/html/card.ts`.
 * @throws RangeError for a design without stitches
 */
export async function operatorCard(input: CardInput, options: CardOptions): Promise<string> {
  return (await import('./report/html/card.js')).operatorCard(input, options);
}

/** A profile to start from, JSON with comments: every figure as it is built in, with what it rests on; `schema` is where editors find what it may say. */
export async function starterProfile(schema?: string): Promise<string> {
  return (await import('./profile/starter.js')).starterProfile(schema);
}

/** What a profile may say, as JSON Schema (draft 2020-12). */
export async function profileJsonSchema(): Promise<object> {
  return (await import('./profile/schema.js')).profileJsonSchema();
}

/** What a shop's figures are other than the built-in ones; `path` is the file that they were read from. */
export async function profileReport(path: string | null, shop: Shop): Promise<ProfileReport> {
  return (await import('./profile/profile-report.js')).profileReport(path, shop);
}

/** That report as text. */
export async function profileToText(report: ProfileReport, options: TextOptions): Promise<string> {
  return (await import('./profile/profile-report.js')).profileToText(report, options, PROFILE_NAME);
}

/** The text of a profile with fitted parameters in its `calibration`; every other key stays, comments and all. Null for no profile yet. */
export async function withCalibration(text: string | null, fitted: FittedParameters): Promise<string> {
  return (await import('./profile/with-calibration.js')).withCalibration(text, fitted);
}

/** The report of a fit to graded sew-outs: what `lieflat calibrate --format json` prints. */
export async function calibrateReport(input: CalibrateReportInput): Promise<CalibrateReport> {
  return (await import('./report/calibrate-report.js')).calibrateReport(input);
}

/** That report as text; `all` lists every row. */
export async function calibrateToText(
  report: CalibrateReport,
  options: TextOptions,
  all = false,
): Promise<string> {
  return (await import('./report/calibrate-to-text.js')).calibrateToText(report, options, all);
}
