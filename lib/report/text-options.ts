import type { Units } from './quantities.js';
import type { Paint } from './render/paint.js';

/** How reports for people are set. */
export interface TextOptions {
  /** Columns to fit in. */
  width: number;
  units: Units;
  /** Colours of the terminal; none without it. */
  paint?: Paint;
}
