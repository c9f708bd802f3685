/** `lieflat/mechanics`: how far a design puckers on a fabric over a backing. A shop with everything (`lieflat/pipeline`) has all of it. */
export type { Sensitivity } from './band.js';
export type { MechanicsFigures } from './case.js';
export type { PullIn } from './column-pull.js';
export type { Conditions, ConditionsRequest, NamedGarment } from './conditions.js';
export type { Cause, Driver } from './drivers.js';
export type { Grid } from './grid.js';
export type { StackedSheet } from './layup.js';
export { type PairedDraws, type Quantiles, type Ranked, withinRange } from './paired-draws.js';
export { type FittedParameters, type MechanicsParameters, PARAMETERS } from './parameters.js';
export type {
  DesignRisk,
  DetailedRisk,
  GivenConditions,
  ObjectRisk,
  QuickRisk,
  RangedRisk,
  Risk,
  RiskMaps,
  WrinkleField,
} from './risk.js';
export type { NowAndWashed } from './stack-family.js';
export { parseStack, stackText } from './stack-notation.js';
export type { TellingWidth } from './telling-width.js';
export { type Mechanics, type MechanicsInput, mechanicsWith } from './with-figures.js';
