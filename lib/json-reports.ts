/** Every report that is printed as JSON: from these types the build makes the JSON Schemas of the package. */
import type { AdviseReport } from './report/advise/report.js';
import type { VetPart } from './report/batch/parts.js';
import type { BatchSummary } from './report/batch/report.js';
import type { CalibrateReport } from './report/calibrate/report.js';
import type { CatalogReport } from './report/catalog/report.js';
import type { ColumnsReport } from './report/columns/report.js';
import type { CompareReport } from './report/compare/report.js';
import type { OrderReport } from './report/order/report.js';
import type { ProfileReport } from './report/profile/report.js';
import type { PuckerComparison } from './report/pucker/comparison.js';
import type { PuckerReport } from './report/pucker/report.js';
import type { RelayReport } from './report/relay/report.js';
import type { ReplyReport } from './report/reply/report.js';
import type { ResewReport } from './report/resew/report.js';
import type { VetReport } from './report/vet/report.js';

/** By the name of the schema, which is `NAME.schema.json`. */
export interface JsonReports {
  vet: VetReport & {
    /** Of what the file was vetted against, so that a later run can tell whether it would find the same. */
    settings: string;
  };
  /** The last line of a report in JSON lines that is a part of an archive. */
  part: VetPart;
  summary: BatchSummary;
  columns: ColumnsReport;
  pucker: PuckerReport;
  'pucker-comparison': PuckerComparison;
  advise: AdviseReport;
  relay: RelayReport & {
    /** The file written; null where none was. */
    out: string | null;
  };
  resew: ResewReport;
  reply: ReplyReport;
  compare: CompareReport;
  order: OrderReport;
  calibrate: CalibrateReport;
  catalog: CatalogReport;
  'profile-report': ProfileReport;
}
