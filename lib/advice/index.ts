/** `lieflat/advice`: which backing, underlay, topping, needle and speed, and what that costs. */
export type { Accepted } from './accepted.js';
export type { Advice, AdviceInput } from './advise.js';
export { type AdviceFigures, type AdviceWish, type AdvisedDesign, adviseOn } from './advise-on.js';
export type { Meets } from './meets.js';
export type { ObjectAdvice, RelayAdvice } from './object-advice.js';
export type { Cost, Plan, PlanRisk, UnderlayChange } from './plan.js';
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
export type { ObjectRisks, SearchResult } from './search.js';
