import { of } from './figure.js';

/** Where a thread turns, and which of its legs turn back beside each other. */
export const LEGS = {
  /** Needle points nearer than this to the one before add no direction of their own. */
  legMerge: of(
    0.45,
    0.35,
    0.6,
    'mm',
    'our own choice: on a grid of 0.1 mm a shorter stitch may point anywhere',
  ),
  /** A point that is met again within this distance is the same needle place, unless its stitches are shorter than the next figure: those are locks. */
  retrace: of(0.18, 0.13, 0.25, 'mm', 'the step of the stitch format, both ways'),
  retraceStitch: of(0.8, 0.6, 1, 'mm'),
  /** A vertex is a corner from this turn on. */
  corner: of(50, 40, 60, '°'),
  /** Swings of a very dense column end this near to the next on their rail, and three of them come this far. */
  denseStep: of(0.3, 0.25, 0.35, 'mm'),
  denseWay: of(0.25, 0.2, 0.3, 'mm'),
  /** Legs turn back on each other where the cosine between the one and the other reversed is above this, */
  turnBack: of(0.5, 0.35, 0.65, 'cosine'),
  /** rows and swings with needle points inside where they do so more exactly. */
  rowsBack: of(0.87, 0.8, 0.93, 'cosine'),
  /** Beyond this the side to which a leg turns back is only noise. */
  straightBack: of(0.87, 0.8, 0.93, 'cosine'),
  /** An edge step between two rows is this short, or this share of the longer row and not longer than the last figure. */
  stepShort: of(1, 0.7, 1.3, 'mm'),
  stepShare: of(0.7, 0.55, 0.85, 'share'),
  stepLongest: of(6, 4, 8, 'mm'),
  /** A leg of at least so many stitches whose ends are nearer than this share of the way between them is a curved run. */
  bentStitches: of(4, 3, 6, 'stitches'),
  bentShare: of(0.75, 0.65, 0.85, 'share'),
  /** Swings of an open zigzag turn by at least this (cosine between them); they are as long as each other within a factor, */
  zigzagTurn: of(0.35, 0.2, 0.5, 'cosine'),
  zigzagEven: of(1.35, 1.2, 1.6, '×'),
  /** and over any two of them the thread comes as far, within this share. */
  zigzagSteady: of(0.4, 0.3, 0.6, 'share'),
} as const;
