/** `lieflat/advice`: which backing, underlay, topping, needle and speed, and what that costs. */
export type { Accepted } from './accepted.js';
export type { Advice, AdviceInput } from './advise.js';
export { type AdviceFigures, type AdviceWish, type AdvisedDesign, adviseOn } from './advise-on.js';
export type { Meets } from './meets.js';
export type { ObjectAdvice } from './object-advice.js';
export type { RelayAdvice } from './object-sentences.js';
export type { Cost, Plan, PlanRisk, UnderlayChange } from './plan.js';
export type { ObjectRisks, SearchResult } from './search.js';
