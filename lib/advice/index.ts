/** `lieflat/advice`: which backing, underlay, topping, needle and speed, and what that costs. */
export type { Accepted } from './accepted.js';
export type { Advice, AdviceInput, MappedAdvice, OpenAdvice } from './advise.js';
export { type AdviceFigures, type AdviceWish, type AdvisedDesign, adviseOn } from './advise-on.js';
export type { RankedPlan, RankedStacks, StackOffer } from './candidates.js';
export { type CostInput, cutSize } from './cost.js';
export type { FileFaults } from './decided-findings.js';
export type { Tools } from './finishing.js';
export type { Meets, UpperEnd } from './meets.js';
export type { ObjectAdvice, RelayAdvice } from './object-advice.js';
export type { Cost, Plan, PlanPrice, PlanRisk, UnderlayChange } from './plan.js';
export type { AskedRun } from './plan-price.js';
export {
  laborMinutes,
  machineMinutes,
  offPercent,
  type PieceCost,
  type Pricing,
  pieceCost,
  piecePrice,
  piecesToHave,
  type QuantityBreak,
  type RunLine,
  type RunPrice,
  ratesOf,
  runPrice,
  type ShopRates,
  type ShopWork,
  withSpoilage,
} from './price.js';
export type {
  Coded,
  DesignChange,
  HoopingNote,
  HoopingParams,
  NoFigure,
  OwnAndLaid,
  Why,
  WhyParams,
} from './reason.js';
export type {
  ObjectRisks,
  OpenSearch,
  Searched,
  SearchResult,
  SharedSetup,
} from './search.js';
export type { KeptColumns } from './underlay-kept.js';
