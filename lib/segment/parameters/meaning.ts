import { COMMON_PRACTICE, of, WORK } from './figure.js';

/** What a piece is sewn for, which pieces belong together, and how sure all of that is. */
export const MEANING = {
  /** An area as open as this that nothing covers is a net. */
  netAlone: of(1.8, 1.4, 2.4, 'mm'),
  /** So is one that shares this much of its place, its edge left out, with other tops. */
  layerShared: of(0.2, 0.15, 0.35, 'share'),
  /** A column over an applied piece is an open edging from this distance between its swings. */
  openCover: of(0.35, 0.3, 0.45, 'mm'),
  /** Prongs of a blanket stitch stand across its way within this cosine, and there is one for so many stitches. */
  prongTurn: of(0.6, 0.5, 0.75, 'cosine'),
  prongs: of(0.15, 0.1, 0.2, 'share'),
  /** Two lines of an applied piece have boxes of which this share lies within the other, grown by this much, */
  pieceAlike: of(0.85, 0.75, 0.95, 'share'),
  pieceReach: of(4, 3, 6, 'mm'),
  /** and lie this near to each other where neither is a column. */
  besideLine: of(1.2, 0.8, 1.8, 'mm'),
  /** Most points of a piece that are held against another. */
  pieceSample: of(160, 80, 320, 'points', WORK),
  /** Needle points of two objects this near make them touch. */
  touch: of(
    1.002,
    0.902,
    1.102,
    'mm',
    'our own choice: a millimeter, and no distance on a grid of 0.1 mm is as near to it',
  ),
  /** Stitches that are passed over together where none of them is near. */
  touchStretch: of(64, 32, 128, 'stitches', WORK),
  /** A run of so many points, a column or area of so many legs is no chance, */
  sureRun: of(24, 12, 40, 'stitches'),
  sureLegs: of(16, 10, 24, 'legs'),
  /** nor is a figure that is this many times the one that decides. */
  sureFactor: of(1.5, 1.3, 1.8, '×'),
  /** Rows whose stitches are as long as this may be split satin. */
  longRows: of(3.6, 3.2, 4, 'mm'),
  /** Columns mostly lie on underlay where this share of them does. */
  mostLie: of(0.7, 0.6, 0.8, 'share'),
  /** Thread beneath that comes no farther than this from where it begins is a lock. */
  lockReach: of(1.2, 1, 1.5, 'mm', `${COMMON_PRACTICE}: stitches of a lock are up to a millimeter long`),
  /** Margins of what is told by its neighbors alone: thread beneath that shows nothing, a bare column among others with underlay, a column that goes on from another. */
  unreadMargin: of(0.1, 0.05, 0.2, 'margin'),
  bareMargin: of(0.4, 0.3, 0.6, 'margin'),
  seamMargin: of(0.6, 0.5, 0.8, 'margin'),
  /** Below this confidence an object may well be something else: what is said of it is said as a guess, and nothing is rewritten unasked. */
  unsure: of(0.7, 0.6, 0.8, 'confidence'),
} as const;
