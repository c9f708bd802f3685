import { of, WORK } from './figure.js';

/** Areas without rows, how rows are laid, and what is sewn more than once. */
export const AREAS = {
  /** A stretch of fewer strands is no area without rows, nor one whose thread, so far apart, fills less than this share of its box. */
  fieldLeast: of(24, 16, 40, 'strands'),
  fieldPitch: of(1.3, 1, 1.6, 'mm'),
  fieldOfBox: of(0.15, 0.1, 0.25, 'share'),
  /** Shares of its length that lie beside other strands, and between two of them, */
  fieldBeside: of(0.75, 0.65, 0.85, 'share'),
  fieldBetween: of(0.45, 0.35, 0.6, 'share'),
  /** and share of the distances that differ by less than this share from the middle one. */
  fieldEven: of(0.7, 0.6, 0.8, 'share'),
  fieldUneven: of(0.35, 0.25, 0.5, 'share'),
  /** A point where the thread turns this far, and not beside it, is a corner; a spiral has less than this share of its turns there, */
  fieldCorner: of(0.6, 0.5, 0.9, 'rad'),
  fieldCorners: of(0.3, 0.2, 0.5, 'share'),
  /** and less than this share of them the other way. */
  fieldBack: of(0.05, 0.03, 0.08, 'share'),
  /** Rows are curved where most of those of so many stitches rise this far above their chord, and a share of its length. */
  curvedStitches: of(3, 2, 4, 'stitches'),
  curvedRise: of(0.3, 0.2, 0.4, 'mm'),
  curvedShare: of(0.02, 0.01, 0.03, 'share'),
  /** Rows spread like rays where their directions agree less than this: 1 for parallel ones. */
  radialSpread: of(0.8, 0.6, 0.9, 'share'),
  /** Rows this far apart let the fabric show through. */
  loosePitch: of(1, 0.8, 1.3, 'mm'),
  /** Two columns are passes of one where they follow each other within so many stitches, */
  passGap: of(4, 2, 8, 'stitches'),
  /** their pitches and widths differ by no more than these factors, */
  passPitch: of(1.6, 1.3, 2, '×'),
  passWidth: of(1.2, 1.1, 1.35, '×'),
  /** and this share of each lies within the other. */
  passCovered: of(0.85, 0.75, 0.95, 'share'),
  /** Most points of a pass that are asked whether they lie in the other. */
  passSample: of(120, 60, 240, 'points', WORK),
  /** Two open areas are the two directions of one net where this share of each lies within the other. */
  netAgain: of(0.7, 0.6, 0.8, 'share'),
  /** Two pieces of an open zigzag are one where their pitches and swings differ by no more than these factors. */
  openPitchAlike: of(1.3, 1.2, 1.5, '×'),
  openSwingAlike: of(1.25, 1.15, 1.4, '×'),
  /** A stitch lies along another where it passes its middle this near, with this cosine between them; shorter ones are not asked. */
  lineBeside: of(0.3, 0.2, 0.4, 'mm'),
  lineAlong: of(0.9, 0.8, 0.95, 'cosine'),
  lineLeast: of(0.8, 0.5, 1, 'mm'),
  /** Most stitches of a run that are asked how often they are sewn, and the cells in which they are looked up. */
  lineSample: of(300, 150, 600, 'stitches', WORK),
  lineCell: of(1, 0.7, 2, 'mm', WORK),
} as const;
