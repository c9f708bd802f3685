/** `lieflat/calibrate`: what a shop's own graded sew-outs say of the model. A shop with everything (`lieflat/pipeline`) fits them. */
export {
  type CalibrateInput,
  type Calibration,
  type FitErrors,
  type ReadingResult,
  type RowResult,
  type SewOutSetting,
  unsewnRows,
} from './calibrate.js';
export type { FittedParameter } from './fit.js';
export type { FreeName } from './free-parameters.js';
export { LOG_COLUMNS } from './log-columns.js';
export type { Suggestion } from './next-sew-outs.js';
export { type FitLack, type FitLackParams, isRefused, type Refused } from './refusal.js';
export type { Fault, RowFault, RowFaultParams } from './row-fault.js';
export type { LoggedSewOut, LoggedWidth, SewOutLog } from './sew-out-log.js';
export type { Support } from './support.js';
export type { UnderlayAsSewn } from './underlay-text.js';
