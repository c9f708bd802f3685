import type { Bounds } from '../core/bounds.js';
import type { StitchObject } from '../segment/objects.js';

export type { Bounds } from '../core/bounds.js';

/** Numbers of one object. Lengths mm, areas mm², angles degrees counter-clockwise from +X. */
export interface ObjectMeasures {
  object: StitchObject;
  /** Needle penetrations of the top stitching. */
  stitches: number;
  bounds: Bounds;
  areaMm2: number;
  /** Satin: mean swing direction; fill: row direction; run: null. In [0, 180); null where there is none. */
  angleDeg: number | null;
  /** Satin: across the column, over all swings; else null. */
  widthMm: { min: number; median: number; p95: number; max: number } | null;
  /** Satin: same-rail spacing; fill: row distance; run: null. */
  spacingMm: { min: number; median: number; max: number } | null;
  stitchLengthMm: { min: number; median: number; max: number };
  /** Needle penetrations of top stitching over the area. */
  densityPerMm2: number;
  /** Length of the column, of all rows, or of the run, mm. */
  lengthMm: number;
  /** Stitch index and place of the widest swing of a satin, else null. */
  widestAt: { stitch: number; x: number; y: number } | null;
}

/** As vetting keeps them: the figures are read out of one row, so that a copy by `{...}` has none of them. */
export interface PackedMeasures extends ObjectMeasures {
  /** All of them in fields of their own. */
  toJSON(): ObjectMeasures;
}

/** Numbers of the design as a whole. */
export interface DesignMeasures {
  stitches: number;
  jumps: number;
  trims: number;
  colourChanges: number;
  stops: number;
  /** Of needle penetrations only; all zero for a design without any. */
  bounds: Bounds;
  widthMm: number;
  heightMm: number;
  /** Across the circle about the middle of the bounds that holds every penetration: what a round hoop must reach. */
  acrossMm: number;
  threadMm: number;
  bobbinMm: number;
  sewSeconds: number;
  /** The full speed of the machine that this holds for, stitches a minute. */
  sewSpeedSpm: number;
  /** Place with the most needle points in a small neighbourhood, and how many a mm² there. */
  densest: { perMm2: number; x: number; y: number; stitch: number } | null;
  /** Most objects stacked on one place, and where. */
  layers: { count: number; x: number; y: number } | null;
}
