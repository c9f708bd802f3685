/** `lieflat/report`: everything that a person reads, made of data: text, pages, pictures. */
export { advisePage, adviseToText } from './advise/document.js';
export type {
  DesignAdviceReport,
  HoopReport,
  ObjectAdviceReport,
  PlanReport,
  PlanRiskReport,
  SheetToAskFor,
} from './advise/plan-report.js';
export type { AdviseReport } from './advise/report.js';
export { batchSummaryPage } from './batch/page.js';
export {
  type PartLine,
  PartsTally,
  partLineOf,
  type Shard,
  type VetPart,
} from './batch/parts.js';
export { type CalibrateDetail, calibrateToText } from './calibrate/document.js';
export { type Remedied, type RowFaultReport, rowFaultReport } from './calibrate/faults.js';
export {
  type CalibrateReport,
  type CalibrateReportInput,
  calibrateReport,
  type SettingReport,
  type WidthReport,
} from './calibrate/report.js';
export type { CardInput, CardJob, CardOptions } from './card/input.js';
export { operatorCard } from './card/page.js';
export { type PaperName, USUAL_PAPER } from './card/paper.js';
export { CARD_LANGUAGES, type CardLanguage } from './card/words.js';
export { catalogToText } from './catalog/document.js';
export { type CatalogReport, materialsCatalog, placesCatalog } from './catalog/report.js';
export { columnsToText } from './columns/document.js';
export {
  type CalledFor,
  type ColumnReport,
  type ColumnsForeseen,
  type ColumnsReport,
  columnsCsvHeader,
  columnsReport,
  columnsToCsvRecords,
  type RiskByObject,
} from './columns/report.js';
export { compareToText } from './compare/document.js';
export {
  type Change,
  type ChangeForeseen,
  type CompareReport,
  compareReports,
  type ObjectChange,
  type RiskChange,
  type Value as ChangedValue,
} from './compare/report.js';
export { type Drawing, type DrawOptions, drawDesign } from './draw.js';
export {
  type AskedQuestion,
  fabricQuestions,
  fabricQuestionsInLine,
  fabricQuestionsToText,
  questionWords,
} from './fabric-questions.js';
export { adviceInPage, type FileLine, fileLine, pageWords, relayInPage, resewInPage } from './in-page.js';
export { orderPage, orderToText } from './order/document.js';
export { gradedCardsLog, orderWords } from './order/graded-log.js';
export { stackOfCards } from './order/joined-pages.js';
export {
  type DoneLine,
  type OrderLineReport,
  type OrderReport,
  type OrderSetupReport,
  orderReport,
  type SupplyOf,
  type WorkedLine,
} from './order/report.js';
export { suppliesCsv } from './order/supplies-csv.js';
export type { Cut as CutInWords, Lines as LinesInWords } from './phrases/en/order.js';
export type { CautionCode } from './phrases/en/risk.js';
export { type CoverMapOptions, coverMap } from './pictures/cover-map.js';
export { profileToText } from './profile/document.js';
export type { Difference, ProfileFigure, ProfileReport } from './profile/report.js';
export { advisedCaption, presentCaption } from './proof/captions.js';
export {
  type Proof,
  type ProofInput,
  type ProofView,
  proofOf,
  proofPage,
  proofPng,
  proofSvg,
} from './proof/proof.js';
export type { Relief } from './proof/relief.js';
export type { Panel, ProofSheet, Strokes } from './proof/sheet.js';
export {
  colorNamed,
  colorsNamed,
  type NamedColor,
  needlesOf,
  type OwnColors,
  ownColors,
  type Rgb,
} from './proof/thread-colors.js';
export { type PuckerComparison, puckerComparison, type RankedStack } from './pucker/comparison.js';
export { puckerComparisonToText } from './pucker/comparison-document.js';
export { puckerToText } from './pucker/document.js';
export { type PuckerInput, type PuckerObject, type PuckerReport, puckerReport } from './pucker/report.js';
export type { CompensationReport } from './relay/compensation.js';
export { relayToText } from './relay/document.js';
export type { RelayedColumn, RelayedDesign, RelayReport } from './relay/report.js';
export { type ReplyPicture, replyPage, replyToMail } from './reply/document.js';
export {
  type ReplyCompensation,
  type ReplyInput,
  type ReplyItem,
  type ReplyReport,
  replyReport,
} from './reply/report.js';
export type { ReplyTopic } from './reply/topics.js';
export { resewToText } from './resew/document.js';
export type { ExposedReport, ResewModeReport, ResewObject, ResewReport } from './resew/report.js';
export type { FailedProof, ProofReport } from './rewrite-proof.js';
export { type Png, svgToPng } from './to-png.js';
export {
  joinVetSections,
  type VetPageOptions,
  type VetSection,
  type VettedDesign,
  vetPage,
  vetSection,
} from './vet/page.js';
export { type MapInput, type MapOptions, wrinkleMap } from './wrinkle-map.js';
