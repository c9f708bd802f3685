import type { Weight } from '../stitching/letters.js';
import { type ColumnStyle, SATIN } from '../stitching/sew-column.js';

/** Small lettering: one run along the middle, no widening (the weight is the sewn one). */
export const SMALL_LETTERING: ColumnStyle = { ...SATIN, pullMm: 0, underlay: ['center-run'] };

/** Lettering with strokes of 3 mm and more on stable fabric. */
export const BOLD_LETTERING: ColumnStyle = {
  ...SATIN,
  pullMm: 0,
  underlay: ['edge-run', 'zigzag'],
  insetMm: 0.6,
  zigzagMm: 2.4,
};

/** Borders that finish the edge of a fill. */
export const BORDER: ColumnStyle = {
  ...SATIN,
  underlay: ['edge-run', 'zigzag'],
  insetMm: 0.6,
  zigzagMm: 2.2,
};

export const weightOf = (height: number, stem: number, bar = stem * 0.88): Weight => ({ height, stem, bar });
